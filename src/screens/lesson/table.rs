//! A table as it stands under the part of a lesson that needs it.

use pumpwright_engine::formulas::{Column, Table};
use pumpwright_engine::lessons::{Library, Printed};
use pumpwright_engine::quantities::System;

use crate::page::{Cell, Entry, Role};
use crate::words;
use crate::wrap::cells;

/// The narrowest and the widest column.
const NARROW: usize = 8;
const WIDE: usize = 24;

/// The rows of a table with its name, its heads and its source.
pub fn entries(library: &Library, system: System, name: &str) -> Vec<Entry> {
    let Some(table) = library.tables(system).get(name) else {
        return Vec::new();
    };
    let note = library.table_notes().iter().find(|note| note.name == name);
    let title = note.map_or(name, |note| note.title.as_str());
    let mut lines = vec![
        Entry::gap(),
        Entry::heading(format!(
            "Table: {}",
            words::sentence(title).trim_end_matches('.')
        )),
    ];
    let heads: Vec<String> = table.columns.iter().map(head).collect();
    let rows: Vec<Vec<String>> = (0..table.rows.len())
        .map(|row| figures(table, row))
        .collect();
    let widths = widths(&heads, &rows);
    lines.push(row(&heads, &widths));
    lines.extend(rows.iter().map(|figures| row(figures, &widths)));
    if let Some(note) = note {
        let memory = if note.from_memory {
            ", from memory"
        } else {
            ""
        };
        lines.push(Entry::text(
            Role::Note,
            format!("Source{memory}: {}", words::sentence(&note.source)),
        ));
        if note.training {
            lines.push(Entry::text(Role::Note, words::TRAINING));
        }
    }
    lines
}

fn head(column: &Column) -> String {
    match &column.unit {
        Some(unit) if !column.label.contains(unit.symbol()) => {
            format!("{}, {}", column.label, unit.symbol())
        }
        _ => column.label.clone(),
    }
}

fn figures(table: &Table, row: usize) -> Vec<String> {
    let cells = table.rows.get(row).into_iter().flatten();
    let places = |column: usize| {
        let row = table.places.get(row);
        row.and_then(|row| row.get(column)).copied().unwrap_or(0)
    };
    cells
        .zip(&table.columns)
        .enumerate()
        .map(|(at, (value, column))| {
            Printed {
                value: value.clone(),
                unit: column.unit.clone(),
                places: places(at),
            }
            .figure()
        })
        .collect()
}

/// A column is as wide as its widest figure; a longer head wraps in it.
fn widths(heads: &[String], rows: &[Vec<String>]) -> Vec<usize> {
    heads
        .iter()
        .enumerate()
        .map(|(at, head)| {
            let word = head.split(' ').map(cells).max().unwrap_or(0);
            let figures = rows.iter().filter_map(|row| row.get(at));
            let figure = figures.map(|figure| cells(figure)).max().unwrap_or(0);
            (word.max(figure) + 2).clamp(NARROW, WIDE)
        })
        .collect()
}

fn row(texts: &[String], widths: &[usize]) -> Entry {
    let mut row = vec![Cell::columns("", 5)];
    let last = texts.len().saturating_sub(1);
    for (at, (text, width)) in texts.iter().zip(widths).enumerate() {
        row.push(if at == last {
            Cell::rest(text.as_str())
        } else {
            Cell::columns(text.as_str(), *width)
        });
    }
    Entry::of(Role::Text, row)
}
