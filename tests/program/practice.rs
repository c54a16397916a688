//! Practice in plain lines, driven by what is typed.

use std::io::Write as _;
use std::process::Stdio;

use serde_json::Value;

use crate::problem::json;
use crate::started::{Run, finish, printed, program, refused};

/// What a practice prints when this is typed.
fn typed(arguments: &[&str], input: &str) -> Run {
    let mut child = program(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child
        .stdin
        .take()
        .expect("an input")
        .write_all(input.as_bytes())
        .expect("it is read");
    let done = child.wait_with_output().expect("the program ends");
    Run {
        code: done.status.code().expect("it exits by itself"),
        out: String::from_utf8(done.stdout).expect("UTF-8"),
        err: String::from_utf8(done.stderr).expect("UTF-8"),
    }
}

const SHEET: [&str; 6] = [
    "practice",
    "--family",
    "cable-drop",
    "--draw",
    "7",
    "--plain",
];

fn practice(input: &[&str]) -> String {
    let arguments = [&SHEET[..], &["--count", "1"]].concat();
    let input = format!("{}\n", input.join("\n"));
    let run = typed(&arguments, &input);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    run.out
}

/// The working of the sheet, by the names of its steps.
fn answers() -> Vec<String> {
    let worked = json(&["cable-drop", "--draw", "7", "--worked"]);
    let steps = worked["steps"].as_array().expect("steps").iter();
    let asked = steps.filter(|step| step["asked"] == true);
    asked
        .map(|step| step["text"].as_str().expect("a text").to_owned())
        .collect()
}

fn mistake(id: &str) -> Value {
    let worked = json(&["cable-drop", "--draw", "7", "--worked"]);
    let mistakes = worked["mistakes"].as_array().expect("mistakes").clone();
    mistakes
        .into_iter()
        .find(|mistake| mistake["id"] == id)
        .expect("the mistake can be made")
}

#[test]
fn a_sheet_that_is_right_earns_every_mark_and_every_line_has_a_prefix() {
    let answers = answers();
    let mut input: Vec<&str> = answers.iter().map(String::as_str).collect();
    input.extend(["", ""]);
    let page = practice(&input);
    for line in page.lines() {
        let prefix = line
            .split_once(": ")
            .map(|(prefix, _)| prefix)
            .or(line.strip_suffix(':'));
        let known = prefix.is_some_and(|prefix| prefix.len() <= 24);
        assert!(known || line.trim() == "write:", "{line}\n{page}");
    }
    assert!(
        page.contains("sheet: 1 of 1\n") && page.contains("\ncaution: "),
        "{page}"
    );
    assert!(page.contains("\nverdict 4: right. "), "{page}");
    assert!(page.contains("\nend: 1 sheet, 4 of 4 marks."), "{page}");
    assert!(!page.contains('\x1b'), "{page}");
}

#[test]
fn a_known_mistake_is_named_the_rest_follows_and_the_line_can_be_mended() {
    let answers = answers();
    let wrong = mistake("one-way");
    let wrong = wrong["text"].as_str().expect("a text");
    let page = practice(&[&answers[0], wrong, "", "", "", &answers[1], "?W"]);
    assert!(page.contains("\nturn 2: likely \""), "{page}");
    assert!(page.contains("\nnext: line 2 of 4 once more."), "{page}");
    assert!(page.contains("\nmended 2: right. "), "{page}");
    assert!(page.contains("The marks above stay as they are."), "{page}");
    assert!(
        page.contains("\nworking 2: ohms in the loop equals "),
        "{page}"
    );
}

#[test]
fn help_comes_step_by_step_and_is_said_with_the_verdict() {
    let answers = answers();
    let page = practice(&["?", "?", "?", "!", &answers[0], "", "", "", "", "?Q"]);
    let places: Vec<_> = [
        "ask: ? again",
        "help 1 of 4, principle: ",
        "help 2 of 4, formula: ",
        "help 4 of 4, the step: ",
    ]
    .map(|words| {
        page.find(words)
            .unwrap_or_else(|| panic!("{words} is not in\n{page}"))
    })
    .to_vec();
    assert!(places.is_sorted(), "{page}");
    let verdict = page
        .lines()
        .find(|line| line.starts_with("verdict 1: "))
        .expect("a verdict");
    assert!(verdict.ends_with(" Shown."), "{page}");
}

#[test]
fn what_cannot_be_read_is_said_and_asked_again() {
    let page = practice(&["some feet", "?K", "?H", "?L", "?9", "?Q"]);
    let unread = "\nnote: cannot read this as a quantity: \"some\" is no number (character 1); \
                  write the number first, then its unit\nwrite: ";
    assert!(page.contains(unread), "{page}");
    assert!(
        page.contains("\nkey ?Q: ") && page.contains("Ohm's law"),
        "{page}"
    );
    assert!(page.contains("\nend: 0 sheets, 0 of 0 marks."), "{page}");
}

#[test]
fn an_input_that_ends_stops_the_practice_in_peace() {
    for input in ["", "12", "12\n\n\n"] {
        let run = typed(&SHEET, input);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
        assert!(run.out.contains("\nend: "), "{}", run.out);
    }
}

#[test]
fn other_numbers_are_the_same_family_and_the_count_is_kept() {
    let arguments = [&SHEET[..], &["--count", "2"]].concat();
    let page = typed(&arguments, "?N\n1\n2\n\n\n\n\n").out;
    let codes: Vec<_> = page
        .lines()
        .filter(|line| line.starts_with("code: cable-drop."))
        .collect();
    assert_eq!(codes.len(), 3, "{page}");
    assert_ne!(codes[0], codes[1]);
    assert!(page.contains("\nsheet: 2 of 2\n"), "{page}");
}

#[test]
fn set_up_in_plain_lines_is_kept_and_holds_the_next_time() {
    let path = concat!(env!("CARGO_TARGET_TMPDIR"), "/plain-set-up.toml");
    let _ = std::fs::remove_file(path);
    let arguments = [&SHEET[..], &["--settings", path, "--count", "2"]].concat();
    let set = typed(&arguments, "?U\nAsh\nSI\n\n\nline\n\n12 ft\n\n\n\n\n\n?Q\n");
    assert_eq!((set.code, set.err.as_str()), (0, ""), "{}", set.out);
    // The open sheet stays as it is; the next one is in meters.
    let (open, next) = set.out.split_once("\nsheet: 2 of 2\n").expect("two sheets");
    assert!(open.contains("\nkept 1: 12 ft\nline 2 of 4"), "{open}");
    assert!(next.contains("\nline 1 of 4: run, in m\n"), "{next}");
    let kept = std::fs::read_to_string(path).expect("it is kept");
    for line in [
        "name = \"Ash\"",
        "units = \"SI\"",
        "checked = \"line by line\"",
    ] {
        assert!(kept.contains(line), "{kept}");
    }
    let again = typed(&arguments, "12\n?Q\n");
    let told = again
        .out
        .contains("\nkept 1: 12 m\ncheck 1: look here. 12 m.\nlook 1: ");
    assert!(told, "{}", again.out);
}

#[test]
fn without_a_terminal_the_program_practices_in_plain_lines() {
    let page = finish(program(&[]).stdin(Stdio::null()));
    assert_eq!((page.code, page.err.as_str()), (0, ""));
    assert!(
        page.out.starts_with("note: ") && page.out.contains("\nsheet: 1\n"),
        "{}",
        page.out
    );
}

#[test]
fn a_practice_of_what_is_not_there_is_refused() {
    refused(
        &["practice", "--family", "cable-dorp"],
        2,
        "there is no family \"cable-dorp\"; near it: cable-drop, cable-size",
    );
    refused(
        &["practice", "--lesson", "setback"],
        2,
        "\"setback\" is a family, not a lesson; its lesson is siting-and-setbacks",
    );
    refused(
        &["practice", "--lesson", "electrical-safety", "--level", "3"],
        2,
        "no family here has level 3; leave --level out",
    );
    assert!(printed(&["practice", "--help"]).contains("--plain"));
}
