//! One table of the book as it is printed, and how a table is found.

use std::collections::BTreeMap;
use std::sync::Arc;

use pumpwright_engine::formulas::Table;
use pumpwright_engine::lessons::{Exam, Library, PrintedColumn, TableNote, printed_columns};
use pumpwright_engine::problems::{Problem, tables_asked};
use pumpwright_engine::quantities::System;

use crate::words;

/// What stands in place of the rows of a table that the open sheet asks.
const ASKED: &str = "Closed while this sheet is open: its rows are what the sheet asks.";
/// What stands in place of those of a table that a closed-book paper takes away.
const TAKEN_AWAY: &str = "Closed while this paper is sat: it is a closed-book paper.";

/// Tables that stay closed, each with the sentence that stands in place of its rows.
pub type Closed = BTreeMap<Arc<str>, &'static str>;

/// The tables whose rows a problem asks, and those that an exam takes away.
pub fn closed(problem: Option<&Problem>, exam: Option<&Exam>) -> Closed {
    let asked = problem.map(tables_asked).unwrap_or_default();
    let asked = asked.into_iter().map(|name| (name, ASKED));
    let away = exam.map(Exam::taken_away).unwrap_or_default().iter();
    asked
        .chain(away.map(|name| (Arc::from(name.as_str()), TAKEN_AWAY)))
        .collect()
}

/// A table of the book.
#[derive(Debug, Clone)]
pub struct Leaf {
    /// Its name in lesson files.
    pub name: Arc<str>,
    /// Its heading.
    pub title: String,
    /// Where its figures come from.
    pub source: String,
    /// What its figures are good for, where that must be said.
    pub basis: Option<String>,
    /// What stands in place of its rows, where it is closed.
    pub closed: Option<&'static str>,
    table: Arc<Table>,
    note: TableNote,
}

/// The book: every table that is not hidden, in the order of the lesson files. Those named
/// stay closed.
pub fn leaves(library: &Library, system: System, closed: &Closed) -> Vec<Leaf> {
    let tables = library.tables(system);
    let leaf = |note: &TableNote| {
        let table = tables.get(note.name.as_str())?;
        Some(Leaf {
            name: Arc::clone(&table.name),
            title: words::sentence(&note.title)
                .trim_end_matches('.')
                .to_owned(),
            source: words::sentence(&note.source),
            basis: basis(note.from_memory, note.training),
            closed: closed.get(&table.name).copied(),
            table: Arc::clone(table),
            note: note.clone(),
        })
    };
    let shown = library.table_notes().iter();
    let shown = shown.filter(|note| !note.hidden.whole);
    shown.filter_map(leaf).collect()
}

fn basis(from_memory: bool, training: bool) -> Option<String> {
    let mut said = Vec::new();
    if from_memory {
        said.push("From memory: look it up before a job.");
    }
    if training {
        said.push(words::TRAINING);
    }
    (!said.is_empty()).then(|| said.join(" "))
}

impl Leaf {
    /// The columns, from left to right; none of a table that is closed.
    pub fn columns(&self) -> Vec<PrintedColumn> {
        if self.closed.is_some() {
            return Vec::new();
        }
        printed_columns(&self.table, &self.note)
    }

    /// How near a word is: in the heading, in the head of a column, in a cell;
    /// none where it stands nowhere.
    fn nearness(&self, word: &str) -> Option<u8> {
        let has = |text: &str| text.to_lowercase().contains(word);
        let columns = self.columns();
        if has(&self.title) || has(&self.name) {
            Some(0)
        } else if columns.iter().any(|column| has(&column.label)) {
            Some(1)
        } else if columns
            .iter()
            .flat_map(|column| &column.cells)
            .any(|cell| has(cell))
        {
            Some(2)
        } else {
            None
        }
    }
}

/// The places of the tables that a number or a word names, the nearest first.
pub fn find(leaves: &[Leaf], asked: &str) -> Vec<usize> {
    let asked = asked.trim().to_lowercase();
    if let Ok(number) = asked.parse::<usize>() {
        return (number.checked_sub(1).filter(|at| *at < leaves.len()))
            .into_iter()
            .collect();
    }
    if asked.is_empty() {
        return Vec::new();
    }
    let near = leaves.iter().enumerate();
    let mut found: Vec<(u8, usize)> = near
        .filter_map(|(at, leaf)| Some((leaf.nearness(&asked)?, at)))
        .collect();
    found.sort_unstable();
    found.into_iter().map(|(_, at)| at).collect()
}
