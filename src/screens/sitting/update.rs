//! What keys do while a paper is sat. Answers change until the paper is handed in.

use super::closing;
use super::state::Sitting;
use crate::blank::Blank;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke};
use crate::sheet;

/// What is said where help is asked for.
pub const NO_HELP: &str = "no help on this paper";

const STAYS: &str = "the paper stays open: ? then Z hands it in, ? then Q stops; the clock runs on";

/// Takes a press.
pub fn update(sitting: &mut Sitting, stroke: &Stroke) -> Outcome {
    if sitting.closing.is_some() {
        return closing::update(sitting, stroke);
    }
    let Some(sheet) = sitting.sheets.get_mut(sitting.at) else {
        return Outcome::HandInPaper;
    };
    let first = sheet.pen == 0;
    let last = sheet.pen + 1 >= sheet.slots.len();
    match &stroke.press {
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say(NO_HELP.to_owned()),
        Press::Escape => Outcome::Say(STAYS.to_owned()),
        Press::Enter if !sheet.is_begun() => next(sitting),
        Press::Enter => match sheet::update(sheet, stroke) {
            Outcome::HandIn(_) => {
                sitting.aside.remove(&sitting.at);
                next(sitting)
            }
            outcome => outcome,
        },
        Press::Up if first && stroke.sight.above == 0 => match sitting.at.checked_sub(1) {
            Some(before) => go(sitting, before),
            None => Outcome::Say("this is the first question".to_owned()),
        },
        Press::Down if last && stroke.sight.below == 0 => match sitting.after() {
            Some(after) => go(sitting, after),
            None => Outcome::Say("this is the last question: ? then Z hands in".to_owned()),
        },
        _ => sheet::update(sheet, stroke),
    }
}

/// The next question; behind the last one the page on which the paper is handed in.
fn next(sitting: &mut Sitting) -> Outcome {
    match sitting.after() {
        Some(after) => sitting.open(after),
        None => sitting.closing = Some(Blank::default()),
    }
    Outcome::Stay
}

/// Another question. What cannot be read stays where it is, and is said.
fn go(sitting: &mut Sitting, to: usize) -> Outcome {
    let from = sitting.at;
    let words = sitting.unreadable(from);
    sitting.open(to);
    words.map_or(Outcome::Stay, |words| {
        Outcome::Say(format!("question {}: {words}", from + 1))
    })
}

impl Sitting {
    /// Sets the open question aside and goes on; says so.
    pub fn leave_for_later(&mut self) -> String {
        let number = self.at + 1;
        self.aside.insert(self.at);
        let _ = next(self);
        format!("question {number} is set aside")
    }

    /// Shows what is open, before the paper is handed in.
    pub fn close(&mut self) {
        self.closing = Some(Blank::default());
    }
}
