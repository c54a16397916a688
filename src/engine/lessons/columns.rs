//! A table as it is printed: its columns with their heads and cells, those left out
//! that would give an answer away.

use super::printed::Printed;
use super::table::TableNote;
use crate::formulas::Table;

/// A column as it is printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PrintedColumn {
    /// What it holds.
    pub label: String,
    /// Its unit; empty for words.
    pub unit: String,
    /// Its cells, each with the decimals with which it is written.
    pub cells: Vec<String>,
    /// Whether it holds figures.
    pub figures: bool,
    /// Whether the rows go by it.
    pub names: bool,
}

/// The columns of a table, from left to right, without those that its note hides.
pub fn printed_columns(table: &Table, note: &TableNote) -> Vec<PrintedColumn> {
    let columns = table.columns.iter().enumerate();
    columns
        .filter(|(_, column)| !note.hidden.columns.contains(&column.name))
        .map(|(at, column)| PrintedColumn {
            label: column.label.clone(),
            unit: column
                .unit
                .as_ref()
                .map(|unit| unit.symbol().to_owned())
                .filter(|unit| !says(&column.label, unit))
                .unwrap_or_default(),
            cells: cells(table, at),
            figures: column.unit.is_some() || column.is_number(),
            names: at == table.key,
        })
        .collect()
}

fn cells(table: &Table, column: usize) -> Vec<String> {
    let unit = table.columns.get(column).and_then(|own| own.unit.clone());
    let shown = table.rows.len().saturating_sub(table.decoys);
    let rows = table.rows.iter().take(shown).enumerate();
    let cell = |(at, row): (usize, &Vec<_>)| {
        let places = table.places.get(at).and_then(|row| row.get(column));
        let printed = Printed {
            value: row.get(column).cloned()?,
            unit: unit.clone(),
            places: places.copied().unwrap_or(0),
        };
        Some(printed.figure())
    };
    rows.map(|row| cell(row).unwrap_or_default()).collect()
}

/// Whether a head says its unit already: ohms per 100 ft.
fn says(label: &str, unit: &str) -> bool {
    let same = |(said, word): (&str, &str)| said.trim_end_matches('s') == word;
    let words = (label.split(' '), unit.split(' '));
    words.0.clone().count() == words.1.clone().count() && words.0.zip(words.1).all(same)
}
