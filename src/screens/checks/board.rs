//! The board: line by line on and back, known turns, other numbers, and what is not
//! shown before its time.

use pumpwright_engine::problems::{Request, Settings, draw};
use pumpwright_engine::quantities::System;

use super::bench::{Bench, library, shipped};
use crate::board::{Board, page};
use crate::screen::Screen;
use crate::theme::Look;
use crate::{BoardPlain, Start, board_plain};

const LOOK: Look = Look {
    ascii: true,
    colour: false,
};

fn board<'b>(bench: &'b Bench<'_>) -> &'b Board {
    match bench.top() {
        Screen::Board(board) => board,
        other => panic!("no board lies on top: {other:?}"),
    }
}

pub fn problem(family: &str, number: u32) -> pumpwright_engine::problems::Problem {
    let request = Request {
        family,
        level: None,
        system: System::Us,
        draw: number,
        settings: &Settings::default(),
    };
    draw(&library(), &request).expect("a problem")
}

#[test]
fn lines_come_and_go_one_a_key() {
    let library = library();
    let start = Start::Board(Box::new(problem("cable-drop", 3)), None);
    let mut bench = Bench::new(&library, start, (80, 24));
    assert!(bench.text().contains("4 lines to come"));
    bench.play("↑");
    assert!(bench.text().contains("no line is shown yet"));
    bench.play("⏎⏎");
    assert!(bench.text().contains("line 2 of 4") && bench.text().contains("Enter: show line 3"));
    bench.play("↑");
    assert!(bench.text().contains("line 1 of 4"));
    bench.play("↓!⏎");
    assert_eq!(board(&bench).shown, 4);
    bench.play("↓");
    assert!(bench.text().contains("every line is shown here"));
    let code = board(&bench).problem.code.to_string();
    bench.play("⏎");
    assert_eq!(board(&bench).shown, 0);
    assert_ne!(board(&bench).problem.code.to_string(), code);
    bench.play("⏎?n");
    assert_eq!(board(&bench).shown, 0);
    bench.play("⎋");
    assert!(!matches!(bench.top(), Screen::Board(_)));
}

#[test]
fn known_turns_come_one_after_the_other() {
    let library = library();
    let start = Start::Board(Box::new(problem("cable-drop", 1)), Some("one-way".into()));
    let mut bench = Bench::new(&library, start, (80, 24));
    assert!(bench.text().contains("I counted one conductor"));
    assert_eq!(board(&bench).shown, 1, "the line before it is shown");
    bench.play("↑");
    assert!(!bench.text().contains("I counted one conductor"));
    let turns = board(&bench).problem.mistakes.len();
    let mut told = std::collections::BTreeSet::new();
    for _ in 0..turns {
        bench.play("?v");
        told.insert(board(&bench).turn);
    }
    assert_eq!(told.len(), turns, "every turn comes once");
    bench.play("⏎");
    assert_eq!(board(&bench).turn, None);
}

#[test]
fn a_mistake_that_is_not_there_is_said() {
    let library = library();
    let start = Start::Board(Box::new(problem("cable-drop", 1)), Some("no-such".into()));
    let mut bench = Bench::new(&library, start, (80, 24));
    assert!(bench.text().contains("these numbers do not show no-such"));
}

/// Over everything shipped: what a line comes to is on the page when it is shown, and a
/// figure is not before.
#[test]
fn nothing_is_shown_before_its_line() {
    let library = shipped();
    for family in library.families() {
        let request = Request {
            family: &family.id,
            level: None,
            system: System::Us,
            draw: 4,
            settings: &Settings::default(),
        };
        let Ok(problem) = draw(&library, &request) else {
            continue;
        };
        let mut board = Board::new(std::rc::Rc::new(problem), None, LOOK);
        for at in 0..board.lines.len() {
            let said = page(&board, 76).plain(LOOK).join("\n");
            let line = board.lines[at].clone();
            let comes: Vec<String> = board.comes_to(&line);
            let looked = |said: &str, text: &str| said.contains(&LOOK.text(text.trim()));
            if line.numbers.len() == 1 && line.value.is_some() && line.sums.len() == 1 {
                assert!(!looked(&said, &comes[0]), "{}: {}", family.id, comes[0]);
            }
            board.show();
            let said = page(&board, 76).plain(LOOK).join("\n");
            for text in comes.iter().filter(|text| !text.is_empty()) {
                let first = text.lines().next().unwrap_or_default();
                assert!(looked(&said, first), "{}: {first} is not shown", family.id);
            }
        }
    }
}

#[test]
fn plain_lines_show_the_same() {
    let input = "\n?v\n\n\n\n\n?f\n?n\nx\n?q\n";
    let mut output = Vec::new();
    let mut again = |of: &pumpwright_engine::problems::Problem| {
        assert_eq!(of.code.family, "cable-drop");
        Ok(problem("cable-drop", 2))
    };
    let asked = BoardPlain {
        problem: problem("cable-drop", 1),
        mistake: None,
        again: &mut again,
        ascii: true,
        echo: true,
    };
    board_plain(asked, (&mut input.as_bytes(), &mut output)).expect("lines are written");
    insta::assert_snapshot!(String::from_utf8_lossy(&output));
}
