//! What is laid over the screens: the tables, and the back of the sheet.

use std::rc::Rc;
use std::sync::Arc;

use pumpwright_engine::figures::{self, View};
use pumpwright_engine::marking::written_values;
use pumpwright_engine::problems::{Problem, tables_used};
use pumpwright_engine::quantities::{DecimalSign, System};

use super::Trainer;
use crate::answering::Answering;
use crate::figure::Figure;
use crate::glossary::WordBook;
use crate::screen::Screen;
use crate::sheet::number;
use crate::sums::{Back, CameFrom, Front, Sums};
use crate::tables::{self, Closed, Tables};

impl Trainer<'_> {
    /// Puts away what lies over the screens: one of them lies on top at a time.
    fn put_away_overlay(&mut self) {
        let overlay = |screen: &Screen| {
            matches!(
                screen,
                Screen::Slip(_)
                    | Screen::Sums(_)
                    | Screen::Tables(_)
                    | Screen::Figure(_)
                    | Screen::Glossary(_)
            )
        };
        while self.stack.last().is_some_and(overlay) {
            self.back();
        }
    }

    /// The screen of the sheet that is open, if one is.
    fn open_sheet(&mut self) -> Option<&mut Screen> {
        let mut open = self.stack.iter_mut().rev();
        open.find_map(|screen| screen.back().is_some().then_some(screen))
    }

    /// Lays the figure of the open sheet over it.
    pub(super) fn open_figure(&mut self) {
        let top = self.stack.last();
        let open = top.and_then(|top| Some((Rc::clone(top.problem()?), top.view()?)));
        match open.filter(|(problem, _)| figures::has(problem)) {
            Some((problem, view)) => self.show_figure(problem, view),
            None => self.say("this job has no figure"),
        }
    }

    /// Lays the figure over the sheet as the learner's own answers would have it.
    pub(super) fn open_turn(&mut self) {
        let top = self.stack.last();
        let open = top.and_then(|top| Some((Rc::clone(top.problem()?), top.response()?.clone())));
        let Some((problem, response)) = open.filter(|(problem, _)| figures::has(problem)) else {
            return self.say("there is no figure of an answer here: hand a sheet in first");
        };
        let written = written_values(&problem, &response, self.manner);
        if written.is_empty() {
            return self.say("no line that the figure could show was written");
        }
        let view = View::yours(&problem, &written);
        self.show_figure(problem, view);
    }

    fn show_figure(&mut self, problem: Rc<Problem>, view: View) {
        let figure = Figure::new(problem, view, self.look);
        self.stack.push(Screen::Figure(Box::new(figure)));
    }

    pub(super) fn open_tables(&mut self) {
        self.put_away_overlay();
        let asks = self.open_sheet().and_then(|screen| Asks::of(screen));
        let system = asks.as_ref().map_or(self.system, |asks| asks.system);
        let closed = self.closed_tables();
        let leaves = tables::leaves(self.library, system, &closed);
        if leaves.is_empty() {
            return self.say("no tables were read");
        }
        let named = |name: &Arc<str>| leaves.iter().position(|leaf| leaf.name == *name);
        let read = match self.stack.last() {
            Some(Screen::Lesson(lesson)) => lesson.table().and_then(named),
            _ => None,
        };
        // In an exam the table is no help: nobody is told which one is wanted.
        let exam = self.sitting().is_some();
        let helps = asks.as_ref().filter(|_| !exam);
        let asked = || helps.and_then(|asks| named(asks.table.as_ref()?));
        let at = read.or_else(asked);
        let line = helps.and_then(|asks| asks.line);
        let tables = Tables::new(leaves, at.unwrap_or(0), line);
        self.stack.push(Screen::Tables(Box::new(tables)));
        let none = asks
            .filter(|asks| !asks.own && read.is_none() && !exam)
            .and_then(|asks| asks.line);
        if let Some(line) = none {
            self.say(format!("line {line} uses no table"));
        }
    }

    /// The glossary, with the words first that stand on the screen under it.
    pub(super) fn open_glossary(&mut self) {
        self.put_away_overlay();
        let page = self.page();
        let cells = page.entries().flat_map(|entry| &entry.cells);
        let text: Vec<&str> = cells.map(|cell| cell.text.as_str()).collect();
        let book = WordBook::new(self.library, &text.join(" "));
        if book.count() == 0 {
            return self.say("no glossary was read");
        }
        self.stack.push(Screen::Glossary(Box::new(book)));
    }

    /// The tables whose rows the open sheet asks, and those that the open paper takes away.
    /// A worked sheet shows its answers: nothing is to be kept from it.
    pub(super) fn closed_tables(&mut self) -> Closed {
        if matches!(
            self.stack.last(),
            Some(Screen::Worked(_) | Screen::Through(_) | Screen::Board(_))
        ) {
            return Closed::new();
        }
        let exam = self.sitting().map(|sitting| Rc::clone(&sitting.paper));
        let problem = self
            .open_sheet()
            .and_then(|screen| screen.problem().cloned());
        let exam = exam.as_ref().map(|paper| &paper.exam);
        tables::closed(problem.as_deref(), exam)
    }

    pub(super) fn open_sums(&mut self) {
        self.put_away_overlay();
        let decimal = self.manner.decimal;
        if let Some(answering) = self.answering() {
            let sums = on_paper(answering, decimal);
            return self.stack.push(Screen::Sums(Box::new(sums)));
        }
        let open = self.open_sheet();
        let problem = open.as_ref().and_then(|screen| screen.problem().cloned());
        let Some((screen, problem)) = open.zip(problem) else {
            return self.say("side sums stand on the back of a sheet: take a job first");
        };
        let line = screen.sheet().and_then(CameFrom::sheet);
        let back = screen.back().map(|back| back.clone()).unwrap_or_default();
        let sums = Sums::new(Front::Sheet(problem), back, line, decimal);
        self.stack.push(Screen::Sums(Box::new(sums)));
    }

    /// Side sums stay with the sheet, wherever it is shown; those of a class's paper with
    /// that alone, whatever sheet lies under it.
    pub(super) fn keep_sums(&mut self, back: &Back) {
        if let Some(answering) = self.answering_mut() {
            return answering.back.clone_from(back);
        }
        for kept in self.stack.iter_mut().filter_map(Screen::back) {
            kept.clone_from(back);
        }
    }

    /// Writes a side sum into the line with the pen. Nothing is handed in.
    pub(super) fn carry_over(&mut self) {
        let carried = match self.stack.last() {
            Some(Screen::Sums(sums)) => sums.carried(),
            _ => None,
        };
        let Some((at, text)) = carried else { return };
        let sheet = |screen: &Screen| matches!(screen, Screen::Sheet(_) | Screen::Answering(_));
        let Some(sheet) = self.stack.iter().rposition(sheet) else {
            return;
        };
        while self.stack.len() > sheet + 1 {
            self.back();
        }
        let said = match self.stack.last_mut() {
            Some(Screen::Sheet(sheet)) => sheet.carry_over(&text),
            Some(Screen::Answering(answering)) => answering.carry_over(&text),
            _ => return,
        };
        self.say(format!("s{} {said}", at + 1));
    }
}

/// The back of a class's paper. Before it is handed in, no item of it is open.
fn on_paper(answering: &Answering, decimal: DecimalSign) -> Sums {
    let open = answering.closing.is_none();
    let item = answering.item().filter(|_| open);
    let line = CameFrom::paper(answering).filter(|_| open);
    let front = Front::paper(&answering.paper, item);
    Sums::new(front, answering.back.clone(), line, decimal)
}

/// What the open sheet asks of the tables.
struct Asks {
    system: System,
    /// The number of the line with the pen, or that is looked at.
    line: Option<usize>,
    /// The table of that line, or else the first that the sheet uses.
    table: Option<Arc<str>>,
    /// Whether it is the line's own.
    own: bool,
}

impl Asks {
    fn of(screen: &Screen) -> Option<Self> {
        let problem = screen.problem()?;
        let line = screen.line();
        let first = |line| tables_used(problem, line).into_iter().next();
        let own = line.and_then(first);
        Some(Self {
            system: problem.variant.system,
            line: line.and_then(|line| number(problem, line)),
            own: own.is_some(),
            table: own.or_else(|| (0..problem.lines.len()).find_map(first)),
        })
    }
}
