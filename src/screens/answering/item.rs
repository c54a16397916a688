//! An item as it is asked: its caution, its job and the lines to be written, which a
//! sample of the plan shows as well.

use pumpwright_engine::classes::sit::{Lettered, SitAsks, SitItem, SitLine};

use crate::blank::Blank;
use crate::page::{Cell, Entry, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 3;
const LABEL: usize = 24;

/// The marks and the job in a few words.
pub fn head(item: &SitItem) -> Entry {
    let cells = vec![
        Cell::columns(words::count(item.marks as usize, "mark", "marks"), 10),
        Cell::rest(item.title.as_str()).bold(),
    ];
    Entry::of(Role::Head, cells)
}

/// The caution, where there is one.
pub fn caution(item: &SitItem) -> Option<Entry> {
    let text = item.caution.as_deref()?;
    let cells = vec![
        Cell::columns("CAUTION", crate::layout::LABEL).bold(),
        Cell::rest(text),
    ];
    Some(Entry::of(Role::Caution, cells).signed(Some(Sign::Caution)))
}

/// The job and its figure as a list, without the lines.
pub fn job(item: &SitItem) -> Vec<Entry> {
    story(item).chain(listed(item)).collect()
}

fn story(item: &SitItem) -> impl Iterator<Item = Entry> {
    let story = item.text.iter();
    story.map(|text| Entry::text(Role::Text, text.as_str()))
}

/// The job, its figure as a list, and the lines; what is written and the line with the pen,
/// where somebody writes. There the list stands last, so that job and lines are in sight at
/// once.
pub fn lines(item: &SitItem, written: &[Blank], pen: Option<usize>, width: usize) -> Vec<Entry> {
    let mut entries: Vec<Entry> = story(item).collect();
    if pen.is_none() {
        entries.extend(listed(item));
    }
    entries.push(Entry::rule());
    for (at, line) in item.lines.iter().enumerate() {
        entries.extend(asked(line, written.get(at), pen == Some(at), width));
    }
    if pen.is_some() && item.figure.is_some() {
        entries.push(Entry::rule());
        entries.extend(listed(item));
    }
    entries.push(Entry::gap());
    entries.push(Entry::text(Role::Note, item.code.as_str()));
    entries
}

/// The figure as a list. Its caution stands above already, where it is not scrolled away.
fn listed(item: &SitItem) -> impl Iterator<Item = Entry> {
    let list = item.figure.iter().flat_map(|figure| &figure.list);
    let said = |line: &&String| item.caution.is_some() && line.starts_with("caution: ");
    let list = list.filter(move |line| !said(line));
    list.map(|line| Entry::text(Role::Note, line.as_str()))
}

/// How wide a blank is: an arrangement wants more room than a letter.
const fn room(asks: &SitAsks, width: usize) -> usize {
    match asks {
        SitAsks::Order(_) | SitAsks::Match { .. } if width >= 70 => 24,
        _ => 12,
    }
}

fn asked(line: &SitLine, written: Option<&Blank>, pen: bool, width: usize) -> Vec<Entry> {
    let unit = line.unit.as_deref().unwrap_or("");
    let text = written.map_or("", Blank::text);
    let cursor = written.filter(|_| pen).map(Blank::before);
    let cells = vec![
        Cell::columns(line.number.to_string(), NUMBER),
        Cell::columns(line.label.as_str(), LABEL).hang(1),
        Cell::blank(text, room(&line.asks, width), cursor),
        Cell::rest(format!(" {unit}  {}", line.form)).hang(1),
    ];
    let row = Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen);
    let mut entries = vec![row];
    let offer = |mark: &str, text: &str| {
        let cells = vec![
            Cell::columns("", 4),
            Cell::columns(mark, 4),
            Cell::rest(text),
        ];
        Entry::of(Role::Offer, cells)
    };
    let lettered = |list: &[Lettered]| -> Vec<Entry> {
        (list.iter())
            .map(|one| offer(&one.letter, &one.text))
            .collect()
    };
    let numbered = |list: &[String]| -> Vec<Entry> {
        let list = list.iter().enumerate();
        list.map(|(at, text)| offer(&(at + 1).to_string(), text))
            .collect()
    };
    match &line.asks {
        SitAsks::Figure | SitAsks::Row => {}
        SitAsks::Pick(offers) => entries.extend(lettered(offers)),
        SitAsks::Order(jobs) => entries.extend(numbered(jobs)),
        SitAsks::Match { parts, meanings } => {
            entries.extend(numbered(parts));
            entries.extend(lettered(meanings));
        }
    }
    entries
}
