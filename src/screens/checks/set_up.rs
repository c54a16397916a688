//! Set-up: asked once after the second sheet, held at once, kept by the caller.

use pumpwright_engine::quantities::{DecimalSign, System};

use super::bench::{Bench, library, person};
use crate::screen::Screen;
use crate::terminal::Runs as _;
use crate::theme::Look;
use crate::{Checked, SetUp, Signs, Start};

const ASCII: Look = Look {
    ascii: true,
    colour: false,
};

/// A person who was never asked, at the first start.
fn newcomer(library: &pumpwright_engine::lessons::Library) -> Bench<'_> {
    let (mut person, kept) = person(SetUp::default());
    person.asked = false;
    Bench::of(library, &[], Start::First, (80, 24), ASCII, (person, kept))
}

/// Hands in the sheet on top with its first line written, whatever stands there.
fn hand_in(bench: &mut Bench<'_>) {
    for _ in 0..40 {
        if matches!(bench.top(), Screen::HandedIn(_)) {
            return;
        }
        bench.play("1⏎");
    }
    panic!("never handed in:\n{}", bench.text());
}

fn is_set_up(bench: &Bench<'_>) -> bool {
    matches!(bench.top(), Screen::SetUp(_))
}

#[test]
fn from_the_first_start_to_the_second_sheet_and_then_set_up_once() {
    let library = library();
    let mut bench = newcomer(&library);
    bench.play("⏎⏎");
    hand_in(&mut bench);
    assert!(bench.text().contains("HANDED IN"), "{}", bench.text());
    bench.play("?n");
    assert!(matches!(bench.top(), Screen::Sheet(_)));
    hand_in(&mut bench);
    assert!(!is_set_up(&bench));
    bench.play("?n");
    assert!(is_set_up(&bench), "{}", bench.text());
    assert!(bench.text().contains("asked after the second sheet"));
    bench.play("⎋");
    assert!(matches!(bench.top(), Screen::Sheet(_)), "{}", bench.text());
    assert_eq!(bench.kept.borrow().all, [SetUp::default()]);
    hand_in(&mut bench);
    bench.play("?n");
    assert!(matches!(bench.top(), Screen::Sheet(_)));
}

#[test]
fn stepping_back_from_the_second_sheet_asks_too_and_goes_back_after_it() {
    let library = library();
    let mut bench = newcomer(&library);
    bench.play("⏎⏎");
    hand_in(&mut bench);
    bench.play("?n");
    hand_in(&mut bench);
    bench.play("⎋");
    assert!(is_set_up(&bench));
    bench.play("⏎⏎⏎⏎⏎⏎");
    let Screen::Jobs(jobs) = bench.top() else {
        panic!("{}", bench.text())
    };
    assert_eq!(jobs.waiting.len(), 2);
}

#[test]
fn units_and_decimal_sign_hold_from_the_next_sheet_on() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("12?u↓s⏎,⏎⎋");
    let text = bench.text();
    assert!(text.contains("cable-drop.2us"), "{text}");
    assert!(text.contains("12____"), "{text}");
    bench.play("?n");
    let text = bench.text();
    assert!(text.contains("cable-drop.2si"), "{text}");
    let Screen::Sheet(sheet) = bench.top() else {
        panic!("a sheet")
    };
    assert_eq!(sheet.manner.decimal, DecimalSign::Comma);
    let last = bench.kept.borrow().all.last().cloned().expect("kept");
    let expected = SetUp {
        units: Some(System::Si),
        decimal: Some(DecimalSign::Comma),
        ..SetUp::default()
    };
    assert_eq!(last, expected);
}

#[test]
fn a_name_takes_every_sign_and_stands_on_the_front_page() {
    let library = library();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    bench.play("?uIna & Co. @ home?!⏎⎋");
    assert!(
        bench.text().contains("For   Ina & Co. @ home?!"),
        "{}",
        bench.text()
    );
    bench.play("?u⌫⌫");
    for _ in 0..60 {
        bench.play("⌫");
    }
    bench.play("⏎⎋");
    assert!(!bench.text().contains("For "), "{}", bench.text());
    assert_eq!(bench.kept.borrow().all.last(), Some(&SetUp::default()));
}

#[test]
fn the_user_of_the_machine_stands_in_for_a_name() {
    let library = library();
    let (mut person, kept) = person(SetUp::default());
    person.user = "frida".into();
    let mut bench = Bench::of(&library, &[], Start::Jobs, (80, 24), ASCII, (person, kept));
    assert!(bench.text().contains("For   frida"), "{}", bench.text());
}

#[test]
fn signs_change_at_once_and_back() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("?u↓↓↓l⏎");
    assert!(bench.text().contains("┌─┐ ✓"), "{}", bench.text());
    assert_eq!(
        bench.kept.borrow().all.last().and_then(|set| set.signs),
        Some(Signs::Drawn)
    );
    bench.play("↑a⏎");
    assert!(bench.text().is_ascii());
    assert_eq!(bench.kept.borrow().all.last(), Some(&SetUp::default()));
}

#[test]
fn what_cannot_be_read_stays_with_the_pen_and_changes_nothing() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("?u↓metres⏎");
    assert!(bench.text().contains("write US or SI"), "{}", bench.text());
    assert!(bench.kept.borrow().all.is_empty());
    bench.play("⎋?u");
    let text = bench.text();
    assert!(text.contains("metres___"), "half-way text waits: {text}");
}

#[test]
fn what_was_set_before_holds_from_the_start() {
    let library = library();
    let set = SetUp {
        name: Some("Ina".into()),
        checked: Some(Checked::LineByLine),
        ..SetUp::default()
    };
    let mut bench = Bench::of(
        &library,
        &[],
        Start::Family("cable-drop".into()),
        (80, 24),
        ASCII,
        person(set),
    );
    assert!(bench.text().contains("checked line by line"));
    bench.play("⎋");
    assert!(bench.text().contains("For   Ina"));
}

#[test]
fn what_could_not_be_kept_is_said_and_waits_for_the_next_key() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.kept.borrow_mut().news = Some("set-up is not kept: the disk is full".into());
    assert!(bench.trainer.news());
    assert!(bench.text().contains("the disk is full"));
    assert!(!bench.trainer.news());
    bench.play("3");
    assert!(!bench.text().contains("the disk is full"));
}
