//! The instructor's own try in plain lines: its marks, and its items worked.

use pumpwright_engine::classes::Paper;
use pumpwright_engine::marking::Manner;

use crate::page::Page;
use crate::theme::Look;
use crate::trial::{self, Trial, ready};
use crate::worked;

/// The columns that a page is made for; in plain lines no line is broken at them.
const WIDTH: usize = 76;

/// A paper that was tried, marked.
#[derive(Debug)]
pub struct TrialPlain {
    trial: Trial,
    look: Look,
}

impl TrialPlain {
    /// Marks what was written on a paper, item by item, in so many minutes.
    pub fn of(
        paper: &Paper,
        (written, minutes): (Vec<Vec<String>>, i64),
        manner: Manner,
        ascii: bool,
    ) -> Self {
        Self {
            trial: Trial::of(ready(paper).into(), written, minutes, manner),
            look: Look {
                ascii,
                colour: false,
            },
        }
    }

    /// How many items it has.
    pub fn items(&self) -> usize {
        self.trial.marked.len()
    }

    /// The whole, the time, and what each item earned.
    pub fn marks(&self) -> Vec<String> {
        self.said(trial::page(&self.trial, WIDTH))
    }

    /// The item of this number, from one, worked beside what was written.
    pub fn worked(&mut self, item: usize) -> Option<Vec<String>> {
        let at = item.checked_sub(1).filter(|at| *at < self.items())?;
        self.trial.go(at);
        let worked = self.trial.worked()?;
        Some(self.said(worked::page(&worked, WIDTH)))
    }

    /// A page without what keys do there.
    fn said(&self, mut page: Page) -> Vec<String> {
        page.foot.clear();
        let mut lines = page.plain(self.look);
        // What Enter does on the screen stands last.
        let _ = lines.pop();
        lines
    }
}
