//! Reads comma-separated files: `#` lines are skipped, the next names the
//! columns, a cell may be quoted.

use std::collections::BTreeMap;

/// One row, by column.
pub type Row = BTreeMap<String, String>;

/// The rows of a text. Panics where a row has another number of cells.
pub fn rows(text: &str) -> Vec<Row> {
    let mut lines = text
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    let Some(head) = lines.next() else {
        return Vec::new();
    };
    let names = cells(head);
    lines
        .map(|line| {
            let cells = cells(line);
            assert_eq!(cells.len(), names.len(), "cells in: {line}");
            names.iter().cloned().zip(cells).collect()
        })
        .collect()
}

/// The cells of a line; a doubled quote inside quotes is one quote.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut characters = line.chars().peekable();
    while let Some(c) = characters.next() {
        let last = cells.len() - 1;
        match c {
            '"' if quoted && characters.peek() == Some(&'"') => {
                characters.next();
                cells[last].push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells[last].push(c),
        }
    }
    cells
}
