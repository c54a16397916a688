//! Shares with their intervals, one under the other.

use maud::{Markup, html};

use super::{Said, WIDE, framed, line, spot, text};

/// One of them.
pub struct Dot {
    /// What it is of.
    pub label: String,
    /// The share.
    pub share: f64,
    /// The ends of its interval.
    pub between: (f64, f64),
}

const LABELS: f64 = 148.0;
const ROW: f64 = 20.0;
const HEAD: f64 = 22.0;
/// Room for half of the last label.
const RIGHT: f64 = 24.0;

/// A row for each share: its name, its interval as a line, the share as a spot.
pub fn dots(said: &Said<'_>, dots: &[Dot]) -> Markup {
    let place = |share: f64| LABELS + share.clamp(0.0, 1.0) * (WIDE - LABELS - RIGHT);
    let high = HEAD + dots.len() as f64 * ROW + 4.0;
    let inside = html! {
        @for tick in [0.0, 0.5, 1.0] {
            (text("middle", (place(tick), 12.0), &format!("{:.0} %", 100.0 * tick)))
            (line("rule", (place(tick), 17.0), (place(tick), high)))
        }
        @for (at, dot) in dots.iter().enumerate() {
            @let y = HEAD + (at as f64 + 0.5) * ROW;
            (text("start", (0.0, y + 4.0), &dot.label))
            (line("line", (place(dot.between.0), y), (place(dot.between.1), y)))
            (spot((place(dot.share), y)))
        }
    };
    framed(said, high, &inside)
}
