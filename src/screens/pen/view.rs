//! What the marker sees: spans and turns, what was keyed, what follows from it.

use pumpwright_engine::classes::marks::MarkedItem;
use pumpwright_engine::classes::pen::{follows, mark_keyed};
use pumpwright_engine::classes::strip::{StripItem, StripLine, strip as strip_of};
use pumpwright_engine::marking::Marks;

use super::state::{Pen, Reason};
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 3;
const LETTER: usize = 3;
const FIGURE: usize = 9;
const MARKS: usize = 27;

/// The page in so many columns.
pub fn page(pen: &Pen, width: usize) -> Page {
    let marked = pen.marked();
    let here = marked.get(pen.at);
    let mut flow = Vec::new();
    match pen.problem() {
        Some(problem) => {
            let strip = strip_of(problem);
            flow.extend(match &pen.came {
                Some(_) => written(here, &strip, width),
                None => accepted(&strip, width),
            });
        }
        None => flow.push(Entry::text(
            Role::Note,
            "This item cannot be marked by its record. ? then J sets its marks, ? then D \
             takes it out for the whole class.",
        )),
    }
    flow.extend(decided(here));
    let mut foot = vec![Entry::rule()];
    match &pen.reason {
        Some((reason, blank)) => foot.extend(reasoned(reason, blank, width)),
        None if pen.came.is_none() => {
            foot.extend(keyed(pen));
            flow.push(Entry::rule().dropping(Drop::First));
            flow.extend(keys(pen));
        }
        None => foot.clear(),
    }
    if pen.came.is_none() {
        let count = format!("Keys used on this paper so far: {}.", pen.keys);
        flow.push(Entry::text(Role::Note, count).dropping(Drop::First));
    }
    let item = format!("item {} of {}", pen.at + 1, pen.count());
    Page {
        title: match pen.came {
            None => "MARKING WITH A PEN".into(),
            Some(_) => "MARKS".into(),
        },
        place: format!("{}   paper {}   {item}", pen.name, pen.paper),
        fixed: head(pen, &marked, width),
        flow,
        foot,
        next: next(pen, here),
        strip: strip(pen),
        ..Page::default()
    }
}

fn head(pen: &Pen, marked: &[MarkedItem], width: usize) -> Vec<Entry> {
    let here = marked.get(pen.at);
    let family = here.map_or_else(String::new, |item| {
        format!("{}, level {}", item.family, item.level)
    });
    let title = pen.problem().map_or("", |problem| words::title(problem));
    let here = here.map_or_else(String::new, |item| {
        format!("marks so far  {} of {}", item.score, item.out_of)
    });
    let done: Marks = (pen.keyed.iter().zip(marked))
        .filter(|(keyed, _)| keyed.is_some() || pen.came.is_some())
        .map(|(_, item)| item.score)
        .sum();
    let cells = vec![
        Cell::columns(format!("{family}  {title}"), width.saturating_sub(MARKS)).hang(2),
        Cell::rest(here).right(),
    ];
    let paper = match pen.keyed.iter().flatten().count() {
        _ if pen.came.is_some() => format!("The paper has {}.", words::marks(done)),
        0 => "No item of this paper is done yet.".to_owned(),
        count => format!(
            "{} of this paper done, with {}.",
            words::count(count, "item", "items"),
            words::marks(done)
        ),
    };
    vec![
        Entry::of(Role::Head, cells),
        Entry::text(Role::Marks, paper).dropping(Drop::SecondHead),
        Entry::rule(),
    ]
}

/// The columns of a line's name and of its span.
const fn columns(width: usize) -> (usize, usize) {
    if width >= 70 { (18, 22) } else { (13, 16) }
}

fn accepted(strip: &StripItem, width: usize) -> Vec<Entry> {
    let (name, span) = columns(width);
    let head = vec![
        Cell::columns("", NUMBER),
        Cell::columns("line", name),
        Cell::columns("accept", span),
        Cell::rest("known turns, by letter"),
    ];
    let mut entries = vec![Entry::of(Role::Line, head)];
    for line in &strip.lines {
        let mut turns = line.turns.iter();
        let mut first = true;
        loop {
            let turn = turns.next();
            if turn.is_none() && !first {
                break;
            }
            let mut cells = if first {
                named(line, name, span)
            } else {
                vec![Cell::columns("", NUMBER + name + span)]
            };
            first = false;
            if let Some(turn) = turn {
                cells.extend([
                    Cell::columns(turn.letter.to_string(), LETTER),
                    Cell::columns(turn.text.as_str(), FIGURE).hang(1),
                    Cell::rest(turn.did.trim_end_matches('.')).hang(1),
                ]);
            }
            entries.push(Entry::of(Role::Line, cells));
        }
    }
    if !strip.stops.is_empty() {
        let stops = format!("Ends the item: {}.", strip.stops.join("; "));
        entries.push(Entry::text(Role::Note, stops));
    }
    entries
}

