//! Problems from the command line: the same again, refused, and as JSON.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::System;
use serde_json::Value;

use crate::schema::{held, schema};
use crate::started::{printed, refused, run};

/// Every family, level and system, as the command line names them.
pub fn everything() -> Vec<[String; 3]> {
    let (library, faults) = Library::read(&pumpwright::lesson_files::carried().files);
    assert_eq!(faults, []);
    let mut all = Vec::new();
    for family in library.families() {
        for level in &family.levels {
            for system in System::BOTH {
                all.push([family.id.clone(), level.to_string(), system.to_string()]);
            }
        }
    }
    assert!(all.len() >= 16, "{all:?}");
    all
}

/// The JSON of a problem.
pub fn json(what: &[&str]) -> Value {
    let arguments = [&["problem", "--json"], what].concat();
    serde_json::from_str(&printed(&arguments)).expect("JSON")
}

#[test]
fn a_named_draw_is_the_same_every_time_and_its_code_draws_it_again() {
    for [family, level, units] in everything() {
        let drawn = [
            &family, "--level", &level, "--units", &units, "--draw", "17",
        ];
        let first = printed(&[&["problem"], &drawn[..]].concat());
        assert_eq!(first, printed(&[&["problem"], &drawn[..]].concat()));
        let code = json(&drawn)["code"].as_str().expect("a code").to_owned();
        assert_eq!(first, printed(&["problem", &code]));
        let head = format!("{family}.{level}{units}.");
        assert!(code.starts_with(&head), "{code} does not begin with {head}");
    }
}

#[test]
fn without_a_named_draw_the_numbers_are_fresh() {
    let codes: Vec<_> = (0..4).map(|_| json(&["setback"])["code"].clone()).collect();
    assert!(codes.iter().any(|code| *code != codes[0]), "{codes:?}");
}

#[test]
fn the_level_left_out_is_the_home_level() {
    let home = json(&["stage-count", "--draw", "1"]);
    assert_eq!(home, json(&["stage-count", "--draw", "1", "--level", "2"]));
    assert_eq!(home["units"], "us");
}

#[test]
fn json_holds_to_its_schema_in_every_family_level_and_system() {
    let (plain, worked) = (schema("problem"), schema("problem-worked"));
    for [family, level, units] in everything() {
        for draw in ["0", "1"] {
            let drawn = [
                "problem", &family, "--level", &level, "--units", &units, "--draw", draw,
            ];
            held(&plain, &printed(&[&drawn[..], &["--json"]].concat()));
            held(
                &worked,
                &printed(&[&drawn[..], &["--json", "--worked"]].concat()),
            );
        }
    }
}

#[test]
fn a_house_rule_changes_the_problem_and_stands_in_its_code() {
    let of = |rule| json(&["tank-precharge", "--draw", "5", "--rule", rule]);
    let (two, three) = (
        of("tank.precharge_below=2 psi"),
        of("tank.precharge_below=3 psi"),
    );
    assert_eq!(two, json(&["tank-precharge", "--draw", "5"]));
    let code = three["code"].as_str().expect("a code");
    assert!(code.ends_with("+tank.precharge_below=3psi"), "{code}");
    assert_eq!(json(&[code]), three);
}

#[test]
fn what_cannot_be_drawn_is_refused_in_one_sentence() {
    refused(
        &["problem", "cable-dorp"],
        2,
        "there is no family \"cable-dorp\"; near it: cable-drop",
    );
    refused(
        &["problem", "cable-drop", "--level", "3"],
        2,
        "cable-drop has no level 3; it has 2",
    );
    refused(
        &["problem", "cable-drop", "--draw", "1073741824"],
        2,
        "there is no draw 1073741824; draws go from 0 to 1073741823",
    );
    refused(
        &["problem", "cable-drop", "--rule", "cable.max_drop"],
        2,
        "\"cable.max_drop\" has no \"=\"; write it as NAME=VALUE",
    );
    refused(
        &["problem", "cable-drop", "--rule", "cable.max_dorp=3 %"],
        2,
        "there is no house rule \"cable.max_dorp\"; near it: cable.max_drop, cable.method",
    );
    refused(
        &["problem", "cable-drop", "--rule", "cable.max_drop=4 %"],
        2,
        "the house rule cable.max_drop has no value \"4 %\"; it has 5 %, 3 %",
    );
    refused(
        &["problem", "no.code"],
        2,
        "this is no problem code; one looks like cable-drop.2us.K7QF3M5.9TZ4C",
    );
    let code = json(&["cable-drop", "--draw", "1"])["code"]
        .as_str()
        .expect("a code")
        .to_owned();
    refused(
        &["problem", &code, "--level", "2"],
        2,
        &format!("the code {code} settles everything; leave --level out, or name a family"),
    );
}

#[test]
fn a_code_with_a_slip_is_not_another_problem() {
    let code = json(&["cable-drop", "--draw", "1"])["code"]
        .as_str()
        .expect("a code")
        .to_owned();
    let at = "cable-drop.2us.".len();
    let letter = if &code[at..=at] == "X" { "Y" } else { "X" };
    let slipped = format!("{}{letter}{}", &code[..at], &code[at + 1..]);
    let run = run(&["problem", &slipped]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(
        run.err
            .starts_with("error: the problem code has a slip in "),
        "{}",
        run.err
    );
}

#[test]
fn a_caution_stands_before_the_job() {
    let page = printed(&["problem", "tank-precharge", "--draw", "1"]);
    let caution = page.find("CAUTION: ").expect("a caution");
    let job = page
        .find("What air charge")
        .or_else(|| page.find("psi."))
        .expect("the job");
    assert!(caution < job, "{page}");
}

#[test]
fn no_line_of_a_sheet_is_wider_than_a_terminal() {
    for [family, level, units] in everything() {
        let page = printed(&["problem", &family, "--level", &level, "--units", &units]);
        let wide: Vec<_> = page
            .lines()
            .filter(|line| line.chars().count() > 80)
            .collect();
        assert!(wide.is_empty(), "{wide:#?}");
    }
}
