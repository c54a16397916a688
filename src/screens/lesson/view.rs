//! What a page of a lesson shows: the caution above, the part under it.

use super::state::{Leaf, LessonPages, Next};
use crate::keys::{Key, hint};
use crate::layout::LABEL;
use crate::page::{Cell, Entry, Page, Role};
use crate::tables;
use crate::theme::Sign;

/// The page that is read, in so many columns.
pub fn page(lesson: &LessonPages, width: usize) -> Page {
    let leaf = lesson.leaf();
    let mut fixed = vec![Entry::heading(lesson.title.to_uppercase()), Entry::rule()];
    if let Some(text) = leaf.and_then(|leaf| leaf.caution.as_ref()) {
        let cells = vec![Cell::columns("CAUTION", LABEL), Cell::rest(text.as_str())];
        fixed.push(Entry::of(Role::Caution, cells).signed(Some(Sign::Caution)));
        fixed.push(Entry::rule().signed(Some(Sign::Caution)));
    }
    let enter = match lesson.next() {
        Next::Page(_) => "read on",
        Next::Worked(_) => "worked sheet",
        Next::End => "front page",
    };
    Page {
        title: "LESSON".into(),
        place: format!(
            "{}, page {} of {}",
            lesson.id,
            lesson.at + 1,
            lesson.pages.len()
        ),
        fixed,
        flow: leaf.map(|leaf| lines(leaf, width)).unwrap_or_default(),
        next: next(lesson),
        next_below: Some("Enter: read on".into()),
        strip: vec![
            hint(Key::Enter, enter),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask: N try one now"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn lines(leaf: &Leaf, width: usize) -> Vec<Entry> {
    let mut lines = leaf.lines.clone();
    if let Some(table) = &leaf.table {
        lines.push(Entry::gap());
        lines.extend(tables::under_text(table, width));
    }
    if let Some(worked) = &leaf.worked {
        lines.extend(crate::worked::whole(worked, width));
    }
    lines.extend(leaf.closing.iter().cloned());
    lines
}

fn next(lesson: &LessonPages) -> String {
    match lesson.next() {
        Next::Page(leaf) => format!("Enter: read on, to \"{}\"", leaf.head),
        Next::Worked(family) => format!("Enter: a worked sheet of {family}, then one for you"),
        Next::End => "Enter: the front page".to_owned(),
    }
}