fn named(line: &StripLine, name: usize, span: usize) -> Vec<Cell> {
    let unit = line.unit.as_deref().unwrap_or("");
    let accept = format!("{} {unit}", line.accept);
    vec![
        Cell::columns(line.number.to_string(), NUMBER),
        Cell::columns(line.label.as_str(), name).hang(1),
        Cell::columns(accept.trim_end(), span).hang(1),
    ]
}

/// What came as text, line by line with its verdict.
fn written(here: Option<&MarkedItem>, strip: &StripItem, width: usize) -> Vec<Entry> {
    let (name, span) = columns(width);
    let lines = here.and_then(|item| item.marked.as_ref());
    let mut entries = Vec::new();
    for line in lines.iter().flat_map(|marked| &marked.lines) {
        let own = strip.lines.get(entries.len());
        let number = own.map_or_else(String::new, |own| own.number.to_string());
        let label = own.map_or("", |own| own.label.as_str());
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(label, name).hang(1),
            Cell::columns(words::written(line), span).hang(1),
            Cell::rest(format!(
                "{}, {} of {}",
                words::verdict(line, 0),
                line.marks,
                line.out_of
            ))
            .hang(1),
        ];
        let entry = Entry::of(Role::Verdict, cells);
        entries.push(entry.signed(Some(words::sign(&line.verdict))));
    }
    entries
}

/// What was decided of this item, and why it is odd.
fn decided(here: Option<&MarkedItem>) -> Vec<Entry> {
    let notes = here.iter().flat_map(|item| &item.notes);
    notes
        .map(|note| Entry::text(Role::Note, words::sentence(note)))
        .collect()
}

fn reasoned(reason: &Reason, blank: &crate::blank::Blank, width: usize) -> Vec<Entry> {
    let (label, text) = match reason {
        Reason::Drop => (
            "reason",
            "The item is taken out for the whole class, and the reason is kept. An empty \
             blank takes it in again.",
        ),
        Reason::Judge => (
            "marks",
            "The marks, then the reason: 2.5 told me the unit. They stand in place of those \
             worked out. An empty blank takes them back.",
        ),
    };
    let cells = vec![
        Cell::columns(label, 8),
        Cell::blank(
            blank.text(),
            width.saturating_sub(2 + 8),
            Some(blank.before()),
        ),
    ];
    let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    vec![line.focused(true), Entry::text(Role::Note, text)]
}

/// The blank, and what follows from what is keyed.
fn keyed(pen: &Pen) -> Vec<Entry> {
    let cells = vec![
        Cell::columns("Written:", 10),
        Cell::blank(pen.blank.text(), 24, Some(pen.blank.before())),
    ];
    let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    let mut entries = vec![line.focused(true)];
    let keys = pen.blank.trimmed();
    let Some(problem) = pen.problem() else {
        return entries;
    };
    let marked = match mark_keyed(problem, keys, pen.manner) {
        Err(what) => {
            entries.push(Entry::text(Role::Note, words::sentence(&what)));
            return entries;
        }
        Ok(_) if keys.is_empty() => return entries,
        Ok(marked) => marked,
    };
    let strip = strip_of(problem);
    for (line, own) in marked.lines.iter().zip(&strip.lines) {
        if line.marks < line.out_of {
            let lost = match line.marks {
                marks if marks == Marks::default() => "no mark".to_owned(),
                marks => words::marks(marks),
            };
            let text = format!(
                "Line {}: {lost}. {}",
                own.number,
                words::sentence(&line.words)
            );
            entries.push(Entry::text(Role::Marks, text));
        }
    }
    let follow = follows(problem, keys, pen.manner).unwrap_or_default();
    if !follow.is_empty() {
        entries.push(Entry::text(
            Role::Marks,
            "From there the right figures on this paper are",
        ));
    }
    for (number, figure) in &follow {
        let label = strip.lines.iter().find(|line| line.number == *number);
        let hides: Vec<String> = (strip.after.iter())
            .filter(|after| keys.contains(after.letter))
            .flat_map(|after| &after.cancels)
            .filter(|(letter, _)| {
                let at = strip.lines.iter().find(|line| line.number == *number);
                at.is_some_and(|line| line.turns.iter().any(|turn| turn.letter == *letter))
            })
            .map(|(letter, figure)| format!("{letter} then gives {figure}: two turns, no mark"))
            .collect();
        let mut text = figure.clone();
        if !hides.is_empty() {
            text += "   (";
            text += &hides.join("; ");
            text += ")";
        }
        let cells = vec![
            Cell::columns("", 3),
            Cell::columns(number.to_string(), NUMBER),
            Cell::columns(label.map_or("", |line| &*line.label), 21).hang(1),
            Cell::rest(text).hang(2),
        ];
        entries.push(Entry::of(Role::Line, cells));
    }
    entries
}

