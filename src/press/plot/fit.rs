//! What came beside what was foretold: on the slanting line where the two are the same.

use maud::{Markup, html};

use super::{Said, framed, line, spot, text};

/// What was foretold with about the same chance.
pub struct Fitted {
    /// The mean chance.
    pub said: f64,
    /// The share that came.
    pub came: f64,
    /// The interval of that share.
    pub between: (f64, f64),
}

const LEFT: f64 = 60.0;
const HEAD: f64 = 10.0;
const SIDE: f64 = 200.0;

/// A spot for each, with the interval of what came.
pub fn fit(said: &Said<'_>, all: &[Fitted]) -> Markup {
    let across = |share: f64| LEFT + share.clamp(0.0, 1.0) * SIDE;
    let down = |share: f64| HEAD + (1.0 - share.clamp(0.0, 1.0)) * SIDE;
    let foot = HEAD + SIDE;
    let inside = html! {
        (line("rule", (across(0.0), down(0.0)), (across(1.0), down(1.0))))
        (line("axis", (LEFT, HEAD), (LEFT, foot)))
        (line("axis", (LEFT, foot), (LEFT + SIDE, foot)))
        @for tick in [0.0, 0.5, 1.0] {
            (text("end", (LEFT - 5.0, down(tick) + 4.0), &format!("{:.0} %", 100.0 * tick)))
            (text("middle", (across(tick), foot + 14.0), &format!("{:.0} %", 100.0 * tick)))
        }
        (text("middle", (across(0.5), foot + 29.0), "foretold"))
        (text("end", (LEFT - 5.0, down(0.75) + 4.0), "seen"))
        @for own in all {
            @let x = across(own.said);
            (line("line", (x, down(own.between.0)), (x, down(own.between.1))))
            (spot((x, down(own.came))))
        }
    };
    framed(said, foot + 36.0, &inside)
}
