//! Handing a class's paper in: which lines are open, and what Enter does then.

use super::state::Answering;
use crate::blank::Blank;
use crate::hand_in::{self, Pressed, ToHandIn};
use crate::outcome::{Outcome, Stroke};
use crate::page::Page;

/// Takes a press while the paper is about to be handed in.
pub fn update(answering: &mut Answering, stroke: &Stroke) -> Outcome {
    let open = !answering.open().is_empty();
    let Answering {
        closing,
        scroll,
        blanks,
        ..
    } = answering;
    match hand_in::update((closing, open), scroll, stroke, |place| {
        named(place, blanks)
    }) {
        Pressed::HandIn => Outcome::HandInAnswers,
        Pressed::To((item, line)) => {
            answering.go(item, line);
            Outcome::Stay
        }
        Pressed::Else(outcome) => outcome,
    }
}

/// The place that is written, `3` or `3.2`; both from zero.
fn named(place: &Blank, blanks: &[Vec<Blank>]) -> Result<(usize, usize), String> {
    let text = place.trimmed();
    let (item, line) = text.split_once('.').unwrap_or((text, "1"));
    let number = |text: &str| text.trim().parse::<usize>().ok()?.checked_sub(1);
    let found = number(item).zip(number(line)).filter(|(item, line)| {
        let lines = blanks.get(*item);
        lines.is_some_and(|lines| *line < lines.len())
    });
    found.ok_or_else(|| "write an item, or item and line as in 1.1, or Z to hand in".to_owned())
}

/// The page on which the paper is handed in.
pub fn page(answering: &Answering, place: &Blank) -> Page {
    let number = |(item, line): (usize, usize)| format!("{}.{}", item + 1, line + 1);
    let open = answering.open();
    let all: usize = answering.blanks.iter().map(Vec::len).sum();
    let listed = |places: &[(usize, usize)]| {
        let numbers: Vec<String> = places.iter().copied().map(number).collect();
        numbers.join(" ")
    };
    let unread = answering.unreadable();
    let written = all - open.len() - unread.len();
    let none = open.is_empty().then(|| "none".to_owned());
    let mut stands = vec![
        ("Written", format!("{written} of {all} lines")),
        ("Open", none.unwrap_or_else(|| listed(&open))),
    ];
    if !unread.is_empty() {
        stands.push(("Cannot be read", listed(&unread)));
    }
    let (goes, enter) = if answering.is_tried() {
        (
            "What is open earns nothing. Nothing of this paper is kept.",
            "hand the paper in, and see its marks",
        )
    } else {
        (
            "What is open earns nothing. After you hand in, no answer can be changed.",
            "hand the whole paper in",
        )
    };
    let back_to = named(place, &answering.blanks);
    hand_in::page(&ToHandIn {
        head: ("PAPER, TO BE HANDED IN", answering.paper.head.title.clone()),
        stands,
        goes,
        what: "line",
        form: "as in 3.2; ",
        open: !open.is_empty(),
        written: place,
        back_to: back_to.map(|place| format!("line {}", number(place))),
        enter,
    })
}
