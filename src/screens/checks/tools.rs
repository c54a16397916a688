//! The tools beside a sheet: side sums, tables, and the question which of two
//! mistakes it was.

use std::collections::BTreeSet;

use pumpwright_engine::problems::{Request, Settings, draw, tables_asked, tables_used};
use pumpwright_engine::quantities::System;

use super::bench::{Bench, library, person};
use crate::screen::Screen;
use crate::sheet::Sheet;
use crate::theme::Look;
use crate::{SetUp, Start};

fn sheet<'a>(bench: &'a Bench<'_>) -> &'a Sheet {
    bench.top().sheet().expect("a sheet lies on top")
}

fn typed(bench: &Bench<'_>) -> Vec<String> {
    let slots = sheet(bench).slots.iter();
    slots.map(|slot| slot.blank.text().to_owned()).collect()
}

/// A sheet of this draw, in ASCII, at 80 by 24.
fn drawn<'a>(
    library: &'a pumpwright_engine::lessons::Library,
    family: &str,
    number: u32,
) -> Bench<'a> {
    let look = Look {
        ascii: true,
        colour: false,
    };
    let start = Start::Family(family.into());
    Bench::drawing(
        library,
        &[],
        start,
        ((80, 24), look, number),
        person(SetUp::default()),
    )
}

#[test]
fn a_side_sum_is_carried_over_and_then_handed_in() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("&181 ft + 182 ft⏎?o");
    assert_eq!(typed(&bench), ["363 ft", "", "", ""]);
    assert_eq!(sheet(&bench).pen, 0, "the pen stands there");
    assert!(bench.text().contains("s1 is carried over to line 1"));
    bench.play("⏎&0.0982 ohm/100ft * s1⏎?O⏎&s2 * 11.8 A⏎?O⏎&s3 / 230 V⏎?O");
    assert_eq!(
        typed(&bench),
        ["363 ft", "0.35647 ohm", "4.2063 V", "1.8288 %"]
    );
    bench.play("⏎");
    assert!(bench.text().contains("4 of 4 marks"), "{}", bench.text());
    bench.play("?w⇟⇟");
    assert!(bench.text().contains("s4   s3 / 230 V"), "{}", bench.text());
}

#[test]
fn an_earlier_sum_is_brought_back_and_carried_over() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("&181 ft + 182 ft⏎2 + 2⏎7 ft↑↑");
    assert!(
        bench.text().contains("Enter: carry s1 over to line 1"),
        "{}",
        bench.text()
    );
    bench.play("⏎");
    assert_eq!(typed(&bench)[0], "363 ft");
    // What was half-typed is there again, and a changed sum is a new one.
    bench.play("&");
    assert!(bench.text().contains("s3   7 ft___"), "{}", bench.text());
    bench.play("↑↑⌫⌫m⏎");
    let Screen::Sums(sums) = bench.top() else {
        panic!("the back of the sheet")
    };
    assert_eq!(sums.back.done[2].sum, "181 ft + 182 m");
    assert_eq!(sums.blank.text(), "7 ft");
}

#[test]
fn a_sum_that_cannot_be_stays_in_the_blank_with_what_to_look_at() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("&8 A + 230 V⏎");
    let text = bench.text();
    assert!(text.contains("s1   8 A + 230 V___"), "{text}");
    assert!(text.contains("o      look here: "), "{text}");
    bench.play("?o");
    assert!(bench.text().contains("O carry over has no use here"));
    bench.play("⎋⌫⌫⌫⌫⌫2 A⏎");
    assert!(bench.text().contains("10 A"), "{}", bench.text());
}

