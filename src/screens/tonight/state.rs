//! The front page of an evening.

use super::plan::Planned;
use crate::blank::Blank;
use crate::jobs::Waiting;
use crate::layout::Scroll;

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
    /// The line with the pen.
    pub pen: usize,
    /// The number in the blank at the foot.
    pub written: Blank,
    /// Whether the pen wrote that number.
    pub by_pen: bool,
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
        self.pen = line.min(self.count().saturating_sub(1));
        self.written = Blank::holding(&(self.pen + 1).to_string());
        self.by_pen = true;
        self.scroll.follow();
    }

    /// The line that Enter takes; none where there is no such line.
    pub fn named(&self) -> Option<usize> {
        let number: usize = self.written.trimmed().parse().ok()?;
        (1..=self.count()).contains(&number).then(|| number - 1)
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
