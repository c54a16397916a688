//! Key tapes: what a run of keys does.

use super::bench::{Bench, library};
use crate::Start;
use crate::keys::Press;
use crate::screen::Screen;

/// What stands in the blanks of the sheet on top, and where the pen is.
fn written(bench: &Bench<'_>) -> (Vec<String>, usize) {
    let sheet = bench.top().sheet().expect("a sheet lies on top");
    (
        sheet
            .slots
            .iter()
            .map(|slot| slot.blank.text().to_owned())
            .collect(),
        sheet.pen,
    )
}

#[test]
fn the_first_start_leads_from_a_worked_sheet_to_one_of_ones_own() {
    let library = library();
    let mut bench = Bench::new(&library, Start::First, (80, 24));
    assert!(matches!(bench.top(), Screen::First(_)));
    bench.play("⎋");
    assert!(bench.text().contains("this is the front"));
    bench.play("⏎");
    let worked = bench.top().problem().expect("a worked sheet").code.clone();
    bench.play("⏎");
    let own = bench.top().problem().expect("a sheet").code.clone();
    assert!(matches!(bench.top(), Screen::Sheet(_)));
    assert_eq!(worked.family, own.family);
    assert_ne!(worked.seed, own.seed);
}

#[test]
fn enter_goes_on_line_by_line_and_stepping_back_keeps_what_is_written() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("320⏎0.6");
    assert_eq!(
        written(&bench),
        (
            vec!["320".into(), "0.6".into(), String::new(), String::new()],
            1
        )
    );
    bench.play("⎋");
    assert!(matches!(bench.top(), Screen::Jobs(jobs) if jobs.waiting.len() == 1));
    bench.play("⎋⎋⎋");
    assert!(matches!(bench.top(), Screen::Jobs(_)));
    bench.play("⏎34");
    assert_eq!(written(&bench).0[1], "0.634");
}

#[test]
fn what_cannot_be_read_stays_and_so_does_the_pen() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("about 3⏎");
    assert_eq!(written(&bench).0[0], "about 3");
    assert_eq!(written(&bench).1, 0);
}

#[test]
fn a_number_moves_the_pen_and_the_pen_writes_the_number() {
    let library = library();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    bench.play("↓↓");
    let Screen::Jobs(jobs) = bench.top() else {
        panic!("the front page")
    };
    assert_eq!((jobs.pen, jobs.written.text()), (2, "3"));
    bench.play("2");
    let Screen::Jobs(jobs) = bench.top() else {
        panic!("the front page")
    };
    assert_eq!((jobs.pen, jobs.written.text()), (1, "2"));
    bench.play("99⏎");
    assert!(bench.text().contains("write a line number"));
}

#[test]
fn an_order_goes_on_to_the_next_empty_one() {
    let library = library();
    let mut bench = Bench::family(&library, "insulation-order", (80, 24));
    bench.play("↓2⏎");
    assert_eq!(written(&bench).1, 2);
    bench.play("x⏎");
    assert_eq!(written(&bench).1, 2);
    bench.play("⌫-⏎");
    assert_eq!(written(&bench).1, 3);
}

#[test]
fn the_second_question_mark_is_help_and_the_first_is_not() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    let helped = |bench: &Bench<'_>| {
        let sheet = bench.trainer.stack().iter().find_map(Screen::sheet);
        sheet.expect("a sheet").helped.clone()
    };
    bench.play("?");
    assert_eq!(helped(&bench)[0], 0);
    bench.play("?");
    assert_eq!(helped(&bench)[0], 1);
    bench.play("⏎↓!⎋");
    assert_eq!(helped(&bench)[..2], [1, 4]);
}

#[test]
fn a_paste_goes_into_the_blank_and_never_acts() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.press(Press::Paste("320 ft".into()));
    assert_eq!(
        written(&bench),
        (
            vec!["320 ft".into(), String::new(), String::new(), String::new()],
            0
        )
    );
}

#[test]
fn other_numbers_leave_a_begun_sheet_waiting() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("320?n");
    assert!(matches!(bench.top(), Screen::Sheet(sheet) if !sheet.is_begun()));
    bench.play("⎋");
    assert!(matches!(bench.top(), Screen::Jobs(jobs) if jobs.waiting.len() == 1));
}

#[test]
fn letters_act_in_the_slip_only_and_say_so_where_they_have_no_use() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("?w");
    assert!(bench.text().contains("W working has no use here"));
    bench.play("x");
    assert!(
        bench.text().contains("X sit it has no use here"),
        "{}",
        bench.text()
    );
    assert!(!bench.play("q"));
    let ending = bench.trainer.ending().line;
    assert_eq!(
        ending,
        "No sheet was handed in; nothing is kept after the stop."
    );
}

#[test]
fn a_line_that_is_mended_waits_half_way_and_changes_no_mark() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("363⏎0.178⏎2.10⏎0.9⏎");
    assert!(
        bench
            .text()
            .contains("Likely turn:  \"I counted one conductor.\"")
    );
    bench.play("⏎0.3⎋⏎56⏎");
    let text = bench.text();
    assert!(text.contains("once more"), "{text}");
    assert!(text.contains("0.356 ohm"), "{text}");
    assert!(text.contains("3 of 4 marks"), "{text}");
    bench.play("⎋");
    assert!(
        bench.text().contains("handed in, line 3 of 4 to mend"),
        "{}",
        bench.text()
    );
    bench.play("⏎⏎4.2⏎⏎1.8⏎");
    assert!(
        bench.text().contains("the same job with other numbers"),
        "{}",
        bench.text()
    );
    let ending = bench.trainer.ending().line;
    assert_eq!(
        ending,
        "1 sheet handed in, 3 of 4 marks. Nothing of it is kept after the stop."
    );
}

#[test]
fn a_level_or_family_that_is_not_there_is_said_on_the_front_page() {
    let library = library();
    for start in [
        Start::Level("cable-drop".into(), 3),
        Start::Family("cable-dorp".into()),
    ] {
        let mut bench = Bench::new(&library, start, (80, 24));
        assert!(matches!(bench.top(), Screen::Jobs(_)));
        assert!(bench.text().contains("cable-d"), "{}", bench.text());
    }
    let level = Start::Level("cable-drop".into(), 2);
    let bench = Bench::new(&library, level, (80, 24));
    assert!(matches!(bench.top(), Screen::Sheet(_)));
}

#[test]
fn no_lesson_at_all_is_no_fault() {
    let library = pumpwright_engine::lessons::Library::default();
    for start in [Start::First, Start::Jobs] {
        let mut bench = Bench::new(&library, start, (80, 24));
        bench.play("⏎1⏎↓↑⇟⇞?k⎋");
        assert!(bench.text().contains("no job to take"), "{}", bench.text());
    }
}

#[test]
fn another_letter_takes_the_place_of_the_one_that_stands_in_a_choice() {
    let library = library();
    let mut bench = Bench::family(&library, "megohm-verdict", (80, 24));
    bench.play("ac");
    assert_eq!(written(&bench).0, ["c"]);
    let mut bench = Bench::family(&library, "box-parts", (80, 24));
    bench.play("ab⏎c");
    assert_eq!(written(&bench).0[..2], ["b", "c"]);
    let mut bench = Bench::family(&library, "insulation-order", (80, 24));
    bench.play("12");
    assert_eq!(written(&bench).0[0], "12");
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("⏎0.178⏎2.10⏎0.9⏎x⏎b⏎");
    let text = bench.text();
    assert!(text.contains("Likely turn:"), "{text}");
}
