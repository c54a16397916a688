//! What keys do while a sheet is being written down.

use super::Keeping;
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(keeping: &mut Keeping, stroke: &Stroke) -> Outcome {
    if keeping.trouble.is_none() {
        return match stroke.press {
            Press::Ask => Outcome::Ask(None),
            _ => Outcome::Say("the sheet is being written down; its marks come then".to_owned()),
        };
    }
    match &stroke.press {
        Press::Enter => match keeping.choice.trimmed().to_ascii_lowercase().as_str() {
            "a" => Outcome::WriteAgain,
            "b" => Outcome::GoOnWithout,
            _ => Outcome::Say("write a or b, then Enter".to_owned()),
        },
        Press::Escape => Outcome::Say("the sheet is still here: write a or b".to_owned()),
        Press::Ask => Outcome::Ask(None),
        press => {
            if keeping.choice.gives_way_to(press) {
                keeping.choice = Blank::default();
            }
            match keeping.choice.take(press) {
                Wrote::Changed => Outcome::Stay,
                Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
                Wrote::NotMine => no_use(press),
            }
        }
    }
}
