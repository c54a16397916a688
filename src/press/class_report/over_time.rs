//! A class over several of its papers: its marks, and the mistakes that come back.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{Report, Sitting, Turn};

use super::{leveled, whole};
use crate::plot::{Said, Track, TrackPoint, track};
use crate::table::table;
use crate::words::{percent, typed};

/// The shares of the marks over several papers of a class.
pub(super) fn over_time(report: &Report) -> Markup {
    let mut classes: Vec<&str> = report
        .sittings
        .iter()
        .map(|own| own.class.as_str())
        .collect();
    classes.dedup();
    html! {
        @for (at, class) in classes.iter().enumerate() {
            @let own: Vec<(usize, &Sitting)> = report.sittings.iter().enumerate()
                .filter(|(_, own)| own.class == **class).collect();
            @if own.len() > 1 { (one_class(report, at, class, &own)) }
        }
    }
}

fn one_class(report: &Report, at: usize, class: &str, own: &[(usize, &Sitting)]) -> Markup {
    let title = format!("{} over {} papers", typed(class), own.len());
    let name = format!("over-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "The mean share of the marks, paper by paper, and one standard deviation to both \
                sides. The table has the same figures.",
    };
    let shares = |own: &Sitting| {
        let of = own.spread.of.number().max(0.5);
        let share = |value: f64| value / of;
        Some((
            share(own.spread.mean?),
            own.spread.deviation.map(share),
            own.spread.middle.map(share)?,
        ))
    };
    let places = own.iter().map(|(_, sitting)| {
        let point = shares(sitting).map(|(mean, deviation, _)| {
            let off = deviation.unwrap_or(0.0);
            TrackPoint {
                share: mean,
                between: ((mean - off).max(0.0), (mean + off).min(1.0)),
            }
        });
        (sitting.plan.clone(), point)
    });
    let plotted = Track {
        places: places.collect(),
        mark: (0.5, "half of the marks".to_owned()),
    };
    let rows: Vec<Vec<String>> = (own.iter())
        .map(|(_, sitting)| {
            let found = shares(sitting);
            let cell = |value: Option<f64>| value.map_or_else(String::new, percent);
            let pass = sitting.spread.pass.map_or_else(String::new, |pass| {
                format!("{} of {}", pass.passed, sitting.spread.hand_ins)
            });
            vec![
                sitting.plan.clone(),
                whole(&sitting.date.clone().unwrap_or_default()),
                sitting.came_in.to_string(),
                cell(found.map(|own| own.0)),
                cell(found.and_then(|own| own.1)),
                cell(found.map(|own| own.2)),
                pass,
            ]
        })
        .collect();
    let heads = [
        ("paper", false),
        ("day", false),
        ("in", true),
        ("mean", true),
        ("SD", true),
        ("middle", true),
        ("passed", true),
    ];
    html! {
        h2 { (title) }
        div.pair {
            div { (track(&said, &plotted)) }
            (table(&title, &heads, &rows))
        }
        (back(report, own))
    }
}

/// The turns that a class took in more than one of its papers.
fn back(report: &Report, own: &[(usize, &Sitting)]) -> Markup {
    let seen = |turn: &Turn, at: usize| turn.seen.get(at).copied().flatten();
    let again = |turn: &&Turn| {
        let times = own
            .iter()
            .filter(|(at, _)| seen(turn, *at).is_some_and(|own| own.0 > 0));
        times.count() > 1
    };
    let turns: Vec<&Turn> = report.teach.iter().filter(again).collect();
    let mut heads = vec![("turn taken", false), ("family, level", false)];
    heads.extend(own.iter().map(|(_, sitting)| (sitting.plan.as_str(), true)));
    let rows: Vec<Vec<String>> = (turns.iter())
        .map(|turn| {
            let mut row = vec![
                format!("\u{201c}{}\u{201d}", typed(&turn.did)),
                leveled(&turn.family, turn.level),
            ];
            row.extend(own.iter().map(|(at, _)| {
                let seen = seen(turn, *at);
                seen.map_or_else(String::new, |(made, met)| {
                    whole(&format!("{made} of {met}"))
                })
            }));
            row
        })
        .collect();
    html! {
        h3 { "Mistakes that come back" }
        @if turns.is_empty() { p { "None was made in more than one of these papers." } }
        @else { (table("Mistakes that come back", &heads, &rows)) }
    }
}
