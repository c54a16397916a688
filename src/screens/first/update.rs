//! What keys do at the first start.

use super::First;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(first: &mut First, stroke: &Stroke) -> Outcome {
    match stroke.press {
        Press::Enter => Outcome::ShowFirst,
        Press::Escape => Outcome::Say("this is the front: Enter goes on".to_owned()),
        Press::Ask => Outcome::Ask(None),
        _ => scrolled(&mut first.scroll, stroke).unwrap_or_else(|| no_use(&stroke.press)),
    }
}
