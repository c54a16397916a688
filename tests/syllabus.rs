//! The lessons hold what the syllabus asks: each family of `syllabus/families.csv` is
//! there, in its lesson, at its level, of its kind, with at least so many steps and
//! mistakes. A finer working and more mistakes are no fault.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;
#[path = "calc_support/csv.rs"]
mod csv;

use std::collections::BTreeSet;

use common::{root, shipped};
use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Body, Kind, Library, Variant};
use pumpwright_engine::quantities::System;

fn list() -> Vec<csv::Row> {
    let path = root().join("tests/syllabus/families.csv");
    csv::rows(&std::fs::read_to_string(path).expect("the list"))
}

/// The kinds, by the words of the list.
fn kind(words: &str) -> Kind {
    match words {
        "numeric single" => Kind::Single,
        "numeric multi-step" => Kind::MultiStep,
        "put-steps-in-order" => Kind::Order,
        word => Kind::of_word(word).unwrap_or_else(|| panic!("no kind {word}")),
    }
}

/// What there is to do: steps, or the jobs of an order.
fn steps(variant: &Variant) -> usize {
    let ordered = variant
        .steps
        .iter()
        .any(|step| matches!(step.body, Body::Order { .. }));
    if ordered {
        return variant.cards.iter().filter(|card| !card.decoy).count();
    }
    variant.steps.len()
}

/// What a family lacks of what the list asks.
fn lacks(library: &Library, row: &csv::Row) -> Vec<String> {
    let id = row["family"].as_str();
    let Some(family) = library.family(id) else {
        return vec![format!("{id} is not there")];
    };
    let mut lacks = Vec::new();
    if family.lesson != row["lesson"] {
        lacks.push(format!(
            "{id} stands in {}, not in {}",
            family.lesson, row["lesson"]
        ));
    }
    if family.home.to_string() != row["level"] {
        lacks.push(format!(
            "{id} is at home at level {}, not {}",
            family.home, row["level"]
        ));
    }
    for system in System::BOTH {
        let Some(variant) = library.variant(id, family.home, system) else {
            lacks.push(format!("{id} has no {system}"));
            continue;
        };
        let wanted = kind(&row["kind"]);
        if variant.kind != wanted {
            lacks.push(format!(
                "{id} {system} is of kind {:?}, not {wanted:?}",
                variant.kind
            ));
        }
        let least = |column: &str| row[column].parse::<usize>().expect("a count");
        for (what, has) in [
            ("steps", steps(variant)),
            ("mistakes", variant.mistakes.len()),
        ] {
            if has < least(what) {
                lacks.push(format!("{id} {system} has {has} {what} of {}", least(what)));
            }
        }
    }
    lacks
}

#[test]
fn every_family_of_the_list_is_there_as_the_list_has_it() {
    let library = shipped();
    let mut told = Vec::new();
    for row in list() {
        told.extend(lacks(&library, &row));
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn every_family_stands_in_the_list() {
    let list: BTreeSet<String> = list()
        .into_iter()
        .map(|row| row["family"].clone())
        .collect();
    let library = shipped();
    let missing: Vec<&str> = library
        .families()
        .map(|family| family.id.as_str())
        .filter(|id| !list.contains(*id))
        .collect();
    assert!(
        missing.is_empty(),
        "not in the list: {}",
        missing.join(", ")
    );
}

#[test]
fn the_list_has_nothing_twice() {
    let ids: Vec<String> = list()
        .into_iter()
        .map(|row| row["family"].clone())
        .collect();
    let once: BTreeSet<&String> = ids.iter().collect();
    assert_eq!(once.len(), ids.len());
    assert!(ids.len() >= 89);
}

#[test]
fn every_lesson_ends_with_a_worked_example() {
    let library = shipped();
    let without = library.lessons().iter();
    let without: Vec<&str> = without
        .filter(|lesson| lesson.example.is_none())
        .map(|lesson| lesson.id.as_str())
        .collect();
    assert!(without.is_empty(), "no example: {}", without.join(", "));
}

/// Each fault of the bench that leaves the taps dry is a cause that `no-water` asks for, and
/// `syllabus/no_water.csv` says of each other one why it is none.
#[test]
fn no_water_asks_for_each_fault_that_leaves_the_taps_dry() {
    let path = root().join("tests/syllabus/no_water.csv");
    let rows = csv::rows(&std::fs::read_to_string(path).expect("the faults"));
    let library = shipped();
    let tables = library.tables(System::Us);
    let table = tables.get("no_water_causes").expect("the table");
    let asked = |row: usize| table.rows.len() - table.decoys > row;
    let causes: BTreeSet<String> = (0..table.rows.len())
        .filter(|row| asked(*row))
        .map(|row| match &table.rows[row][table.key] {
            Value::Word(word) => word.to_string(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(causes.len(), 14);
    let named: BTreeSet<String> = rows
        .iter()
        .map(|row| row["cause"].clone())
        .filter(|cause| !cause.is_empty())
        .collect();
    assert_eq!(named, causes);
    for row in &rows {
        let (cause, why_not) = (&row["cause"], &row["why_not"]);
        assert_ne!(cause.is_empty(), why_not.is_empty(), "{}", row["fault"]);
    }
}
