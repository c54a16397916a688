//! What a paper shows while it is answered: whose it is, the open item, its lines.

use super::closing;
use super::item;
use super::state::Answering;
use crate::blank::Blank;
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};

/// The page of the open item in so many columns.
pub fn page(answering: &Answering, width: usize) -> Page {
    let place = Blank::default();
    let closing = answering.closing.as_ref();
    let closing = closing.or(answering.handing_in.then_some(&place));
    let Some(open) = answering.item().filter(|_| closing.is_none()) else {
        let mut page = closing::page(answering, closing.unwrap_or(&place));
        if answering.handing_in {
            "Wait: the paper is being handed in".clone_into(&mut page.next);
        }
        return page;
    };
    let written = answering.blanks.get(answering.at);
    let written = written.map_or(&[][..], Vec::as_slice);
    let mut flow = item::lines(open, written, Some(answering.pen), width);
    flow.push(Entry::text(Role::Note, allowed(answering)).dropping(Drop::Counts));
    Page {
        title: "PAPER".into(),
        place: format!("item {} of {}", open.number, answering.paper.items.len()),
        fixed: fixed(answering, open, width),
        flow,
        next: next(answering),
        strip: vec![
            hint(Key::Enter, "on"),
            hint(Key::UpDown, "lines, items"),
            hint(Key::Tables, "tables"),
            hint(Key::Sums, "sums"),
            hint(
                Key::Ask,
                if open.figure.is_some() {
                    "ask: F figure, Z hand in"
                } else {
                    "ask: Z hand in"
                },
            ),
            hint(Key::Escape, "back"),
            hint(Key::Pages, "scroll"),
        ],
        ..Page::default()
    }
}

/// What is never scrolled away: whose paper it is, the job, its caution.
fn fixed(
    answering: &Answering,
    open: &pumpwright_engine::classes::sit::SitItem,
    width: usize,
) -> Vec<Entry> {
    let head = &answering.paper.head;
    let whose = if answering.is_tried() {
        "your own try, kept nowhere".to_owned()
    } else {
        let person = &answering.paper.person;
        format!("{}   paper {}", person.name, person.id)
    };
    let marks = format!("{} marks, {} min", head.marks, head.minutes);
    let cells = vec![
        Cell::columns(whose, width.saturating_sub(20)).hang(2),
        Cell::rest(marks).right(),
    ];
    let mut fixed = vec![
        Entry::of(Role::Head, cells).dropping(Drop::SecondHead),
        item::head(open),
    ];
    fixed.extend(item::caution(open));
    fixed.push(Entry::rule());
    fixed
}

/// What may be open beside the paper, and what is not there.
fn allowed(answering: &Answering) -> String {
    format!("{} No help on this paper.", answering.paper.head.tables)
}

fn next(answering: &Answering) -> String {
    let empty = answering
        .blank(answering.pen)
        .is_none_or(crate::blank::Blank::is_empty);
    let done = if empty { "left open" } else { "this is noted" };
    if answering.pen + 1 < answering.lines() {
        return format!("Enter: {done}, on to line {}", answering.pen + 2);
    }
    if answering.at + 1 < answering.blanks.len() {
        return format!("Enter: {done}, on to item {}", answering.at + 2);
    }
    format!("Enter: {done}, the last one: see what is open")
}
