//! The real program at a real terminal: a sheet with a classic mistake, and the
//! terminal given back however the program ends.

use crate::problem::json;
use crate::pty::{Session, Start, given_back, signal};

const SHEET: [&str; 5] = ["practice", "--family", "cable-drop", "--draw", "7"];

#[test]
fn a_sheet_with_a_classic_mistake_is_marked_and_the_terminal_given_back() {
    let worked = json(&["cable-drop", "--draw", "7", "--worked"]);
    let mistakes = worked["mistakes"].as_array().expect("mistakes");
    let wrong = mistakes
        .iter()
        .find(|mistake| mistake["id"] == "one-way")
        .expect("the mistake");
    let run = worked["steps"].as_array().expect("steps").iter();
    let run = run
        .filter(|step| step["asked"] == true)
        .map(|step| &step["text"])
        .next();
    let mut session = Session::of(&SHEET);
    let screen = session.shows("Volts lost on the way down");
    assert!(screen.alternate_screen());
    let code = worked["code"].as_str().expect("a code");
    assert!(screen.contents().contains(code), "{}", screen.contents());
    session.types(run.and_then(|text| text.as_str()).expect("a text"));
    session.types("\r");
    session.types(wrong["text"].as_str().expect("a text"));
    session.types("\r\r\r");
    session.shows("JOB SHEET, HANDED IN");
    session.shows("I counted one conductor.");
    session.types("?");
    session.types("q");
    let screen = session.ends();
    assert!(
        screen
            .contents()
            .contains("1 sheet handed in, 1 of 4 marks."),
        "{}",
        screen.contents()
    );
}

#[test]
fn each_signal_to_stop_gives_the_terminal_back() {
    for signal in ["TERM", "HUP", "INT"] {
        let session = Session::of(&SHEET);
        session.shows("Volts lost on the way down");
        session.signal(signal);
        session.ends();
    }
}

#[test]
fn the_first_start_says_what_this_is() {
    let mut session = Session::of(&[]);
    let screen = session.shows("Next");
    assert!(
        screen.contents().contains("PUMPWRIGHT"),
        "{}",
        screen.contents()
    );
    session.types("?");
    session.types("q");
    session.ends();
}

#[test]
fn what_chooses_beforehand_gives_plain_lines_at_a_terminal_too() {
    let mut session = Session::of(&["practice", "--family", "cable-drop", "--count", "1"]);
    let screen = session.shows("line 1 of 4");
    assert!(!screen.alternate_screen());
    session.types("?Q\r");
    let screen = session.ends();
    assert!(
        screen.contents().contains("end: 0 sheets"),
        "{}",
        screen.contents()
    );
}

#[test]
fn a_terminal_that_is_none_gives_plain_lines() {
    let mut session = Session::start(&Start {
        arguments: &SHEET,
        variables: &[("TERM", "dumb")],
        ..Start::default()
    });
    let screen = session.shows("line 1 of 4");
    assert!(!screen.alternate_screen());
    session.types("?Q\r");
    session.ends();
}

#[test]
fn half_typed_text_outlives_a_window_that_is_too_small() {
    let mut session = Session::of(&SHEET);
    session.shows("Volts lost on the way down");
    session.types("12.5");
    session.shows("12.5____");
    session.resize((40, 10));
    session.shows("This window is 40 wide and 10 high.");
    session.resize((100, 30));
    session.shows("12.5____");
    session.types("6");
    session.shows("12.56___");
    session.signal("TERM");
    session.ends();
}

#[test]
fn a_small_window_at_the_start_is_met_kindly() {
    let mut session = Session::start(&Start {
        size: (40, 10),
        ..Start::default()
    });
    session.shows("What you wrote is kept.");
    session.types("\u{3}");
    session.ends();
}

