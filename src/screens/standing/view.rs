//! What the standing screen shows.

use pumpwright_engine::learner::Stage;

use super::{Line, Standing};
use crate::calendar;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 5;
const FAMILY: usize = 23;
const STATE: usize = 14;
/// How many signs the scale from 0 to 100 % has.
const SCALE: usize = 16;

/// The page of the standing in so many columns.
pub fn page(standing: &Standing, width: usize) -> Page {
    // In a narrow window the scale gives way: the figures say the same.
    let scale = if width >= 74 { SCALE } else { 0 };
    let mut flow = Vec::new();
    let turns = standing
        .lines
        .iter()
        .position(|line| matches!(line, Line::Turn { .. }));
    for (at, line) in standing.lines.iter().enumerate() {
        if turns == Some(at) {
            flow.push(Entry::rule());
            flow.push(Entry::heading("Turns that come back"));
        }
        flow.push(row(line, at, at == standing.picked.pen, scale));
    }
    flow.extend(weeks(standing, scale));
    Page {
        title: "STANDING".into(),
        place: standing.place.clone(),
        fixed: vec![head(scale), Entry::rule()],
        flow,
        foot: foot(standing),
        next: match standing.named().and_then(|line| standing.lines.get(line)) {
            Some(line) => format!("Enter: practice {}", line.family()),
            None => format!(
                "Enter: write a line number first, 1 to {}",
                standing.lines.len()
            ),
        },
        strip: vec![
            hint(Key::Enter, "practice"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: P as a list, T tonight"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn head(scale: usize) -> Entry {
    let mut cells = vec![
        Cell::columns("line", NUMBER),
        Cell::columns("family", FAMILY),
        Cell::columns("state", STATE),
    ];
    if scale > 0 {
        cells.push(Cell::columns("0  sure from 100", scale + 2));
    }
    cells.extend([Cell::columns("%", 7), Cell::rest("refresh").right()]);
    Entry::of(Role::Line, cells)
}

fn row(line: &Line, at: usize, pen: bool, scale: usize) -> Entry {
    let number = (at + 1).to_string();
    let mut cells = vec![Cell::columns(number, NUMBER)];
    match line {
        Line::Family {
            family,
            stage,
            chance,
            refresh,
        } => {
            cells.push(Cell::columns(family.as_str(), FAMILY).hang(1));
            cells.push(Cell::columns(state(*stage), STATE));
            if scale > 0 {
                let text = chance.map_or_else(
                    || ".".repeat(scale),
                    |(chance, between)| on_scale(chance, between, scale),
                );
                cells.push(Cell::columns(text, scale + 2));
            }
            let figure = chance.map_or_else(
                || "-".to_owned(),
                |(_, (low, high))| format!("{:.0}-{:.0}", 100.0 * low, 100.0 * high),
            );
            cells.push(Cell::columns(figure, 7));
            cells.push(Cell::rest(refresh.as_str()).right());
        }
        Line::Turn {
            family, did, times, ..
        } => {
            cells.push(Cell::columns(family.as_str(), FAMILY).hang(1));
            let (times, of) = times;
            cells.push(Cell::rest(format!("\"{did}\" in {times} of your last {of}")).hang(1));
        }
    }
    Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen)
}

/// Week by week, the newest at the foot, as a log is written.
fn weeks(standing: &Standing, scale: usize) -> Vec<Entry> {
    if standing.weeks.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![Entry::rule(), Entry::heading("Week by week")];
    for week in &standing.weeks {
        let sheets = words::count(week.responses, "sheet", "sheets");
        let (right, of) = (week.right, words::count(week.unaided, "line", "lines"));
        let done = format!("{sheets}, {right} of {of} right without help");
        let figures = week.forecast.map_or_else(
            || "no forecast yet".to_owned(),
            |forecast| {
                let (low, high) = forecast.between;
                format!("{:.0}-{:.0}", 100.0 * low, 100.0 * high)
            },
        );
        let mut cells = vec![Cell::columns(
            format!("to {}", calendar::short(week.end.day)),
            NUMBER + 5,
        )];
        match week.forecast {
            // In a narrow window both stand in one text.
            _ if scale == 0 => cells.push(Cell::rest(format!("{done}; {figures}"))),
            Some(forecast) => cells.extend([
                Cell::columns(done, FAMILY + STATE + 8).hang(1),
                Cell::columns(on_scale(forecast.score, forecast.between, scale), scale + 1),
                Cell::rest(figures).right(),
            ]),
            None => cells.extend([
                Cell::columns(done, FAMILY + STATE + 8).hang(1),
                Cell::rest(figures).hang(1),
            ]),
        }
        rows.push(Entry::of(Role::Line, cells));
    }
    rows
}

/// The state with its sign; the word says the same.
const fn state(stage: Stage) -> &'static str {
    match stage {
        Stage::NotMet => "[ ] not met",
        Stage::Building => "[/] building",
        Stage::Holding => "[■] holding",
        Stage::Slipping => "[\\] slipping",
    }
}

/// The interval on a scale from nothing to all.
fn on_scale(chance: f64, (low, high): (f64, f64), signs: usize) -> String {
    let last = signs.saturating_sub(1);
    let place = |share: f64| ((share * signs as f64) as usize).min(last);
    let (low, middle, high) = (place(low), place(chance), place(high));
    (0..signs)
        .map(|at| match at {
            at if at == middle => '┼',
            at if (low..=high).contains(&at) => '─',
            _ => '.',
        })
        .collect()
}

fn foot(standing: &Standing) -> Vec<Entry> {
    let mut foot = vec![Entry::rule()];
    for (at, (when, said)) in standing.forecast.iter().enumerate() {
        let entry = if at == 0 {
            Entry::of(Role::Note, vec![Cell::rest(when.as_str()).bold()])
        } else {
            let cells = vec![
                Cell::columns("", 2),
                Cell::columns(when.as_str(), 21),
                Cell::rest(said.as_str()).hang(2),
            ];
            Entry::of(Role::Note, cells)
        };
        foot.push(entry);
    }
    if !standing.rests.is_empty() {
        let cells = vec![Cell::columns("", 2), Cell::rest(standing.rests.as_str())];
        foot.push(Entry::of(Role::Note, cells));
    }
    let cells = vec![
        Cell::columns("Take line", 12),
        Cell::blank(
            standing.picked.number.text(),
            6,
            Some(standing.picked.number.before()),
        ),
        Cell::rest(""),
    ];
    foot.push(Entry::of(Role::Text, cells));
    foot
}
