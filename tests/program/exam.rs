//! Papers from the command line: in plain lines, and at a terminal.

use std::io::Write as _;
use std::path::Path;
use std::process::Stdio;

use crate::class_folder::{ClassFolder, files};
use crate::started::{Run, printed, program, refused};

/// What an exam prints when this is typed.
fn typed(arguments: &[&str], input: &str) -> Run {
    let mut child = program(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut stdin = child.stdin.take().expect("an input");
    stdin.write_all(input.as_bytes()).expect("it is read");
    drop(stdin);
    let done = child.wait_with_output().expect("the program ends");
    Run {
        code: done.status.code().expect("it exits by itself"),
        out: String::from_utf8(done.stdout).expect("UTF-8"),
        err: String::from_utf8(done.stderr).expect("UTF-8"),
    }
}

/// What is printed by a run that succeeds.
fn said(arguments: &[&str], input: &str) -> String {
    let run = typed(arguments, input);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    run.out
}

#[test]
fn a_named_draw_and_its_code_are_the_same_paper() {
    let arguments = [
        "exam",
        "refresher",
        "--draw",
        "7",
        "--plain",
        "--minutes",
        "0",
    ];
    let first = said(&arguments, "a\n?q\n");
    assert!(first.contains("25 questions, no clock"), "{first}");
    let code = first.lines().find_map(|line| line.strip_prefix("code: "));
    let code = code.expect("the code of the paper");
    let again = said(&["exam", code, "--minutes", "0"], "a\n?q\n");
    let questions = |text: &str| {
        let from = text.find("question: 1").expect("a question");
        text[from..].to_owned()
    };
    assert_eq!(questions(&first), questions(&again));
}

#[test]
fn a_paper_is_handed_in_and_its_areas_are_said() {
    let arguments = ["exam", "licensing", "--plain", "--units", "si"];
    let out = said(&arguments, "?z\n\n?z\n7\n\n");
    assert!(
        out.contains("75 questions, 2 h 30 min left of 2 h 30 min"),
        "{out}"
    );
    assert!(out.contains("result: NOT PASSED"), "{out}");
    assert!(
        out.contains("line 7: Fault finding: 0 of 7, likely between 0 and"),
        "{out}"
    );
    assert_eq!(out.matches("\nverdict: Not written.").count(), 7, "{out}");
}

const PLAN: &str = r#"format = 1
plan = "week-6"
title = "Week 6"

[[item]]
family = "psi-to-feet"
"#;

#[test]
fn a_paper_from_an_instructor_is_taken_from_the_list_and_answered() {
    let class = ClassFolder::new("exam-given", PLAN, "name\n\"Birch, T.\"\n");
    let (plan, list, out) = (
        class.at("plan.toml"),
        class.at("list.csv"),
        class.at("class"),
    );
    printed(&[
        "assign", &plan, "--roster", &list, "--out", &out, "--no-pdf",
    ]);
    let paper = class.at("class/week-6/screen/001.json");
    let list = said(&["exam", "--plain"], "");
    let line = list.lines().find_map(|line| {
        let number = line
            .strip_prefix("line ")?
            .split_once(": Paper from your instructor")?;
        Some(number.0.to_owned())
    });
    let line = line.unwrap_or_else(|| panic!("no such line in\n{list}"));
    // What is written lies beside the paper, and the same command goes on with it.
    let first = said(&["exam", "--plain"], &format!("{line}\n{paper}\n"));
    assert!(first.contains("\nname: Birch, T.\n"), "{first}");
    assert!(first.ends_with("end: nothing was written\n"), "{first}");
    let again = said(
        &["exam", "--plain"],
        &format!("{line}\n{paper}\n100 ft\n\n"),
    );
    let answers = class.at("class/week-6/screen/answers-week-6-001.json");
    assert!(
        again.contains(&format!("end: handed in as {answers}\n")),
        "{again}"
    );
    let refused = format!(
        "{answers} is there: this paper was handed in; hand that file over, or name another by --out\n"
    );
    let run = typed(&["exam", "--plain"], &format!("{line}\n{paper}\n"));
    assert_eq!((run.code, run.err), (2, format!("error: {refused}")));
    // It is told, and one goes back to the list.
    let nowhere = class.at("nowhere.json");
    let back = said(
        &["exam", "--plain"],
        &format!("{line}\n{paper}\n{line}\n{nowhere}\n?q\n"),
    );
    assert!(
        back.contains(&format!("\nnote: {refused}next: A number")),
        "{back}"
    );
    let missing = format!("\nnote: {nowhere} cannot be read: ");
    assert!(back.contains(&missing), "{back}");
}

#[test]
fn the_file_of_a_paper_is_no_exam() {
    for what in ["019.json", "box/019.JSON"] {
        let run = typed(&["exam", what, "--plain"], "");
        assert_eq!(
            (run.code, run.err),
            (
                2,
                format!(
                    "error: {what} is a file; a paper from an instructor is answered by: pumpwright sit FILE\n"
                )
            )
        );
    }
}

#[test]
fn a_plan_is_tried_and_nothing_is_kept() {
    let class = ClassFolder::new("plan-try", PLAN, "name\nAsh\n");
    let plan = class.at("plan.toml");
    let before = files(Path::new(class.path()));
    let tried = said(&["plan", "try", &plan, "--draw", "7"], "100 ft\n\n1\n\n");
    assert!(tried.contains("sheet: PAPER, TRIED, Week 6\n"), "{tried}");
    assert!(tried.contains("sheet: JOB SHEET, WORKED"), "{tried}");
    let item = |text: &str| text.split_once("item 1").map(|(_, rest)| rest.to_owned());
    let same = said(&["plan", "try", &plan, "--draw", "7"], "100 ft\n\n1\n\n");
    assert_eq!(item(&tried), item(&same));
    assert!(
        files(Path::new(class.path())) == before,
        "something is kept"
    );
}

#[test]
fn what_there_is_not_is_refused() {
    refused(
        &["exam", "licensed"],
        2,
        "there is no exam \"licensed\"; there is licensing",
    );
    refused(
        &["exam", "licensing.us.00.00"],
        2,
        "the code has \"00\", which is not 7 letters or digits of a code",
    );
}

#[cfg(unix)]
mod at_a_terminal {
    use std::thread;
    use std::time::Duration;

    use crate::pty::{Session, Start};
    use crate::started::fresh_logbook;

    fn start(logbook: &str, arguments: &[&str]) -> Session {
        Session::start(&Start {
            arguments,
            variables: &[("PUMPWRIGHT_LOGBOOK", logbook)],
            ..Start::default()
        })
    }

    #[test]
    fn a_paper_is_sat_set_aside_and_handed_in() {
        let mut session = Session::of(&["exam", "refresher", "--draw", "7"]);
        session.shows("40 min left of 40 min");
        session.types("a\r");
        session.shows("Question 2 of 25");
        session.types("?a");
        session.shows("question 2 is set aside");
        session.types("?z");
        session.shows("Set aside      1: no. 2");
        session.types("z\r");
        session.shows("EXAM PAPER, MARKED");
        session.shows("In the logbook since");
        session.types("?w");
        session.shows("1 of 25");
        session.types("?q");
        session.ends();
    }

    #[test]
    fn a_paper_that_was_killed_is_gone_on_with() {
        let logbook = fresh_logbook().display().to_string();
        let mut session = start(&logbook, &["exam", "refresher", "--draw", "7"]);
        session.shows("Question 1 of 25");
        session.types("b\r");
        session.shows("Question 2 of 25");
        // What is written is on the disk within a second.
        thread::sleep(Duration::from_secs(2));
        session.cuts_off();
        let mut session = start(&logbook, &["exam"]);
        session.shows("go on: Refresher");
        session.types("\r");
        let screen = session
            .shows("Kept up to question 2. The clock ran on:")
            .contents();
        assert!(screen.contains("answered 1"), "{screen}");
        session.types("?q");
        session.ends();
    }
}
