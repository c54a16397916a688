//! Handing an exam's paper in: what is answered, set aside and open, and what Enter does then.

use super::state::Sitting;
use crate::blank::Blank;
use crate::hand_in::{self, Pressed, ToHandIn};
use crate::outcome::{Outcome, Stroke};
use crate::page::Page;
use crate::words;

/// Takes a press while the paper is about to be handed in.
pub fn update(sitting: &mut Sitting, stroke: &Stroke) -> Outcome {
    let count = sitting.sheets.len();
    let open = sitting.is_open();
    let (closing, scroll) = ((&mut sitting.closing, open), &mut sitting.scroll);
    match hand_in::update(closing, scroll, stroke, |number| named(number, count)) {
        Pressed::HandIn => Outcome::HandInPaper,
        Pressed::To(at) => {
            sitting.open(at);
            Outcome::Stay
        }
        Pressed::Else(outcome) => outcome,
    }
}

fn named(number: &Blank, count: usize) -> Result<usize, String> {
    let found = number.trimmed().parse::<usize>().ok();
    let found = found.filter(|number| (1..=count).contains(number));
    found
        .map(|number| number - 1)
        .ok_or_else(|| format!("write the number of a question, 1 to {count}, or Z to hand in"))
}

/// The page on which the paper is handed in.
pub fn page(sitting: &Sitting, number: &Blank) -> Page {
    let unreadable: Vec<usize> = (0..sitting.sheets.len())
        .filter(|at| sitting.unreadable(*at).is_some())
        .map(|at| at + 1)
        .collect();
    let mut stands = vec![
        ("Answered", sitting.answered().to_string()),
        ("Set aside", numbers(&sitting.set_aside())),
        ("Open", numbers(&sitting.unanswered())),
    ];
    if !unreadable.is_empty() {
        stands.push(("Cannot be read", numbers(&unreadable)));
    }
    let back_to = named(number, sitting.sheets.len());
    hand_in::page(&ToHandIn {
        head: ("EXAM PAPER, TO BE HANDED IN", sitting.clock.words()),
        stands,
        goes: "What is open counts as not right. After you hand in, no answer can be changed.",
        what: "question",
        form: "",
        open: sitting.is_open(),
        written: number,
        back_to: back_to.map(|at| format!("question {}", at + 1)),
        enter: "hand the whole paper in",
    })
}

/// How many, and which.
pub fn numbers(numbers: &[usize]) -> String {
    match numbers {
        [] => "none".to_owned(),
        numbers => format!("{}: no. {}", numbers.len(), words::listed(numbers)),
    }
}
