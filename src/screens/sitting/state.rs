//! A sitting: the paper, what is written at each question, and what is set aside.

use std::collections::BTreeSet;
use std::rc::Rc;

use pumpwright_engine::entries::{Id, Purpose};
use pumpwright_engine::marking::{Manner, Response, keep};
use pumpwright_engine::papers::{Paper, Question};

use super::clock::Clock;
use crate::blank::Blank;
use crate::keys::Tool;
use crate::layout::Scroll;
use crate::sheet::Sheet;

/// The exam with which people begin who are in the trade.
const REFRESHER: &str = "refresher";

/// The tools that lie at hand wherever one is in an exam.
pub const IN_AN_EXAM: [Tool; 4] = [Tool::Keys, Tool::PlainList, Tool::SetUp, Tool::Quit];

/// A sitting.
#[derive(Debug, Clone)]
pub struct Sitting {
    /// Its id.
    pub id: Id,
    /// The paper.
    pub paper: Rc<Paper>,
    /// What is written, question by question.
    pub sheets: Vec<Sheet>,
    /// The question that is open.
    pub at: usize,
    /// The questions that are set aside.
    pub aside: BTreeSet<usize>,
    /// The clock.
    pub clock: Clock,
    /// The number of a question to go to, while the paper is about to be handed in.
    pub closing: Option<Blank>,
    /// Whether it was handed in: nothing is changed any more.
    pub handed_in: bool,
    /// Where the page stands on which it is handed in.
    pub scroll: Scroll,
}

impl Sitting {
    /// A sitting that begins, under ids of its own: one for itself, one for each question.
    pub fn new(
        paper: Rc<Paper>,
        manner: Manner,
        clock: Clock,
        mut fresh_id: impl FnMut() -> Id,
    ) -> Self {
        let purpose = purpose(&paper);
        let id = fresh_id();
        let sheets = paper.questions.iter().map(|question| {
            Sheet::new(Rc::clone(&question.problem), manner).with_id(fresh_id(), purpose)
        });
        Self {
            id,
            sheets: sheets.collect(),
            paper,
            at: 0,
            aside: BTreeSet::new(),
            clock,
            closing: None,
            handed_in: false,
            scroll: Scroll::default(),
        }
    }

    /// The question that is open.
    pub fn question(&self) -> Option<&Question> {
        self.paper.questions.get(self.at)
    }

    /// What is written at the question that is open.
    pub fn sheet(&self) -> Option<&Sheet> {
        self.sheets.get(self.at)
    }

    /// The same, to be written.
    pub fn sheet_mut(&mut self) -> Option<&mut Sheet> {
        self.sheets.get_mut(self.at)
    }

    /// Opens a question, at its first word.
    pub fn open(&mut self, at: usize) {
        self.at = at.min(self.sheets.len().saturating_sub(1));
        if let Some(sheet) = self.sheet_mut() {
            sheet.scroll = Scroll::default();
        }
    }

    /// Where the page stands.
    pub fn scrolled(&self) -> Scroll {
        match self.sheet() {
            Some(sheet) if self.closing.is_none() => sheet.scroll,
            _ => self.scroll,
        }
    }

    /// Where the page stands, to be set.
    pub fn scroll(&mut self) -> &mut Scroll {
        match self.sheets.get_mut(self.at) {
            Some(sheet) if self.closing.is_none() => &mut sheet.scroll,
            _ => &mut self.scroll,
        }
    }

    /// The tools that have a use while it is sat: none that helps.
    pub fn tools(&self) -> Vec<Tool> {
        let drawn = self
            .question()
            .is_some_and(|own| own.problem.variant.scene.is_some());
        let mut tools = Vec::new();
        if self.closing.is_none() {
            tools.extend([Tool::SetAside, Tool::HandIn]);
            tools.extend(drawn.then_some(Tool::Figure));
        }
        tools.extend(IN_AN_EXAM);
        tools
    }

    fn is_written(&self, at: usize) -> bool {
        self.sheets.get(at).is_some_and(Sheet::is_begun)
    }

    /// How many questions are answered and not set aside.
    pub fn answered(&self) -> usize {
        let done = |at: &usize| self.is_written(*at) && !self.aside.contains(at);
        (0..self.sheets.len()).filter(done).count()
    }

    /// The numbers of the questions that are neither answered nor set aside.
    pub fn unanswered(&self) -> Vec<usize> {
        let open = |at: &usize| !self.is_written(*at) && !self.aside.contains(at);
        let open = (0..self.sheets.len()).filter(open);
        open.map(|at| at + 1).collect()
    }

    /// Whether nothing is written at some question.
    pub fn is_open(&self) -> bool {
        (0..self.sheets.len()).any(|at| !self.is_written(at))
    }

    /// The numbers of the questions that are set aside.
    pub fn set_aside(&self) -> Vec<usize> {
        self.aside.iter().map(|at| at + 1).collect()
    }

    /// Where one goes from the open question: the next one; behind the last nowhere.
    pub fn after(&self) -> Option<usize> {
        Some(self.at + 1).filter(|next| *next < self.sheets.len())
    }

    /// Why what is written at a question cannot be read, if it cannot.
    pub fn unreadable(&self, at: usize) -> Option<String> {
        let sheet = self.sheets.get(at)?;
        let (line, _) = self.paper.questions.get(at)?.asked()?;
        let typed = sheet.typed(line)?;
        keep(&sheet.problem, line, &typed, sheet.manner).err()
    }

    /// Writes a question as it is handed in; empty takes it out.
    pub fn write(&mut self, at: usize, typed: &str) {
        let line = self.paper.questions.get(at).and_then(Question::asked);
        if let (Some((line, _)), Some(sheet)) = (line, self.sheets.get_mut(at)) {
            sheet.write(line, typed);
            self.aside.remove(&at);
        }
    }

    /// Everything that is written, question by question.
    pub fn responses(&self) -> Vec<Response> {
        self.sheets.iter().map(Sheet::response).collect()
    }

    /// What is said once when somebody comes back to it.
    pub fn came_back(&self) -> String {
        format!(
            "Kept up to question {}. {}",
            self.at + 1,
            self.clock.ran_on()
        )
    }
}

/// What a paper is sat for.
fn purpose(paper: &Paper) -> Purpose {
    if paper.exam.id == REFRESHER {
        Purpose::Refresher
    } else {
        Purpose::Exam
    }
}
