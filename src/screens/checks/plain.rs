//! Whole runs in plain lines, as a script or a screen reader gets them.

use insta::assert_snapshot;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::bench::{MANNER, library};
use crate::plain::{PlainDone, PlainOptions, practice_plain};

/// What is printed when these lines are typed, and what was done.
fn run(library: &Library, families: &[&str], typed: &str) -> (String, PlainDone) {
    let settings = Settings::default();
    let problem = |family: &str| -> Problem {
        let request = Request {
            family,
            level: None,
            system: System::Us,
            draw: 2,
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
fn every_line_has_a_prefix_and_no_escape_code() {
    let library = library();
    for family in library.families() {
        for typed in [
            "",
            "1\n\n",
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
