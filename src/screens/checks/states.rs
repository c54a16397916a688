//! What a screen says without color: each state looks different from each other
//! one, and color takes nothing away and adds nothing but itself.

use std::collections::BTreeMap;

use super::bench::{Bench, library, text_of};
use super::every_key::places;
use crate::theme::Look;
use crate::{SetUp, Start};

/// The states of one sheet, from empty to worked. The draw is the same in all.
const STATES: [(&str, &str); 19] = [
    ("nothing written", ""),
    ("half-typed", "0."),
    ("cannot be read", "about 3⏎"),
    ("written", "363⏎"),
    ("left empty", "⏎"),
    ("written in another unit", "4356 in⏎"),
    ("asked", "?"),
    ("helped one step", "??"),
    ("helped two steps", "???"),
    ("shown", "!"),
    ("right", "363⏎0.356⏎4.20⏎1.8⏎"),
    ("right, with help", "??⏎363⏎0.356⏎4.20⏎1.8⏎"),
    ("right, shown", "!⏎363⏎0.356⏎4.20⏎1.8⏎"),
    ("look here, and follows", "363⏎0.178⏎2.10⏎0.9⏎"),
    ("of the wrong kind", "363 V⏎0.356⏎4.20⏎1.8⏎"),
    ("not written", "⏎⏎⏎1.8⏎"),
    ("mending", "363⏎0.178⏎2.10⏎0.9⏎⏎"),
    ("mended", "363⏎0.178⏎2.10⏎0.9⏎⏎0.356⏎"),
    ("worked", "363⏎0.178⏎2.10⏎0.9⏎?w"),
];

fn plain(ascii: bool) -> Look {
    Look {
        ascii,
        colour: false,
    }
}

#[test]
fn each_state_of_a_sheet_differs_from_each_other_without_color() {
    let library = library();
    for ascii in [true, false] {
        for size in [(60, 20), (80, 24), (120, 40)] {
            let mut seen: BTreeMap<String, &str> = BTreeMap::new();
            for (state, tape) in STATES {
                let start = Start::Family("cable-drop".into());
                let mut bench = Bench::with(&library, &[], start, size, plain(ascii));
                bench.play(tape);
                let text = bench.text();
                if let Some(other) = seen.insert(text.clone(), state) {
                    panic!("{state} looks like {other} at {size:?}\n{text}");
                }
            }
        }
    }
}

#[test]
fn each_state_of_a_line_that_is_checked_at_once_differs_too() {
    let library = library();
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    for (state, tape) in [
        ("not checked", "363↓0.178"),
        ("right", "363⏎"),
        ("look here", "363⏎0.178⏎"),
        ("written again", "363⏎0.178⏎0.356"),
        ("right at the second writing", "363⏎0.178⏎0.356⏎"),
        ("follows", "363⏎0.178⏎⏎2.10⏎"),
        ("of the wrong kind", "363⏎0.356 V⏎"),
    ] {
        let set = SetUp {
            checked: Some(crate::Checked::LineByLine),
            ..SetUp::default()
        };
        let start = Start::Family("cable-drop".into());
        let person = super::bench::person(set);
        let mut bench = Bench::of(&library, &[], start, (80, 24), plain(true), person);
        bench.play(tape);
        let text = bench.text();
        if let Some(other) = seen.insert(text.clone(), state) {
            panic!("{state} looks like {other}\n{text}");
        }
    }
}

#[test]
fn color_changes_no_sign_and_no_word() {
    let library = library();
    let mut colored = 0;
    for (start, tape) in places() {
        let [with, without] = [true, false].map(|colour| {
            let look = Look {
                ascii: false,
                colour,
            };
            let mut bench = Bench::with(&library, &[], start.clone(), (80, 24), look);
            bench.play(tape);
            bench.draw().0
        });
        assert_eq!(text_of(&with), text_of(&without), "{start:?} {tape}");
        let has_color = |buffer: &ratatui::buffer::Buffer| {
            let mut cells = buffer.content().iter();
            cells.any(|cell| cell.fg != ratatui::style::Color::Reset)
        };
        assert!(!has_color(&without), "{start:?} {tape}");
        colored += usize::from(has_color(&with));
    }
    assert!(colored > 5, "the accents are not drawn at all");
}
