//! How much of a problem stands on the board.

use std::rc::Rc;

use pumpwright_engine::figures::{Signs, View};
use pumpwright_engine::marking::{Turn, known_turn};
use pumpwright_engine::problems::{Problem, WorkedLine, working};

use crate::figure::signs;
use crate::layout::Scroll;
use crate::sheet::{asked, number};
use crate::theme::Look;
use crate::words;
use crate::worked::arranged;

/// A problem on the board.
#[derive(Debug, Clone)]
pub struct Board {
    /// The problem.
    pub problem: Rc<Problem>,
    /// Its working.
    pub lines: Vec<WorkedLine>,
    /// How many lines of it are shown.
    pub shown: usize,
    /// The known turn that is shown, by its place among those of the problem.
    pub turn: Option<usize>,
    /// With which signs the figure is drawn.
    pub signs: Signs,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Board {
    /// A problem of which nothing is shown yet. With a known mistake, by its name, the
    /// lines before the one where it is made are shown, and the mistake; where this
    /// problem does not have it, nothing is.
    pub fn new(problem: Rc<Problem>, mistake: Option<&str>, look: Look) -> Self {
        let lines = working(&problem);
        let mut board = Self {
            problem,
            lines,
            shown: 0,
            turn: None,
            signs: signs(look),
            scroll: Scroll::default(),
        };
        let mut live = board.problem.mistakes.iter();
        board.turn = mistake.and_then(|mistake| live.position(|live| live.id == mistake));
        board.shown = board.turn.map_or(0, |turn| board.place(turn));
        board.scroll.follow = board.turn.is_some();
        board
    }

    /// Shows one line more; says whether there was one.
    pub fn show(&mut self) -> bool {
        let more = self.shown < self.lines.len();
        self.shown += usize::from(more);
        self.turn = self.turn.filter(|_| !more);
        self.scroll.follow();
        more
    }

    /// Covers what came last; says whether there was something.
    pub fn cover(&mut self) -> bool {
        self.scroll.follow();
        if self.turn.take().is_some() {
            return true;
        }
        let any = self.shown > 0;
        self.shown = self.shown.saturating_sub(1);
        any
    }

    /// Brings the next known turn: first those of the line that was shown last and of the
    /// lines below, then those above. Says whether there is one.
    pub fn next_turn(&mut self) -> bool {
        let mut order: Vec<usize> = (0..self.problem.mistakes.len()).collect();
        order.sort_by_key(|&turn| self.place(turn));
        let here = self.shown.saturating_sub(1);
        let next = match self
            .turn
            .and_then(|turn| order.iter().position(|&at| at == turn))
        {
            Some(at) => (at + 1) % order.len(),
            None => {
                let from_here = |&turn: &usize| self.place(turn) >= here;
                order.iter().position(from_here).unwrap_or(0)
            }
        };
        self.turn = order.get(next).copied();
        self.scroll.follow();
        self.turn.is_some()
    }

    /// The line at which the turn that is shown is taken.
    pub fn turn_line(&self) -> Option<usize> {
        self.turn.map(|turn| self.place(turn))
    }

    /// The line where a turn is taken.
    fn place(&self, turn: usize) -> usize {
        let live = self.problem.mistakes.get(turn);
        let step = live.map(|live| live.step.as_str());
        let line = self.lines.iter().position(|line| Some(&*line.id) == step);
        line.unwrap_or(0)
    }

    /// The figure with what is shown, and nothing beyond.
    pub fn view(&self) -> View {
        if self.shown >= self.lines.len() {
            return View::worked(&self.problem);
        }
        let steps = &self.problem.variant.steps;
        let shown = self.lines.iter().take(self.shown);
        let places = shown.filter_map(|line| steps.iter().position(|step| step.id == line.id));
        View::up_to(&self.problem, places)
    }

    /// The number that a line of the working has on the sheet; none where it is not asked.
    pub fn number(&self, line: &WorkedLine) -> Option<usize> {
        let mut lines = self.problem.lines.iter();
        number(&self.problem, lines.position(|other| other.id == line.id)?)
    }

    /// What a line comes to, a row each: with its numbers; of an arrangement its jobs or
    /// pairs; of a line that only says what to do, that.
    pub fn comes_to(&self, line: &WorkedLine) -> Vec<String> {
        if line.id.is_empty() {
            return vec![line.says.clone()];
        }
        if line.numbers.is_empty() {
            return arranged(&self.problem, line);
        }
        let first = |at: usize| if at == 0 { "= " } else { "  " };
        let rows = line.numbers.iter().enumerate();
        rows.map(|(at, text)| format!("{}{text}", first(at)))
            .collect()
    }

    /// Where on the board one is: `line 2 of 4`.
    pub fn so_far(&self) -> String {
        let shown = self.lines.iter().take(self.shown).rev();
        let mut numbers = shown.filter_map(|line| self.number(line));
        match numbers.next() {
            None => format!("{} to come", words::count(self.asked(), "line", "lines")),
            Some(number) => format!("line {number} of {}", self.asked()),
        }
    }

    /// How many lines the sheet asks.
    pub fn asked(&self) -> usize {
        asked(&self.problem)
    }

    /// What Enter does.
    pub fn next(&self) -> String {
        match self.lines.get(self.shown) {
            Some(line) => match self.number(line) {
                Some(number) => format!("Enter: show line {number}"),
                None => "Enter: show the next step".to_owned(),
            },
            None => "Enter: the same job with other numbers".to_owned(),
        }
    }

    /// The known turn that is shown: at which line it is taken, what it is with what it
    /// gives there, and the way out.
    pub fn told_turn(&self) -> Option<(String, Vec<String>)> {
        let at = self.turn?;
        let live = self.problem.mistakes.get(at)?;
        let turn: Turn = known_turn(&self.problem, live)?;
        let number = self.lines.get(self.place(at));
        let number = number.and_then(|line| self.number(line));
        let line = number.map_or_else(String::new, |number| format!("LINE {number}"));
        let gives = match (&live.value, live.text.as_str()) {
            (Some(_), text) if !text.is_empty() => format!(" That gives {text}."),
            _ => String::new(),
        };
        let mut told = vec![format!("Known turn: {}{gives}", words::turn(&turn))];
        told.push(turn.says.clone());
        told.extend(words::look(&turn));
        Some((line, told))
    }
}
