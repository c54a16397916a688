//! Every numeric family has an outside check for the law that it uses, or says that
//! nobody is known to have printed one. `syllabus/outside_checks.toml` names them; what
//! it names must be there.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;
#[path = "calc_support/csv.rs"]
mod csv;

use std::collections::BTreeMap;

use common::{root, shipped};
use pumpwright_engine::lessons::{Kind, Library};
use serde::Deserialize;

/// What stands where no outside figure is known: in the list and in the family.
const NONE: &str = "common practice, no source";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    check: Vec<Check>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Check {
    family: String,
    by: String,
    source: String,
}

fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

fn list() -> Vec<Check> {
    let list: List = toml::from_str(&read("tests/syllabus/outside_checks.toml")).expect("TOML");
    list.check
}

fn numeric(library: &Library) -> Vec<&str> {
    let families = library.families();
    let numeric = families.filter(|family| {
        let variant = library.variant(
            &family.id,
            family.home,
            pumpwright_engine::quantities::System::Us,
        );
        variant.is_some_and(|variant| matches!(variant.kind, Kind::Single | Kind::MultiStep))
    });
    numeric.map(|family| family.id.as_str()).collect()
}

/// Whether what `by` names is there: a row of a file of values, or the example of a function.
fn is_there(by: &str) -> bool {
    let Some((file, what)) = by.split_once(": ") else {
        return false;
    };
    if let Some(function) = what.strip_prefix("example of ") {
        let text = read(file);
        let Some((docs, _)) = text.split_once(&format!("\npub fn {function}(")) else {
            return false;
        };
        let own: Vec<&str> = docs.lines().rev().take_while(|line| is_doc(line)).collect();
        return own.iter().any(|line| line.contains("# Example"))
            && own.iter().any(|line| line.contains("assert"));
    }
    let rows = csv::rows(&read(file));
    rows.iter()
        .any(|row| row.get("case_id").is_some_and(|id| id == what))
}

fn is_doc(line: &str) -> bool {
    line.starts_with("///") || line.starts_with("#[")
}

#[test]
fn every_numeric_family_has_one_check_and_nothing_else_has() {
    let library = shipped();
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    let list = list();
    for check in &list {
        *count.entry(&check.family).or_default() += 1;
    }
    let numeric = numeric(&library);
    let wrong: Vec<&&str> = numeric
        .iter()
        .filter(|id| count.get(**id) != Some(&1))
        .collect();
    assert!(wrong.is_empty(), "not once in the list: {wrong:?}");
    let strange: Vec<&&str> = count.keys().filter(|id| !numeric.contains(id)).collect();
    assert!(strange.is_empty(), "no numeric families: {strange:?}");
}

#[test]
fn what_the_list_names_is_there() {
    let gone: Vec<String> = list()
        .into_iter()
        .filter(|check| !is_there(&check.by))
        .map(|check| format!("{}: {}", check.family, check.by))
        .collect();
    assert!(gone.is_empty(), "{}", gone.join("\n"));
}

#[test]
fn a_family_without_an_outside_figure_says_so_itself() {
    let library = shipped();
    let mut without = Vec::new();
    for check in list().iter().filter(|check| check.source.contains(NONE)) {
        let family = library.family(&check.family).expect("the family");
        let says = family.sources.iter().any(|source| source.contains(NONE));
        assert!(says, "{} does not say: {NONE}", check.family);
        without.push(check.family.clone());
    }
    // The list that is to shrink: a family that finds its source leaves it here, too.
    insta::assert_snapshot!("without_an_outside_figure", without.join("\n"));
}
