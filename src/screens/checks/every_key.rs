//! Every key on every screen: nothing panics, and what rules every screen holds.

use super::bench::{Bench, library, shipped};
use super::board::problem;
use crate::Start;
use crate::keys::{Press, TOOLS, from_sign};
use crate::page::{Page, Role};
use crate::theme::Sign;

fn presses(slip: bool) -> Vec<Press> {
    let mut presses = vec![
        Press::Enter,
        Press::Escape,
        Press::Up,
        Press::Down,
        Press::PageUp,
        Press::PageDown,
        Press::Left,
        Press::Right,
        Press::Home,
        Press::End,
        Press::Erase,
        Press::Delete,
        Press::Ask,
        Press::Show,
        Press::Tables,
        Press::Sums,
        Press::Paste("38 psi".into()),
        Press::Redraw,
        Press::Suspend,
    ];
    let letters: Vec<char> = if slip {
        ('a'..='z').collect()
    } else {
        "aqxz019".chars().collect()
    };
    presses.extend(letters.into_iter().map(Press::Type));
    presses.extend(".,-/'\"#:;%°水".chars().map(Press::Type));
    presses
}

/// At the work order of the bench's class.
fn in_class() -> Start {
    Start::Class(Some("evening-class".into()))
}

/// Tapes that reach every screen.
pub(super) fn places() -> Vec<(Start, &'static str)> {
    let family = |id: &str| Start::Family(id.into());
    let on_the_board = |id: &str| Start::Board(Box::new(problem(id, 1)), None);
    vec![
        (Start::First, ""),
        (Start::First, "⏎"),
        (Start::Jobs, ""),
        (family("cable-drop"), ""),
        (family("cable-drop"), "320⏎0.6⏎"),
        (family("cable-drop"), "?"),
        (family("cable-drop"), "????"),
        (family("cable-drop"), "?k"),
        (family("cable-drop"), "?h"),
        (family("cable-drop"), "?p"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎⏎"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎?w"),
        (family("cable-size"), "↓↓↓"),
        (family("megohm-verdict"), "a"),
        (family("megohm-verdict"), "a⏎"),
        (family("insulation-order"), "3⏎"),
        (family("box-parts"), "b⏎"),
        (family("setback"), ""),
        (family("drawdown"), ""),
        (family("drawdown"), "?f"),
        (family("drawdown"), "?f?"),
        (family("drawdown"), "49⏎?f"),
        (family("drawdown"), "49⏎?v"),
        (family("drawdown"), "49⏎?w?v"),
        (family("drawdown"), "49⏎?w?w"),
        (family("drawdown"), "49⏎?w?w⏎⏎⏎⏎⏎"),
        (family("drawdown"), "49⏎?w?w?"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎?w?w⏎⏎"),
        (family("cable-drop"), "1⏎2⏎3⏎4⏎?w?w⏎⏎?v"),
        (on_the_board("insulation-order"), ""),
        (on_the_board("insulation-order"), "⏎"),
        (on_the_board("box-parts"), ""),
        (on_the_board("megohm-verdict"), "?v"),
        (family("cable-drop"), "&"),
        (family("cable-drop"), "&1 ft + 2 ft⏎3 A + 1 V⏎"),
        (family("cable-drop"), "&1 ft + 2 ft⏎3↑"),
        (family("cable-drop"), "&1 ft + 2 ft⏎?"),
        (family("cable-drop"), "⏎@"),
        (family("cable-drop"), "@hp"),
        (family("cable-drop"), "@99"),
        (family("box-parts"), "@"),
        (family("setback"), "@"),
        (family("cable-drop"), "?g"),
        (family("cable-drop"), "?gdraw"),
        (family("cable-drop"), "?gqqq"),
        (family("cable-drop"), "?lg↓↓"),
        (family("cable-drop"), "⏎0.178⏎2.10⏎0.9⏎"),
        (family("cable-drop"), "⏎0.178⏎2.10⏎0.9⏎b⏎"),
        (family("cable-drop"), "⏎0.178⏎2.10⏎0.9⏎&1+1⏎"),
        (family("cable-drop"), "&1+1⏎⎋1⏎2⏎3⏎4⏎?w"),
        (Start::Jobs, "tank"),
        (Start::Jobs, "1⏎"),
        (Start::Jobs, "1⏎⏎⏎⏎⏎⏎⏎"),
        (family("cable-drop"), "?l"),
        (family("cable-drop"), "?u"),
        (family("cable-drop"), "?u⏎"),
        (family("cable-drop"), "?u↓↓↓"),
        (family("cable-drop"), "?u↓↓↓↓l⏎⏎?n1⏎"),
        (Start::Exams, ""),
        (Start::Exams, "⏎"),
        (Start::Exams, "⏎⏎"),
        (Start::Exams, "⏎⏎a⏎⏎⏎⏎"),
        (Start::Exams, "⏎⏎a⏎?a"),
        (Start::Exams, "⏎⏎?"),
        (Start::Exams, "⏎⏎@"),
        (Start::Exams, "⏎⏎&1+1⏎"),
        (Start::Exams, "⏎⏎a⏎?z"),
        (Start::Exams, "⏎⏎a⏎?z3"),
        (Start::Exams, "⏎⏎a⏎a⏎a⏎?zz⏎"),
        (Start::Exams, "⏎⏎a⏎a⏎a⏎?zz⏎⏎"),
        (Start::Exams, "⏎⏎a⏎a⏎a⏎?zz⏎?w"),
        (Start::Exams, "2⏎0⏎3⏎"),
        (Start::Class(None), ""),
        (Start::Class(None), "nowhere⏎"),
        (in_class(), ""),
        (in_class(), "?"),
        (in_class(), "?m"),
        (in_class(), "?n"),
        (in_class(), "3?n⏎"),
        (in_class(), "?mbox⏎"),
        (in_class(), "4⏎"),
        (in_class(), "4⏎⏎⏎b"),
        (in_class(), "4⏎⏎⏎2=0.58"),
        (in_class(), "4⏎⏎⏎⎋"),
        (in_class(), "4⏎⏎⏎⏎⏎⏎⏎"),
        (in_class(), "4⏎⏎⏎⏎⏎⏎⏎⏎"),
        (in_class(), "4⏎⏎⏎⏎⏎⏎⏎⏎⏎"),
        (in_class(), "4⏎?d"),
        (in_class(), "4⏎?j2 so"),
        (in_class(), "4⏎?w"),
    ]
    .into_iter()
    .chain(papers())
    .collect()
}

/// Tapes that reach the report, the plan, and a paper that is answered here.
fn papers() -> Vec<(Start, &'static str)> {
    vec![
        (in_class(), "?r"),
        (in_class(), "?b"),
        (in_class(), "?b3"),
        (in_class(), "?b↓⏎"),
        (in_class(), "?b9⎋?b9⏎"),
        (in_class(), "?b?x"),
        (in_class(), "?b?x?"),
        (in_class(), "?b?x⏎⏎⏎5⏎"),
        (in_class(), "?b?x?z"),
        (in_class(), "?b?x?z3"),
        (in_class(), "?b?x?zz⏎"),
        (in_class(), "?b?x?zz⏎3⏎"),
        (Start::Exams, "3⏎"),
        (Start::Exams, "3⏎box⏎"),
        (Start::Exams, "3⏎box⏎⏎⏎⏎⏎⏎"),
        (Start::Exams, "3⏎box⏎?zz⏎"),
    ]
}

/// A start in few words: a problem by its code.
fn named(start: &Start) -> String {
    match start {
        Start::Board(problem, _) => format!("board {}", problem.code),
        other => format!("{other:?}"),
    }
}

/// What holds of every page.
fn holds(page: &Page, place: &str) {
    assert!(!page.next.is_empty(), "{place}: nothing stands at Next");
    assert!(!page.strip.is_empty(), "{place}: no key is named");
    let pens = page
        .entries()
        .filter(|entry| entry.sign == Some(Sign::Pen))
        .count();
    assert!(pens <= 1, "{place}: {pens} pens");
    let cursors = page
        .entries()
        .flat_map(|entry| &entry.cells)
        .filter(|c| c.cursor.is_some());
    assert!(cursors.count() <= 1, "{place}: two cursors");
    for entry in page.entries().filter(|entry| entry.role != Role::Rule) {
        let Some(sign) = entry.sign else { continue };
        let row: String = entry.cells.iter().map(|cell| cell.text.as_str()).collect();
        let words = sign.words();
        let stands = words.is_empty() || words.iter().any(|word| row.contains(word));
        assert!(stands, "{place}: {sign:?} stands without its word: {row}");
    }
    let caution = page
        .fixed
        .iter()
        .position(|entry| entry.role == Role::Caution);
    let in_flow = page.flow.iter().any(|entry| entry.role == Role::Caution);
    assert!(
        !in_flow || caution.is_some(),
        "{place}: a caution could be scrolled away"
    );
}

#[test]
fn every_key_on_every_screen() {
    let library = library();
    for (start, tape) in places() {
        for press in presses(tape.ends_with('?')) {
            let mut bench = Bench::new(&library, start.clone(), (80, 24));
            assert!(bench.play(tape), "{tape} ends the trainer");
            let place = format!("{} {tape} then {press:?}", named(&start));
            let goes_on = bench.press(press.clone());
            let stops = matches!(press, Press::Type('q')) && tape.ends_with('?');
            assert_eq!(goes_on, !stops, "{place}");
            holds(&bench.trainer.page(), &place);
            assert!(bench.text().contains("  Next  "), "{place}");
        }
    }
}

#[test]
fn every_family_can_be_opened_and_handed_in() {
    let library = shipped();
    for family in library.families() {
        let mut bench = Bench::family(&library, &family.id, (80, 24));
        for _ in 0..40 {
            bench.play("1⏎");
            holds(&bench.trainer.page(), &family.id);
            bench.text();
        }
    }
}

/// No line of the page that is shown is cut in a window so wide.
fn no_line_is_cut(bench: &Bench<'_>, columns: u16, place: &str) {
    let page = bench.trainer.page();
    let look = crate::theme::Look {
        ascii: true,
        colour: false,
    };
    let tall = crate::layout::Size {
        columns: columns.into(),
        rows: 500,
    };
    let laid = crate::layout::lay(&page, look, tall, crate::layout::Scroll::default());
    let width = crate::layout::text_width(tall);
    let pieces = laid.rows.iter().flat_map(|row| &row.pieces);
    for piece in pieces.clone() {
        let end = piece.column + crate::wrap::cells(&piece.text);
        assert!(end <= width, "{place} in {columns}: {}", piece.text);
    }
    let shown: String = pieces.flat_map(|piece| piece.text.chars()).collect();
    let cells = page.entries().flat_map(|entry| &entry.cells);
    // What is written in a narrow blank goes on in the row below.
    for cell in cells.filter(|cell| !cell.blank) {
        for word in look.text(&cell.text).split_whitespace() {
            assert!(
                shown.contains(word) || crate::wrap::cells(word) > 8,
                "{place} in {columns}: {word} is not shown"
            );
        }
    }
}

#[test]
fn no_line_is_ever_cut() {
    let library = library();
    for (start, tape) in places() {
        for size in [(60, 20), (80, 24), (120, 40)] {
            let mut bench = Bench::new(&library, start.clone(), size);
            bench.play(tape);
            no_line_is_cut(&bench, size.0, &format!("{} {tape}", named(&start)));
        }
    }
}

#[test]
fn no_line_of_any_family_is_cut_in_the_smallest_window() {
    let library = shipped();
    for family in library.families() {
        for tape in [
            "",
            "????",
            "@",
            "1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎",
            "1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎1⏎?w",
            "?h",
            "?l",
        ] {
            let mut bench = Bench::family(&library, &family.id, (60, 20));
            bench.play(tape);
            no_line_is_cut(&bench, 60, &format!("{} {tape}", family.id));
        }
    }
}

#[test]
fn the_four_signs_are_no_part_of_a_quantity() {
    use pumpwright_engine::quantities::{DecimalSign, read};
    for sign in ['?', '!', '@', '&'] {
        assert!(!matches!(from_sign(sign), Press::Type(_)));
        for decimal in [DecimalSign::Point, DecimalSign::Comma] {
            for text in [
                format!("{sign}"),
                format!("3{sign}"),
                format!("{sign}3"),
                format!("3 {sign} psi"),
            ] {
                assert!(read(&text, decimal).is_err(), "{text}");
            }
        }
    }
    assert!(TOOLS.iter().all(|row| row.letter.is_ascii_alphabetic()));
}
