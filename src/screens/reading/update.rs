//! What keys do to text that is only read.

use super::Reading;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(reading: &mut Reading, stroke: &Stroke) -> Outcome {
    match stroke.press {
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        _ => scrolled(&mut reading.scroll, stroke).unwrap_or_else(|| no_use(&stroke.press)),
    }
}
