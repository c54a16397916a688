//! The known mistakes that come back.

use maud::{Markup, html};
use pumpwright_engine::learner::{Repeated, commonest};

use super::Read;
use crate::plot::{Dot, Said, dots};
use crate::table::table;
use crate::words;

/// So many are told.
const MOST: usize = 8;

/// A mistake as it is told.
struct Told {
    family: String,
    did: String,
    says: String,
    times: usize,
    of: usize,
}

/// The part of the report.
pub fn part(read: &Read<'_>) -> Markup {
    let repeated = commonest(&read.curriculum, &read.record);
    let told: Vec<Told> = repeated
        .iter()
        .filter_map(|repeated| told(read, repeated))
        .take(MOST)
        .collect();
    html! {
        h2 { "Mistakes that come back" }
        @if told.is_empty() {
            p { "No known mistake was made twice in the last problems of a family." }
        } @else {
            (listed(&told))
        }
    }
}

/// The words for a mistake, from a level that has it; none where the lessons have it
/// no more.
fn told(read: &Read<'_>, repeated: &Repeated) -> Option<Told> {
    let facts = read.curriculum.families().get(repeated.family)?;
    let levels = std::iter::once(facts.home).chain(facts.levels.iter().copied());
    levels.into_iter().find_map(|level| {
        let variant = read
            .report
            .library
            .variant(&facts.id, level, read.report.system)?;
        let mut plans = variant.mistakes.iter();
        let plan = plans.find(|plan| plan.id == repeated.mistake)?;
        Some(Told {
            family: facts.id.clone(),
            did: plan.did.render(&variant.names, &[]),
            says: plan.says.render(&variant.names, &[]),
            times: repeated.times,
            of: repeated.of,
        })
    })
}

fn listed(told: &[Told]) -> Markup {
    let plotted: Vec<Dot> = told
        .iter()
        .map(|told| {
            let share = told.times as f64 / told.of.max(1) as f64;
            Dot {
                label: told.family.clone(),
                share,
                between: (0.0, share),
            }
        })
        .collect();
    let title = "Mistakes made more than once lately";
    let said = Said {
        name: "mistakes",
        title,
        tells: "A row for each mistake, named by its family: in what share of the last problems \
                of that family it was made. The table has the counts and the words.",
    };
    let rows: Vec<Vec<String>> = told
        .iter()
        .map(|told| {
            vec![
                format!("{}: \u{201c}{}\u{201d}", told.family, told.did),
                format!("{} of {}", told.times, told.of),
                told.says.clone(),
            ]
        })
        .collect();
    let heads = [("mistake", false), ("times", true), ("what is so", false)];
    html! {
        p { "Counted over the last problems of each family, at most "
            (words::count(told.iter().map(|told| told.of).max().unwrap_or(0), "problem", "problems"))
            "." }
        div.pair {
            div { (dots(&said, &plotted)) }
            (table(title, &heads, &rows))
        }
    }
}
