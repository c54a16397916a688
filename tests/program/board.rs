//! The board from outside: plain lines where no terminal is, a known mistake, refusals.

use std::io::Write as _;
use std::process::Stdio;

use crate::started::{printed, program, refused};

const CODE: &str = "cable-drop.2us.F91RB4S.XKKPK";

/// What the board prints for these lines.
fn played(arguments: &[&str], lines: &str) -> String {
    let mut command = program(arguments);
    let mut running = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut input = running.stdin.take().expect("an input");
    input.write_all(lines.as_bytes()).expect("lines are taken");
    drop(input);
    let done = running.wait_with_output().expect("the program ends");
    assert!(done.status.success(), "{done:?}");
    String::from_utf8(done.stdout).expect("UTF-8")
}

#[test]
fn lines_come_when_they_are_asked_for() {
    let closed = printed(&["board", CODE]);
    assert!(closed.contains("next: Enter: show line 1"), "{closed}");
    assert!(
        !closed.contains("645 ft") && !closed.contains('\u{1b}'),
        "{closed}"
    );
    let caution = closed.find("caution: ").expect("a caution");
    assert!(caution < closed.find("text: ").expect("the job"));
    let open = played(&["board", CODE], "\n\n?v\n?q\n");
    assert!(
        open.contains("working 1: run equals 229 ft plus 416 ft equals 645 ft"),
        "{open}"
    );
    assert!(
        open.contains("turn 2: Known turn: \"I counted one conductor.\""),
        "{open}"
    );
    assert!(!open.contains("working 3"), "{open}");
}

#[test]
fn what_can_be_chosen_or_put_in_order_is_said_before_its_line() {
    let order = printed(&["board", "lockout-order", "--level", "1"]);
    for words in ["\nline 1 of ", "\njob 1: ", "\njob 6: "] {
        assert!(order.contains(words), "{words:?} is not in\n{order}");
    }
    let choice = printed(&["board", "relief-setting", "--level", "1"]);
    assert!(choice.contains("\noffer a: "), "{choice}");
}

#[test]
fn a_known_mistake_is_begun_with_and_another_is_refused() {
    let told = printed(&["board", "cable-drop", "--mistake", "one-way", "--draw", "3"]);
    assert!(
        told.contains("working 1: run") && told.contains("turn 2: "),
        "{told}"
    );
    assert!(!told.contains("working 2"), "{told}");
    let sentence =
        format!("{CODE} does not show the mistake \"no-such\"; it has one-way, drop-only, of-115");
    refused(&["board", CODE, "--mistake", "no-such"], 2, &sentence);
    refused(
        &["board", CODE, "--level", "2"],
        2,
        &format!("the code {CODE} settles everything; leave --level out, or name a family"),
    );
}
