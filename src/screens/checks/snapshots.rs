//! Every surface as it looks at 80 by 24 and 120 by 40, in ASCII.

use insta::assert_snapshot;
use pumpwright_engine::lessons::{Fault, Library};

use super::bench::{Bench, files, library};
use crate::Start;
use crate::theme::Look;

const SMALL: (u16, u16) = (80, 24);
const LARGE: (u16, u16) = (120, 40);

/// A surface at both sizes, reached by a tape.
fn both(library: &Library, start: &Start, tape: &str) -> String {
    let mut shown = Vec::new();
    for size in [SMALL, LARGE] {
        let mut bench = Bench::new(library, start.clone(), size);
        assert!(bench.play(tape), "the tape ends the trainer");
        shown.push(bench.text());
    }
    shown.join("\n\n")
}

/// The first draw of cable-drop with one conductor counted at line 2, the rest
/// rightly worked from it.
const ONE_CONDUCTOR: &str = "363⏎0.178⏎2.10⏎0.9⏎";

/// The same with line 1 left empty. The two runs are alike here, so the figure
/// is also that of the buried part left out.
const TWO_TURNS: &str = "⏎0.178⏎2.10⏎0.9⏎";

fn family(id: &str) -> Start {
    Start::Family(id.into())
}

#[test]
fn first_start() {
    assert_snapshot!(both(&library(), &Start::First, ""));
}

#[test]
fn first_worked_sheet() {
    assert_snapshot!(both(&library(), &Start::First, "⏎"));
}

#[test]
fn front_page() {
    assert_snapshot!(both(&library(), &Start::Jobs, "3"));
}

#[test]
fn front_page_with_a_sheet_that_waits() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "320⏎0.6⎋"));
}

#[test]
fn sheet_of_figures() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "320⏎0.634"));
}

#[test]
fn sheet_with_a_choice() {
    assert_snapshot!(both(&library(), &family("megohm-verdict"), "c"));
}

#[test]
fn sheet_to_put_in_order() {
    assert_snapshot!(both(&library(), &family("insulation-order"), "5⏎2⏎-⏎2⏎"));
}

#[test]
fn sheet_to_match() {
    assert_snapshot!(both(&library(), &family("box-parts"), "d⏎f⏎"));
}

#[test]
fn slip_before_help() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "↓?"));
}

#[test]
fn slip_with_help() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "↓????"));
}

#[test]
fn slip_with_the_step_shown() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "↓!"));
}

#[test]
fn message_for_what_cannot_be_read() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "about 3⏎"));
}

#[test]
fn sheet_with_its_figure() {
    insta::assert_snapshot!(both(&library(), &family("drawdown"), ""));
}

#[test]
fn figure_over_the_sheet() {
    insta::assert_snapshot!(both(&library(), &family("drawdown"), "?f"));
}

#[test]
fn figure_as_ones_own_answer_would_have_it() {
    insta::assert_snapshot!(both(&library(), &family("drawdown"), "150⏎?v"));
}

#[test]
fn house_rules() {
    assert_snapshot!(both(&library(), &family("tank-precharge"), "?h"));
}

#[test]
fn keys() {
    assert_snapshot!(both(&library(), &family("tank-precharge"), "?k"));
}

#[test]
fn plain_list_of_a_sheet() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "320⏎?p"));
}

#[test]
fn lesson_file_that_cannot_be_read() {
    let mut files = files();
    let file = files
        .iter_mut()
        .find(|file| file.path.ends_with("cable-drop.toml"));
    let file = file.expect("the family ships");
    file.text = file
        .text
        .replace("'motor.full * loop'", "'motor.fulll * loop'");
    let (library, faults) = Library::read(&files);
    let look = Look {
        ascii: true,
        colour: false,
    };
    let shown =
        [SMALL, LARGE].map(|size| Bench::with(&library, &faults, Start::Jobs, size, look).text());
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn handed_in_with_two_turns_for_one_figure() {
    assert_snapshot!(both(&library(), &family("cable-drop"), TWO_TURNS));
}

#[test]
fn handed_in_with_one_turn_chosen_of_two() {
    let tape = format!("{TWO_TURNS}b⏎");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn handed_in_with_something_else_than_two_turns() {
    let tape = format!("{TWO_TURNS}c⏎");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

/// Two sums worked out, a third that cannot be.
const SUMS: &str = "363⏎0.2&181 ft + 182 ft⏎0.0982 ohm/100ft * s1⏎";

#[test]
fn back_of_the_sheet_with_nothing_on_it() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "&"));
}

