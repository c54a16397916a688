//! The book with the page at which it lies open.

use super::leaf::{Leaf, find};
use crate::blank::Blank;
use crate::layout::Scroll;

/// The open book.
#[derive(Debug, Clone)]
pub struct Tables {
    /// Its tables.
    pub leaves: Vec<Leaf>,
    /// The one that lies open.
    pub at: usize,
    /// The number or the word that is looked for.
    pub blank: Blank,
    /// Whether the book wrote that number, and not the learner.
    pub by_page: bool,
    /// The number of the sheet's line from which one came.
    pub line: Option<usize>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Tables {
    /// The book, open at a table.
    pub fn new(leaves: Vec<Leaf>, at: usize, line: Option<usize>) -> Self {
        let mut tables = Self {
            leaves,
            at: 0,
            blank: Blank::default(),
            by_page: true,
            line,
            scroll: Scroll::default(),
        };
        tables.open(at);
        tables
    }

    /// The table that lies open.
    pub fn leaf(&self) -> Option<&Leaf> {
        self.leaves.get(self.at)
    }

    /// The word that is looked for; none where the blank holds a number or nothing.
    pub fn word(&self) -> Option<&str> {
        let word = self.blank.trimmed();
        let number = word.parse::<usize>().is_ok();
        (!self.by_page && !number && !word.is_empty()).then_some(word)
    }

    /// The tables through which Up and Down go: those with the word, or all.
    pub fn run(&self) -> Vec<usize> {
        match self.word() {
            Some(word) => find(&self.leaves, word),
            None => (0..self.leaves.len()).collect(),
        }
    }

    /// Opens the book at a table; a word that is looked for stays.
    pub fn open(&mut self, at: usize) {
        self.at = at.min(self.leaves.len().saturating_sub(1));
        self.scroll = Scroll::default();
        if self.word().is_none() {
            self.blank = Blank::holding(&(self.at + 1).to_string());
            self.by_page = true;
        }
    }

    /// Opens the book at the first table that the blank names.
    pub fn look(&mut self) {
        if let Some(&at) = find(&self.leaves, self.blank.trimmed()).first() {
            self.at = at;
        }
        self.scroll = Scroll::default();
    }
}
