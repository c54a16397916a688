//! The lines that were missed.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{Report, Step};

use super::{DRAWN, leveled, whole};
use crate::plot::{Dot, Said, dots};
use crate::table::table;
use crate::words::typed;

/// As many signs as fit before a row of the plot.
const NAME: usize = 24;

/// The lines, the one missed most often first.
pub(super) fn steps(report: &Report) -> Markup {
    let missed: Vec<&Step> = report.steps.iter().filter(|own| own.missed > 0).collect();
    let title = "Lines missed";
    let several = report.plans.len() > 1;
    let item_head = if several {
        ("plan, item", false)
    } else {
        ("item", true)
    };
    let heads = [
        item_head,
        ("line", false),
        ("family, level", false),
        ("missed", true),
        ("of these empty", true),
        ("of these not followed", true),
        ("right, follows", true),
        ("right, borne", true),
    ];
    let rows: Vec<Vec<String>> = (missed.iter())
        .map(|own| {
            let item = if several {
                whole(&format!("{}, {}", own.plan, own.item))
            } else {
                own.item.to_string()
            };
            vec![
                item,
                format!("{}. {}", own.line, typed(&own.label)),
                leveled(&own.family, own.level),
                whole(&format!("{} of {}", own.missed, own.met)),
                own.empty.to_string(),
                own.unfollowed.to_string(),
                own.follows.to_string(),
                own.carried.to_string(),
            ]
        })
        .collect();
    let plotted: Vec<Dot> = (missed.iter().take(DRAWN))
        .map(|own| Dot {
            label: name(own, several),
            share: own.missed as f64 / own.met.max(1) as f64,
            between: (0.0, own.missed as f64 / own.met.max(1) as f64),
        })
        .collect();
    let said = Said {
        name: "lines",
        title,
        tells: "A row for each line, by the numbers of item and line and its name: in what share \
                of the hand-ins it was missed. The table has the counts.",
    };
    html! {
        h2 { (title) }
        @if missed.is_empty() { p { "No line was missed." } } @else {
            p { "Follows: right, worked from an earlier figure that is off; it is not missed. \
                 Borne: left empty, and a later line is right. Not followed: worked from a figure \
                 that could hurt someone." }
            div { (dots(&said, &plotted)) }
            (table(title, &heads, &rows))
        }
    }
}

/// A line before its row of the plot: the numbers of item and line, and as much of its
/// name as fits there.
fn name(own: &Step, several: bool) -> String {
    let plan = if several {
        format!("{} ", own.plan)
    } else {
        String::new()
    };
    let name = format!("{plan}{}.{} {}", own.item, own.line, typed(&own.label));
    if name.chars().count() <= NAME {
        return name;
    }
    let cut: String = name.chars().take(NAME - 1).collect();
    format!("{}\u{2026}", cut.trim_end())
}
