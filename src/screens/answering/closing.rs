//! Handing a paper in: what is still open is shown before Enter does it.

use super::state::Answering;
use crate::blank::{Blank, Wrote};
use crate::keys::{Key, Press, hint};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};
use crate::page::{Cell, Entry, Page, Role};
use crate::sitting::NO_HELP;
use crate::theme::Sign;

const LABEL: usize = 15;

/// Takes a press while the paper is about to be handed in.
pub fn update(answering: &mut Answering, stroke: &Stroke) -> Outcome {
    let named = answering
        .closing
        .as_ref()
        .map(|place| named(place, answering));
    let Some(place) = &mut answering.closing else {
        return Outcome::Stay;
    };
    match &stroke.press {
        Press::Enter if place.is_empty() => Outcome::HandInAnswers,
        Press::Enter => match named {
            Some(Ok((item, line))) => {
                answering.closing = None;
                answering.go(item, line);
                Outcome::Stay
            }
            Some(Err(words)) => Outcome::Say(words),
            None => Outcome::Stay,
        },
        Press::Escape => {
            answering.closing = None;
            answering.scroll.follow();
            Outcome::Stay
        }
        Press::Ask => Outcome::Ask(None),
        Press::Show => Outcome::Say(NO_HELP.to_owned()),
        Press::Up | Press::Down | Press::PageUp | Press::PageDown => {
            scrolled(&mut answering.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => match place.take(press) {
            Wrote::Changed => Outcome::Stay,
            Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
            Wrote::NotMine => no_use(press),
        },
    }
}

/// The place that is written, `3` or `3.2`; both from zero.
fn named(place: &Blank, answering: &Answering) -> Result<(usize, usize), String> {
    let text = place.trimmed();
    let (item, line) = text.split_once('.').unwrap_or((text, "1"));
    let number = |text: &str| text.trim().parse::<usize>().ok()?.checked_sub(1);
    let found = number(item).zip(number(line)).filter(|(item, line)| {
        let lines = answering.blanks.get(*item);
        lines.is_some_and(|lines| *line < lines.len())
    });
    found.ok_or_else(|| "write an item, or item and line as in 1.1, or nothing".to_owned())
}

/// The page on which the paper is handed in.
pub fn page(answering: &Answering, place: &Blank) -> Page {
    let open = answering.open();
    let all: usize = answering.blanks.iter().map(Vec::len).sum();
    let numbers: Vec<String> = open
        .iter()
        .map(|(item, line)| format!("{}.{}", item + 1, line + 1))
        .collect();
    let listed = if open.is_empty() {
        "none".to_owned()
    } else {
        numbers.join(" ")
    };
    let written = format!("{} of {all} lines", all - open.len());
    let (goes, enter) = if answering.is_tried() {
        (
            "What is open earns nothing. Nothing of this paper is kept.",
            "Enter: hand the paper in, and see its marks",
        )
    } else {
        (
            "What is open earns nothing. After you hand in, no answer can be changed.",
            "Enter: hand the whole paper in",
        )
    };
    let cells = vec![
        Cell::columns("To line", LABEL),
        Cell::blank(place.text(), 6, Some(place.before())),
        Cell::rest("as in 3.2; empty: hand in"),
    ];
    let pen = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    let flow = vec![
        line("Written", &written),
        line("Open", &listed),
        Entry::rule(),
        Entry::text(Role::Text, goes),
        Entry::gap(),
        pen.focused(true),
    ];
    let next = match (place.is_empty(), named(place, answering)) {
        (true, _) => enter.to_owned(),
        (false, Ok((item, line))) => format!("Enter: back to line {}.{}", item + 1, line + 1),
        (false, Err(words)) => format!("Enter: {words}"),
    };
    Page {
        title: "PAPER, TO BE HANDED IN".into(),
        place: answering.paper.head.title.clone(),
        flow,
        next,
        strip: vec![
            hint(Key::Enter, "hand in, or to that line"),
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
