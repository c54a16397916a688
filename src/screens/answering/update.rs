//! What keys do while a paper is answered. Answers change until it is handed in.

use super::closing;
use super::state::Answering;
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};
use crate::sitting::NO_HELP;

/// Takes a press.
pub fn update(answering: &mut Answering, stroke: &Stroke) -> Outcome {
    if answering.handing_in {
        return match stroke.press {
            Press::Ask => Outcome::Ask(None),
            _ => Outcome::Say("the paper is being handed in".to_owned()),
        };
    }
    if answering.closing.is_some() {
        return closing::update(answering, stroke);
    }
    let last = answering.pen + 1 >= answering.lines();
    match &stroke.press {
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say(NO_HELP.to_owned()),
        Press::Escape => Outcome::Back,
        Press::Enter => next(answering),
        Press::Up if answering.pen > 0 => go(answering, answering.at, answering.pen - 1),
        Press::Down if !last => go(answering, answering.at, answering.pen + 1),
        Press::Up if stroke.sight.above == 0 => match answering.at.checked_sub(1) {
            Some(before) => go(answering, before, 0),
            None => Outcome::Say("this is the first item".to_owned()),
        },
        Press::Down if stroke.sight.below == 0 => {
            if answering.at + 1 < answering.blanks.len() {
                return go(answering, answering.at + 1, 0);
            }
            Outcome::Say("this is the last item: ? then Z hands in".to_owned())
        }
        Press::Up | Press::Down | Press::PageUp | Press::PageDown => {
            scrolled(&mut answering.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(answering, press),
    }
}

/// Another line. What cannot be read stays where it is, and is said.
fn go(answering: &mut Answering, item: usize, line: usize) -> Outcome {
    let words = unread(answering).filter(|_| !answering.told);
    answering.go(item, line);
    words.map_or(Outcome::Stay, Outcome::Say)
}

/// What is said of the line with the pen, where it cannot be read.
fn unread(answering: &Answering) -> Option<String> {
    let why = answering.why_unread((answering.at, answering.pen))?;
    Some(format!("line {} stays so, but {why}", answering.pen_at()))
}

/// The next line, the next item, and behind the last one the page on which it is handed in.
/// From a line that cannot be read a second Enter goes on.
fn next(answering: &mut Answering) -> Outcome {
    if let Some(words) = unread(answering).filter(|_| !answering.told) {
        answering.told = true;
        return Outcome::Say(words);
    }
    if answering.pen + 1 < answering.lines() {
        return go(answering, answering.at, answering.pen + 1);
    }
    if answering.at + 1 < answering.blanks.len() {
        return go(answering, answering.at + 1, 0);
    }
    answering.close();
    Outcome::Stay
}

fn write(answering: &mut Answering, press: &Press) -> Outcome {
    let Some(blank) = answering.blank_mut() else {
        return no_use(press);
    };
    let before = blank.text().to_owned();
    let wrote = blank.take(press);
    let changed = blank.text() != before;
    match wrote {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    answering.changed |= changed;
    answering.told &= !changed;
    answering.scroll.follow();
    Outcome::Stay
}

impl Answering {
    /// Shows what is open, before the paper is handed in.
    pub fn close(&mut self) {
        self.closing = Some(Blank::default());
    }
}
