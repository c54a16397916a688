//! What keys do on the plan.

use super::state::PlanSheet;
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(sheet: &mut PlanSheet, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => match sheet.named() {
            Some(item) => {
                sheet.pen = item;
                Outcome::ShowSample
            }
            None => Outcome::Say(format!("write an item number, 1 to {}", sheet.count())),
        },
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up if sheet.pen == 0 => Outcome::Say("this is the first item".to_owned()),
        Press::Up => go(sheet, sheet.pen - 1),
        Press::Down if sheet.pen + 1 >= sheet.count() => {
            Outcome::Say("this is the last item".to_owned())
        }
        Press::Down => go(sheet, sheet.pen + 1),
        press => write(sheet, press),
    }
}

fn go(sheet: &mut PlanSheet, item: usize) -> Outcome {
    sheet.go(item);
    Outcome::Stay
}

/// A sign behind a number that moving the pen wrote begins anew.
fn write(sheet: &mut PlanSheet, press: &Press) -> Outcome {
    if sheet.by_pen && matches!(press, Press::Type(_) | Press::Paste(_)) {
        sheet.number = Blank::default();
    }
    match sheet.number.take(press) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    sheet.by_pen = false;
    sheet.scroll.follow();
    if let Some(item) = sheet.named() {
        sheet.pen = item;
        sheet.sample = 0;
    }
    Outcome::Stay
}
