//! How a table is laid out: columns under their heads, each figure at its
//! decimal point; where the columns have no room, row by row.

use super::Tables;
use super::leaf::{Leaf, find};
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::wrap::cells as wide;
use pumpwright_engine::lessons::PrintedColumn;

const INDENT: usize = 3;
/// The room between two columns.
const APART: usize = 3;
/// A head is given this much room before it is broken.
const HEAD: usize = 16;

/// The page of the tables in so many columns.
pub fn page(tables: &Tables, width: usize) -> Page {
    let mut fixed = vec![search(tables), Entry::rule()];
    let mut flow = Vec::new();
    if let Some(leaf) = tables.leaf() {
        fixed.extend(title(tables.at, leaf));
        let (head, rows) = body(leaf, width);
        fixed.extend(head);
        flow.extend(rows);
        flow.push(Entry::rule());
        let source = vec![Cell::columns("Source", 8), Cell::rest(leaf.source.as_str())];
        flow.push(Entry::of(Role::Note, source));
    }
    Page {
        title: "TABLES".into(),
        place: "open book".into(),
        fixed,
        flow,
        beyond: beyond(tables),
        next: next(tables),
        strip: vec![
            hint(Key::Enter, "put away"),
            hint(Key::UpDown, "table by table"),
            hint(Key::Ask, "ask"),
            hint(Key::Sums, "sums"),
            hint(Key::Escape, "put away"),
        ],
        ..Page::default()
    }
}

/// A table as it stands under a text.
pub fn under_text(leaf: &Leaf, width: usize) -> Vec<Entry> {
    let mut lines = vec![Entry::heading(format!("Table: {}", leaf.title))];
    lines.extend(
        leaf.basis
            .as_deref()
            .map(|basis| indented(Role::Note, basis)),
    );
    let (head, rows) = body(leaf, width);
    lines.extend(head);
    lines.extend(rows);
    let source = format!("Source: {}", leaf.source);
    lines.push(indented(Role::Note, &source));
    lines
}

fn search(tables: &Tables) -> Entry {
    let asked = tables.blank.trimmed();
    let nowhere = find(&tables.leaves, asked).is_empty() && !asked.is_empty();
    let beside = if nowhere {
        format!(
            "no table has this: a word, or a number up to {}",
            tables.leaves.len()
        )
    } else {
        "a number or a word".to_owned()
    };
    let cells = vec![
        Cell::columns("Table", 8),
        Cell::blank(tables.blank.text(), 16, Some(tables.blank.before())),
        Cell::columns("", 1),
        Cell::rest(beside),
    ];
    Entry::of(Role::Line, cells)
}

fn title(at: usize, leaf: &Leaf) -> Vec<Entry> {
    let number = (at + 1).to_string();
    let cells = vec![
        Cell::columns(number, INDENT).bold(),
        Cell::rest(leaf.title.as_str()).bold(),
    ];
    let mut title = vec![Entry::of(Role::Head, cells)];
    title.extend(
        leaf.basis
            .as_deref()
            .map(|basis| indented(Role::Note, basis)),
    );
    title.push(Entry::gap().dropping(Drop::First));
    title
}

fn indented(role: Role, text: &str) -> Entry {
    Entry::of(role, vec![Cell::columns("", INDENT), Cell::rest(text)])
}

/// The heads of the columns, and the rows.
fn body(leaf: &Leaf, width: usize) -> (Vec<Entry>, Vec<Entry>) {
    if let Some(why) = leaf.closed {
        return (Vec::new(), vec![indented(Role::Note, why)]);
    }
    let mut columns = leaf.columns();
    for column in columns.iter_mut().filter(|column| column.figures) {
        at_the_point(&mut column.cells);
    }
    match widths(&columns, width.saturating_sub(INDENT)) {
        Some(widths) => in_columns(&columns, &widths),
        None => (Vec::new(), row_by_row(&columns)),
    }
}