#[test]
fn ctrl_l_draws_again_what_was_overwritten() {
    let mut session = Session::of(&SHEET);
    session.shows("Volts lost on the way down");
    session.types("12.5");
    session.shows("12.5____");
    session.types("\u{c}4");
    session.shows("12.54___");
    session.shows("Volts lost on the way down");
    session.types("\u{3}");
    session.ends();
}

// A build for use has nothing in it that breaks on purpose.
#[cfg(debug_assertions)]
#[test]
fn a_panic_gives_the_terminal_back_and_says_what_it_is() {
    let mut session = Session::start(&Start {
        variables: &[("PUMPWRIGHT_TEST_PANIC", "1")],
        ..Start::default()
    });
    session.shows("look at a worked job sheet");
    session.types("\r");
    let (status, screen) = session.comes_to_an_end();
    assert_eq!(status.exit_code(), 101);
    assert!(
        screen.contents().contains("broken on purpose"),
        "{}",
        screen.contents()
    );
}

/// A shell with job control, in which the program runs: its prompt is `ready`.
const SHELL: Start<'_> = Start {
    arguments: &[],
    size: (80, 24),
    variables: &[("PS1", "ready ")],
    shell: Some("exec /bin/sh -i"),
};

/// Whether the shell has told of the stopped program and stands at its prompt.
/// What is typed before that is echoed before the prompt, not behind it.
fn asks_again(screen: &vt100::Screen) -> bool {
    let text = screen.contents();
    given_back(screen) && text.contains("Stopped") && text.trim_end().ends_with("\nready")
}

#[test]
fn suspended_by_key_it_gives_the_terminal_back_and_comes_back_whole() {
    let mut session = Session::start(&SHELL);
    session.shows("ready");
    session.types("$PROGRAM practice --family cable-drop --draw 7\r");
    session.shows("Volts lost on the way down");
    session.types("12.5");
    session.shows("12.5____");
    session.types("\u{1a}");
    session.until("the shell asks again", asks_again);
    session.types("stty -a | tr ' ;' '\\n\\n' | grep -x -e icanon -e echo; echo asked\r");
    let screen = session.until("the shell answers", |screen| {
        screen.contents().contains("\nasked")
    });
    let text = screen.contents();
    assert!(
        text.contains("\nicanon") && text.contains("\necho"),
        "{text}"
    );
    session.types("fg\r");
    session.until("the sheet comes back", |screen| {
        screen.alternate_screen() && screen.contents().contains("12.5____")
    });
    session.types("6");
    session.shows("12.56___");
    session.types("\u{3}");
    session.until("the program stops", |screen| {
        !screen.alternate_screen() && screen.contents().contains("No sheet was handed in")
    });
    session.types("exit\r");
    session.ends();
}

#[test]
fn suspended_by_a_signal_it_comes_back_too() {
    let note = concat!(env!("CARGO_TARGET_TMPDIR"), "/suspended-by-a-signal");
    let mut session = Session::start(&SHELL);
    session.shows("ready");
    let line =
        format!("sh -c 'echo $$ > {note}; exec $PROGRAM practice --family cable-drop --draw 7'\r");
    session.types(&line);
    session.shows("Volts lost on the way down");
    session.types("12.5");
    session.shows("12.5____");
    let process = std::fs::read_to_string(note).expect("its number");
    signal(process.trim(), "TSTP");
    session.until("the shell asks again", asks_again);
    session.types("fg\r");
    session.until("the sheet comes back", |screen| {
        screen.alternate_screen() && screen.contents().contains("12.5____")
    });
    signal(process.trim(), "TERM");
    session.until("the program stops", given_back);
    session.types("exit\r");
    session.ends();
}

#[test]
fn without_a_shell_behind_it_nothing_is_suspended() {
    let mut session = Session::of(&SHEET);
    session.shows("Volts lost on the way down");
    session.types("\u{1a}");
    session.shows("this key has no use here");
    session.types("12.5");
    session.shows("12.5____");
    session.signal("TERM");
    session.ends();
}
