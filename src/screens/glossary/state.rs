//! The open glossary: what is looked for, the words that it leads to, and the one
//! that is read.

use std::collections::BTreeMap;

use pumpwright_engine::lessons::{Glossary, Library, Word};

use crate::blank::Blank;
use crate::layout::Scroll;

/// The open glossary.
#[derive(Debug, Clone)]
pub struct WordBook {
    glossary: Glossary,
    /// The words that stand in the text under it, in their order there.
    here: Vec<String>,
    /// The lessons that explain each word.
    lessons: BTreeMap<String, Vec<String>>,
    /// The letters that are looked for.
    pub blank: Blank,
    /// The place of the word that is read among those listed.
    pub at: usize,
    /// Where it stands.
    pub scroll: Scroll,
}

impl WordBook {
    /// The glossary, with the words of a text first.
    pub fn new(library: &Library, text: &str) -> Self {
        let glossary = library.glossary().clone();
        let here = glossary.standing_in(text).into_iter();
        Self {
            here: here.map(|word| word.term.clone()).collect(),
            lessons: library.lessons_by_word(),
            glossary,
            blank: Blank::default(),
            at: 0,
            scroll: Scroll::default(),
        }
    }

    /// How many words there are.
    pub fn count(&self) -> usize {
        self.glossary.words().len()
    }

    /// How many of them stand in the text under it.
    pub fn here(&self) -> usize {
        self.here.len()
    }

    /// Whether a word stands in the text under it.
    pub fn is_here(&self, word: &Word) -> bool {
        self.here.contains(&word.term)
    }

    /// The words that are listed: those that the letters lead to, or all, those of the
    /// text first.
    pub fn listed(&self) -> Vec<&Word> {
        if !self.blank.is_empty() {
            return self.glossary.find(self.blank.trimmed());
        }
        let here = self
            .here
            .iter()
            .flat_map(|term| self.glossary.exactly(term));
        let rest = self
            .glossary
            .words()
            .iter()
            .filter(|word| !self.is_here(word));
        here.chain(rest).collect()
    }

    /// The word that is read.
    pub fn word(&self) -> Option<&Word> {
        let listed = self.listed();
        listed.get(self.at).copied()
    }

    /// The lessons that explain a word.
    pub fn lessons(&self, word: &Word) -> &[String] {
        self.lessons.get(&word.term).map_or(&[], Vec::as_slice)
    }

    /// Goes to a word among those listed.
    pub fn open(&mut self, at: usize) {
        self.at = at;
        self.scroll = Scroll::default();
    }
}
