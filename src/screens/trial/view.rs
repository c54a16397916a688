//! What the marks of a paper that was tried show: the whole, the time, item by item.

use pumpwright_engine::classes::marks::MarkedItem;
use pumpwright_engine::marking::Marks;

use super::state::Trial;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 6;
const MARKS: usize = 10;
const LINES: usize = 16;

/// The page in so many columns.
pub fn page(trial: &Trial, width: usize) -> Page {
    let head = &trial.ready.printed.head;
    let mut flow = vec![row(["item", "job", "marks", "lines"], width, false)];
    let items = trial.marked.iter().zip(&trial.ready.printed.items);
    for (at, (marked, printed)) in items.enumerate() {
        let number = marked.number.to_string();
        let marks = format!("{} of {}", marked.score, marked.bears);
        let texts = [&*number, &printed.title, &marks, &lines(marked)];
        flow.push(row(texts, width, at == trial.picked.pen));
    }
    let (score, of) = (trial.score(), Marks::whole(head.marks));
    Page {
        title: "PAPER, TRIED".into(),
        place: head.title.clone(),
        fixed: vec![
            Entry::text(Role::Head, whole(score, of, head.pass_halves)),
            Entry::text(Role::Head, time(trial.minutes, head.minutes)),
            Entry::rule(),
        ],
        flow,
        foot: foot(trial),
        next: next(trial),
        strip: vec![
            hint(Key::Enter, "item worked"),
            hint(Key::UpDown, "items"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "back to the plan"),
        ],
        ..Page::default()
    }
}

fn whole(score: Marks, of: Marks, pass: Option<u32>) -> String {
    let pass = pass.map(|halves| {
        let passed = if score.in_halves() >= halves {
            "passed"
        } else {
            "not passed"
        };
        format!("; pass is {}: {passed}", Marks::halves(halves))
    });
    format!(
        "{score} of {}{}.",
        words::marks(of),
        pass.unwrap_or_default()
    )
}

/// How long it took, and that it is gone when it is put away.
fn time(took: i64, planned: u32) -> String {
    format!("You took {took} min, the plan says {planned}. Nothing of this is kept.")
}

/// How many of the lines are right.
fn lines(item: &MarkedItem) -> String {
    let Some(marked) = &item.marked else {
        return "not marked".to_owned();
    };
    let right = marked.lines.iter().filter(|line| line.marks == line.out_of);
    format!("{} of {} right", right.count(), marked.lines.len())
}

fn row(texts: [&str; 4], width: usize, pen: bool) -> Entry {
    let [number, job, marks, lines] = texts;
    let job_wide = width.saturating_sub(2 + NUMBER + MARKS + LINES);
    let cells = vec![
        Cell::columns(number, NUMBER),
        Cell::columns(job, job_wide).hang(1),
        Cell::columns(marks, MARKS),
        Cell::rest(lines),
    ];
    Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen)
}

fn foot(trial: &Trial) -> Vec<Entry> {
    let cells = vec![
        Cell::columns("Take item", 12),
        Cell::blank(
            trial.picked.number.text(),
            6,
            Some(trial.picked.number.before()),
        ),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(trial: &Trial) -> String {
    match trial.named() {
        Some(item) => format!("Enter: see item {} worked, beside what you wrote", item + 1),
        None => format!(
            "Enter: write an item number first, 1 to {}",
            trial.marked.len()
        ),
    }
}
