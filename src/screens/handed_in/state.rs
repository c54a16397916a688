//! What was written first, how it was marked, and what was mended since. The
//! marks of the first writing stay.

use std::collections::BTreeMap;
use std::rc::Rc;

use pumpwright_engine::marking::{Marked, MarkedLine, Response, Turn, Verdict, mark};
use pumpwright_engine::problems::Problem;

use crate::blank::Blank;
use crate::layout::Scroll;
use crate::sheet::Sheet;

/// A line that was written once more.
#[derive(Debug, Clone, PartialEq)]
pub struct Mended {
    /// The name of the line.
    pub id: String,
    /// How it was marked; it earns nothing.
    pub line: MarkedLine,
    /// The steps of help that were given.
    pub helped: usize,
}

/// A sheet that was handed in.
#[derive(Debug, Clone)]
pub struct HandedIn {
    /// The sheet as it was handed in.
    pub sheet: Sheet,
    /// How it was marked; this stays.
    pub marked: Marked,
    /// What stands there now.
    pub now: Response,
    /// How that would be marked.
    pub now_marked: Marked,
    /// The lines that were written once more, each the last time.
    pub mended: Vec<Mended>,
    /// Lines that are being written once more and were left half-way.
    pub half_way: Vec<Sheet>,
    /// Whether the working was shown.
    pub worked: bool,
    /// The marked line that is looked at.
    pub at: usize,
    /// The letter of the turn, where two give one figure.
    pub choice: Blank,
    /// The turns that were chosen, by the name of the line; past the last one for
    /// something else.
    chosen: BTreeMap<String, usize>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl HandedIn {
    /// Marks what was handed in.
    pub fn new(sheet: Sheet, response: Response) -> Self {
        let given = sheet.given_ids();
        let marked = mark(&sheet.problem, &response, sheet.manner).with_given(&given);
        let written_again = sheet.written_again();
        let mut handed_in = Self {
            sheet,
            now: response,
            now_marked: marked.clone(),
            marked,
            mended: Vec::new(),
            half_way: Vec::new(),
            worked: false,
            at: 0,
            choice: Blank::default(),
            chosen: BTreeMap::new(),
            scroll: Scroll::default(),
        };
        for (line, typed) in written_again {
            let helped = handed_in.sheet.helped.get(line).copied().unwrap_or(0);
            handed_in.mend(line, &typed, helped);
        }
        handed_in.look_at_first();
        handed_in
    }

    /// The problem.
    pub fn problem(&self) -> &Rc<Problem> {
        &self.sheet.problem
    }

    /// The sheet on which a line is written once more, as it was left.
    pub fn once_more(&mut self, line: usize) -> Sheet {
        let left = self
            .half_way
            .iter()
            .position(|sheet| sheet.line() == Some(line));
        match left {
            Some(left) => self.half_way.remove(left),
            None => self.sheet.once_more(line, self.now.clone()),
        }
    }

    /// Marks a line that was written once more; says how it stands.
    pub fn mend(&mut self, line: usize, typed: &str, helped: usize) -> Option<&MarkedLine> {
        let id = self.problem().lines.get(line)?.id.clone();
        self.now.answers.retain(|(other, _)| *other != id);
        self.now.answers.push((id.clone(), typed.to_owned()));
        self.now_marked =
            mark(self.problem(), &self.now, self.sheet.manner).with_given(&self.sheet.given_ids());
        self.mended.retain(|mended| mended.id != id);
        self.chosen.remove(&id);
        let marked = self
            .now_marked
            .lines
            .iter()
            .find(|marked| marked.id == id)?;
        let line = marked.clone();
        self.mended.push(Mended { id, line, helped });
        self.look_at_first();
        self.mended.last().map(|mended| &mended.line)
    }

    /// The steps of help that were given on a line before it was handed in.
    pub fn helped(&self, marked: &MarkedLine) -> usize {
        let place = self
            .problem()
            .lines
            .iter()
            .position(|line| line.id == marked.id);
        place
            .and_then(|place| self.sheet.helped.get(place))
            .copied()
            .unwrap_or(0)
    }

    /// The line that is looked at, as it stands now.
    pub fn line(&self) -> Option<&MarkedLine> {
        self.now_marked.lines.get(self.at)
    }

    /// The place in the problem of the line that is looked at.
    pub fn looked_at(&self) -> Option<usize> {
        let id = &self.line()?.id;
        self.problem().lines.iter().position(|line| line.id == *id)
    }

    /// The place in the problem of the line that Enter mends; none where none is left.
    pub fn to_mend(&self) -> Option<usize> {
        let looked_at = self.line().filter(|line| line.verdict.asks_for_a_look());
        let line = looked_at.or_else(|| self.now_marked.first_to_mend())?;
        self.problem()
            .lines
            .iter()
            .position(|other| other.id == line.id)
    }

    /// The number of the line from whose first writing the line that is looked at
    /// still follows, where that one was mended since.
    pub fn follows_first_writing(&self) -> Option<usize> {
        let line = self.line()?;
        let first = self.marked.lines.iter().find(|first| first.id == line.id)?;
        let again = self.mended.iter().any(|mended| mended.id == line.id);
        match first.verdict {
            Verdict::Follows { line: from } if !again && line.verdict.asks_for_a_look() => {
                Some(from)
            }
            _ => None,
        }
    }

    fn turns(&self) -> &[Turn] {
        let line = self
            .line()
            .filter(|_| self.follows_first_writing().is_none());
        line.map_or(&[][..], |line| &line.turns)
    }

    /// Whether one figure stands for several turns, of which one was taken.
    fn are_alternatives(&self) -> bool {
        self.turns().len() > 1 && self.line().is_some_and(|line| line.alternatives)
    }

    /// The turns between which the learner is asked; empty where one is known or chosen.
    pub fn asked_turns(&self) -> &[Turn] {
        let turns = self.turns();
        if self.are_alternatives() && self.chosen().is_none() {
            turns
        } else {
            &[]
        }
    }

    /// The turn that was chosen at the line that is looked at.
    fn chosen(&self) -> Option<usize> {
        self.chosen.get(&self.line()?.id).copied()
    }

    /// Takes a turn for the likely one; past the last one for something else.
    pub fn choose(&mut self, turn: usize) {
        let Some(id) = self.line().map(|line| line.id.clone()) else {
            return;
        };
        self.chosen.insert(id, turn);
        self.choice = Blank::default();
        self.scroll = Scroll::default();
    }

    /// The turns to show: all, or the one that was chosen.
    pub fn shown_turns(&self) -> &[Turn] {
        let turns = self.turns();
        match self.chosen().filter(|_| self.are_alternatives()) {
            Some(chosen) => turns.get(chosen..=chosen).unwrap_or_default(),
            None => turns,
        }
    }

    /// Looks at another line.
    pub fn look_at(&mut self, at: usize) {
        self.at = at;
        self.choice = Blank::default();
        self.scroll = Scroll::default();
    }

    fn look_at_first(&mut self) {
        let lines = &self.now_marked.lines;
        let look = |line: &MarkedLine| line.verdict.asks_for_a_look();
        // What is written says more than what was left empty before it.
        let written = |line: &MarkedLine| look(line) && line.verdict != Verdict::NotWritten;
        let first = lines.iter().position(written);
        let first = first.or_else(|| lines.iter().position(look));
        self.look_at(first.unwrap_or(0));
    }
}
