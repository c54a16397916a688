//! Whole runs in plain lines, as a script or a screen reader gets them.

use insta::assert_snapshot;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::bench::{MANNER, library, shipped};
use crate::plain::{PlainDone, PlainOptions, practice_plain};

/// What is printed when these lines are typed, and what was done.
fn run(library: &Library, families: &[&str], typed: &str) -> (String, PlainDone) {
    run_draw(library, families, typed, 2)
}

/// The same with this draw.
fn run_draw(library: &Library, families: &[&str], typed: &str, number: u32) -> (String, PlainDone) {
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
        settings: &settings,
        manner: MANNER,
        ascii: false,
        echo: true,
        count: Some(families.len()),
        draws: &mut draws,
    };
    let mut output = Vec::new();
    let mut input = typed.as_bytes();
    let done = practice_plain(
        library,
        &mut || plan.next(),
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
