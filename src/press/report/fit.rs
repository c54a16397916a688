//! How well the model foretold this person's own lines.

use maud::{Markup, html};
use pumpwright_engine::statistics::{Calibration, calibration};

use super::Read;
use crate::plot::{Fitted, Said, fit};
use crate::table::table;
use crate::words;

/// Below so many lines little can be said. Our own choice.
const FEW: usize = 50;

/// The part of the report.
pub fn part(read: &Read<'_>) -> Markup {
    html! {
        h2 { "How well this was foretold" }
        @match calibration(&read.record.probes) {
            Some(found) => (told(&found)),
            None => p {
                "Nothing can be said yet: no line without help in a probe was handed in. \
                 Probes come by themselves, every fifth job of an evening or so, and in exams."
            },
        }
    }
}

fn told(found: &Calibration) -> Markup {
    let plotted: Vec<Fitted> = found
        .bins
        .iter()
        .map(|bin| Fitted {
            said: bin.said,
            came: bin.came,
            between: (bin.between.low, bin.between.high),
        })
        .collect();
    let rows: Vec<Vec<String>> = found
        .bins
        .iter()
        .map(|bin| {
            vec![
                format!("{:.0} to {:.0} %", 100.0 * bin.from, 100.0 * bin.to),
                bin.count.to_string(),
                words::percent(bin.said),
                words::percent(bin.came),
                words::between((bin.between.low, bin.between.high)),
            ]
        })
        .collect();
    let title = "Foretold and seen";
    let said = Said {
        name: "fit",
        title,
        tells: "A spot for each band of foretold chances: across, the mean chance foretold; up, \
                the share of lines that were right, with its 80 % interval. On the broken line \
                the two are the same. The table has the same figures.",
    };
    let heads = [
        ("foretold", false),
        ("lines", true),
        ("mean", true),
        ("seen right", true),
        ("80 % interval", true),
    ];
    html! {
        p { "Before each line of a probe the model said how likely it was to be right. This is \
             what came. It is measured, on "
            (words::count(found.count, "line", "lines")) " of this person." }
        @if found.count < FEW {
            p { "That is little: below " (FEW) " lines these figures move much from line to line." }
        }
        div.pair {
            div { (fit(&said, &plotted)) }
            (table(title, &heads, &rows))
        }
        (table("The fit in one figure each; lower is better", &[("measure", false), ("figure", true), ("what it is", false)], &sums(found)))
    }
}

fn sums(found: &Calibration) -> Vec<Vec<String>> {
    let row =
        |name: &str, figure: String, what: &str| vec![name.to_owned(), figure, what.to_owned()];
    vec![
        row(
            "Brier score",
            format!("{:.3}", found.brier),
            "the mean squared distance of the chance from what came",
        ),
        row(
            "of the base rate",
            format!("{:.3}", found.brier_of_base_rate),
            &format!(
                "the same, had {} been said each time: the share that was right, known only \
                 afterwards",
                words::percent(found.base_rate)
            ),
        ),
        row(
            "calibration error",
            format!("{:.3}", found.error),
            "how far, on average over the bands, the seen share lies from the chance",
        ),
    ]
}
