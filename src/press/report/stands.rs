//! Where somebody stands now, family by family, with the interval.

use maud::{Markup, html};
use pumpwright_engine::learner::{Stage, Standing, standing};

use super::Read;
use crate::plot::{Dot, Said, dots};
use crate::table::table;
use crate::words;

/// The stages that are told, in their order.
const STAGES: [(Stage, &str, &str); 3] = [
    (
        Stage::Slipping,
        "slipping",
        "It was sure once, and is less sure now.",
    ),
    (
        Stage::Building,
        "building",
        "Tried, and not sure enough yet.",
    ),
    (
        Stage::Holding,
        "holding",
        "Sure enough above 80 %, and right without help on two days or more.",
    ),
];

/// A family that was met.
struct Met<'a> {
    id: &'a str,
    title: &'a str,
    standing: Standing,
    problems: u32,
}

/// The part of the report.
pub fn part(read: &Read<'_>) -> Markup {
    let met = met(read);
    let unmet = read.curriculum.families().len().saturating_sub(met.len());
    html! {
        h2 { "Where you stand now" }
        p { "The chance to get a line right without help today, at each family's home \
             level, with its 80 % interval. A wide interval means that little is known." }
        @if met.is_empty() {
            p { "No family of these lessons was met yet." }
        }
        @for (stage, name, what) in STAGES {
            @let own: Vec<&Met> = met.iter().filter(|met| met.standing.stage == stage).collect();
            @if !own.is_empty() { (of_stage(name, what, &own)) }
        }
        p { (words::count(unmet, "family was", "families were")) " not met yet." }
    }
}

fn met<'a>(read: &'a Read<'_>) -> Vec<Met<'a>> {
    let families = read.curriculum.families().iter().enumerate();
    let met = families.filter_map(|(place, facts)| {
        let standing = standing(&read.record, place, read.report.now);
        let family = read.report.library.family(&facts.id)?;
        (standing.stage != Stage::NotMet).then_some(Met {
            id: &facts.id,
            title: &family.title,
            standing,
            problems: read.record.families.get(place)?.responses,
        })
    });
    met.collect()
}

fn of_stage(name: &str, what: &str, met: &[&Met<'_>]) -> Markup {
    let plotted: Vec<Dot> = met
        .iter()
        .map(|met| Dot {
            label: met.id.to_owned(),
            share: met.standing.success,
            between: met.standing.between,
        })
        .collect();
    let rows: Vec<Vec<String>> = met.iter().map(|met| row(met)).collect();
    let title = format!("Families {name}: {}", met.len());
    let tells = "A row for each family: a spot for the chance of a right line, a line for its \
                 80 % interval, on a scale from 0 to 100 %. The table has the same figures.";
    let said = Said {
        name: &format!("standing-{name}"),
        title: &title,
        tells,
    };
    let heads = [
        ("family", false),
        ("chance", true),
        ("80 % interval", true),
        ("refresher", false),
    ];
    html! {
        h3 { (title) }
        p.faint { (what) }
        div.pair {
            div { (dots(&said, &plotted)) }
            (table(&title, &heads, &rows))
        }
    }
}

fn row(met: &Met<'_>) -> Vec<String> {
    let due = match met.standing.due_in {
        Some(0) => "due now".to_owned(),
        Some(days) if days > 0 => format!("in {}", words::count(days as usize, "day", "days")),
        _ => "not within ten years".to_owned(),
    };
    let problems = words::count(met.problems as usize, "problem", "problems");
    vec![
        format!("{} ({}), {problems}", met.title, met.id),
        words::percent(met.standing.success),
        words::between(met.standing.between),
        due,
    ]
}
