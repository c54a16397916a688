//! What is shown where a paper is chosen.

use super::state::{Exams, Takes, read_minutes};
use crate::blank::Blank;
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;

const NUMBER: usize = 6;
const LABEL: usize = 12;
const BLANK: usize = 8;

/// The page in so many columns.
pub fn page(exams: &Exams, width: usize) -> Page {
    let mut flow = vec![row(["line", "paper", "how long"], width, false)];
    for (at, paper) in exams.papers.iter().enumerate() {
        let number = (at + 1).to_string();
        let pen = !exams.asks() && at == exams.picked.pen;
        flow.push(row([&number, &paper.title, &paper.size], width, pen));
    }
    flow.push(Entry::rule());
    match &exams.minutes {
        Some(minutes) => {
            let cells = vec![
                Cell::columns("minutes", LABEL),
                Cell::blank(minutes.text(), BLANK, Some(minutes.before())),
                Cell::rest("0 for no clock"),
            ];
            let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
            flow.extend([line.focused(true), Entry::gap()]);
            flow.push(note(
                "The clock may be made longer here, or left out. Once the paper is open it \
                 runs on, even while the program is stopped.",
            ));
        }
        None => match &exams.file {
            Some(file) => flow.extend(file_asked(file, width)),
            None => flow.extend(about()),
        },
    }
    Page {
        title: "EXAM".into(),
        place: "a paper, without help".into(),
        flow,
        foot: foot(exams),
        next: next(exams),
        strip: strip(exams),
        ..Page::default()
    }
}

fn file_asked(file: &Blank, width: usize) -> Vec<Entry> {
    let cells = vec![
        Cell::columns("file", LABEL),
        Cell::blank(
            file.text(),
            width.saturating_sub(2 + LABEL),
            Some(file.before()),
        ),
    ];
    let line = Entry::of(Role::Line, cells).signed(Some(Sign::Pen));
    vec![
        line.focused(true),
        Entry::gap(),
        note(
            "What you write is kept beside that file, so that you can stop and go on. Handed \
             in, it is a file of answers there: give it to your instructor. It goes into no \
             record here.",
        ),
    ]
}

fn note(text: &str) -> Entry {
    Entry::text(Role::Note, text)
}

fn about() -> Vec<Entry> {
    vec![
        note(
            "A paper asks what a license board may ask: one answer to each question, no \
             help, marked when you hand the whole of it in. Tables and side sums stay open.",
        ),
        Entry::gap().dropping(Drop::First),
        note(
            "The refresher is for people already in the trade. After it every area has a \
             figure, and you know where to begin.",
        ),
        Entry::gap().dropping(Drop::First),
        note(
            "No public outline says how such a paper is made up. Its shares and its minutes \
             are our own judgement.",
        )
        .dropping(Drop::Counts),
    ]
}

fn row(texts: [&str; 3], width: usize, pen: bool) -> Entry {
    let [number, title, size] = texts;
    let size_wide = if width >= 70 { 28 } else { 24 };
    let title_wide = width.saturating_sub(2 + NUMBER + size_wide);
    let cells = vec![
        Cell::columns(number, NUMBER),
        Cell::columns(title, title_wide).hang(1),
        Cell::rest(size),
    ];
    Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen)
}

fn foot(exams: &Exams) -> Vec<Entry> {
    if exams.asks() {
        return Vec::new();
    }
    let cells = vec![
        Cell::columns("Take line", LABEL),
        Cell::blank(
            exams.picked.number.text(),
            BLANK,
            Some(exams.picked.number.before()),
        ),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(exams: &Exams) -> String {
    if exams.file.is_some() {
        return "Enter: open this paper".to_owned();
    }
    if let Some(minutes) = &exams.minutes {
        return match read_minutes(minutes.trimmed()) {
            Ok(Some(1)) => "Enter: open the paper; 1 minute runs from then on".to_owned(),
            Ok(Some(minutes)) => {
                format!("Enter: open the paper; {minutes} minutes run from then on")
            }
            Ok(None) => "Enter: open the paper, without a clock".to_owned(),
            Err(words) => format!("Enter: {words}"),
        };
    }
    let named = exams.named().and_then(|line| exams.papers.get(line));
    match named {
        Some(paper) => match &paper.takes {
            Takes::GoOn(_) => "Enter: go on with the paper that was stopped".to_owned(),
            Takes::Marks => "Enter: look at the marks again".to_owned(),
            Takes::Given => "Enter: name the file of the paper".to_owned(),
            Takes::Exam(_) => "Enter: take this paper, and set its clock".to_owned(),
        },
        None => format!(
            "Enter: write a line number first, 1 to {}",
            exams.papers.len()
        ),
    }
}

fn strip(exams: &Exams) -> Vec<crate::keys::Hint> {
    if exams.file.is_some() {
        return vec![
            hint(Key::Enter, "open the paper"),
            hint(Key::Escape, "back: a blank for words, ? ! @ & write"),
        ];
    }
    let (enter, back) = if exams.minutes.is_some() {
        ("open the paper", "back to the list")
    } else {
        ("take the line", "back")
    };
    let mut strip = vec![hint(Key::Enter, enter)];
    if exams.minutes.is_none() {
        strip.push(hint(Key::UpDown, "lines"));
    }
    strip.extend([hint(Key::Ask, "ask"), hint(Key::Escape, back)]);
    strip
}
