//! Problems from the command line: the same again, refused, and as JSON.

use serde_json::Value;

use crate::inside::{self, everything, library};
use crate::schema::{held, schema};
use crate::started::{printed, refused, run};

/// The JSON of a problem.
pub fn json(what: &[&str]) -> Value {
    let arguments = [&["problem", "--json"], what].concat();
    serde_json::from_str(&printed(&arguments)).expect("JSON")
}

#[test]
fn a_named_draw_is_the_same_every_time_and_its_code_draws_it_again() {
    let library = library();
    for [family, level, units] in everything(&library) {
        let drawn = [
            "problem", &family, "--level", &level, "--units", &units, "--draw", "17",
        ];
        let first = inside::printed(&library, &drawn).expect("a problem");
        assert_eq!(first, inside::printed(&library, &drawn).expect("a problem"));
        let code = first.lines().nth(1).expect("a code");
        let head = format!("{family}.{level}{units}.");
        assert!(code.starts_with(&head), "{code} does not begin with {head}");
        assert_eq!(
            first,
            inside::printed(&library, &["problem", code]).expect("a problem")
        );
    }
}

#[test]
fn another_run_of_the_program_draws_the_same() {
    let drawn = ["problem", "cable-drop", "--draw", "17", "--worked"];
    let first = printed(&drawn);
    assert_eq!(first, printed(&drawn));
    assert_eq!(
        first,
        inside::printed(&library(), &drawn).expect("a problem")
    );
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
    let library = library();
    for [family, level, units] in everything(&library) {
        for draw in ["0", "1", "2", "3"] {
            let drawn = [
                "problem", &family, "--level", &level, "--units", &units, "--draw", draw,
            ];
            let of = |more: &[&str]| {
                inside::printed(&library, &[&drawn, more].concat()).expect("a problem")
            };
            held(&plain, &of(&["--json"]));
            held(&worked, &of(&["--json", "--worked"]));
        }
    }
}

#[test]
fn behind_a_drawn_row_stand_the_figures_that_the_job_tells_of_it() {
    let named = |family: &str, level: &str| {
        let problem = json(&[family, "--level", level, "--draw", "3"]);
        let text = problem["text"].as_str().unwrap().to_owned();
        let givens = problem["givens"].as_array().unwrap().clone();
        let name = |given: &Value| given["name"].as_str().unwrap().to_owned();
        for given in &givens {
            let told = given["text"].as_str().unwrap();
            if name(given).contains('.') {
                assert!(text.contains(told), "{told} in {text}");
            }
        }
        givens.iter().map(name).collect::<Vec<_>>()
    };
    let told = named("cable-drop", "2");
    assert_eq!(
        told[..5],
        ["motor", "motor.full", "wire", "wire.warm", "wire.pair"]
    );
    // At level 3 the ohms are to be looked up: what the job does not tell stays out.
    assert!(!named("cable-drop", "3").contains(&"wire.pair".to_owned()));
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
        "there is no family \"cable-dorp\"; near it: cable-drop, cable-size",
    );
    refused(
        &["problem", "tank-precharge", "--level", "3"],
        2,
        "tank-precharge has no level 3; it has 1, 2",
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
        "there is no house rule \"cable.max_dorp\"; near it: cable.max_drop, cable.tape, cable.method",
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
        run.err.starts_with("error: the code has a slip in "),
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
    let library = library();
    for [family, level, units] in everything(&library) {
        let drawn = [
            "problem", &family, "--level", &level, "--units", &units, "--draw", "3",
        ];
        let page = inside::printed(&library, &drawn).expect("a problem");
        let wide: Vec<_> = page
            .lines()
            .filter(|line| line.chars().count() > 80)
            .collect();
        assert!(wide.is_empty(), "{wide:#?}");
    }
}
