//! A sample of an item as it will be printed: what the person will read, nothing more.

use pumpwright_engine::classes::sit::{Lettered, SitAsks, SitItem, SitLine, SitPaper};

use super::state::PlanSheet;
use crate::page::{Cell, Entry, Role};
use crate::reading::Reading;
use crate::words;

/// The sample that is looked at.
pub fn sample(sheet: &PlanSheet) -> Option<Reading> {
    let paper = sheet.samples.papers.get(sheet.sample)?;
    let number = sheet.drawn(sheet.picked.pen, sheet.sample)?.number;
    let paper = SitPaper::of(paper);
    let item = paper.items.iter().find(|item| item.number == number)?;
    let letter = PlanSheet::letter(sheet.sample);
    let title = format!("ITEM {}, SAMPLE {letter}", sheet.picked.pen + 1);
    let (fixed, lines) = (head(item), lines(item));
    Some(Reading {
        fixed,
        ..Reading::new(&title, "as it will be printed", lines)
    })
}

/// What is never scrolled away.
fn head(item: &SitItem) -> Vec<Entry> {
    let head = vec![
        Cell::columns(words::count(item.marks as usize, "mark", "marks"), 10),
        Cell::rest(item.title.as_str()).bold(),
    ];
    let mut entries = vec![Entry::of(Role::Head, head)];
    if let Some(caution) = &item.caution {
        let cells = vec![
            Cell::columns("CAUTION", crate::layout::LABEL).bold(),
            Cell::rest(caution.as_str()),
        ];
        let caution = Entry::of(Role::Caution, cells);
        entries.push(caution.signed(Some(crate::theme::Sign::Caution)));
    }
    entries.push(Entry::rule());
    entries
}

fn lines(item: &SitItem) -> Vec<Entry> {
    let mut entries = Vec::new();
    entries.extend((item.text.iter()).map(|text| Entry::text(Role::Text, text.as_str())));
    for line in item.figure.iter().flat_map(|figure| &figure.list) {
        entries.push(Entry::text(Role::Note, line.as_str()));
    }
    entries.push(Entry::rule());
    for line in &item.lines {
        entries.extend(asked(line));
    }
    entries.push(Entry::gap());
    entries.push(Entry::text(Role::Note, item.code.as_str()));
    entries
}

fn asked(line: &SitLine) -> Vec<Entry> {
    let unit = line.unit.as_deref().unwrap_or("");
    let cells = vec![
        Cell::columns(line.number.to_string(), 3),
        Cell::columns(line.label.as_str(), 24).hang(1),
        Cell::blank("", 12, None),
        Cell::rest(format!(" {unit}  {}", line.form)).hang(1),
    ];
    let mut entries = vec![Entry::of(Role::Line, cells)];
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
