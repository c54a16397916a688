//! House rules, jurisdiction sheets, and a class's own rules file over them.

#![allow(clippy::expect_used, clippy::panic)]

mod common;

use common::{shipped, shipped_files};
use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Library, SHEET, SourceFile};
use pumpwright_engine::problems::{DrawError, Problem, Request, Settings, again, draw};
use pumpwright_engine::quantities::System;

/// What practice settles one way or another, and two settings of the program itself.
const RULES: [&str; 32] = [
    "tank.precharge_below",
    "tank.drawdown_basis",
    "tank.min_run",
    "relief.margin",
    "check.interval",
    "check.surface",
    "torque.arrester",
    "rope.safety",
    "cable.max_drop",
    "cable.method",
    "cable.tape",
    "pump.submergence",
    "pump.off_bottom",
    "tdh.pressure_point",
    "friction.c",
    "velocity.limit",
    "chlorine.ppm",
    "chlorine.contact",
    "sample.wait",
    "stickup.min",
    "drive.precharge_fraction",
    "capacitor.tolerance",
    "voltage.window",
    "megohm.verdict",
    "cooling.speed",
    "suction.lift",
    "demand.method",
    "expansion.location",
    "rounding.safe",
    "stage.pressure",
    "jurisdiction.sheet",
    "marking.unit",
];

#[test]
fn every_rule_has_a_default_another_value_a_reason_and_a_source() {
    let library = shipped();
    for system in System::BOTH {
        for name in RULES {
            let rule = library.rules(system).iter().find(|rule| rule.name == name);
            let rule = rule.unwrap_or_else(|| panic!("there is no house rule {name}"));
            assert!(rule.choices.len() > 1, "{name}");
            assert!(!rule.why.is_empty() && !rule.source.is_empty(), "{name}");
        }
    }
}

#[test]
fn sheets_carry_their_day_and_two_or_more_are_metric_in_law() {
    let library = shipped();
    let dated = library
        .jurisdictions()
        .iter()
        .filter(|sheet| sheet.as_of.is_some());
    let places: std::collections::BTreeSet<_> = dated.map(|sheet| &sheet.place).collect();
    assert!(places.len() >= 8, "{places:?}");
    let metric = library
        .jurisdictions()
        .iter()
        .filter(|sheet| sheet.law == System::Si);
    assert!(metric.count() >= 2);
    for sheet in library.jurisdictions() {
        match &sheet.as_of {
            Some(day) => assert!(sheet.caution().contains(day.as_str())),
            None => assert!(sheet.caution().contains("made up")),
        }
    }
}

/// A row that is nobody's sheet could not say from which day it is.
#[test]
fn every_row_of_a_sheet_and_every_sheet_kept_to_is_known() {
    let library = shipped();
    for system in System::BOTH {
        for table in library.tables(system).values() {
            let Some(column) = table.column(SHEET) else {
                continue;
            };
            for row in &table.rows {
                let Some(Value::Word(name)) = row.get(column) else {
                    panic!("{}: a sheet is a word", table.name)
                };
                assert!(
                    library.jurisdiction(name).is_some(),
                    "{}: {name}",
                    table.name
                );
            }
        }
        let rules = library.rules(system).iter();
        let kept = rules.clone().find(|rule| rule.name == "jurisdiction.sheet");
        for choice in kept.expect("the rule").choices.iter().skip(1) {
            assert!(
                library.jurisdiction(&choice.text).is_some(),
                "{}",
                choice.text
            );
        }
    }
}

const CLASS: &str = r#"format = 1

[[rule]]
rule  = "tank.precharge_below"
value = "2.5 | 17"

[[rule]]
rule  = "cable.max_drop"
value = 3

[[rule]]
rule  = "jurisdiction.sheet"
value = "Larch County"

[[sheet]]
sheet  = "Larch County"
place  = "Larch County, made up"
law    = "us"
as_of  = "2026-09-01"
source = "county code, handed out in class: made for this program"
rows   = [["drainfield", "80 | 24.4", "first"], ["septic tank", "60 | 18.3", "second"]]
"#;

fn class(text: &str) -> SourceFile {
    SourceFile {
        path: "class.toml".to_owned(),
        text: text.to_owned(),
    }
}

fn under(text: &str) -> Library {
    let (library, faults) = Library::read_under(&shipped_files(), &class(text));
    let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{}", shown.join("\n\n"));
    library
}

fn drawn(library: &Library, family: &str, settings: &Settings) -> Problem {
    let request = Request {
        family,
        level: None,
        system: System::Us,
        draw: 7,
        settings,
    };
    draw(library, &request).expect("a problem")
}

#[test]
fn a_class_sets_a_value_that_is_not_listed_and_the_code_carries_it() {
    let library = under(CLASS);
    let settings = Settings::of_class(&library);
    let problem = drawn(&library, "tank-precharge", &settings);
    assert!(
        problem
            .rules
            .iter()
            .any(|rule| rule.text.ends_with("2.5 psi")),
        "{:?}",
        problem.rules
    );
    let code = problem.code.to_string();
    assert!(code.ends_with("+tank.precharge_below=2.5psi"), "{code}");
    let once_more = again(&library, &problem.code).expect("the same problem");
    assert_eq!(once_more.story, problem.story);
    let elsewhere = again(&shipped(), &problem.code).expect_err("without the file");
    let said = elsewhere.to_string();
    assert!(said.contains("2 psi") && said.contains("--rules"), "{said}");
}

#[test]
fn a_value_that_is_listed_needs_no_file_to_be_drawn_again() {
    let library = under(CLASS);
    let problem = drawn(&library, "cable-size", &Settings::of_class(&library));
    let code = problem.code.to_string();
    assert!(code.ends_with("+cable.max_drop=3%"), "{code}");
    let elsewhere = again(&shipped(), &problem.code).expect("without the file");
    assert_eq!(elsewhere.story, problem.story);
}

#[test]
fn a_class_adds_a_sheet_and_says_its_day() {
    let library = under(CLASS);
    let problem = drawn(&library, "setback", &Settings::of_class(&library));
    let story = problem.story.join(" ");
    assert!(story.contains("Larch County: 80 ft"), "{story}");
    let varies = problem.varies().expect("what varies");
    assert!(
        varies.ends_with("Sheet: Larch County, made up, as of 2026-09-01. Check the current text."),
        "{varies}"
    );
    let without = again(&shipped(), &problem.code).expect_err("without the file");
    assert!(matches!(without, DrawError::Setting(_)), "{without}");
}

/// The rows of a sheet are part of what may be drawn, so a code made beside them says so.
#[test]
fn a_code_made_beside_other_rows_is_refused() {
    let library = under(CLASS);
    let problem = drawn(&library, "setback", &Settings::default());
    let without = again(&shipped(), &problem.code).expect_err("without the file");
    assert!(matches!(without, DrawError::Revision { .. }), "{without}");
    assert!(without.to_string().contains("rules file"), "{without}");
}

#[test]
fn a_wrong_file_says_where_and_what_to_do() {
    let wrong = CLASS.replace("tank.precharge_below", "tank.precharge");
    let (library, faults) = Library::read_under(&shipped_files(), &class(&wrong));
    let [fault] = faults.as_slice() else {
        panic!("{faults:?}")
    };
    assert_eq!((fault.file.as_str(), fault.line), ("class.toml", 4));
    let remedy = fault.remedy.as_deref();
    assert_eq!(remedy, Some("write \"tank.precharge_below\""));
    // The rest of the file holds.
    assert_eq!(library.class_rules().len(), 2);
}
