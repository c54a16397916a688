//! A sample of an item as it will be printed: what the person will read, nothing more.

use pumpwright_engine::classes::sit::{SitItem, SitPaper};

use super::state::PlanSheet;
use crate::answering;
use crate::page::Entry;
use crate::reading::Reading;

/// The sample that is looked at, in so many columns.
pub fn sample(sheet: &PlanSheet, width: usize) -> Option<Reading> {
    let paper = sheet.samples.papers.get(sheet.sample)?;
    let number = sheet.drawn(sheet.picked.pen, sheet.sample)?.number;
    let paper = SitPaper::of(paper);
    let item = paper.items.iter().find(|item| item.number == number)?;
    let letter = PlanSheet::letter(sheet.sample);
    let title = format!("ITEM {}, SAMPLE {letter}", sheet.picked.pen + 1);
    Some(Reading {
        fixed: head(item),
        ..Reading::new(
            &title,
            "as it will be printed",
            answering::lines(item, &[], None, width),
        )
    })
}

/// What is never scrolled away.
fn head(item: &SitItem) -> Vec<Entry> {
    let mut entries = vec![answering::head(item)];
    entries.extend(answering::caution(item));
    entries.push(Entry::rule());
    entries
}
