//! Marking from the command line: the working earns all marks, known mistakes
//! are known, and nothing that is typed brings the program down.

use proptest::prelude::*;
use pumpwright::commands::shapes;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{self, Manner, Response};
use pumpwright_engine::problems::{self, Asks, LiveMistake, Offer, Problem, Request, Settings};
use pumpwright_engine::quantities::{DecimalSign, System};
use serde_json::Value;

use crate::inside::{self, library};
use crate::problem::json;
use crate::schema::{held, schema};
use crate::started::{printed, refused};

const POINT: Manner = Manner {
    decimal: DecimalSign::Point,
};

/// Every problem of these draws: each family, level and system.
fn every(library: &Library, draws: u32, mut with: impl FnMut(&Problem)) {
    let settings = Settings::default();
    for family in library.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                for draw in 0..draws {
                    let level = Some(level);
                    let request = Request {
                        family: &family.id,
                        level,
                        system,
                        draw,
                        settings: &settings,
                    };
                    with(&problems::draw(library, &request).expect("a draw"));
                }
            }
        }
    }
}

/// The text of each asked step of the printed working.
fn written(problem: &Problem) -> Response {
    let shape = serde_json::to_value(shapes::problem(problem, true)).expect("JSON");
    let steps = shape["steps"].as_array().expect("steps").iter();
    let text = |step: &Value, key: &str| step[key].as_str().expect("a text").to_owned();
    let answers = steps
        .filter(|step| step["asked"] == true)
        .map(|step| (text(step, "id"), text(step, "text")))
        .collect();
    Response { answers }
}

#[test]
fn the_working_typed_in_earns_every_mark() {
    every(&library(), 25, |problem| {
        let response = written(problem);
        let marked = marking::mark(problem, &response, POINT);
        assert_eq!(
            marked.score, marked.out_of,
            "{} {response:?}\n{marked:#?}",
            problem.code
        );
    });
}

#[test]
fn each_answer_of_the_working_earns_its_marks_alone() {
    every(&library(), 5, |problem| {
        for answer in written(problem).answers {
            let response = Response {
                answers: vec![answer],
            };
            let marked = marking::mark(problem, &response, POINT);
            let own = marked
                .lines
                .iter()
                .find(|line| line.id == response.answers[0].0);
            let own = own.expect("the line is marked");
            assert_eq!(own.marks, own.out_of, "{} {response:?}", problem.code);
        }
    });
}

/// A mistake as it is typed: an offer by its letter. Those of an arrangement are
/// a pair out of many, and have no one text.
fn typed(problem: &Problem, mistake: &LiveMistake) -> Option<String> {
    let line = problem.lines.iter().find(|line| line.id == mistake.step)?;
    match &line.asks {
        Asks::Figure | Asks::Row => Some(mistake.text.clone()),
        Asks::Pick { offers, .. } => {
            let own = |offer: &&Offer| Some(&offer.value) == mistake.value.as_ref();
            offers.iter().find(own).map(|offer| offer.mark.clone())
        }
        Asks::Nothing | Asks::Order { .. } | Asks::Match { .. } => None,
    }
}

#[test]
fn a_known_mistake_typed_in_is_never_right_and_says_what_to_look_at() {
    let mut met = 0;
    every(&library(), 25, |problem| {
        for mistake in &problem.mistakes {
            let Some(typed) = typed(problem, mistake) else {
                continue;
            };
            met += 1;
            let answers = vec![(mistake.step.clone(), typed)];
            let marked = marking::mark(problem, &Response { answers }, POINT);
            let line = marked.lines.iter().find(|line| line.id == mistake.step);
            let Some(line) = line else { continue };
            let named = line.turns.iter().any(|turn| turn.mistake == mistake.id);
            assert!(
                line.marks < line.out_of,
                "{} {mistake:?}\n{line:#?}",
                problem.code
            );
            assert!(named, "{} {mistake:?}\n{line:#?}", problem.code);
        }
    });
    assert!(met > 100, "only {met} mistakes were met");
}

#[test]
fn a_response_is_marked_line_by_line() {
    let code = json(&["cable-drop", "--draw", "7"])["code"]
        .as_str()
        .expect("a code")
        .to_owned();
    let worked = json(&[&code, "--worked"]);
    let typed: Vec<String> = worked["steps"]
        .as_array()
        .expect("steps")
        .iter()
        .filter(|step| step["asked"] == true)
        .map(|step| {
            format!(
                "{}={}",
                step["id"].as_str().unwrap(),
                step["text"].as_str().unwrap()
            )
        })
        .collect();
    let mut arguments = vec!["answer", &code];
    arguments.extend(typed.iter().map(String::as_str));
    let page = printed(&arguments);
    assert!(page.contains("Marks: 4 of 4."), "{page}");
    arguments.push("--json");
    let all = held(&schema("answer"), &printed(&arguments));
    assert_eq!((&all["score"], &all["out_of"]), (&4.0.into(), &4.0.into()));
    let none = held(&schema("answer"), &printed(&["answer", &code, "--json"]));
    assert_eq!(none["score"], 0.0);
    assert!(
        none["steps"]
            .as_array()
            .unwrap()
            .iter()
            .all(|step| step["verdict"] == "not-written")
    );
}

