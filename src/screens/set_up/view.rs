//! What the set-up form shows.

use super::state::{Form, Line, Signs};
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;

const NUMBER: usize = 3;
const LABEL: usize = 21;

/// The page of the form in so many columns.
pub fn page(form: &Form, width: usize) -> Page {
    let words = form.line() == Line::Name;
    let mut strip = vec![hint(Key::Enter, "line done"), hint(Key::UpDown, "lines")];
    if !words {
        strip.push(hint(Key::Ask, "ask"));
    }
    let back = if words {
        "back: a blank for words, ? ! @ & write"
    } else {
        "back"
    };
    strip.push(hint(Key::Escape, back));
    Page {
        title: "SET-UP".into(),
        place: if form.offered {
            "asked after the second sheet".into()
        } else {
            String::new()
        },
        flow: lines(form, width),
        next: next(form),
        strip,
        ..Page::default()
    }
}

fn lines(form: &Form, width: usize) -> Vec<Entry> {
    let mut lines = Vec::new();
    if form.offered {
        lines.push(Entry::text(
            Role::Text,
            "Two sheets are done. Now you may write your name and choose your units. Esc \
             leaves everything as it is.",
        ));
        lines.push(Entry::gap());
    }
    let head = vec![
        Cell::columns("line", NUMBER + LABEL),
        Cell::rest("write here"),
    ];
    lines.push(Entry::of(Role::Line, head));
    for (at, line) in Line::ALL.into_iter().enumerate() {
        if line == Line::Signs {
            lines.push(Entry::gap());
            lines.push(Entry::rule());
        }
        lines.extend(one(form, at, line, width));
        if line == Line::Signs {
            lines.push(sample(form.now.signs));
            lines.push(Entry::gap());
        }
    }
    lines.push(Entry::gap());
    lines.push(Entry::rule());
    lines.push(Entry::text(
        Role::Note,
        "Units, decimal sign and checking hold from the next sheet on. All of this can \
         be changed later: ? then U.",
    ));
    lines
}

fn one(form: &Form, at: usize, line: Line, width: usize) -> Vec<Entry> {
    let pen = at == form.pen;
    let blank = form.blanks.get(at);
    let text = blank.map(crate::blank::Blank::text).unwrap_or_default();
    let cursor = blank.filter(|_| pen).map(crate::blank::Blank::before);
    let beside = width >= 70;
    let mut cells = vec![
        Cell::columns((at + 1).to_string(), NUMBER),
        Cell::columns(line.label(), LABEL),
        Cell::blank(text, 18, cursor),
    ];
    if beside {
        cells.push(Cell::rest(line.offers()));
    }
    let row = Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen);
    let below = (pen && !beside).then(|| {
        let cells = vec![Cell::columns("", NUMBER + LABEL), Cell::rest(line.offers())];
        Entry::of(Role::Line, cells)
    });
    std::iter::once(row).chain(below).collect()
}

/// What shows whether the signs look as they ought to. In ASCII nothing else is
/// printed, for a terminal that lacks the signs may do anything with them.
fn sample(signs: Signs) -> Entry {
    let text = match signs {
        Signs::Drawn => "Do these look like a box and a tick?   ┌─┐ ✓",
        Signs::Ascii => "Line drawing is tried by writing it: ASCII brings this back.",
    };
    Entry::of(
        Role::Note,
        vec![Cell::columns("", 2 + NUMBER), Cell::rest(text)],
    )
}

fn next(form: &Form) -> String {
    let here = form.pen + 1;
    if here < Line::ALL.len() {
        return format!("Enter: line {here} done, on to line {}", here + 1);
    }
    if form.offered {
        return format!("Enter: line {here} done, and go on");
    }
    format!("Enter: line {here} done, back to where you were")
}
