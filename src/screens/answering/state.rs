//! What is written on a paper, where the pen is, and where the answers go.

use std::rc::Rc;

use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::Ready;
use pumpwright_engine::classes::sit::{SitItem, SitPaper};
use pumpwright_engine::quantities::DecimalSign;

use crate::blank::Blank;
use crate::keys::Tool;
use crate::layout::Scroll;
use crate::office::{Answered, Given};
use crate::sitting::IN_AN_EXAM;
use crate::sums::Back;

/// Where the answers go.
#[derive(Debug, Clone)]
pub enum Goes {
    /// Into the file of answers at this place.
    File(String),
    /// Nowhere: the instructor tries a paper that belongs to nobody.
    Nowhere {
        /// The paper, to be marked by.
        ready: Rc<Ready>,
        /// When it was begun, in milliseconds since 1970.
        since: i64,
    },
}

/// A paper while it is answered.
#[derive(Debug, Clone)]
pub struct Answering {
    /// The paper.
    pub paper: SitPaper,
    /// Where the answers go.
    pub goes: Goes,
    /// What is written, item by item and line by line.
    pub blanks: Vec<Vec<Blank>>,
    /// The item that is open, from zero.
    pub at: usize,
    /// The line with the pen, from zero.
    pub pen: usize,
    /// Where to go back to, while the paper is about to be handed in.
    pub closing: Option<Blank>,
    /// Whether something was written that is not on its way to the disk.
    pub changed: bool,
    /// Whether it was said of the line with the pen that it cannot be read.
    pub told: bool,
    /// Whether it is on its way to be handed in: nothing is changed any more.
    pub handing_in: bool,
    /// Where it stands.
    pub scroll: Scroll,
    /// The side sums on its back, as long as it lies here: no file has them.
    pub back: Back,
    /// The sign that parts the decimals.
    decimal: DecimalSign,
    /// The hand-in as it was before anything was written here.
    answers: Answers,
}

impl Answering {
    /// A paper that was given as a file, as it was left.
    pub fn given(given: Given, decimal: DecimalSign) -> Self {
        let goes = Goes::File(given.out);
        let mut answering = Self::of((given.paper, given.answers), goes, decimal);
        let open = answering.open().first().copied();
        if answering.is_begun() {
            let (at, pen) = open.unwrap_or_default();
            answering.go(at, pen);
        }
        answering
    }

    /// A paper that the instructor tries.
    pub fn tried(paper: SitPaper, (ready, since): (Rc<Ready>, i64), decimal: DecimalSign) -> Self {
        let answers = Answers::to(&paper);
        Self::of((paper, answers), Goes::Nowhere { ready, since }, decimal)
    }

    fn of((paper, answers): (SitPaper, Answers), goes: Goes, decimal: DecimalSign) -> Self {
        let blanks = paper.items.iter().enumerate().map(|(at, item)| {
            let kept = answers.items.get(at);
            let text = |line: usize| kept.and_then(|own| own.get(line)).map_or("", |own| own);
            (0..item.lines.len())
                .map(|line| Blank::long(text(line)))
                .collect()
        });
        Self {
            blanks: blanks.collect(),
            paper,
            goes,
            at: 0,
            pen: 0,
            closing: None,
            changed: false,
            told: false,
            handing_in: false,
            scroll: Scroll::default(),
            back: Back::default(),
            decimal,
            answers,
        }
    }

    /// The item that is open.
    pub fn item(&self) -> Option<&SitItem> {
        self.paper.items.get(self.at)
    }

    /// How many lines the open item has.
    pub fn lines(&self) -> usize {
        self.blanks.get(self.at).map_or(0, Vec::len)
    }

    /// Puts the pen at a line of an item; another item begins at its first word.
    pub fn go(&mut self, item: usize, line: usize) {
        let other = self.at != item;
        self.told = false;
        self.at = item.min(self.blanks.len().saturating_sub(1));
        self.pen = line.min(self.lines().saturating_sub(1));
        if other {
            self.scroll = Scroll::default();
        }
        if !other || self.pen > 0 {
            self.scroll.follow();
        }
    }

    /// What is written on a line of the open item.
    pub fn blank(&self, line: usize) -> Option<&Blank> {
        self.blanks.get(self.at)?.get(line)
    }

    /// The blank with the pen, to be written.
    pub fn blank_mut(&mut self) -> Option<&mut Blank> {
        self.blanks.get_mut(self.at)?.get_mut(self.pen)
    }

    /// The line with the pen: item and line, as in `3.2`.
    pub fn pen_at(&self) -> String {
        format!("{}.{}", self.at + 1, self.pen + 1)
    }

    /// Writes a side sum into the line with the pen; says what became of it.
    pub fn carry_over(&mut self, text: &str) -> String {
        if let Some(blank) = self.blank_mut() {
            *blank = Blank::long(text);
            self.changed = true;
            self.told = false;
        }
        self.scroll.follow();
        format!("is carried over to line {}", self.pen_at())
    }

    /// Whether anything is written.
    pub fn is_begun(&self) -> bool {
        self.blanks.iter().flatten().any(|blank| !blank.is_empty())
    }

    /// The lines on which nothing is written: item and line, both from zero.
    pub fn open(&self) -> Vec<(usize, usize)> {
        let items = self.blanks.iter().enumerate();
        let lines = items.flat_map(|(at, lines)| {
            let lines = lines.iter().enumerate();
            lines.filter_map(move |(line, blank)| blank.is_empty().then_some((at, line)))
        });
        lines.collect()
    }

    /// Why what is written on a line cannot be read, if it cannot.
    pub fn why_unread(&self, (item, line): (usize, usize)) -> Option<String> {
        let asked = self.paper.items.get(item)?.lines.get(line)?;
        let blank = self.blanks.get(item)?.get(line)?;
        asked.unreadable(blank.trimmed(), self.decimal)
    }

    /// The lines on which something stands that cannot be read: item and line, from zero.
    pub fn unreadable(&self) -> Vec<(usize, usize)> {
        let items = self.blanks.iter().enumerate();
        let places = items.flat_map(|(at, lines)| (0..lines.len()).map(move |line| (at, line)));
        places
            .filter(|place| self.why_unread(*place).is_some())
            .collect()
    }

    /// Whether it is the instructor's own try.
    pub const fn is_tried(&self) -> bool {
        matches!(self.goes, Goes::Nowhere { .. })
    }

    /// What is written, item by item.
    pub fn written(&self) -> Vec<Vec<String>> {
        let text = |blank: &Blank| blank.trimmed().to_owned();
        let items = self.blanks.iter();
        items.map(|own| own.iter().map(text).collect()).collect()
    }

    /// What goes to the disk; nothing of the instructor's own try.
    pub fn answered(&self, whole: bool) -> Option<Answered> {
        let Goes::File(out) = &self.goes else {
            return None;
        };
        let mut answers = self.answers.clone();
        answers.items = self.written();
        Some(Answered {
            out: out.clone(),
            answers,
            whole,
        })
    }

    /// The tools that have a use here: none that helps.
    pub fn tools(&self) -> Vec<Tool> {
        let mut tools = Vec::new();
        if self.closing.is_none() {
            tools.push(Tool::HandIn);
            let drawn = self.item().is_some_and(|item| item.figure.is_some());
            tools.extend(drawn.then_some(Tool::Figure));
        }
        tools.extend(IN_AN_EXAM);
        tools
    }
}
