//! What keys do where a lesson file cannot be read.

use super::Faults;
use crate::keys::Press;
use crate::layout::Scroll;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(faults: &mut Faults, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter if faults.at + 1 < faults.all.len() => {
            faults.at += 1;
            faults.scroll = Scroll::default();
            Outcome::Stay
        }
        Press::Enter => Outcome::Back,
        Press::Escape if faults.at > 0 => {
            faults.at -= 1;
            faults.scroll = Scroll::default();
            Outcome::Stay
        }
        Press::Escape => Outcome::Say("this is the first fault: Enter goes on".to_owned()),
        Press::Ask => Outcome::Ask(None),
        press => scrolled(&mut faults.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}