#[test]
fn back_of_the_sheet_with_sums() {
    let tape = format!("{SUMS}s2 * 11.8 A");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn back_of_the_sheet_with_a_sum_that_cannot_be() {
    let tape = format!("{SUMS}11.8 A + 230 V⏎");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn back_of_the_sheet_with_an_earlier_sum_brought_back() {
    assert_snapshot!(both(&library(), &family("cable-drop"), &format!("{SUMS}↑")));
}

#[test]
fn slip_over_the_back_of_the_sheet() {
    assert_snapshot!(both(&library(), &family("cable-drop"), &format!("{SUMS}?")));
}

#[test]
fn a_sum_carried_over() {
    assert_snapshot!(both(
        &library(),
        &family("cable-drop"),
        &format!("{SUMS}?o")
    ));
}

#[test]
fn worked_with_the_sums_of_its_back() {
    let tape = format!("{SUMS}?o⏎⏎⏎?w⇟");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn table_of_the_line() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "⏎@"));
}

#[test]
fn table_found_by_a_word() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "@hp"));
}

#[test]
fn table_that_is_not_there() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "@99"));
}

#[test]
fn table_that_wraps_and_scrolls() {
    assert_snapshot!(both(&library(), &family("megohm-verdict"), "@"));
}

#[test]
fn table_that_is_closed_while_its_sheet_is_open() {
    assert_snapshot!(both(&library(), &family("box-parts"), "@"));
}

#[test]
fn tools_in_narrow_windows() {
    let library = library();
    let shown = [
        ("cable-drop", format!("{SUMS}11.8 A + 230 V⏎")),
        ("cable-drop", "⏎@".to_owned()),
        ("megohm-verdict", "@".to_owned()),
        ("setback", "@".to_owned()),
        ("stage-count", "@motors".to_owned()),
        ("cable-drop", TWO_TURNS.to_owned()),
    ];
    let shown = shown.map(|(family, tape)| {
        let mut bench = Bench::family(&library, family, (60, 20));
        bench.play(&tape);
        bench.text()
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn handed_in_with_one_conductor_counted() {
    assert_snapshot!(both(&library(), &family("cable-drop"), ONE_CONDUCTOR));
}

#[test]
fn mending_a_line() {
    assert_snapshot!(both(
        &library(),
        &family("cable-drop"),
        &format!("{ONE_CONDUCTOR}⏎")
    ));
}

#[test]
fn a_line_mended() {
    let tape = format!("{ONE_CONDUCTOR}⏎0.356⏎");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn worked_beside_ones_own_figures() {
    assert_snapshot!(both(
        &library(),
        &family("cable-drop"),
        &format!("{ONE_CONDUCTOR}?w")
    ));
}

#[test]
fn handed_in_all_right() {
    assert_snapshot!(both(
        &library(),
        &family("cable-drop"),
        "⏎0.36 ohm⏎??⏎4.2⏎1.8⏎"
    ));
}

#[test]
fn an_order_handed_in() {
    let tape = "9⏎5⏎1⏎6⏎3⏎7⏎8⏎2⏎4⏎";
    assert_snapshot!(both(&library(), &family("insulation-order"), tape));
}

#[test]
fn a_match_handed_in() {
    assert_snapshot!(both(&library(), &family("box-parts"), "a⏎b⏎c⏎d⏎e⏎"));
}

#[test]
fn a_choice_handed_in() {
    assert_snapshot!(both(&library(), &family("megohm-verdict"), "c⏎"));
}

#[test]
fn another_unit_is_shown_converted() {
    assert_snapshot!(both(&library(), &family("tank-precharge"), "262 kPa⏎"));
}

#[test]
fn slip_over_a_handed_in_sheet() {
    assert_snapshot!(both(
        &library(),
        &family("cable-drop"),
        &format!("{ONE_CONDUCTOR}?")
    ));
}

#[test]
fn front_page_narrowed_by_a_word() {
    assert_snapshot!(both(&library(), &Start::Jobs, "tank"));
}

#[test]
fn lesson_from_its_first_page() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "?l"));
}

#[test]
fn lesson_with_a_table() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "?l⏎"));
}

#[test]
fn lesson_with_a_caution_and_a_law() {
    let library = library();
    let shown = [(SMALL, "?l⏎⏎⏎"), (LARGE, "?l⏎⏎")].map(|(size, tape)| {
        let mut bench = Bench::family(&library, "cable-drop", size);
        bench.play(tape);
        bench.text()
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn set_up_opened_from_a_sheet() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "?uIna⏎si"));
}

#[test]
fn set_up_in_line_drawing() {
    assert_snapshot!(both(&library(), &family("cable-drop"), "?u↓↓↓line⏎"));
}

#[test]
fn a_line_that_is_checked_at_once() {
    let tape = "?u↓↓↓↓l⏎⏎?n627⏎0.178";
    assert_snapshot!(both(&library(), &family("cable-drop"), tape));
}

