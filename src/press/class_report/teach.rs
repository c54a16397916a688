//! What to teach again: the known mistakes, by how many people made them, and a problem
//! for the board to each.

use maud::{Markup, html};
use pumpwright_engine::classes::report::{Report, Turn};

use super::{DRAWN, leveled, whole};
use crate::plot::{Dot, Said, dots};
use crate::table::table;
use crate::words::typed;

/// The turns that people took.
pub(super) fn teach(report: &Report) -> Markup {
    let plotted: Vec<Dot> = (report.teach.iter().take(DRAWN))
        .map(|turn| Dot {
            label: format!("{} {}, {}", place(turn), turn.family, turn.level),
            share: share(turn),
            between: (turn.between.low, turn.between.high),
        })
        .collect();
    let title = "Teach this again";
    let said = Said {
        name: "teach",
        title,
        tells: "A row for each turn, by its place and family: the share of people who took it \
                among those who met it, with its 80 % interval. The table has the counts.",
    };
    let heads = [
        ("place", true),
        ("turn taken", false),
        ("family, level", false),
        ("how many", true),
        ("likely", true),
    ];
    let rows: Vec<Vec<String>> = report.teach.iter().map(row).collect();
    html! {
        h2 { (title) }
        @if report.teach.is_empty() {
            p { (report.without_turns()) }
        } @else {
            p { "By how many people took the turn; equal numbers share a place (=). \
                 \u{201c}Likely\u{201d} is the 80 % interval." }
            div.pair {
                div { (dots(&said, &plotted)) }
                (table(title, &heads, &rows))
            }
            h3 { "For the board" }
            p { "Each of these problems parts the right figure from that of the turn." }
            ol.lines {
                @for turn in report.teach.iter().take(DRAWN) { li { (board(turn)) } }
            }
        }
    }
}

fn place(turn: &Turn) -> String {
    format!("{}{}", turn.rank, if turn.tied { "=" } else { "" })
}

fn share(turn: &Turn) -> f64 {
    turn.made as f64 / turn.met.max(1) as f64
}

fn row(turn: &Turn) -> Vec<String> {
    let fatal = if turn.fatal {
        " This can kill or maim."
    } else {
        ""
    };
    let perhaps = if turn.perhaps > 0 {
        format!(
            " Of these {} may have taken another turn with the same figure.",
            turn.perhaps
        )
    } else {
        String::new()
    };
    vec![
        place(turn),
        format!("\u{201c}{}\u{201d}{fatal}{perhaps}", typed(&turn.did)),
        leveled(&turn.family, turn.level),
        whole(&format!("{} of {}", turn.made, turn.met)),
        whole(&format!(
            "{:.0}-{:.0} %",
            100.0 * turn.between.low,
            100.0 * turn.between.high
        )),
    ]
}

fn board(turn: &Turn) -> Markup {
    html! {
        strong { (typed(&turn.title)) } ": \u{201c}" (typed(&turn.did)) "\u{201d} " (typed(&turn.says)) br;
        @match &turn.board {
            Some(code) => code { "pumpwright board " (code) " --mistake " (turn.mistake) },
            None => span.faint { "No draw of it parts its figure well from the others." },
        }
    }
}
