//! The open-book tables against the figures as they were read in their sources.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;

use common::{root, shipped};
use pumpwright_engine::formulas::{Table, Value};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::System;

/// Half of one in the fifth figure: what is kept in binary, and no more.
const KEPT: f64 = 1e-9;

/// The tables that a learner may open at an exam, T1 to T13 of the course in their order;
/// what one of them needs besides stands beside it.
const OPEN_BOOK: [&str; 26] = [
    "pe_pipe",
    "pe_ratings",
    "motors",
    "full_load",
    "copper",
    "cold_cable",
    "casing",
    "setbacks",
    "megohm_bands",
    "megohm_bands_pump",
    "fixtures",
    "water_density",
    "pump_class",
    "switches",
    "tanks",
    "motor_casings",
    "motor_sizes",
    "breakers",
    "relief_valves",
    "constants",
    "fittings",
    "pipe_weights",
    "expansion_tanks",
    "trench_slopes",
    "chlorine_sheets",
    "license_sheets",
];

/// One line of the file.
struct Figure {
    system: System,
    table: String,
    row: String,
    column: String,
    value: f64,
    off: f64,
}

/// The cells of a line; a cell may stand in quotes.
fn cells(line: &str) -> Vec<String> {
    let mut found = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => found.push(String::new()),
            c => found.last_mut().expect("one at least").push(c),
        }
    }
    found
}

fn figures() -> Vec<Figure> {
    let path = root().join("tests/tables/figures.csv");
    let text = std::fs::read_to_string(path).expect("the file of figures");
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines
        .map(|line| {
            let cells = cells(line);
            let [system, table, row, column, value, off, source] = cells.as_slice() else {
                panic!("seven cells: {line}")
            };
            assert!(!source.is_empty(), "{line}");
            Figure {
                system: system.parse().expect("us or si"),
                table: table.clone(),
                row: row.clone(),
                column: column.clone(),
                value: value.parse().expect("a figure"),
                off: off.parse().expect("a share"),
            }
        })
        .collect()
}

fn word(table: &Table, row: usize, column: usize) -> Option<&str> {
    match table.rows.get(row)?.get(column)? {
        Value::Word(word) => Some(word),
        _ => None,
    }
}

/// The row that a figure is of.
fn row(table: &Table, named: &str) -> Option<usize> {
    if let Some(number) = named.strip_prefix('#') {
        return number.parse::<usize>().ok()?.checked_sub(1);
    }
    let rows = 0..table.rows.len();
    match named.split_once('+') {
        Some((sheet, from)) => rows
            .into_iter()
            .find(|at| word(table, *at, 0) == Some(sheet) && word(table, *at, 1) == Some(from)),
        None => rows
            .into_iter()
            .find(|at| word(table, *at, table.key) == Some(named)),
    }
}

fn held(library: &Library, figure: &Figure) -> Option<f64> {
    let table = library.tables(figure.system).get(figure.table.as_str())?;
    let column = table.column(&figure.column)?;
    let unit = table.columns.get(column)?.unit.as_ref()?;
    let value = table.rows.get(row(table, &figure.row)?)?.get(column)?;
    Some(unit.from_si(value.number()?.si))
}

#[test]
fn every_figure_stands_in_its_table_as_it_was_read() {
    let library = shipped();
    let figures = figures();
    assert!(figures.len() > 200, "{} figures", figures.len());
    let mut off = Vec::new();
    for figure in &figures {
        let told = format!(
            "{} {} {} {}: read {}",
            figure.system, figure.table, figure.row, figure.column, figure.value
        );
        match held(&library, figure) {
            None => off.push(format!("{told}, not there")),
            Some(held) if (held - figure.value).abs() > figure.value * (figure.off + KEPT) => {
                off.push(format!("{told}, here {held}"));
            }
            Some(_) => {}
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn every_table_of_the_open_book_is_there_with_its_source() {
    let library = shipped();
    for name in OPEN_BOOK {
        for system in System::BOTH {
            assert!(
                library.tables(system).contains_key(name),
                "{name}, {system}"
            );
        }
        let note = library.table_notes().iter().find(|note| note.name == name);
        assert!(note.is_some_and(|note| !note.source.is_empty()), "{name}");
    }
}

/// A foot sheet that loses a hair in meters would pass a well that stands too near, and so
/// would a metric one in feet.
#[test]
fn no_setback_is_shorter_in_the_unit_that_is_not_the_law() {
    let library = shipped();
    let [us, si] = System::BOTH.map(|system| {
        let table = library.tables(system).get("setbacks").expect("the table");
        let column = table.column("required").expect("the column");
        let rows = table.rows.iter();
        rows.map(|row| row[column].number().expect("a length").si)
            .collect::<Vec<_>>()
    });
    let table = library
        .tables(System::Us)
        .get("setbacks")
        .expect("the table");
    assert_eq!(us.len(), si.len());
    let (mut in_feet, mut in_meters) = (0, 0);
    for (at, (feet, meters)) in us.iter().zip(&si).enumerate() {
        let sheet = word(table, at, 0).expect("a sheet");
        let law = library.jurisdiction(sheet).expect("a sheet").law;
        if law == System::Us {
            assert!(*meters >= *feet - KEPT, "{sheet}, row {}", at + 1);
            in_feet += 1;
        } else {
            assert!(*feet >= *meters - KEPT, "{sheet}, row {}", at + 1);
            in_meters += 1;
        }
    }
    assert!(in_feet > 10 && in_meters > 5, "{in_feet} {in_meters}");
}
