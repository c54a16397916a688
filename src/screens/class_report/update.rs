//! What keys do on the report: Enter puts a problem on the board in which the turn shows.

use super::state::ReportSheet;
use crate::blank::Wrote;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(sheet: &mut ReportSheet, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => board(sheet),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        // Below the last line the rest of the report is read on.
        Press::Up if sheet.picked.pen == 0 || stroke.sight.above > 0 && sheet.count() == 0 => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up => go(sheet, sheet.picked.pen - 1),
        Press::Down if sheet.picked.pen + 1 >= sheet.count() => {
            scrolled(&mut sheet.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Down => go(sheet, sheet.picked.pen + 1),
        press => write(sheet, press),
    }
}

fn board(sheet: &mut ReportSheet) -> Outcome {
    let count = sheet.count();
    if count == 0 {
        return Outcome::Say("no known turn was taken; there is none to show".to_owned());
    }
    let Some(line) = sheet.named() else {
        return Outcome::Say(format!("write a line number, 1 to {count}"));
    };
    sheet.picked.pen = line;
    let Some(turn) = sheet.report.teach.get(line) else {
        return Outcome::Stay;
    };
    match &turn.board {
        Some(code) => Outcome::PutOnBoard {
            code: code.clone(),
            mistake: turn.mistake.clone(),
        },
        None => Outcome::Say("no draw parts the figure of this turn well from the others".into()),
    }
}

fn go(sheet: &mut ReportSheet, line: usize) -> Outcome {
    sheet.go(line);
    Outcome::Stay
}

fn write(sheet: &mut ReportSheet, press: &Press) -> Outcome {
    if sheet.count() == 0 {
        return no_use(press);
    }
    let count = sheet.count();
    match sheet.picked.take(press, count) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    sheet.scroll.follow();
    Outcome::Stay
}
