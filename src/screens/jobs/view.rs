//! What the front page shows: lessons to read, each with its jobs to work.

use super::{Job, Jobs, Takes, Waiting};
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 6;
const VERB: usize = 7;

/// The page of the list in so many columns.
pub fn page(jobs: &Jobs, width: usize) -> Page {
    let columns = Columns::fitting(width);
    let mut fixed = Vec::new();
    if !jobs.name.is_empty() {
        let cells = vec![Cell::columns("For", NUMBER), Cell::rest(jobs.name.as_str())];
        fixed.push(Entry::of(Role::Head, cells));
    }
    fixed.push(columns.row(["line", "to do", "what it is", "family", "min"], false));
    fixed.push(Entry::rule());
    Page {
        title: "LESSONS AND JOBS".into(),
        place: counted(jobs),
        fixed,
        flow: lines(jobs, &columns),
        foot: foot(jobs),
        next: next(jobs),
        strip: vec![
            hint(Key::Enter, "take the line"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: L lesson, U set-up, Q stop"),
        ],
        ..Page::default()
    }
}

fn counted(jobs: &Jobs) -> String {
    let count = |wanted: fn(&Takes) -> bool| {
        let found = jobs.all.iter().filter(|job| wanted(&job.takes));
        found.count()
    };
    let lessons = count(|takes| matches!(takes, Takes::Lesson(_)));
    let families = count(|takes| matches!(takes, Takes::Family(_)));
    format!(
        "{}, {}",
        words::count(lessons, "lesson", "lessons"),
        words::count(families, "job", "jobs")
    )
}

struct Columns {
    title: usize,
    family: usize,
}

impl Columns {
    fn fitting(width: usize) -> Self {
        // In a narrow window the Next row alone names the family.
        let family = if width >= 70 { 19 } else { 0 };
        Self {
            family,
            title: width.saturating_sub(2 + NUMBER + VERB + family + 4).max(12),
        }
    }

    fn row(&self, texts: [&str; 5], pen: bool) -> Entry {
        let [number, verb, title, family, minutes] = texts;
        let mut cells = vec![Cell::columns(number, NUMBER), Cell::columns(verb, VERB)];
        if family.is_empty() && minutes.is_empty() {
            cells.push(Cell::rest(title).hang(1));
        } else {
            cells.push(Cell::columns(title, self.title).hang(1));
            if self.family > 0 {
                cells.push(Cell::columns(family, self.family));
            }
            cells.push(Cell::rest(minutes).right());
        }
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    }
}

fn lines(jobs: &Jobs, columns: &Columns) -> Vec<Entry> {
    let mut lines = Vec::new();
    for line in jobs.listed() {
        let number = (line + 1).to_string();
        let pen = line == jobs.pen;
        if let Some(waiting) = jobs.waiting.get(line) {
            let mut stopped = stopped(waiting);
            if columns.family == 0 {
                stopped = format!("{}: {stopped}", waiting.family);
            }
            lines.push(columns.row([&number, "go on", &stopped, &waiting.family, ""], pen));
            if line + 1 == jobs.waiting.len() {
                lines.push(Entry::rule());
            }
        } else if let Some(job) = jobs.job(line) {
            lines.push(job_line(job, &number, columns, pen));
        }
    }
    lines
}

/// Where a sheet stopped that waits.
pub fn stopped(waiting: &Waiting) -> String {
    let Waiting { line, lines, .. } = waiting;
    if waiting.handed_in {
        return format!("handed in, line {line} of {lines} to mend");
    }
    format!("stopped half-way, at line {line} of {lines}")
}

fn job_line(job: &Job, number: &str, columns: &Columns, pen: bool) -> Entry {
    let minutes = job
        .minutes
        .map(|minutes| minutes.to_string())
        .unwrap_or_default();
    match &job.takes {
        Takes::Lesson(_) => columns.row([number, "read", &job.title, "", ""], pen),
        Takes::Family(id) => {
            let title = format!("  {}", job.title);
            columns.row([number, "work", &title, id, &minutes], pen)
        }
    }
}

fn foot(jobs: &Jobs) -> Vec<Entry> {
    let mut foot = vec![Entry::rule()];
    if jobs.faults > 0 {
        let files = words::count(jobs.faults, "fault", "faults");
        let text = format!("{files} in lesson files; those files are left out here.");
        foot.push(Entry::text(Role::Note, text));
    }
    if jobs.count() == 0 {
        foot.push(Entry::text(
            Role::Note,
            "No lesson can be read, so there is no job to take.",
        ));
        return foot;
    }
    let cells = vec![
        Cell::columns("Take line", 12),
        Cell::blank(jobs.written.text(), 16, Some(jobs.written.before())),
        Cell::rest("a number or a word"),
    ];
    foot.push(Entry::of(Role::Text, cells));
    foot
}

fn next(jobs: &Jobs) -> String {
    if jobs.count() == 0 {
        return "? then Q: stop here".to_owned();
    }
    let Some(line) = jobs.named() else {
        return match jobs.word() {
            Some(_) => "Esc: list every line again".to_owned(),
            None => format!(
                "Enter: write a line number first, 1 to {}, or a word",
                jobs.count()
            ),
        };
    };
    if let Some(waiting) = jobs.waiting.get(line) {
        return format!(
            "Enter: go on with {}, line {}",
            waiting.family, waiting.line
        );
    }
    match jobs.job(line).map(|job| &job.takes) {
        Some(Takes::Lesson(_)) => {
            let title = jobs.job(line).map_or("", |job| job.title.as_str());
            format!("Enter: read \"{title}\"")
        }
        Some(Takes::Family(id)) => format!("Enter: a sheet of {id}"),
        None => "? then Q: stop here".to_owned(),
    }
}
