//! Amounts over time, as bars that stand side by side.

use maud::{Markup, html};

use super::{Said, WIDE, bar, framed, line, some, text};

/// One of them.
pub struct Bar {
    /// What stands under it.
    pub label: String,
    /// The amount, in the unit of the plot.
    pub amount: f64,
}

const LEFT: f64 = 38.0;
const RIGHT: f64 = 12.0;
const HEAD: f64 = 10.0;
const HIGH: f64 = 110.0;

/// The bars under a scale from nothing to the greatest of them.
pub fn bars(said: &Said<'_>, bars: &[Bar], unit: &str) -> Markup {
    let most = bars.iter().map(|bar| bar.amount).fold(1.0, f64::max);
    let slot = (WIDE - LEFT - RIGHT) / bars.len().max(1) as f64;
    let wide = (slot * 0.7).min(24.0);
    let foot = HEAD + HIGH;
    let down = |amount: f64| foot - (amount / most).clamp(0.0, 1.0) * HIGH;
    let middle = |at: usize| LEFT + (at as f64 + 0.5) * slot;
    let inside = html! {
        @for tick in [0.0, most] {
            (text("end", (LEFT - 4.0, down(tick) + 4.0), &format!("{tick:.0}")))
            (line("axis", (LEFT - 3.0, down(tick)), (LEFT, down(tick))))
        }
        (text("start", (LEFT + 4.0, HEAD + 4.0), unit))
        (line("axis", (LEFT, HEAD), (LEFT, foot)))
        (line("axis", (LEFT, foot), (WIDE - RIGHT, foot)))
        @for (at, own) in bars.iter().enumerate() {
            @let x = middle(at) - wide / 2.0;
            (bar((x, down(own.amount)), (x + wide, foot)))
        }
        @for at in some(bars.len(), 5) {
            @if let Some(own) = bars.get(at) {
                (text("middle", (middle(at).max(LEFT + 8.0), foot + 14.0), &own.label))
            }
        }
    };
    framed(said, foot + 20.0, &inside)
}