/// Room before each figure, so that the decimal points stand under each other.
fn at_the_point(cells: &mut [String]) {
    let before = |cell: &String| cell.split('.').next().map_or(0, wide);
    let most = cells.iter().map(before).max().unwrap_or(0);
    for cell in cells {
        let room = most.saturating_sub(before(cell));
        cell.insert_str(0, &" ".repeat(room));
    }
}

/// A width for each column: as it would like, or narrower where that has no
/// room; none where even the words and figures have none.
fn widths(columns: &[PrintedColumn], room: usize) -> Option<Vec<usize>> {
    let longest = |text: &str| text.split(' ').map(wide).max().unwrap_or(0);
    let widest = |cells: &[String], width: &dyn Fn(&str) -> usize| {
        cells.iter().map(|cell| width(cell)).max().unwrap_or(0)
    };
    let mut wanted = Vec::new();
    let mut least = Vec::new();
    for column in columns {
        let head = longest(&column.label).max(wide(&column.unit));
        let whole = widest(&column.cells, &wide);
        let floor = if column.figures {
            whole
        } else {
            widest(&column.cells, &longest)
        };
        let liked = wide(&column.label).min(HEAD);
        wanted.push(whole.max(head).max(liked) + APART);
        least.push(floor.max(head) + 1);
    }
    while wanted.iter().sum::<usize>() > room {
        let may = (0..wanted.len()).filter(|&at| wanted[at] > least[at]);
        let at = may.max_by_key(|&at| wanted[at])?;
        wanted[at] -= 1;
    }
    Some(wanted)
}

fn in_columns(columns: &[PrintedColumn], widths: &[usize]) -> (Vec<Entry>, Vec<Entry>) {
    let row = |role: Role, text: &dyn Fn(&PrintedColumn) -> String| {
        let cells = columns.iter().zip(widths);
        let cells = cells.map(|(column, &width)| Cell::columns(text(column), width));
        let indent = std::iter::once(Cell::columns("", INDENT));
        Entry::of(role, indent.chain(cells).collect())
    };
    let mut head = vec![row(Role::Head, &|column| column.label.clone())];
    if columns.iter().any(|column| !column.unit.is_empty()) {
        head.push(row(Role::Head, &|column| column.unit.clone()));
    }
    let count = columns
        .iter()
        .map(|column| column.cells.len())
        .max()
        .unwrap_or(0);
    let cell =
        |column: &PrintedColumn, at: usize| column.cells.get(at).cloned().unwrap_or_default();
    let rows = (0..count).map(|at| row(Role::Row, &|column| cell(column, at)));
    (head, rows.collect())
}

fn row_by_row(columns: &[PrintedColumn]) -> Vec<Entry> {
    let count = columns
        .iter()
        .map(|column| column.cells.len())
        .max()
        .unwrap_or(0);
    (0..count)
        .map(|at| indented(Role::Row, &said(columns, at)))
        .collect()
}

/// A row as a sentence: each cell behind the head of its column.
pub fn said(columns: &[PrintedColumn], at: usize) -> String {
    let cells = columns.iter().filter_map(|column| {
        let cell = column.cells.get(at)?.trim();
        let unit = &column.unit;
        if !column.figures && column.names {
            return Some(cell.to_owned());
        }
        Some(
            format!("{} {cell} {unit}", column.label)
                .trim_end()
                .to_owned(),
        )
    });
    cells.collect::<Vec<_>>().join(", ")
}

fn beyond(tables: &Tables) -> String {
    let run = tables.run();
    let Some(here) = run.iter().position(|at| *at == tables.at) else {
        return String::new();
    };
    let below = run.len() - here - 1;
    let count = |count: usize| crate::words::count(count, "table", "tables");
    match (here, below) {
        (0, 0) => String::new(),
        (0, _) => format!("{} below: Down", count(below)),
        (_, 0) => format!("{} above: Up", count(here)),
        _ => format!("{} above, {below} below: Up Down", count(here)),
    }
}

fn next(tables: &Tables) -> String {
    tables.line.map_or_else(
        || "Enter: put the tables away, back to where you were".to_owned(),
        |line| format!("Enter: put the tables away, back to line {line}"),
    )
}
