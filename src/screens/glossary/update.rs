//! What keys do in the glossary.

use super::WordBook;
use crate::blank::Wrote;
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(book: &mut WordBook, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say("! shows a line: Esc goes back to the sheet first".to_owned()),
        Press::Up => turn(book, false),
        Press::Down => turn(book, true),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut book.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(book, press),
    }
}

/// Goes to the next word, or back to the one before.
fn turn(book: &mut WordBook, on: bool) -> Outcome {
    let to = if on {
        book.at.checked_add(1)
    } else {
        book.at.checked_sub(1)
    };
    match to.filter(|to| *to < book.listed().len()) {
        Some(to) => book.open(to),
        None => {
            let side = if on { "last" } else { "first" };
            return Outcome::Say(format!("this is the {side} word here"));
        }
    }
    Outcome::Stay
}

/// Writing letters goes to the first word that they lead to.
fn write(book: &mut WordBook, press: &Press) -> Outcome {
    match book.blank.take(press) {
        Wrote::NotMine => return no_use(press),
        Wrote::Full => return Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::Changed => {}
    }
    book.open(0);
    Outcome::Stay
}
