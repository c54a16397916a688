//! The list of lessons and jobs, with the pen at one line of it.

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

/// What a line of the list is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Takes {
    /// A lesson to read, by its id.
    Lesson(String),
    /// A job to work, by its family.
    Family(String),
}

/// A line that can be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// What it is for.
    pub takes: Takes,
    /// Its title.
    pub title: String,
    /// The title of its lesson, by which it is found too.
    pub lesson: String,
    /// Minutes that it may take.
    pub minutes: Option<u32>,
}

impl Job {
    /// The id of the lesson or family.
    pub fn id(&self) -> &str {
        match &self.takes {
            Takes::Lesson(id) | Takes::Family(id) => id,
        }
    }

    fn has(&self, word: &str) -> bool {
        let has = |text: &str| text.to_lowercase().contains(word);
        has(&self.title) || has(self.id()) || has(&self.lesson)
    }
}

/// The list of lessons and jobs.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Jobs {
    /// Whose list it is, if that is known.
    pub name: String,
    /// The sheets that wait, the last one first.
    pub waiting: Vec<Waiting>,
    /// Every lesson, each before its jobs.
    pub all: Vec<Job>,
    /// Whether it lies over the front page of an evening.
    pub over: bool,
    /// Lesson files that cannot be read.
    pub faults: usize,
    /// The line with the pen.
    pub pen: usize,
    /// The number or word in the blank at the foot.
    pub written: Blank,
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

    /// What stands at a line behind the sheets that wait.
    pub fn job(&self, line: usize) -> Option<&Job> {
        self.all.get(line.checked_sub(self.waiting.len())?)
    }

    /// The word that narrows the list; none where the blank holds a number.
    pub fn word(&self) -> Option<String> {
        let word = self.written.trimmed().to_lowercase();
        let number = word.chars().all(|sign| sign.is_ascii_digit());
        (!number).then_some(word)
    }

    /// Whether a line is in the list as it is narrowed.
    pub fn is_listed(&self, line: usize) -> bool {
        let Some(word) = self.word() else {
            return true;
        };
        match (self.waiting.get(line), self.job(line)) {
            (Some(waiting), _) => waiting.family.contains(&word),
            (None, Some(job)) => job.has(&word),
            (None, None) => false,
        }
    }

    /// The lines of the list as it is narrowed.
    pub fn listed(&self) -> Vec<usize> {
        (0..self.count())
            .filter(|&line| self.is_listed(line))
            .collect()
    }

    /// Puts the pen at a line; writes its number, unless a word is written.
    pub fn go(&mut self, line: usize) {
        self.pen = line.min(self.count().saturating_sub(1));
        if self.word().is_none() {
            self.written = Blank::holding(&(self.pen + 1).to_string());
            self.by_pen = true;
        }
        self.scroll.follow();
    }

    /// The line that Enter takes; none where there is no such line.
    pub fn named(&self) -> Option<usize> {
        if self.word().is_some() {
            return Some(self.pen).filter(|&line| self.is_listed(line));
        }
        let number: usize = self.written.trimmed().parse().ok()?;
        (1..=self.count()).contains(&number).then(|| number - 1)
    }

    /// Takes the word out of the blank, so that every line is listed again.
    pub fn widen(&mut self, line: usize) {
        self.written = Blank::default();
        self.go(line);
    }

    /// Puts the sheets that wait at the head of the list, the pen at the first line.
    pub fn set_waiting(&mut self, waiting: Vec<Waiting>) {
        self.waiting = waiting;
        self.written = Blank::default();
        self.go(0);
        self.scroll.top = 0;
    }
}
