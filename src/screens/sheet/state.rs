//! A sheet that is being written: its blanks, the pen, the help that was given.

use std::rc::Rc;

use pumpwright_engine::entries::{Id, Purpose};
use pumpwright_engine::marking::{Manner, Response};
use pumpwright_engine::problems::{Asks, Line, Problem, first_half};
use pumpwright_engine::quantities::DecimalSign;

use super::checking::Check;
use super::time::Spent;
use crate::blank::Blank;
use crate::layout::Scroll;
use crate::sums::Back;

/// A blank of the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// The place of its line in the problem.
    pub line: usize,
    /// The place of its job or part, where the line is an arrangement.
    pub part: Option<usize>,
    /// What is written.
    pub blank: Blank,
    /// What was written as it was read when the pen left.
    pub kept: Option<String>,
}

/// A sheet that is being written.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The problem.
    pub problem: Rc<Problem>,
    /// How figures are written.
    pub manner: Manner,
    /// Its blanks, from top to bottom.
    pub slots: Vec<Slot>,
    /// The blank with the pen.
    pub pen: usize,
    /// The steps of help that were given, line by line.
    pub helped: Vec<usize>,
    /// The side sums on its back.
    pub back: Back,
    /// Whether each line is checked as it is finished.
    pub line_by_line: bool,
    /// The lines that were checked.
    pub checks: Vec<Check>,
    /// What was written in the other lines, where one is written once more.
    pub mending: Option<Response>,
    /// The id under which it is kept; none where it is not.
    pub id: Option<Id>,
    /// What it is done for.
    pub purpose: Purpose,
    /// The lines that stood there filled in.
    pub given: Vec<bool>,
    /// How long it took so far.
    pub spent: Spent,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Sheet {
    /// A sheet with nothing written.
    pub fn new(problem: Rc<Problem>, manner: Manner) -> Self {
        let slots = slots(&problem, |_| true);
        let helped = vec![0; problem.lines.len()];
        let given = vec![false; problem.lines.len()];
        let scroll = Scroll::default();
        Self {
            problem,
            manner,
            slots,
            pen: 0,
            helped,
            back: Back::default(),
            line_by_line: false,
            checks: Vec::new(),
            mending: None,
            id: None,
            purpose: Purpose::Practice,
            given,
            spent: Spent::default(),
            scroll,
        }
    }

    /// The same sheet, kept under this id and done for this.
    #[must_use]
    pub fn with_id(self, id: Id, purpose: Purpose) -> Self {
        Self {
            id: Some(id),
            purpose,
            ..self
        }
    }

    /// One line of a sheet that was handed in, to be written once more.
    pub fn once_more(&self, line: usize, written: Response) -> Self {
        let mut sheet = self.clone();
        sheet.slots = slots(&self.problem, |index| index == line);
        sheet.pen = 0;
        sheet.mending = Some(written);
        sheet.scroll = Scroll {
            top: 0,
            follow: true,
        };
        sheet
    }

    /// The blank with the pen, if the sheet has any.
    pub fn slot(&self) -> Option<&Slot> {
        self.slots.get(self.pen)
    }

    /// The place of the line with the pen.
    pub fn line(&self) -> Option<usize> {
        self.slot().map(|slot| slot.line)
    }

    /// Writes a side sum into the blank with the pen; says what became of it.
    pub fn carry_over(&mut self, text: &str) -> String {
        let number = self.line().and_then(|line| number(&self.problem, line));
        if let Some(slot) = self.slots.get_mut(self.pen) {
            slot.blank = Blank::holding(text);
            slot.kept = None;
        }
        self.scroll.follow();
        format!("is carried over to line {}", number.unwrap_or(1))
    }

    /// Writes a line as it is handed in: an arrangement's blanks stand between spaces.
    pub fn write(&mut self, line: usize, typed: &str) {
        let mut parts = typed.split_whitespace();
        for slot in self.slots.iter_mut().filter(|slot| slot.line == line) {
            slot.blank = match slot.part {
                None => Blank::holding(typed),
                Some(_) => match parts.next() {
                    None | Some(OPEN) => Blank::default(),
                    Some(part) => Blank::holding(part),
                },
            };
        }
    }

    /// Fills the first half of the lines in, as given.
    pub fn give_first_half(&mut self) {
        for (line, typed) in first_half(&self.problem) {
            let typed = match self.manner.decimal {
                DecimalSign::Point => typed,
                DecimalSign::Comma => typed.replace('.', ","),
            };
            self.write(line, &typed);
            self.given[line] = true;
        }
        let open = self.slots.iter().position(|slot| slot.blank.is_empty());
        self.pen = open.unwrap_or(0);
    }

    /// The names of the lines that stood there filled in.
    pub fn given_ids(&self) -> Vec<&str> {
        let lines = self.problem.lines.iter().zip(&self.given);
        lines
            .filter(|(_, given)| **given)
            .map(|(line, _)| line.id.as_str())
            .collect()
    }

    /// Whether anything is written.
    pub fn is_begun(&self) -> bool {
        self.slots.iter().any(|slot| !slot.blank.is_empty())
    }

    /// What stands in a line, as it is handed in; none where nothing stands.
    pub fn typed(&self, line: usize) -> Option<String> {
        let slots: Vec<&Slot> = self.slots.iter().filter(|slot| slot.line == line).collect();
        if slots.iter().all(|slot| slot.blank.is_empty()) {
            return None;
        }
        let texts = slots
            .iter()
            .map(|slot| match (slot.part, slot.blank.trimmed()) {
                (Some(_), "") => OPEN,
                (_, text) => text,
            });
        Some(texts.collect::<Vec<_>>().join(" "))
    }

    /// Everything that is written.
    pub fn response(&self) -> Response {
        let lines = self.problem.lines.iter().enumerate();
        let answers = lines.filter_map(|(index, line)| Some((line.id.clone(), self.typed(index)?)));
        Response {
            answers: answers.collect(),
        }
    }

    /// The numbers of an arrangement's line that nobody wrote, and those written twice.
    pub fn order_tally(&self, line: usize) -> (Vec<usize>, Vec<usize>) {
        let written = |number: &usize| {
            let of_line = self.slots.iter().filter(|slot| slot.line == line);
            of_line
                .filter(|slot| slot.blank.trimmed().parse() == Ok(*number))
                .count()
        };
        let count = match self.problem.lines.get(line).map(|line| &line.asks) {
            Some(Asks::Order { cards }) => cards.iter().filter(|card| card.place.is_some()).count(),
            _ => 0,
        };
        let open = (1..=count).filter(|number| written(number) == 0).collect();
        let twice = (1..=count).filter(|number| written(number) > 1).collect();
        (open, twice)
    }
}

