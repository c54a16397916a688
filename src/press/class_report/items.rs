//! The items of a plan: how hard each was, and whether it goes with the rest.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{Item, PlanFigures};

use super::{leveled, whole};
use crate::plot::{Dot, Said, dots};
use crate::table::table;

/// The items of a plan; `several` says that the page has other plans, too.
pub(super) fn items(plan: &PlanFigures, at: usize, several: bool) -> Markup {
    let title = if several {
        format!("Items of {}", plan.label)
    } else {
        "Items".to_owned()
    };
    let known = plan.items.iter().any(|own| own.figures.is_some());
    let mut heads = vec![
        ("item", true),
        ("family, level", false),
        ("marks", true),
        ("hand-ins", true),
        ("all of its marks", true),
    ];
    if known {
        heads.extend([
            ("difficulty", true),
            ("95 %", true),
            ("with the rest", true),
            ("95 %", true),
        ]);
    }
    let rows: Vec<Vec<String>> = plan.items.iter().map(item).collect();
    let name = format!("items-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "A row for each item: the mean share of its marks, with its 95 % interval. The \
                table has the same figures.",
    };
    let plotted: Vec<Dot> = (plan.items.iter())
        .filter_map(|own| {
            let found = own.figures?;
            Some(Dot {
                label: format!("item {}", own.item),
                share: found.difficulty,
                between: (found.difficulty_between.low, found.difficulty_between.high),
            })
        })
        .collect();
    html! {
        h2 { (title) }
        @if let (false, Some(missing)) = (known, plan.reliability.missing()) {
            p { "Difficulty and correlation are " (missing) "." }
        }
        @if known {
            p { "Difficulty: the mean share of the marks, high where the item is easy. With the \
                 rest: the correlation with the sum of the other items; near nothing, the item \
                 tells nothing of who knows the work." }
            div { (dots(&said, &plotted)) }
        }
        (table(&title, &heads, &rows))
    }
}

fn item(own: &Item) -> Vec<String> {
    let families = own
        .families
        .iter()
        .map(|(family, level)| leveled(family, *level));
    let mut row = vec![
        own.item.to_string(),
        families.collect::<Vec<_>>().join("; "),
        own.bears.to_string(),
        own.hand_ins.to_string(),
        own.whole.to_string(),
    ];
    if let Some(found) = own.figures {
        let span = |low: f64, high: f64| whole(&format!("{low:.2} to {high:.2}"));
        row.push(format!("{:.2}", found.difficulty));
        row.push(span(
            found.difficulty_between.low,
            found.difficulty_between.high,
        ));
        row.push(
            found
                .with_rest
                .map_or_else(|| "none".to_owned(), |own| format!("{own:.2}")),
        );
        let between = found.with_rest_between;
        row.push(between.map_or_else(String::new, |own| span(own.low, own.high)));
    }
    row
}
