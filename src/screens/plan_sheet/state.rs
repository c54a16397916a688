//! The plan on the screen, and which sample is looked at.

use pumpwright_engine::classes::{Paper, PaperItem};
use pumpwright_engine::problems::working;

use crate::answering::Answering;
use crate::layout::Scroll;
use crate::office::Samples;
use crate::picked::Picked;

/// How many samples of an item there are.
pub const SAMPLES: usize = 3;

/// The paper of this number for a try: none of the samples, whose answers stand beside the
/// plan, as long as there are others.
pub fn unseen(papers: &[Paper], number: usize) -> Option<&Paper> {
    let others = papers.get(SAMPLES..).filter(|others| !others.is_empty());
    let others = others.unwrap_or(papers);
    others.get(number % others.len().max(1))
}

/// The plan.
#[derive(Debug, Clone)]
pub struct PlanSheet {
    /// The plan with papers drawn from it.
    pub samples: Box<Samples>,
    /// The item that is taken.
    pub picked: Picked,
    /// The sample that is looked at, from zero.
    pub sample: usize,
    /// The instructor's own try of it, while it waits half-way.
    pub tried: Option<Box<Answering>>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl PlanSheet {
    /// A plan with its samples, at the first item.
    pub fn new(samples: Box<Samples>) -> Self {
        let mut sheet = Self {
            samples,
            picked: Picked::default(),
            sample: 0,
            tried: None,
            scroll: Scroll::default(),
        };
        sheet.go(0);
        sheet
    }

    /// How many items a paper has.
    pub fn count(&self) -> usize {
        self.samples.plan.count() as usize
    }

    /// Moves the pen to an item, which writes its number; the first sample is looked at.
    pub fn go(&mut self, item: usize) {
        self.picked.go(item, self.count());
        self.sample = 0;
        self.scroll.follow();
    }

    /// The item whose number is written.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.count())
    }

    /// A sample of an item.
    pub fn drawn(&self, item: usize, sample: usize) -> Option<&PaperItem> {
        let paper = self.samples.papers.get(sample)?;
        paper.items.iter().find(|own| own.place == item)
    }

    /// What a sample comes to.
    pub fn answer(&self, item: usize, sample: usize) -> String {
        let Some(own) = self.drawn(item, sample) else {
            return String::new();
        };
        let last = own.problem.asked().last().map(|(_, line)| line.id.clone());
        let worked = working(&own.problem).into_iter();
        let mut worked = worked.filter(|line| Some(&line.id) == last.as_ref());
        worked.next().map_or_else(String::new, |line| line.text)
    }

    /// The letter of a sample.
    pub fn letter(sample: usize) -> char {
        ['A', 'B', 'C'].get(sample).copied().unwrap_or('A')
    }
}
