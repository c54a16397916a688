//! What keys do on a question that one goes through.

use super::Through;
use crate::keys::Press;
use crate::layout::Scroll;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(through: &mut Through, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter if stroke.sight.below > 0 => {
            through.scroll.down(stroke.sight.page);
            Outcome::Stay
        }
        Press::Enter if through.at + 1 < through.questions.len() => {
            through.at += 1;
            through.scroll = Scroll::default();
            Outcome::Stay
        }
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("every line is shown here".to_owned()),
        press => scrolled(&mut through.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}