/// What stands for a blank of an arrangement that nobody wrote.
const OPEN: &str = "_";

/// The number of a line on the sheet; none where it is not asked.
pub fn number(problem: &Problem, line: usize) -> Option<usize> {
    let line = problem.lines.get(line)?;
    problem
        .asked()
        .find(|(_, asked)| asked.id == line.id)
        .map(|(number, _)| number)
}

/// How many lines are asked.
pub fn asked(problem: &Problem) -> usize {
    problem.asked().count()
}

fn slots(problem: &Problem, wanted: impl Fn(usize) -> bool) -> Vec<Slot> {
    let lines = problem
        .lines
        .iter()
        .enumerate()
        .filter(|(index, _)| wanted(*index));
    lines
        .flat_map(|(index, line)| line_slots(index, line))
        .collect()
}

fn line_slots(index: usize, line: &Line) -> Vec<Slot> {
    let slot = |part| Slot {
        line: index,
        part,
        blank: Blank::default(),
        kept: None,
    };
    match &line.asks {
        Asks::Nothing => Vec::new(),
        Asks::Figure | Asks::Row | Asks::Pick { .. } => vec![slot(None)],
        Asks::Order { cards } => (0..cards.len()).map(|part| slot(Some(part))).collect(),
        Asks::Match { parts, .. } => (0..parts.len()).map(|part| slot(Some(part))).collect(),
    }
}
