//! What keys do on the plan.

use super::state::PlanSheet;
use crate::blank::Wrote;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(sheet: &mut PlanSheet, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => match sheet.named() {
            Some(item) => {
                sheet.picked.pen = item;
                Outcome::ShowSample
            }
            None => Outcome::Say(format!("write an item number, 1 to {}", sheet.count())),
        },
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up if sheet.picked.pen == 0 => Outcome::Say("this is the first item".to_owned()),
        Press::Up => go(sheet, sheet.picked.pen - 1),
        Press::Down if sheet.picked.pen + 1 >= sheet.count() => {
            Outcome::Say("this is the last item".to_owned())
        }
        Press::Down => go(sheet, sheet.picked.pen + 1),
        press => write(sheet, press),
    }
}

fn go(sheet: &mut PlanSheet, item: usize) -> Outcome {
    sheet.go(item);
    Outcome::Stay
}

fn write(sheet: &mut PlanSheet, press: &Press) -> Outcome {
    let count = sheet.count();
    match sheet.picked.take(press, count) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    sheet.sample = 0;
    sheet.scroll.follow();
    Outcome::Stay
}
