//! Whole runs in plain lines, as a script or a screen reader gets them.

use insta::assert_snapshot;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::bench::{MANNER, library, person, shipped};
use crate::SetUp;
use crate::plain::{PlainDone, PlainOptions, practice_plain};

/// What is printed when these lines are typed, and what was done.
fn run(library: &Library, families: &[&str], typed: &str) -> (String, PlainDone) {
    run_draw(library, families, typed, 2)
}

/// The same with this draw.
fn run_draw(library: &Library, families: &[&str], typed: &str, number: u32) -> (String, PlainDone) {
    run_set(library, families, typed, (number, SetUp::default()))
}

/// The same with this draw, for somebody who set this.
fn run_set(
    library: &Library,
    families: &[&str],
    typed: &str,
    (number, set): (u32, SetUp),
) -> (String, PlainDone) {
    let settings = Settings::default();
    let problem = |family: &str| -> Problem {
        let request = Request {
            family,
            level: None,
            system: System::Us,
            draw: number,
            settings: &settings,
        };
        draw(library, &request).expect("a shipped family draws")
    };
    let mut plan = families.iter().map(|family| problem(family));
    let mut draws = || 7;
    let options = PlainOptions {
        system: System::Us,
        settings: &settings,
        manner: MANNER,
        ascii: false,
        echo: true,
        count: Some(families.len()),
        by_record: false,
        draws: &mut draws,
        person: person(set).0,
    };
    let mut output = Vec::new();
    let mut input = typed.as_bytes();
    let done = practice_plain(
        library,
        &mut |_| plan.next(),
        options,
        (&mut input, &mut output),
    );
    let done = done.expect("memory can be written");
    (String::from_utf8(output).expect("text"), done)
}

/// One conductor counted at line 2, the rest worked from it, then line 2 mended.
const CLASSIC: &str = include_str!("classic.txt");

#[test]
fn a_whole_problem_with_a_classic_mistake_and_mending() {
    let (text, done) = run(&library(), &["cable-drop"], CLASSIC);
    assert_snapshot!(text);
    assert_eq!(
        (done.sheets, done.score.number(), done.out_of.number()),
        (1, 3.0, 4.0)
    );
}

#[test]
fn choice_order_and_match() {
    let typed = "c\n\n?n\n?q\n";
    let (choice, _) = run(&library(), &["megohm-verdict"], typed);
    let order = "9 5 1 6 3 7\n7 5 1 6 3 2 4\n\n\n";
    let (order, _) = run(&library(), &["insulation-order"], order);
    let (matching, _) = run(&library(), &["box-parts"], "abcde\n\n!\n?w\n");
    assert_snapshot!([choice, order, matching].join("\n"));
}

#[test]
fn the_tools_say_what_they_are_and_what_is_not_there() {
    let typed = "?k\n?h\n?w\n?g\n?y\n@\n& 1 ft + 2 ft\n?\n?\n?\n?\n?\n?\n!\n";
    let (text, done) = run(&library(), &["tank-precharge"], typed);
    assert_snapshot!(text);
    assert_eq!(done.sheets, 0);
}

#[test]
fn side_sums_and_tables_beside_a_sheet() {
    let typed = [
        "?O",
        "&",
        "& 150 ft + 2 A",
        "& 2 * 1.5 ft",
        "& s1 + 1 ft",
        "&",
        "@",
        "@ hp",
        "@ no such word",
        "?O s9",
        "?o s1",
        "?O",
        "",
        "",
        "& 1 + 1",
        "@ copper",
        "?O",
        "",
        "?k",
        "?w",
    ];
    let (text, done) = run(&library(), &["cable-drop"], &(typed.join("\n") + "\n"));
    assert_snapshot!(text);
    assert_eq!(done.sheets, 1);
}

#[test]
fn a_table_that_a_match_asks_stays_closed() {
    let (text, _) = run(&library(), &["box-parts"], "@\n@ drops\n?o\n?q\n");
    assert!(text.contains("Closed while this sheet is open"), "{text}");
    assert!(!text.contains("row: "), "{text}");
    assert!(text.contains("O carry over has no use here"), "{text}");
}

#[test]
fn two_mistakes_with_one_figure_are_asked_about() {
    let library = library();
    let sheet = "\n0.178\n2.1\n0.9\n\n";
    for (letter, says) in [
        ("a", "look 2: Current goes down and comes back"),
        ("b", "look 2: That is the cable in the well"),
        ("c", "next: line 2 of 4 once more"),
    ] {
        let typed = format!("{sheet}x\n{letter}\n?q\n");
        let (text, _) = run_draw(&library, &["cable-drop"], &typed, 1);
        let (before, after) = text
            .rsplit_once("next: Which was it? Write one letter, a to c.")
            .expect("it is asked");
        assert!(before.contains("turn 2: c, something else"), "{text}");
        assert!(after.contains(says), "{letter}: {text}");
    }
}

#[test]
fn the_lesson_is_said_part_by_part() {
    let (text, _) = run(&library(), &["cable-drop"], "?l\n?q\n");
    assert_snapshot!(text);
}

