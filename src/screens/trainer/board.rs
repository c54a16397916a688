//! The board in the trainer: put up, a known turn shown, other numbers.

use std::rc::Rc;

use pumpwright_engine::problems::{Code, Problem, again};

use super::Trainer;
use crate::board::Board;
use crate::screen::Screen;

impl Trainer<'_> {
    /// The board, where it lies on top.
    pub(super) fn board(&self) -> Option<&Board> {
        match self.stack.last() {
            Some(Screen::Board(board)) => Some(board),
            _ => None,
        }
    }

    /// Puts a problem on the board and, if one is named, a known mistake of it.
    pub(super) fn open_board(&mut self, problem: Rc<Problem>, mistake: Option<&str>) {
        let board = Board::new(problem, mistake, self.look);
        if let Some(mistake) = mistake.filter(|_| board.turn.is_none()) {
            self.say(format!("these numbers do not show {mistake}"));
        }
        self.stack.push(Screen::Board(Box::new(board)));
    }

    /// Puts the problem of a code on the board, up to the line where a mistake is made.
    pub(super) fn put_on_board(&mut self, code: &str, mistake: &str) {
        let problem = code
            .parse::<Code>()
            .map_err(|fault| fault.to_string())
            .and_then(|code| again(self.library, &code).map_err(|fault| fault.to_string()));
        match problem {
            Ok(problem) => self.open_board(Rc::new(problem), Some(mistake)),
            Err(why) => self.say(why),
        }
    }

    /// Shows the next known turn on the board.
    pub(super) fn show_known_turn(&mut self) {
        if let Some(Screen::Board(board)) = self.stack.last_mut()
            && !board.next_turn()
        {
            self.say("no known turn gives another figure with these numbers");
        }
    }

    /// The same job with other numbers, on the board.
    pub(super) fn board_again(&mut self) {
        let Some(code) = self.board().map(|board| board.problem.code.clone()) else {
            return;
        };
        match self.draw(&code.family, Some(code.level)) {
            Ok(problem) => {
                let _ = self.stack.pop();
                self.open_board(Rc::new(problem), None);
            }
            Err(error) => self.say(error.to_string()),
        }
    }
}
