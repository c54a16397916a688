//! What the front page of an evening shows.

use super::Tonight;
use crate::jobs::stopped;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 6;
const FAMILY: usize = 23;

/// The page of the evening in so many columns.
pub fn page(tonight: &Tonight, width: usize) -> Page {
    let columns = width.saturating_sub(2 + NUMBER + FAMILY + 5).max(12);
    let row = |texts: [&str; 4], pen: bool| {
        let [number, family, why, minutes] = texts;
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(family, FAMILY).hang(1),
            Cell::columns(why, columns).hang(1),
            Cell::rest(minutes).right(),
        ];
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    };
    let mut flow = Vec::new();
    for (line, waiting) in tonight.waiting.iter().enumerate() {
        let pen = line == tonight.picked.pen;
        let number = (line + 1).to_string();
        flow.push(row([&number, &waiting.family, &stopped(waiting), ""], pen));
    }
    if !(tonight.waiting.is_empty() || tonight.plan.is_empty()) {
        flow.push(Entry::rule());
    }
    for (at, planned) in tonight.plan.iter().enumerate() {
        let line = tonight.waiting.len() + at;
        let number = (line + 1).to_string();
        let minutes = planned.minutes.map(|minutes| minutes.to_string());
        let why = match planned.contrast {
            Some(_) => format!("{}; a turn taken twice lately", planned.why),
            None => planned.why.clone(),
        };
        let texts = [
            number.as_str(),
            &planned.family,
            &why,
            minutes.as_deref().unwrap_or_default(),
        ];
        flow.push(row(texts, line == tonight.picked.pen));
    }
    flow.push(Entry::rule());
    flow.extend(end(tonight));
    flow.push(Entry::gap());
    flow.extend(
        tonight
            .notes
            .iter()
            .map(|note| Entry::text(Role::Note, note.as_str())),
    );
    Page {
        title: "TONIGHT".into(),
        place: tonight.day.clone(),
        fixed: head(tonight, &row),
        flow,
        foot: foot(tonight),
        next: next(tonight),
        strip: vec![
            hint(Key::Enter, "take the line"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: S standing, L lessons, E exam"),
        ],
        ..Page::default()
    }
}

fn head(tonight: &Tonight, row: &dyn Fn([&str; 4], bool) -> Entry) -> Vec<Entry> {
    let mut head = Vec::new();
    let mut cells = Vec::new();
    if !tonight.name.is_empty() {
        cells.extend([
            Cell::columns("For", NUMBER),
            Cell::columns(tonight.name.as_str(), FAMILY),
        ]);
    }
    if let Some(exam) = &tonight.exam {
        cells.extend([Cell::columns("Exam", 7), Cell::rest(exam.as_str())]);
    }
    if !cells.is_empty() {
        head.push(Entry::of(Role::Head, cells));
        head.push(Entry::rule());
    }
    head.push(row(["line", "job", "why", "min"], false));
    head
}

/// The end of the evening, with its minutes in all.
fn end(tonight: &Tonight) -> Vec<Entry> {
    if tonight.is_over() {
        let text = if tonight.begun {
            "That was tonight's sheet."
        } else {
            "There is no job to take tonight."
        };
        return vec![Entry::text(Role::Text, text)];
    }
    let minutes: u32 = tonight
        .plan
        .iter()
        .filter_map(|planned| planned.minutes)
        .sum();
    let cells = vec![
        Cell::columns("", NUMBER),
        Cell::columns("End of the sheet.", FAMILY),
        Cell::rest(format!("in all about {minutes}")).right(),
    ];
    vec![Entry::of(Role::Text, cells)]
}

fn foot(tonight: &Tonight) -> Vec<Entry> {
    let mut foot = Vec::new();
    if tonight.faults > 0 {
        let files = words::count(tonight.faults, "fault", "faults");
        let text = format!("{files} in lesson files; those files are left out here.");
        foot.push(Entry::text(Role::Note, text));
    }
    if !tonight.is_over() {
        let cells = vec![
            Cell::columns("Take line", 12),
            Cell::blank(
                tonight.picked.number.text(),
                6,
                Some(tonight.picked.number.before()),
            ),
            Cell::rest(""),
        ];
        foot.push(Entry::of(Role::Text, cells));
    }
    foot
}

fn next(tonight: &Tonight) -> String {
    if tonight.is_over() {
        return "Enter: stop here".to_owned();
    }
    let Some(line) = tonight.named() else {
        return format!("Enter: write a line number first, 1 to {}", tonight.count());
    };
    if let Some(waiting) = tonight.waiting.get(line) {
        return format!(
            "Enter: go on with {}, line {}",
            waiting.family, waiting.line
        );
    }
    match tonight.planned(line) {
        Some(planned) => format!("Enter: a sheet of {}", planned.family),
        None => "? then Q: stop here".to_owned(),
    }
}