#[test]
fn sums_go_with_the_sheet_through_mending_and_waiting() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("&1 ft + 1 ft⏎⎋⎋");
    assert!(matches!(bench.top(), Screen::Jobs(jobs) if jobs.waiting.len() == 1));
    bench.play("⏎1⏎2⏎3⏎4⏎⏎&2 ft + 2 ft⏎⎋⎋&");
    let Screen::Sums(sums) = bench.top() else {
        panic!("the back of the sheet")
    };
    assert_eq!(sums.back.done.len(), 2);
    assert!(
        sums.line.is_none(),
        "no line is written on a handed-in sheet"
    );
    bench.play("⎋?n&");
    assert!(matches!(bench.top(), Screen::Sums(sums) if sums.back.is_empty()));
}

#[test]
fn the_job_and_its_caution_stand_beside_the_sums() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (60, 20));
    bench.play("&1+1⏎2+2⏎3+3⏎4+4⏎5+5⏎");
    assert!(bench.text().contains("CAUTION"), "{}", bench.text());
    bench.play("↑↑↑↑↑↑↑↑↑↑↑↑↑↑↑↑");
    let text = bench.text();
    assert!(text.contains("The panel is in the barn"), "{text}");
    assert!(text.contains("CAUTION"), "{text}");
    bench.play("↓↓↓↓↓↓↓↓↓↓↓↓↓↓↓↓");
    assert!(bench.text().contains("s5   5+5"), "{}", bench.text());
}

#[test]
fn no_result_goes_where_a_letter_is_asked() {
    let library = library();
    let mut bench = Bench::family(&library, "megohm-verdict", (80, 24));
    bench.play("&2 + 2⏎?o");
    assert!(bench.text().contains("O carry over has no use here"));
}

#[test]
fn side_sums_need_a_sheet_and_tables_do_not() {
    let library = library();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    bench.play("&");
    assert!(
        bench.text().contains("take a job first"),
        "{}",
        bench.text()
    );
    bench.play("@");
    assert!(matches!(bench.top(), Screen::Tables(tables) if tables.at == 0));
    bench.play("⎋");
    assert!(matches!(bench.top(), Screen::Jobs(_)));
}

/// The table at which the book lies open.
fn open(bench: &Bench<'_>) -> String {
    let Screen::Tables(tables) = bench.top() else {
        panic!("the tables lie on top")
    };
    tables.leaf().expect("a table").name.to_string()
}

#[test]
fn the_book_opens_at_the_table_of_the_line() {
    let library = library();
    let places = [
        ("cable-drop", "⏎@", "copper"),
        ("cable-drop", "⏎⏎@", "motors"),
        ("cable-drop", "⏎?@", "copper"),
        ("cable-drop", "⏎&@", "copper"),
        ("megohm-verdict", "@", "megohm_bands"),
        ("setback", "@", "setbacks"),
        ("tank-precharge", "@", "switches"),
        ("relief-setting", "⏎⏎@", "relief_valves"),
        ("relief-setting", "@", "ratings"),
    ];
    for (family, tape, table) in places {
        let mut bench = Bench::family(&library, family, (80, 24));
        bench.play(tape);
        assert_eq!(open(&bench), table, "{family} {tape}");
        bench.play("⏎");
        assert!(matches!(bench.top(), Screen::Sheet(_)), "{family} {tape}");
    }
}

#[test]
fn a_line_without_a_table_says_so() {
    let library = library();
    let mut bench = Bench::family(&library, "relief-setting", (80, 24));
    bench.play("@");
    assert!(
        bench.text().contains("line 1 uses no table"),
        "{}",
        bench.text()
    );
    bench.play("⎋↓@");
    assert!(!bench.text().contains("uses no table"), "{}", bench.text());
}

#[test]
fn a_table_is_found_by_its_number_or_a_word() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("@");
    let Screen::Tables(tables) = bench.top() else {
        panic!("the tables lie on top")
    };
    let names: Vec<String> = tables
        .leaves
        .iter()
        .map(|leaf| leaf.name.to_string())
        .collect();
    let at = names
        .iter()
        .position(|name| name == "ratings")
        .expect("it ships");
    bench.play(&(at + 1).to_string());
    assert_eq!(open(&bench), "ratings");
    bench.play("↓");
    assert_eq!(open(&bench), names[at + 1]);
    let number = format!("{}____", at + 2);
    assert!(bench.text().contains(&number), "the number goes along");
    bench.play("drainfield");
    assert_eq!(open(&bench), "setbacks");
    bench.play("⇟⇟↓");
    assert!(
        bench
            .text()
            .contains("this is the last table with drainfield")
    );
    bench.play("x");
    assert!(bench.text().contains("no table has this"));
    assert_eq!(open(&bench), "setbacks", "the book stays open where it is");
}

