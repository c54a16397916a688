//! What the back of a sheet shows: the earlier sums, the blank, the line.

use pumpwright_engine::formulas::SideSum;
use pumpwright_engine::quantities::System;

use super::Sums;
use super::state::CameFrom;
use super::update::{Enter, enter_does};
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;

const NUMBER: usize = 5;
const RESULT: usize = 24;

/// The page of the sums in so many columns.
pub fn page(sums: &Sums, width: usize) -> Page {
    let mut flow = sums.front.job(width);
    flow.push(Entry::rule());
    for (index, sum) in sums.back.done.iter().enumerate() {
        let pen = sums.at == Some(index);
        let row = line_of(index, sum, width).signed(pen.then_some(Sign::Pen));
        let latest = index + 1 == sums.back.done.len();
        flow.push(row.focused(pen || (sums.at.is_none() && latest)));
    }
    Page {
        title: "BACK OF THE SHEET".into(),
        place: "side sums".into(),
        fixed: head(sums),
        flow,
        foot: foot(sums, width),
        next: next(sums),
        strip: vec![
            hint(Key::Enter, enter_words(sums)),
            hint(Key::UpDown, "sums"),
            hint(Key::Ask, ask_words(sums)),
            hint(Key::Escape, "back"),
            hint(Key::Tables, "tables"),
        ],
        ..Page::default()
    }
}

/// A sum that was worked out, as a row.
pub fn line_of(index: usize, sum: &SideSum, width: usize) -> Entry {
    let column = width.saturating_sub(2 + NUMBER + RESULT).max(12);
    let cells = vec![
        Cell::columns(format!("s{}", index + 1), NUMBER),
        Cell::columns(sum.sum.as_str(), column).hang(2),
        Cell::rest(sum.text.as_str()),
    ];
    Entry::of(Role::Line, cells)
}

fn head(sums: &Sums) -> Vec<Entry> {
    let carry = if sums.line.as_ref().is_some_and(|line| line.figure) {
        " Each result can be written over to the line you came from."
    } else {
        ""
    };
    let text = format!("Write a sum with its units.{carry} Nothing here is marked.");
    let mut head = sums.front.caution();
    head.push(Entry::text(Role::Note, text).dropping(Drop::SecondHead));
    head.push(Entry::rule().dropping(Drop::SecondHead));
    head
}

fn foot(sums: &Sums, width: usize) -> Vec<Entry> {
    let next = format!("s{}", sums.back.done.len() + 1);
    let columns = width.saturating_sub(2 + NUMBER).min(62);
    let cells = vec![
        Cell::columns(next, NUMBER),
        Cell::blank(sums.blank.text(), columns, Some(sums.blank.before())),
    ];
    let pen = sums.at.is_none().then_some(Sign::Pen);
    let mut foot = vec![Entry::gap(), Entry::of(Role::Line, cells).signed(pen)];
    foot.extend(sums.refused.as_deref().map(refused));
    foot.push(Entry::gap());
    foot.push(Entry::rule());
    foot.extend(reminders(sums));
    foot.extend(sums.line.as_ref().map(came_from));
    foot
}

fn refused(words: &str) -> Entry {
    let cells = vec![
        Cell::columns("", NUMBER),
        Cell::rest(format!("look here: {words}")),
    ];
    Entry::of(Role::Verdict, cells).signed(Some(Sign::Look))
}

fn reminders(sums: &Sums) -> Vec<Entry> {
    let units = match sums.manner().0 {
        System::Us => "ft in gal gpm psi V A ohm hp",
        System::Si => "m mm L L/min kPa V A ohm kW",
    };
    let signs = format!("+ - * / ^ ( )  sqrt up down near min max abs  {units}");
    let name = match sums.back.done.len() {
        0 => "s1 then stands for the first result.".to_owned(),
        count => {
            format!("Up brings an earlier sum back into the blank. s{count} stands for its result.")
        }
    };
    let row = |text: String, drop: Drop| {
        let cells = vec![Cell::columns("", 2), Cell::rest(text)];
        Entry::of(Role::Note, cells).dropping(drop)
    };
    vec![row(name, Drop::SecondHead), row(signs, Drop::Counts)]
}

fn came_from(line: &CameFrom) -> Entry {
    let CameFrom { number, label, .. } = line;
    let holds = match line.holds.as_str() {
        "" => "is empty".to_owned(),
        holds => format!("holds:  {holds}"),
    };
    Entry::text(
        Role::Note,
        format!("Line {number} of the sheet, {label}, {holds}"),
    )
}

fn next(sums: &Sums) -> String {
    match (enter_does(sums), sums.to_carry()) {
        (Enter::CarryOver, Some((at, line))) => {
            let place = if line.holds.is_empty() {
                String::new()
            } else {
                format!(", in place of {}", line.holds)
            };
            format!(
                "Enter: carry s{} over to line {}{place}",
                at + 1,
                line.number
            )
        }
        (Enter::WorkOut, _) => "Enter: work out this sum".to_owned(),
        (Enter::PutAway, _) => match &sums.line {
            Some(line) => format!("Enter: put the sums away and write line {}", line.number),
            None => "Enter: put the sums away".to_owned(),
        },
        _ => "Enter: write this sum once more".to_owned(),
    }
}

fn enter_words(sums: &Sums) -> &'static str {
    match enter_does(sums) {
        Enter::WorkOut => "work out",
        Enter::CarryOver => "carry over",
        Enter::Again => "once more",
        Enter::PutAway => "put away",
    }
}

fn ask_words(sums: &Sums) -> String {
    match sums.to_carry() {
        Some((at, line)) => format!("ask: O carry s{} over to line {}", at + 1, line.number),
        None => "ask".to_owned(),
    }
}