#[test]
fn a_line_to_look_at_that_is_checked_at_once() {
    let tape = "?u↓↓↓↓l⏎⏎?n";
    let library = library();
    let shown = [SMALL, LARGE, (60, 20)].map(|size| {
        let mut bench = Bench::family(&library, "cable-drop", size);
        bench.play(tape);
        bench.play("1⏎");
        bench.text()
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn settings_file_that_cannot_be_read() {
    use pumpwright_engine::lessons::SourceFile;
    let library = library();
    let source = SourceFile {
        path: "pumpwright/settings.toml".into(),
        text: "format = 1\nunits  = \"SI\nname   = \"Ina\"\n".into(),
    };
    let shown = [SMALL, LARGE].map(|size| {
        let fault = Fault::at(&source, &(20..24), "a text has no closing quote")
            .remedy("close the text with \"");
        let (mut person, kept) = super::bench::person(crate::SetUp::default());
        person.fault = Some(fault);
        let look = Look {
            ascii: true,
            colour: false,
        };
        Bench::of(&library, &[], Start::First, size, look, (person, kept)).text()
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn narrow_windows() {
    let library = library();
    let shown = ["", "⏎", "?w", "?h"].map(|tape| {
        let mut bench = Bench::family(&library, "cable-drop", (60, 20));
        bench.play(ONE_CONDUCTOR);
        bench.play(tape);
        bench.text()
    });
    let mut jobs = Bench::new(&library, Start::Jobs, (60, 20));
    jobs.play("2");
    assert_snapshot!(format!("{}\n\n{}", shown.join("\n\n"), jobs.text()));
}

#[test]
fn line_drawing() {
    let library = library();
    let look = Look {
        ascii: false,
        colour: true,
    };
    let start = family("cable-drop");
    let mut bench = Bench::with(&library, &[], start, SMALL, look);
    bench.play("320⏎0.634");
    assert_snapshot!(bench.text());
}

#[test]
fn windows_that_are_small_or_too_small() {
    let library = library();
    let sizes = [(60, 20), (48, 12), (30, 12), (23, 5)];
    let shown = sizes.map(|size| {
        let mut bench = Bench::family(&library, "cable-drop", SMALL);
        bench.play("320⏎0.634");
        bench.resize(size.0, size.1);
        format!("{} by {}\n{}", size.0, size.1, bench.text())
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn exams_to_choose_from() {
    assert_snapshot!(both(&library(), &Start::Exams, ""));
}

#[test]
fn exam_before_it_is_opened() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎"));
}

#[test]
fn exam_question() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎⏎a⏎?a⏎b"));
}

#[test]
fn exam_question_to_put_in_order() {
    let library = library();
    let shown = [SMALL, LARGE].map(|size| {
        let mut bench = Bench::new(&library, Start::Exams, size);
        bench.play("⏎⏎");
        while !bench.text().contains("write - at what does not belong") {
            assert!(!bench.text().contains("last question"), "no order is asked");
            bench.play("↓");
        }
        bench.play("2⏎1⏎");
        bench.text()
    });
    assert_snapshot!(shown.join("\n\n"));
}

#[test]
fn exam_slip() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎⏎?"));
}

#[test]
fn exam_to_be_handed_in() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎⏎a⏎?a⏎b⏎?z"));
}

#[test]
fn exam_marked() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎⏎a⏎b⏎a⏎c⏎?zz⏎"));
}

#[test]
fn exam_gone_through() {
    assert_snapshot!(both(&library(), &Start::Exams, "⏎⏎a⏎b⏎a⏎c⏎?zz⏎3⏎"));
}

/// The first draw of cable-drop on the board, from the worked sheet of what was handed in.
const BOARD: &str = "363⏎0.178⏎2.10⏎0.9⏎?w?w";

#[test]
fn board_before_a_line_is_shown() {
    assert_snapshot!(both(&library(), &family("cable-drop"), BOARD));
}

#[test]
fn board_with_two_lines() {
    let tape = format!("{BOARD}⏎⏎");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn board_with_a_known_turn() {
    let tape = format!("{BOARD}⏎⏎?v");
    assert_snapshot!(both(&library(), &family("cable-drop"), &tape));
}

#[test]
fn board_in_a_small_window_and_with_signs() {
    let library = library();
    let tape = format!("{BOARD}⏎⏎?v");
    let mut shown = Vec::new();
    for (ascii, size) in [(true, (60, 20)), (false, (60, 20)), (false, LARGE)] {
        let look = Look {
            ascii,
            colour: false,
        };
        let mut bench = Bench::with(&library, &[], family("cable-drop"), size, look);
        assert!(bench.play(&tape), "the tape ends the trainer");
        shown.push(bench.text());
    }
    assert_snapshot!(shown.join("\n\n"));
}
