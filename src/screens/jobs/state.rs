//! The list of jobs, with the pen at one of them.

use crate::blank::Blank;
use crate::layout::Scroll;

/// A sheet that was left half-way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Waiting {
    /// Its family.
    pub family: String,
    /// The line at which it stopped.
    pub line: usize,
    /// How many lines it has.
    pub lines: usize,
    /// Whether it was handed in and has a line to mend.
    pub handed_in: bool,
}

/// A job that can be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// Its family.
    pub family: String,
    /// Its title.
    pub title: String,
    /// The title of its lesson.
    pub lesson: String,
    /// Minutes that it may take.
    pub minutes: Option<u32>,
}

/// The list of jobs.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Jobs {
    /// The sheets that wait, the last one first.
    pub waiting: Vec<Waiting>,
    /// Every job.
    pub all: Vec<Job>,
    /// Lesson files that cannot be read.
    pub faults: usize,
    /// The line with the pen.
    pub pen: usize,
    /// The number in the blank at the foot.
    pub number: Blank,
    /// Whether the pen wrote that number, and not the learner.
    pub by_pen: bool,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Jobs {
    /// A list with the pen at its first line.
    pub fn new(jobs: Vec<Job>, faults: usize) -> Self {
        let mut list = Self {
            all: jobs,
            faults,
            ..Self::default()
        };
        list.go(0);
        list
    }

    /// How many lines there are.
    pub fn count(&self) -> usize {
        self.waiting.len() + self.all.len()
    }

    /// Puts the pen at a line and writes its number.
    pub fn go(&mut self, line: usize) {
        self.pen = line.min(self.count().saturating_sub(1));
        self.number = Blank::holding(&(self.pen + 1).to_string());
        self.by_pen = true;
        self.scroll.follow();
    }

    /// The line that the blank names; none where there is no such line.
    pub fn named(&self) -> Option<usize> {
        let number: usize = self.number.trimmed().parse().ok()?;
        (1..=self.count()).contains(&number).then(|| number - 1)
    }

    /// Puts the sheets that wait at the head of the list, the pen at the first line.
    pub fn set_waiting(&mut self, waiting: Vec<Waiting>) {
        self.waiting = waiting;
        self.go(0);
        self.scroll.top = 0;
    }
}