#[test]
fn a_table_that_a_match_asks_is_closed_until_the_sheet_is_worked() {
    let library = library();
    let mut bench = Bench::family(&library, "box-parts", (80, 24));
    let answer = "drops the start winding out";
    bench.play("@");
    assert!(
        bench.text().contains("Closed while this sheet is open"),
        "{}",
        bench.text()
    );
    assert!(!bench.text().contains(answer));
    bench.play("drops");
    assert!(
        bench.text().contains("no table has this"),
        "{}",
        bench.text()
    );
    bench.play("⎋a⏎b⏎c⏎d⏎e⏎@box");
    assert!(
        !bench.text().contains(answer),
        "the sheet can still be mended"
    );
    bench.play("⎋?w@box");
    assert!(bench.text().contains(answer), "{}", bench.text());
}

#[test]
fn every_line_that_needs_a_table_knows_it_and_only_a_match_closes_one() {
    let library = library();
    let settings = Settings::default();
    for family in library.families() {
        let request = Request {
            family: &family.id,
            level: None,
            system: System::Us,
            draw: 1,
            settings: &settings,
        };
        let problem = draw(&library, &request).expect("a shipped family draws");
        let known: BTreeSet<_> = library.tables(System::Us).keys().cloned().collect();
        for line in 0..problem.lines.len() {
            for name in tables_used(&problem, line) {
                assert!(known.contains(&name), "{}: {name}", family.id);
            }
        }
        let asked = tables_asked(&problem);
        assert_eq!(asked.is_empty(), family.id != "box-parts", "{}", family.id);
    }
}

/// Draws with a figure that two mistakes give: family, draw, how the sheet is
/// filled in, the two turns.
const TWO_TURNS: [(&str, u32, &str, [&str; 2]); 2] = [
    (
        "cable-drop",
        1,
        "⏎0.178⏎2.1⏎0.9⏎",
        ["I counted one conductor.", "I left the buried part out."],
    ),
    (
        "relief-setting",
        14,
        "65⏎125⏎125⏎a⏎",
        [
            "I set it at what the pump can reach.",
            "I took the tank's rating.",
        ],
    ),
];

#[test]
fn two_mistakes_with_one_figure_are_asked_about() {
    let library = library();
    for (family, number, tape, turns) in TWO_TURNS {
        for (letter, chosen) in [("a", Some(0)), ("b", Some(1)), ("c", None)] {
            let mut bench = drawn(&library, family, number);
            bench.play(tape);
            let asked = bench.text();
            assert!(asked.contains("Two turns give this figure"), "{asked}");
            assert!(asked.contains("something else"), "{asked}");
            assert!(asked.contains("Enter: write a, b or c"), "{asked}");
            assert!(turns.iter().all(|turn| asked.contains(turn)), "{asked}");
            bench.play(&format!("d⏎⌫{letter}⏎"));
            let shown = bench.text();
            assert!(!shown.contains("Two turns"), "{shown}");
            for (at, turn) in turns.iter().enumerate() {
                let likely = shown.contains(&format!("Likely turn:  \"{turn}\""));
                assert_eq!(likely, chosen == Some(at), "{family} {letter}\n{shown}");
            }
            assert!(
                shown.contains("again (the marks above stay as they are)"),
                "{shown}"
            );
            // What was chosen stays chosen.
            bench.play("↓↓↓↓↓↑↑↑↑↑↓↓");
            assert!(!bench.text().contains("Two turns"), "{}", bench.text());
        }
    }
}