#[test]
fn a_step_goes_by_its_number_too() {
    let code = json(&["cable-drop", "--draw", "7"])["code"]
        .as_str()
        .expect("a code")
        .to_owned();
    let by_name = printed(&["answer", &code, "run=12"]);
    assert_eq!(by_name, printed(&["answer", &code, "1=12"]));
}

#[test]
fn an_answer_to_nothing_is_refused_in_one_sentence() {
    let code = json(&["cable-drop", "--draw", "7"])["code"]
        .as_str()
        .expect("a code")
        .to_owned();
    let steps: Vec<_> = json(&[&code])["steps"]
        .as_array()
        .expect("steps")
        .iter()
        .filter(|step| step["asked"] == true)
        .map(|step| step["id"].as_str().expect("an id").to_owned())
        .collect();
    let has = steps.join(", ");
    refused(
        &["answer", &code, "rum=12"],
        2,
        &format!("this problem asks for no step \"rum\"; near it: run; it asks for: {has}"),
    );
    refused(
        &["answer", &code, "9=12"],
        2,
        &format!("this problem asks for no step \"9\"; it asks for: {has}"),
    );
    refused(
        &["answer", &code, "12"],
        2,
        "\"12\" has no \"=\"; write it as STEP=ANSWER",
    );
    refused(
        &["answer", &code, "run=1", "1=2"],
        2,
        "the step run is answered twice; answer it once",
    );
    refused(
        &["answer", "setback"],
        2,
        "this is no problem code; one looks like cable-drop.2us.K7QF3M5.9TZ4C",
    );
}

#[test]
fn arbitrary_codes_and_answers_are_marked_or_refused_in_peace() {
    let library = library();
    let mut codes = Vec::new();
    every(&library, 1, |problem| codes.push(problem.code.to_string()));
    let bytes = prop::collection::vec(any::<u8>(), 0..80);
    let text = prop_oneof![
        bytes.prop_map(|bytes| String::from_utf8_lossy(&bytes).replace('\0', "")),
        "[0-9 .,/'\"%a-z+-]{0,40}",
        "\\PC{0,40}",
    ];
    let code = prop::sample::select(codes);
    let mut runner = proptest::test_runner::TestRunner::default();
    let cases = (code, any::<prop::sample::Index>(), text, "[a-z0-9_]{0,8}");
    runner
        .run(&cases, |(code, at, text, step)| {
            let flipped = code
                .char_indices()
                .nth(at.index(code.len()))
                .map(|(at, _)| at);
            let (head, tail) = code.split_at(flipped.unwrap_or(0));
            let broken = format!("{head}{text}{tail}");
            for (code, answer) in [
                (code.as_str(), format!("1={text}")),
                (code.as_str(), format!("{step}={text}")),
                (broken.as_str(), "1=2".to_owned()),
                (text.as_str(), text.clone()),
            ] {
                match inside::printed(&library, &["--ascii", "answer", "--", code, &answer]) {
                    Ok(page) => prop_assert!(page.contains("Marks: ") && page.is_ascii()),
                    Err(failure) => prop_assert_eq!(failure.exit_code(), 2),
                }
            }
            Ok(())
        })
        .expect("every case is marked or refused");
}

#[test]
fn lines_that_a_page_gave_are_filled_in_and_bear_no_marks() {
    let library = library();
    let settings = Settings::default();
    let request = Request {
        family: "cable-drop",
        level: Some(2),
        system: System::Us,
        draw: 5,
        settings: &settings,
    };
    let problem = problems::draw(&library, &request).expect("a draw");
    let code = problem.code.to_string();
    let right = written(&problem).answers;
    let last: Vec<String> = right[2..]
        .iter()
        .map(|(id, text)| format!("{id}={text}"))
        .collect();
    let mut arguments = vec!["answer", &code, "--given", "2"];
    arguments.extend(last.iter().map(String::as_str));
    let out = printed(&arguments);
    for words in [
        " 1  run: right, given (",
        " 2  ohms in the loop: right, given (",
        "Marks: 2 of 2. Lines 1, 2 were given: no marks.",
    ] {
        assert!(out.contains(words), "{words} is not in\n{out}");
    }
    refused(
        &["answer", &code, "--given", "2", "1=548"],
        2,
        "the step run was given on the page; leave it out, or leave --given out",
    );
    refused(
        &["answer", &code, "--given", "9"],
        2,
        "no page gives 9 lines of this problem; at most 2",
    );
}
