//! The figure of a job as the plain list that says what a drawing shows.

use pumpwright_engine::problems::{Figure, Problem};

use crate::page::{Cell, Entry, Role};
use crate::wrap::cells;

/// Room before the list, and between two of its columns.
const INDENT: usize = 2;
const APART: usize = 3;

/// The points of the figure: in columns, or a sentence each where the window is narrow.
pub(super) fn figure(problem: &Problem, width: usize) -> Vec<Entry> {
    let Some(figure) = &problem.figure else {
        return Vec::new();
    };
    let mut entries = vec![Entry::gap(), Entry::text(Role::Text, figure.title.as_str())];
    let table = figure.table();
    let widths = widths(&table);
    if INDENT + widths.iter().sum::<usize>() <= width {
        entries.extend(table.iter().map(|row| columns(row, &widths)));
        entries.extend(figure.marked().iter().map(|mark| line(mark)));
    } else {
        entries.extend(sentences(figure));
    }
    entries.push(Entry::gap());
    entries
}

fn widths(table: &[Vec<String>]) -> Vec<usize> {
    let count = table.first().map_or(0, Vec::len);
    let widest = |at: usize| {
        let texts = table.iter().filter_map(|row| row.get(at));
        texts.map(|text| cells(text)).max().unwrap_or(0) + APART
    };
    (0..count).map(widest).collect()
}

fn columns(row: &[String], widths: &[usize]) -> Entry {
    let texts = row.iter().zip(widths);
    let texts = texts.map(|(text, &width)| Cell::columns(text.as_str(), width));
    let indent = std::iter::once(Cell::columns("", INDENT));
    Entry::of(Role::Row, indent.chain(texts).collect())
}

fn line(text: &str) -> Entry {
    Entry::of(Role::Row, vec![Cell::columns("", INDENT), Cell::rest(text)])
}

fn sentences(figure: &Figure) -> Vec<Entry> {
    figure.sentences().iter().map(|text| line(text)).collect()
}
