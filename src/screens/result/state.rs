//! A marked paper, and what of it is on the disk.

use std::rc::Rc;

use pumpwright_engine::entries::Entry;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::papers::{MarkedPaper, mark_paper};

use crate::blank::Blank;
use crate::clerk::Receipt;
use crate::layout::Scroll;
use crate::picked::Picked;
use crate::sitting::Sitting;
use crate::through::Through;

/// A marked paper.
#[derive(Debug, Clone)]
pub struct PaperResult {
    /// What was written.
    pub sitting: Sitting,
    /// How it was marked.
    pub marked: MarkedPaper,
    /// The line that is taken.
    pub picked: Picked,
    /// When it was handed in, by the person's clock: `21:14`.
    pub handed_in: String,
    /// Whether there is a logbook that keeps it.
    pub kept: bool,
    /// What is not on the disk yet.
    pub on_its_way: Vec<Entry>,
    /// Why something could not be written down, if it could not.
    pub trouble: Option<String>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl PaperResult {
    /// Marks a sitting.
    pub fn new(sitting: Sitting, manner: Manner) -> Self {
        let marked = mark_paper(&sitting.paper, &sitting.responses(), manner);
        let pen = marked.weakest().unwrap_or(0);
        let mut result = Self {
            sitting,
            marked,
            picked: Picked::default(),
            handed_in: String::new(),
            kept: false,
            on_its_way: Vec::new(),
            trouble: None,
            scroll: Scroll::default(),
        };
        result.go(pen);
        result
    }

    /// Moves the pen to an area, which writes its number.
    pub fn go(&mut self, area: usize) {
        self.picked.go(area, self.marked.areas.len());
        self.scroll.follow();
    }

    /// The area whose number is written.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.marked.areas.len())
    }

    /// Takes a receipt in; says whether it was one of its own.
    pub fn receipt(&mut self, receipt: &Receipt) -> bool {
        let (Receipt::Kept(id) | Receipt::NotKept(id, _)) = receipt;
        let Some(at) = self.on_its_way.iter().position(|entry| entry.id == *id) else {
            return false;
        };
        match receipt {
            Receipt::Kept(_) => {
                self.on_its_way.remove(at);
            }
            Receipt::NotKept(_, why) => {
                if self.trouble.is_none() {
                    self.picked.number = Blank::default();
                }
                self.trouble = Some(why.clone());
            }
        }
        true
    }

    /// Whether the marks may be shown: nothing is on its way any more.
    pub fn is_written_down(&self) -> bool {
        self.on_its_way.is_empty()
    }

    /// The questions of an area that did not earn all; all of its questions where none did.
    pub fn to_go_through(&self, area: usize) -> (Vec<usize>, bool) {
        let own = |at: &usize| {
            let question = self.sitting.paper.questions.get(*at);
            question.is_some_and(|question| question.area == area)
        };
        let all: Vec<usize> = (0..self.marked.questions.len()).filter(own).collect();
        let lost: Vec<usize> = all
            .iter()
            .copied()
            .filter(|at| !self.is_right(*at))
            .collect();
        if lost.is_empty() {
            (all, true)
        } else {
            (lost, false)
        }
    }

    fn is_right(&self, at: usize) -> bool {
        let marked = self.marked.questions.get(at);
        marked.is_some_and(pumpwright_engine::papers::MarkedQuestion::is_right)
    }

    /// The worked questions at these places of the paper.
    pub fn through(&self, questions: &[usize], of: String) -> Through {
        let pages = questions.iter().filter_map(|at| {
            let sheet = self.sitting.sheets.get(*at)?;
            let marked = self.marked.questions.get(*at)?;
            Some((at + 1, Rc::clone(&sheet.problem), marked.clone(), sheet))
        });
        Through::new(pages, of)
    }
}
