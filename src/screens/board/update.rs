//! What keys do at the board.

use super::Board;
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(board: &mut Board, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => {
            if board.show() {
                Outcome::Stay
            } else {
                Outcome::Take(Tool::NextNumbers)
            }
        }
        Press::Down | Press::Show => said(board.show(), "every line is shown here"),
        Press::Up => said(board.cover(), "no line is shown yet"),
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        press => scrolled(&mut board.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}

fn said(done: bool, else_: &str) -> Outcome {
    if done {
        Outcome::Stay
    } else {
        Outcome::Say(else_.to_owned())
    }
}
