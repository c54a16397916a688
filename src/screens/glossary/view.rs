//! How the glossary is laid out: the blank, the words around the one that is read,
//! and under them what it means.

use pumpwright_engine::lessons::Word;

use super::WordBook;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;
use crate::wrap::cells as wide;

/// As many words as are listed at a time.
const LISTED: usize = 5;
/// Room for a word before what it means.
const NAME: usize = 30;
/// Room for the number of a word.
const NUMBER: usize = 5;
/// Room for what stands before a list under a word.
const HEAD: usize = 12;

/// The page of the glossary in so many columns.
pub fn page(book: &WordBook, width: usize) -> Page {
    let listed = book.listed();
    let mut fixed = vec![search(book, listed.len()), Entry::rule()];
    fixed.extend(list(book, &listed, width));
    fixed.push(Entry::rule());
    let flow = match book.word() {
        Some(word) => told(book, word),
        None => vec![Entry::text(
            Role::Note,
            "No word begins so, and none is written much like it. Write fewer letters.",
        )],
    };
    Page {
        title: "GLOSSARY".into(),
        place: words::count(book.count(), "word", "words"),
        fixed,
        flow,
        beyond: beyond(book, listed.len()),
        next: "Enter: put the glossary away, back to where you were".into(),
        strip: vec![
            hint(Key::Enter, "put away"),
            hint(Key::UpDown, "word by word"),
            hint(Key::Ask, "ask"),
            hint(Key::Pages, "read on"),
            hint(Key::Escape, "put away"),
        ],
        ..Page::default()
    }
}

fn search(book: &WordBook, found: usize) -> Entry {
    let beside = match (book.blank.is_empty(), found, book.here()) {
        (true, _, 0) => "the first letters are enough".to_owned(),
        (true, _, here) => format!(
            "the first letters are enough; {} here",
            words::count(here, "stands", "stand")
        ),
        (false, 0, _) => "no word is like this".to_owned(),
        (false, found, _) => words::count(found, "word", "words"),
    };
    let cells = vec![
        Cell::columns("Word", 8),
        Cell::blank(book.blank.text(), 16, Some(book.blank.before())),
        Cell::columns("", 1),
        Cell::rest(beside),
    ];
    Entry::of(Role::Line, cells)
}

/// The words around the one that is read; what they mean is cut to one row.
fn list(book: &WordBook, listed: &[&Word], width: usize) -> Vec<Entry> {
    let first = (book.at.saturating_sub(LISTED / 2)).min(listed.len().saturating_sub(LISTED));
    let room = width.saturating_sub(2 + NUMBER + NAME);
    let rows = listed.iter().enumerate().skip(first).take(LISTED);
    rows.map(|(at, word)| {
        let pen = at == book.at;
        let mut cells = vec![Cell::columns((at + 1).to_string(), NUMBER)];
        if room >= NAME {
            cells.push(Cell::columns(word.term.as_str(), NAME));
            cells.push(Cell::rest(shortened(&word.means, room)));
        } else {
            cells.push(Cell::rest(word.term.as_str()));
        }
        Entry::of(Role::Line, cells).signed(pen.then_some(Sign::Pen))
    })
    .collect()
}

/// As many whole words of a meaning as have room; the rest stands under the list.
fn shortened(means: &str, room: usize) -> String {
    if wide(means) <= room {
        return means.to_owned();
    }
    let mut short = String::new();
    for word in means.split(' ') {
        if wide(&short) + wide(word) + 4 > room {
            break;
        }
        short.push_str(word);
        short.push(' ');
    }
    short + "..."
}

/// The word that is read.
fn told(book: &WordBook, word: &Word) -> Vec<Entry> {
    let mut lines = vec![
        Entry::heading(word.term.as_str()),
        Entry::gap(),
        Entry::text(Role::Text, words::sentence(&word.means)),
    ];
    if let Some(care) = &word.care {
        lines.push(Entry::gap());
        lines.push(Entry::text(Role::Text, format!("Take care: {care}")));
    }
    lines.push(Entry::gap());
    for (head, list) in [
        ("Also", word.also.join(", ")),
        ("Near it", word.near.join(", ")),
        ("Lessons", book.lessons(word).join(", ")),
    ] {
        if !list.is_empty() {
            let cells = vec![Cell::columns(head, HEAD), Cell::rest(list)];
            lines.push(Entry::of(Role::Note, cells));
        }
    }
    lines
}

fn beyond(book: &WordBook, listed: usize) -> String {
    let (above, below) = (book.at, listed.saturating_sub(book.at + 1));
    match (above, below) {
        (0, 0) => String::new(),
        (0, below) => format!("{} below: Down", words::count(below, "word", "words")),
        (above, 0) => format!("{} above: Up", words::count(above, "word", "words")),
        (above, below) => format!(
            "{} above, {below} below: Up Down",
            words::count(above, "word", "words")
        ),
    }
}
