//! What keys do at a figure.

use super::Figure;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(figure: &mut Figure, stroke: &Stroke) -> Outcome {
    match stroke.press {
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        _ => scrolled(&mut figure.scroll, stroke).unwrap_or_else(|| no_use(&stroke.press)),
    }
}
