//! Checking line by line: each line is marked as it is finished, and the first
//! writing is what counts.

use super::bench::{Bench, library, person};
use crate::screen::Screen;
use crate::theme::Look;
use crate::{Checked, SetUp, Start};

fn bench<'a>(library: &'a pumpwright_engine::lessons::Library, family: &str) -> Bench<'a> {
    let set = SetUp {
        checked: Some(Checked::LineByLine),
        ..SetUp::default()
    };
    let look = Look {
        ascii: true,
        colour: false,
    };
    let start = Start::Family(family.into());
    Bench::of(library, &[], start, (80, 24), look, person(set))
}

#[test]
fn a_wrong_line_is_named_at_once_and_mended_and_its_first_writing_counts() {
    let library = library();
    let mut bench = bench(&library, "cable-drop");
    assert!(bench.text().contains("on to line 2"), "{}", bench.text());
    bench.play("363");
    assert!(
        bench.text().contains("Enter: check line 1, on to line 2"),
        "{}",
        bench.text()
    );
    bench.play("⏎");
    assert!(bench.text().contains("line 1: right"), "{}", bench.text());
    bench.play("0.178⏎");
    let text = bench.text();
    assert!(text.contains("line 2: look here"), "{text}");
    assert!(text.contains("I counted one conductor."), "{text}");
    assert!(text.contains("or write line 2 again"), "{text}");
    bench.play("0.356");
    assert!(bench.text().contains("first 0.178"), "{}", bench.text());
    assert!(
        bench
            .text()
            .contains("Enter: check line 2 once more, on to line 3"),
        "{}",
        bench.text()
    );
    bench.play("⏎4.2⏎1.8⏎");
    let Screen::HandedIn(handed_in) = bench.top() else {
        panic!("{}", bench.text())
    };
    assert_eq!(handed_in.marked.score.number(), 3.0);
    assert!(handed_in.to_mend().is_none());
    let text = bench.text();
    assert!(text.contains("once more"), "{text}");
    assert!(text.contains("0.178 ohm"), "{text}");
}

#[test]
fn a_line_to_look_at_may_be_left_as_it_is_and_later_lines_follow_from_it() {
    let library = library();
    let mut bench = bench(&library, "cable-drop");
    bench.play("363⏎0.178⏎⏎2.10⏎");
    assert!(
        bench.text().contains("follows your line 2"),
        "{}",
        bench.text()
    );
    bench.play("0.9⏎");
    let Screen::HandedIn(handed_in) = bench.top() else {
        panic!("{}", bench.text())
    };
    assert_eq!(handed_in.marked.score.number(), 3.0);
}

#[test]
fn an_empty_line_is_not_checked_and_the_last_alone_is_enough() {
    let library = library();
    let mut bench = bench(&library, "cable-drop");
    bench.play("⏎⏎⏎");
    assert!(!bench.text().contains("check line"), "{}", bench.text());
    bench.play("1.8⏎");
    assert!(
        matches!(bench.top(), Screen::HandedIn(_)),
        "{}",
        bench.text()
    );
}

#[test]
fn what_cannot_be_read_is_no_writing() {
    let library = library();
    let mut bench = bench(&library, "cable-drop");
    bench.play("about 3⏎⌫⌫⌫⌫⌫⌫⌫363⏎");
    assert!(bench.text().contains("line 1: right"), "{}", bench.text());
}

#[test]
fn an_arrangement_is_checked_when_its_last_place_is_written() {
    let library = library();
    let mut bench = bench(&library, "box-parts");
    bench.play("a⏎a⏎a⏎a⏎a⏎");
    let Screen::Sheet(sheet) = bench.top() else {
        panic!("{}", bench.text())
    };
    assert_eq!(sheet.checks.len(), 1);
    let text = bench.text();
    assert!(text.contains("LINE 1"), "{text}");
    assert!(
        text.contains("Enter: hand in this sheet, or write"),
        "{text}"
    );
    bench.play("⏎");
    assert!(matches!(bench.top(), Screen::HandedIn(_)));
}

#[test]
fn an_unsafe_order_ends_the_sheet() {
    let library = library();
    let mut bench = bench(&library, "insulation-order");
    bench.play("9⏎5⏎1⏎6⏎3⏎7⏎8⏎2⏎4⏎");
    for _ in 0..3 {
        if matches!(bench.top(), Screen::HandedIn(_)) {
            break;
        }
        bench.play("⏎");
    }
    assert!(
        matches!(bench.top(), Screen::HandedIn(_)),
        "{}",
        bench.text()
    );
}

#[test]
fn a_checked_sheet_waits_with_its_checks() {
    let library = library();
    let mut bench = bench(&library, "cable-drop");
    bench.play("1⏎⎋⏎");
    assert!(bench.text().contains("look here"), "{}", bench.text());
    bench.play("⏎363");
    let Screen::Sheet(sheet) = bench.top() else {
        panic!("{}", bench.text())
    };
    assert_eq!(
        sheet
            .first_writing()
            .answers
            .iter()
            .filter(|(_, typed)| typed == "1")
            .count(),
        1
    );
}
