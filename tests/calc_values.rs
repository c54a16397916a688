//! Values may change only with the edition: printed papers carry the edition in
//! their codes, and a figure that moved unseen would mark an old paper wrong.

#![cfg(test)]

mod calc_support;

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::{env, fs};

use calc_support::points::{Point, points};
use pumpwright_calc::registry::{Basis, Value, functions};

fn file() -> PathBuf {
    calc_support::tests_folder().join("golden/calc_values.csv")
}

fn value(point: &Point) -> String {
    match (point.function.call)(point.basis, &point.values) {
        Ok(Value::Number(figure)) => format!("{figure:?}"),
        Ok(Value::Word(word)) => word.to_owned(),
        Err(refusal) => panic!("{} {}: {refusal}", point.function.name, point.inputs),
    }
}

/// What is wrong with a point, if anything.
fn complaint(point: &Point) -> Option<String> {
    let (name, now) = (point.function.name, value(point));
    let stands = point.edition == point.function.edition;
    if stands && now == point.recorded {
        None
    } else if stands {
        Some(format!(
            "{name} at {} gives {now}, not {}; raise its edition above {}",
            point.inputs, point.recorded, point.edition
        ))
    } else if point.edition > point.function.edition {
        Some(format!(
            "{name} went back to edition {}",
            point.function.edition
        ))
    } else if env::var_os("PUMPWRIGHT_BLESS").is_some() {
        None
    } else {
        Some(format!(
            "{name} has edition {}, the file {}; run this test with PUMPWRIGHT_BLESS=1",
            point.function.edition, point.edition
        ))
    }
}

#[test]
fn a_value_changes_only_with_its_edition() {
    let text = fs::read_to_string(file()).expect("the recorded values");
    let points = points(&text);
    let complaints: Vec<String> = points.iter().filter_map(complaint).collect();
    assert!(complaints.is_empty(), "{}", complaints.join("\n"));
    if env::var_os("PUMPWRIGHT_BLESS").is_some() {
        // Whole or not at all: the tests beside this one read the file meanwhile.
        let fresh = file().with_extension("new");
        fs::write(&fresh, blessed(&text, &points)).expect("the new values");
        fs::rename(fresh, file()).expect("the file takes the new values");
    }
}

fn blessed(text: &str, points: &[Point]) -> String {
    let head = text.lines().take_while(|line| line.starts_with('#'));
    let mut lines: Vec<String> = head.map(str::to_owned).collect();
    lines.push("function,edition,basis,inputs,value".to_owned());
    lines.extend(points.iter().map(|point| {
        let (function, basis) = (point.function, point.basis);
        let (edition, inputs, value) = (function.edition, &point.inputs, value(point));
        format!("{},{edition},{basis:?},{inputs},{value}", function.name)
    }));
    lines.join("\n") + "\n"
}

#[test]
fn every_function_is_recorded_on_every_basis() {
    let text = fs::read_to_string(file()).expect("the recorded values");
    let recorded: BTreeSet<(&str, String)> = points(&text)
        .iter()
        .map(|point| (point.function.name, format!("{:?}", point.basis)))
        .collect();
    for function in functions() {
        for basis in [Basis::UsTrade, Basis::SiTrade, Basis::Physical] {
            let wanted = (function.name, format!("{basis:?}"));
            assert!(recorded.contains(&wanted), "add a row for {wanted:?}");
        }
    }
}

#[test]
fn a_moved_value_and_a_step_back_are_complained_of() {
    let text = fs::read_to_string(file()).expect("the recorded values");
    let mut points = points(&text);
    let point = points.first_mut().expect("a point");
    assert_eq!(complaint(point), None);
    point.recorded.push('1');
    assert!(complaint(point).is_some_and(|text| text.contains("raise its edition")));
    point.edition = point.function.edition + 1;
    assert!(complaint(point).is_some_and(|text| text.contains("went back")));
}