#[test]
fn every_line_has_a_prefix_and_no_escape_code() {
    let library = shipped();
    for family in library.families() {
        for typed in [
            "",
            "1\n\n",
            "?l\n",
            "\u{1b}[2Jx\n!\n?\n?\n\n\n\n",
            CLASSIC,
            "\u{0}\n\u{9b}\n",
        ] {
            let (text, _) = run(&library, &[&family.id, "cable-drop"], typed);
            for line in text.lines().filter(|line| !line.is_empty()) {
                let prefix = line.split(':').next().unwrap_or_default();
                assert!(
                    line.contains(": ") && prefix.len() < 40,
                    "{}: {line}",
                    family.id
                );
                assert!(
                    prefix.chars().next().is_some_and(char::is_lowercase),
                    "{line}"
                );
                assert!(!line.contains(char::is_control), "{line:?}");
            }
            let end = text.lines().last().unwrap_or_default();
            assert!(end.starts_with("end: "), "{}: {end}", family.id);
        }
    }
}

#[test]
fn a_file_of_noise_is_no_fault() {
    let library = library();
    let noise: String = (0..20_000_u32)
        .map(|n| char::from((n * 7919 % 251) as u8))
        .collect();
    let (text, _) = run(&library, &["cable-drop"], &noise);
    assert!(
        text.lines()
            .last()
            .is_some_and(|line| line.starts_with("end: "))
    );
}

/// Each line is checked as it is written.
fn line_by_line() -> SetUp {
    SetUp {
        checked: Some(crate::Checked::LineByLine),
        ..SetUp::default()
    }
}

#[test]
fn a_sheet_checked_line_by_line() {
    let typed = "627\n0.778\n\n7.54\n3.3\n2\n1.555\n\n?w\n";
    let (text, done) = run_set(&library(), &["cable-drop"], typed, (2, line_by_line()));
    assert_snapshot!(text);
    assert_eq!((done.sheets, done.score.number()), (1, 3.0));
}

#[test]
fn an_unsafe_line_ends_a_sheet_that_is_checked_line_by_line() {
    let typed = "7 5 1 6 3 2 4\n";
    let (text, done) = run_set(
        &library(),
        &["insulation-order"],
        typed,
        (2, line_by_line()),
    );
    assert!(text.contains("verdict 1: stop: unsafe order"), "{text}");
    assert!(!text.contains("check 1"), "{text}");
    assert_eq!(done.sheets, 1);
}

#[test]
fn what_is_written_stays_where_a_line_is_visited_again() {
    let typed = "627\n0.778\n\n\n1\n\n2\n-\n3\nabout\n?p\n\n?q\n";
    let (text, _) = run(&library(), &["cable-drop"], typed);
    assert!(
        text.contains("note: It holds 627. Enter keeps that"),
        "{text}"
    );
    assert!(text.contains("line 1 of 4: run: 627 ft\n"), "{text}");
    assert!(
        text.contains("kept 2: nothing, the line is empty\n"),
        "{text}"
    );
    assert!(
        text.contains("line 2 of 4: ohms in the loop: (empty)\n"),
        "{text}"
    );
}

#[test]
fn a_sheet_that_is_left_waits_and_is_gone_on_with() {
    // Set aside at line 2; the plan goes on; then it comes back there.
    let typed = "627\n?A\n40\n\n\n0.778\n?q\n";
    let (text, _) = run(&library(), &["cable-drop", "tank-precharge"], typed);
    let (before, after) = text
        .split_once("sheet: cable-drop, gone on with\n")
        .expect("it comes back");
    assert!(before.contains("note: set aside"), "{text}");
    assert!(after.contains("line 1 of 4: run: 627 ft\n"), "{text}");
    let asked = after.rsplit_once("line 2 of 4: ohms in the loop, in ohm\nwrite: 0.778\n");
    assert!(
        asked.is_some_and(|(_, kept)| kept.starts_with("kept 2: 0.778")),
        "{text}"
    );
}

#[test]
fn the_front_page_lists_finds_and_takes() {
    let typed = "627\n?t\n\n?t\nsetback\nno such word\n0\n!\nall\n9\n?t\n1\n?q\n";
    let (text, _) = run(&library(), &["cable-drop"], typed);
    assert_snapshot!(text);
}

#[test]
fn a_sheet_handed_in_waits_too() {
    let typed = "627\n0.778\n7.54\n3.3\n\n?t\n6\n?t\n1\n1.555\n?q\n";
    let (text, done) = run(&library(), &["cable-drop"], typed);
    assert!(
        text.contains("line 1: go on with cable-drop, handed in, line 2 of 4"),
        "{text}"
    );
    assert!(text.contains("sheet: cable-drop, handed in\n"), "{text}");
    assert!(text.contains("mended 2: right. 1.555 ohm."), "{text}");
    assert_eq!((done.sheets, done.score.number()), (1, 3.0));
}

#[test]
fn set_up_is_asked_line_by_line_and_holds_from_the_next_sheet_on() {
    let typed = "?u\nAsh\nmeters\nSI\n,\n\nline\n2027-03-15\n?n\n?u\n-\n\n.\n\n\n-\n?q\n";
    let (text, _) = run(&library(), &["tank-precharge"], typed);
    assert_snapshot!(text);
}
