//! How the marks of a class are spread, and how reliable a paper is.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{PlanFigures, Reliability, Sitting};

use crate::plot::{Bar, Said, bars};
use crate::table::table;
use crate::words::{count, percent, typed};

/// The marks of one class's paper.
pub(super) fn marks(own: &Sitting, at: usize, several: bool) -> Markup {
    let title = if several {
        format!("Marks of {}, {}", typed(&own.class), own.plan)
    } else {
        "Marks".to_owned()
    };
    let spread = &own.spread;
    let span = |from: u32, to: u32| {
        if from == to {
            from.to_string()
        } else {
            format!("{from}-{to}")
        }
    };
    let plotted: Vec<Bar> = (spread.bins.iter())
        .map(|bin| Bar {
            label: span(bin.from, bin.to),
            amount: bin.count as f64,
        })
        .collect();
    let name = format!("marks-{at}");
    let said = Said {
        name: &name,
        title: &title,
        tells: "A bar for each span of marks: how many hand-ins lie there. The table has the \
                same counts.",
    };
    let rows: Vec<Vec<String>> = (spread.bins.iter())
        .map(|bin| vec![span(bin.from, bin.to), bin.count.to_string()])
        .collect();
    html! {
        h2 { (title) }
        @match (spread.mean, spread.middle) {
            (Some(mean), Some(middle)) => {
                p {
                    "Mean " (format!("{mean:.1}")) " of " (spread.of) ", middle "
                    (format!("{middle:.1}"))
                    @if let Some(deviation) = spread.deviation {
                        ", spread (SD) " (format!("{deviation:.1}"))
                    }
                    "; " (count(spread.hand_ins, "hand-in", "hand-ins")) "."
                }
                @if let Some(pass) = &spread.pass {
                    p {
                        "The pass mark, " (pass.from) " or more: " (pass.passed) " of "
                        (spread.hand_ins) " (likely " (percent(pass.between.low)) " to "
                        (percent(pass.between.high)) ")."
                    }
                }
                div.pair {
                    div { (bars(&said, &plotted, "hand-ins")) }
                    (table(&title, &[("marks", false), ("hand-ins", true)], &rows))
                }
            }
            _ => p { "No hand-in is marked." },
        }
        @if !own.dropped.is_empty() {
            p { "Dropped, and counted nowhere: item "
                (own.dropped.iter().map(usize::to_string).collect::<Vec<_>>().join(", ")) "." }
        }
    }
}

/// How reliable a plan's paper is.
pub(super) fn reliability(plan: &PlanFigures, several: bool) -> Markup {
    let title = if several {
        format!("Reliability of {}", plan.label)
    } else {
        "Reliability".to_owned()
    };
    html! {
        h2 { (title) }
        @match &plan.reliability {
            Reliability::Known(found) => {
                @let heads = [("measure", false), ("figure", true), ("95 %", true), ("hand-ins", true)];
                @let between = found.between.map_or_else(String::new, |own| {
                    format!("{:.2} to {:.2}", own.low, own.high)
                });
                @let hand_ins = plan.hand_ins.to_string();
                @let rows = [
                    vec![found.name().to_owned(), format!("{:.2}", found.alpha), between, hand_ins.clone()],
                    vec!["standard error of measurement, marks".to_owned(), format!("{:.1}", found.error), String::new(), hand_ins],
                ];
                (table(&title, &heads, &rows))
                p { "From " (count(plan.hand_ins, "hand-in", "hand-ins")) " of "
                    (count(plan.classes, "class or year", "classes or years")) ". A mark may lie \
                     off by the standard error by chance alone."
                    @if let Some(near) = found.near_pass {
                        " Within one standard error of the pass mark: " (near) " of "
                        (plan.hand_ins) "."
                    }
                }
            }
            other => p { "Reliability is " (other.missing().unwrap_or_default()) "." },
        }
    }
}
