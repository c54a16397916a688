//! The front page of an evening.

use super::plan::Planned;
use crate::jobs::Waiting;
use crate::layout::Scroll;
use crate::picked::Picked;

/// The front page of an evening.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tonight {
    /// Whose it is.
    pub name: String,
    /// The day, with its weekday.
    pub day: String,
    /// The exam date and what is left until then, if one is set.
    pub exam: Option<String>,
    /// The sheets that wait, the last one first.
    pub waiting: Vec<Waiting>,
    /// The jobs that are left of the evening.
    pub plan: Vec<Planned>,
    /// Whether any job of the evening was done.
    pub begun: bool,
    /// What stands under the list.
    pub notes: Vec<String>,
    /// Lesson files that cannot be read.
    pub faults: usize,
    /// The line that is taken.
    pub picked: Picked,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Tonight {
    /// How many lines can be taken.
    pub const fn count(&self) -> usize {
        self.waiting.len() + self.plan.len()
    }

    /// Puts the pen at a line, and writes its number.
    pub fn go(&mut self, line: usize) {
        self.picked.go(line, self.count());
        self.scroll.follow();
    }

    /// The line that Enter takes; none where there is no such line.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.count())
    }

    /// The job of a line behind the sheets that wait.
    pub fn planned(&self, line: usize) -> Option<&Planned> {
        self.plan.get(line.checked_sub(self.waiting.len())?)
    }

    /// Whether nothing is left of the evening.
    pub const fn is_over(&self) -> bool {
        self.count() == 0
    }

    /// Puts the sheets that wait at the head of the list.
    pub fn set_waiting(&mut self, waiting: Vec<Waiting>) {
        self.waiting = waiting;
        self.go(0);
        self.scroll.top = 0;
    }
}
