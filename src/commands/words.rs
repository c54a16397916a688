//! The glossary at the shell: all words, or what one means.

use std::collections::BTreeMap;

use pumpwright_engine::lessons::{Library, Word};

use super::json;
use crate::cli::Words;
use crate::console::Console;
use crate::failure::{self, Failure};

/// The lessons that explain each word.
type Explained = BTreeMap<String, Vec<String>>;

/// Room for a word before what it means.
const NAMES: usize = 26;

/// Prints all words with their meanings, or those that were asked for.
///
/// # Errors
/// When there is no such word.
pub fn run(asked: &Words, library: &Library, console: &mut Console) -> Result<(), Failure> {
    let found = found(asked, library)?;
    let lessons = library.lessons_by_word();
    if asked.json {
        return console.json(&json::Words {
            format: json::FORMAT,
            words: found.iter().map(|word| shape(word, &lessons)).collect(),
        });
    }
    if asked.word.is_some() && whole(asked, library, &found) {
        return in_full(&found, &lessons, console);
    }
    found
        .iter()
        .try_for_each(|word| console.hanging(&padded(&word.term), &word.means))
}

/// The words asked for: all, those of exactly that name, or those near it.
fn found<'a>(asked: &Words, library: &'a Library) -> Result<Vec<&'a Word>, Failure> {
    let glossary = library.glossary();
    let Some(typed) = &asked.word else {
        return Ok(glossary.words().iter().collect());
    };
    let exactly = glossary.exactly(typed);
    let found = if exactly.is_empty() {
        glossary.find(typed)
    } else {
        exactly
    };
    if found.is_empty() {
        let none: [&str; 0] = [];
        return Err(failure::unknown("word", typed, &none));
    }
    Ok(found)
}

/// Whether the words are told in full: those of exactly the name, or the only one.
fn whole(asked: &Words, library: &Library, found: &[&Word]) -> bool {
    let exactly = asked
        .word
        .as_ref()
        .is_some_and(|typed| !library.glossary().exactly(typed).is_empty());
    exactly || found.len() == 1
}

fn in_full(found: &[&Word], lessons: &Explained, console: &mut Console) -> Result<(), Failure> {
    for (at, word) in found.iter().enumerate() {
        if at > 0 {
            console.gap()?;
        }
        console.line(&word.term)?;
        console.hanging("  ", &word.means)?;
        if let Some(care) = &word.care {
            console.hanging("  Take care: ", care)?;
        }
        for (head, list) in [
            ("  Also: ", word.also.join(", ")),
            ("  Near it: ", word.near.join(", ")),
            ("  Lessons: ", explained(word, lessons).join(", ")),
        ] {
            if !list.is_empty() {
                console.hanging(head, &list)?;
            }
        }
    }
    Ok(())
}

/// The lessons that explain a word.
fn explained<'a>(word: &Word, lessons: &'a Explained) -> &'a [String] {
    lessons.get(&word.term).map_or(&[], Vec::as_slice)
}

fn shape(word: &Word, lessons: &Explained) -> json::Word {
    json::Word {
        term: word.term.clone(),
        also: word.also.clone(),
        means: word.means.clone(),
        care: word.care.clone(),
        near: word.near.clone(),
        lessons: explained(word, lessons).to_vec(),
    }
}

fn padded(term: &str) -> String {
    format!("{term:<NAMES$}  ")
}
