//! A paper that was tried: its marks as a class's are worked out.

use std::rc::Rc;

use pumpwright_engine::classes::Paper;
use pumpwright_engine::classes::marks::{HandIn, MarkedItem, Ready, Way, mark_paper};
use pumpwright_engine::classes::printed::PrintedPaper;
use pumpwright_engine::marking::{Manner, Marks, Response};
use pumpwright_engine::problems::Rebuilt;

use crate::layout::Scroll;
use crate::picked::Picked;
use crate::worked::Worked;

/// A paper that was tried.
#[derive(Debug, Clone)]
pub struct Trial {
    /// The paper.
    pub ready: Rc<Ready>,
    /// What was written, item by item.
    pub written: Vec<Vec<String>>,
    /// What it earned.
    pub marked: Vec<MarkedItem>,
    /// The minutes that it took.
    pub minutes: i64,
    /// The item that is taken.
    pub picked: Picked,
    /// Where it stands.
    pub scroll: Scroll,
}

/// A drawn paper, ready to be marked as a printed one is.
pub fn ready(paper: &Paper) -> Ready {
    let problem = |item: &pumpwright_engine::classes::PaperItem| Rebuilt {
        problem: (*item.problem).clone(),
        differs: Vec::new(),
    };
    Ready {
        // It was never printed, so no lesson text and no file belong to it.
        printed: PrintedPaper::of(paper, "", ""),
        problems: paper.items.iter().map(|item| Ok(problem(item))).collect(),
    }
}

impl Trial {
    /// Marks what was written.
    pub fn of(ready: Rc<Ready>, written: Vec<Vec<String>>, minutes: i64, manner: Manner) -> Self {
        let hand_in = HandIn {
            paper: ready.printed.person.id.clone(),
            way: Way::Screen,
            at: None,
            zone: 0,
            items: written,
        };
        let marked = mark_paper(&ready, &hand_in, manner);
        let lost = marked.iter().position(|item| item.score != item.bears);
        let mut trial = Self {
            ready,
            written: hand_in.items,
            marked,
            minutes,
            picked: Picked::default(),
            scroll: Scroll::default(),
        };
        trial.go(lost.unwrap_or(0));
        trial
    }

    /// The marks earned.
    pub fn score(&self) -> Marks {
        self.marked.iter().map(|item| item.score).sum()
    }

    /// Moves the pen to an item, which writes its number.
    pub fn go(&mut self, item: usize) {
        self.picked.go(item, self.marked.len());
        self.scroll.follow();
    }

    /// The item whose number is written.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.marked.len())
    }

    /// The item with the pen worked, beside what was written.
    pub fn worked(&self) -> Option<Worked> {
        let at = self.picked.pen;
        let problem = &self.ready.problems.get(at)?.as_ref().ok()?.problem;
        let marked = self.marked.get(at)?.marked.clone();
        let written = self.written.get(at)?;
        let answers = problem.asked().zip(written);
        let answers = answers.map(|((_, line), text)| (line.id.clone(), text.clone()));
        let mut worked = Worked::new(Rc::new(problem.clone()), marked);
        worked.written = Some(Response {
            answers: answers.collect(),
        });
        Some(worked)
    }
}
