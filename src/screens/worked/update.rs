//! What keys do on a worked sheet.

use super::Worked;
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(worked: &mut Worked, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => Outcome::Take(Tool::NextNumbers),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("every line is shown here".to_owned()),
        press => scrolled(&mut worked.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}