/// The keys of the pen, while nothing is keyed.
fn keys(pen: &Pen) -> Vec<Entry> {
    let lines = pen.problem().map_or(1, |problem| problem.asked().count());
    let turns = pen
        .problem()
        .map(|problem| pumpwright_engine::classes::strip::turns(problem));
    let letters = turns.unwrap_or_default();
    let row = |key: String, text: &str| {
        let cells = vec![Cell::columns(key, 10), Cell::rest(text).hang(1)];
        Entry::of(Role::Tool, cells).dropping(Drop::First)
    };
    let mut rows = vec![row("Enter".into(), "the rest of this item is right")];
    if let (Some(first), Some(last)) = (letters.first(), letters.last()) {
        let span = match letters.len() {
            1 => first.letter.to_string(),
            _ => format!("{} to {}", first.letter, last.letter),
        };
        rows.push(row(
            span,
            "that turn was taken; its line is known by its letter",
        ));
    }
    let span = if lines == 1 {
        "1".to_owned()
    } else {
        format!("1 to {lines}")
    };
    // Nothing follows after the only line.
    let said = if lines == 1 {
        "the line is wrong in another way; x says so, too"
    } else {
        "that line is wrong in another way; 2=0.58 is followed; x is the last line"
    };
    rows.push(row(span, said));
    rows.push(row("0".into(), "nothing was written"));
    rows
}

fn next(pen: &Pen, here: Option<&MarkedItem>) -> String {
    match &pen.reason {
        Some((Reason::Drop, blank)) if blank.is_empty() => {
            return "Enter: the item counts for everybody".to_owned();
        }
        Some((Reason::Drop, _)) => {
            return "Enter: the item counts for nobody in this class".to_owned();
        }
        Some((Reason::Judge, blank)) if blank.is_empty() => {
            return "Enter: the marks that are worked out stand".to_owned();
        }
        Some((Reason::Judge, _)) => {
            return "Enter: these marks stand, with their reason".to_owned();
        }
        None => {}
    }
    if pen.filing {
        return "Wait: the paper is on its way to the disk".to_owned();
    }
    let number = pen.at + 1;
    if pen.came.is_some() {
        if number < pen.count() {
            return format!("Enter: on to item {}", number + 1);
        }
        return "Enter: back to the work order".to_owned();
    }
    let marks = here.map_or_else(String::new, |item| {
        format!(" with {} of {}", item.score, item.out_of)
    });
    match pen.following() {
        Some(next) => format!(
            "Enter: item {number} is done{marks}, on to item {}",
            next + 1
        ),
        None => format!("Enter: item {number} is done{marks}, and the paper with it"),
    }
}

fn strip(pen: &Pen) -> Vec<crate::keys::Hint> {
    if pen.reason.is_some() {
        return vec![
            hint(Key::Enter, "done"),
            hint(Key::Escape, "back: a blank for words, ? ! @ & write"),
        ];
    }
    vec![
        hint(Key::Enter, "item done"),
        hint(Key::UpDown, "items"),
        hint(Key::Ask, "ask: W worked key, D drop item, J judge"),
        hint(Key::Pages, "scroll"),
        hint(Key::Escape, "back"),
    ]
}
