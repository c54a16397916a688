//! The glossary that ships: whole, plain, and enough for what the lessons mark.

#![allow(clippy::expect_used)]

mod common;

use common::shipped;
use pumpwright_engine::lessons::Library;

/// No word takes longer to explain.
const WORDS: usize = 20;

#[test]
fn there_are_126_words_and_more_and_each_is_short() {
    let library = shipped();
    let words = library.glossary().words();
    assert!(words.len() >= 126, "{}", words.len());
    for word in words {
        let count = word.means.split_whitespace().count();
        assert!((2..=WORDS).contains(&count), "{}: {count} words", word.term);
        assert!(!word.means.ends_with('.'), "{}", word.term);
        let first = word.means.chars().next().expect("a letter");
        assert!(!first.is_uppercase(), "{}", word.term);
        if let Some(care) = &word.care {
            assert!(care.ends_with('.'), "{}", word.term);
        }
    }
}

#[test]
fn every_word_that_a_lesson_marks_can_be_looked_up() {
    let library = shipped();
    let mut lost = Vec::new();
    for lesson in library.lessons() {
        for term in &lesson.terms {
            if library.glossary().exactly(term).is_empty() {
                lost.push(format!("{}: [{term}]", lesson.id));
            }
        }
    }
    assert!(lost.is_empty(), "{}", lost.join("\n"));
}

/// US spelling; a list of what slips in from the other side.
#[test]
fn words_are_spelled_as_in_the_states() {
    let library = shipped();
    for word in library.glossary().words() {
        for wrong in [
            "metre", "litre", "vapour", "colour", "licence", "earthed", "mould",
        ] {
            assert!(!word.means.contains(wrong), "{}: {wrong}", word.term);
        }
    }
}

/// A carried glossary is read when a word is first looked up: it must be the same.
#[test]
fn a_glossary_read_late_is_the_same() {
    let (late, faults) = Library::read_checked(&common::shipped_files());
    assert!(faults.is_empty());
    assert_eq!(late.glossary().words(), shipped().glossary().words());
}
