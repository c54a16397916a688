//! The tables that the problems of a page use, each once, folded shut.

use std::collections::BTreeSet;
use std::sync::Arc;

use maud::{Markup, html};
use pumpwright_engine::lessons::{PrintedColumn, TableNote, printed_columns};
use pumpwright_engine::problems::{Asks, Problem, TRAINING, tables_asked, tables_used};

use super::Sheet;
use crate::table::table;
use crate::words;

/// The tables of a page.
pub struct Book {
    leaves: Vec<Leaf>,
}

/// One of them.
struct Leaf {
    name: String,
    title: String,
    note: TableNote,
    columns: Vec<PrintedColumn>,
}

impl Book {
    /// The tables that any line of the page uses, in the order of the lessons. What the
    /// book hides stays hidden.
    pub fn of(sheet: &Sheet<'_>) -> Self {
        let used: BTreeSet<Arc<str>> = sheet
            .items
            .iter()
            .flat_map(|item| used(&item.problem))
            .collect();
        let tables = sheet.library.tables(sheet.system);
        let notes = sheet.library.table_notes().iter();
        let notes = notes.filter(|note| !note.hidden.whole && used.contains(note.name.as_str()));
        let leaves = notes.filter_map(|note| {
            let table = tables.get(note.name.as_str())?;
            Some(Leaf {
                name: note.name.clone(),
                title: words::sentence(&note.title)
                    .trim_end_matches('.')
                    .to_owned(),
                note: note.clone(),
                columns: printed_columns(table, note),
            })
        });
        Self {
            leaves: leaves.collect(),
        }
    }

    /// Where the tables are that a problem uses.
    pub fn places(&self, problem: &Problem) -> Markup {
        let used = used(problem);
        let own: Vec<&Leaf> = self
            .leaves
            .iter()
            .filter(|leaf| used.contains(leaf.name.as_str()))
            .collect();
        html! {
            @if !own.is_empty() {
                p {
                    "Tables for it, at the foot of the page: "
                    @for (at, leaf) in own.iter().enumerate() {
                        @if at > 0 { ", " }
                        a href={ "#table-" (leaf.name) } { (leaf.title) }
                    }
                    "."
                }
            }
        }
    }

    /// The tables themselves.
    pub fn printed(&self) -> Markup {
        html! {
            @if !self.leaves.is_empty() {
                h2 { "Tables" }
                @for leaf in &self.leaves { (leaf.printed()) }
            }
        }
    }
}

impl Leaf {
    fn printed(&self) -> Markup {
        let heads: Vec<String> = self
            .columns
            .iter()
            .map(|column| match column.unit.as_str() {
                "" => column.label.clone(),
                unit => format!("{}, {unit}", column.label),
            })
            .collect();
        let heads: Vec<(&str, bool)> = heads
            .iter()
            .zip(&self.columns)
            .map(|(head, column)| (head.as_str(), column.figures))
            .collect();
        let count = self.columns.iter().map(|column| column.cells.len()).max();
        let cell =
            |column: &PrintedColumn, row: usize| column.cells.get(row).cloned().unwrap_or_default();
        let rows: Vec<Vec<String>> = (0..count.unwrap_or(0))
            .map(|row| {
                self.columns
                    .iter()
                    .map(|column| cell(column, row))
                    .collect()
            })
            .collect();
        html! {
            details.wide id={ "table-" (self.name) } {
                summary { (self.title) }
                div {
                    (table(&self.title, &heads, &rows))
                    p.faint {
                        "Source: " (words::sentence(&self.note.source))
                        @if self.note.from_memory { " From memory: look it up before a job." }
                        @if self.note.training { " " (TRAINING) }
                    }
                }
            }
        }
    }
}

/// The tables that the lines of a problem use, but for those whose rows it asks.
fn used(problem: &Problem) -> BTreeSet<Arc<str>> {
    let lines = problem.lines.iter().enumerate();
    let asked = lines.filter(|(_, line)| line.asks != Asks::Nothing);
    let closed = tables_asked(problem);
    asked
        .flat_map(|(at, _)| tables_used(problem, at))
        .filter(|name| !closed.contains(name))
        .collect()
}
