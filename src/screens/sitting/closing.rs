//! Handing a paper in: what is still open is shown before Enter does it.

use super::state::Sitting;
use crate::blank::{Blank, Wrote};
use crate::keys::{Key, Press, hint};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};
use crate::page::{Cell, Entry, Page, Role};
use crate::words;

const LABEL: usize = 15;

/// Takes a press while the paper is about to be handed in.
pub fn update(sitting: &mut Sitting, stroke: &Stroke) -> Outcome {
    let Some(number) = &mut sitting.closing else {
        return Outcome::Stay;
    };
    match &stroke.press {
        Press::Enter if number.is_empty() => Outcome::HandInPaper,
        Press::Enter => match named(number, sitting.sheets.len()) {
            Ok(at) => {
                sitting.closing = None;
                sitting.open(at);
                Outcome::Stay
            }
            Err(words) => Outcome::Say(words),
        },
        Press::Escape => {
            sitting.closing = None;
            Outcome::Stay
        }
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say(super::update::NO_HELP.to_owned()),
        Press::Up | Press::Down | Press::PageUp | Press::PageDown => {
            scrolled(&mut sitting.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => match number.take(press) {
            Wrote::Changed => Outcome::Stay,
            Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
            Wrote::NotMine => no_use(press),
        },
    }
}

fn named(number: &Blank, count: usize) -> Result<usize, String> {
    let found = number.trimmed().parse::<usize>().ok();
    let found = found.filter(|number| (1..=count).contains(number));
    found
        .map(|number| number - 1)
        .ok_or_else(|| format!("write the number of a question, 1 to {count}, or nothing"))
}

/// The page on which the paper is handed in.
pub fn page(sitting: &Sitting, number: &Blank) -> Page {
    let unreadable: Vec<usize> = (0..sitting.sheets.len())
        .filter(|at| sitting.unreadable(*at).is_some())
        .map(|at| at + 1)
        .collect();
    let mut flow = vec![line("Answered", &sitting.answered().to_string())];
    flow.push(line("Set aside", &numbers(&sitting.set_aside())));
    flow.push(line("Open", &numbers(&sitting.unanswered())));
    if !unreadable.is_empty() {
        flow.push(line("Cannot be read", &numbers(&unreadable)));
    }
    flow.push(Entry::rule());
    flow.push(Entry::text(
        Role::Text,
        "What is open counts as not right. After you hand in, no answer can be changed.",
    ));
    flow.push(Entry::gap());
    let cells = vec![
        Cell::columns("To question", LABEL),
        Cell::blank(number.text(), 6, Some(number.before())),
        Cell::rest("empty: hand in"),
    ];
    let pen = Entry::of(Role::Line, cells).signed(Some(crate::theme::Sign::Pen));
    flow.push(pen.focused(true));
    let next = match (number.is_empty(), named(number, sitting.sheets.len())) {
        (true, _) => "Enter: hand the whole paper in".to_owned(),
        (false, Ok(at)) => format!("Enter: back to question {}", at + 1),
        (false, Err(words)) => format!("Enter: {words}"),
    };
    Page {
        title: "EXAM PAPER, TO BE HANDED IN".into(),
        place: sitting.clock.words(),
        flow,
        next,
        strip: vec![
            hint(Key::Enter, "hand in, or to that question"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "back to the paper"),
        ],
        ..Page::default()
    }
}

fn line(label: &str, text: &str) -> Entry {
    let cells = vec![Cell::columns(label, LABEL), Cell::rest(text)];
    Entry::of(Role::Head, cells)
}

/// How many, and which.
pub fn numbers(numbers: &[usize]) -> String {
    match numbers {
        [] => "none".to_owned(),
        numbers => format!("{}: no. {}", numbers.len(), words::listed(numbers)),
    }
}
