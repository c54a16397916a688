//! What the front page shows.

use super::{Job, Jobs, Waiting};
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 5;

/// The page of the list in so many columns.
pub fn page(jobs: &Jobs, width: usize) -> Page {
    let columns = Columns::fitting(width);
    Page {
        title: "JOBS".into(),
        place: words::count(jobs.all.len(), "job", "jobs"),
        fixed: vec![
            columns.row(["line", "job", "what it is", "min"], false),
            Entry::rule(),
        ],
        flow: lines(jobs, &columns),
        foot: foot(jobs),
        next: next(jobs),
        strip: vec![
            hint(Key::Enter, "take the line"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask"),
        ],
        ..Page::default()
    }
}

struct Columns {
    family: usize,
    title: usize,
}

impl Columns {
    fn fitting(width: usize) -> Self {
        let family = if width >= 70 { 24 } else { 20 };
        Self {
            family,
            title: width.saturating_sub(2 + NUMBER + family + 5).max(8),
        }
    }

    fn row(&self, texts: [&str; 4], pen: bool) -> Entry {
        let [number, family, title, minutes] = texts;
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(family, self.family),
            Cell::columns(title, self.title),
            Cell::rest(minutes).right(),
        ];
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    }
}

fn lines(jobs: &Jobs, columns: &Columns) -> Vec<Entry> {
    let mut lines = Vec::new();
    for (index, waiting) in jobs.waiting.iter().enumerate() {
        let number = (index + 1).to_string();
        let stopped = stopped(waiting);
        let texts = [number.as_str(), &waiting.family, &stopped, ""];
        lines.push(columns.row(texts, index == jobs.pen));
    }
    if !jobs.waiting.is_empty() {
        lines.push(Entry::rule());
    }
    let mut lesson = "";
    for (index, job) in jobs.all.iter().enumerate() {
        if job.lesson != lesson {
            lesson = &job.lesson;
            lines.push(Entry::heading(lesson));
        }
        let index = index + jobs.waiting.len();
        lines.push(job_line(job, index, columns, index == jobs.pen));
    }
    lines
}

fn stopped(waiting: &Waiting) -> String {
    let Waiting { line, lines, .. } = waiting;
    if waiting.handed_in {
        return format!("handed in, line {line} of {lines} to mend");
    }
    format!("stopped half-way, at line {line} of {lines}")
}

fn job_line(job: &Job, index: usize, columns: &Columns, pen: bool) -> Entry {
    let number = (index + 1).to_string();
    let minutes = job
        .minutes
        .map(|minutes| minutes.to_string())
        .unwrap_or_default();
    columns.row([&number, &job.family, &job.title, &minutes], pen)
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
        Cell::blank(jobs.number.text(), 5, Some(jobs.number.before())),
    ];
    foot.push(Entry::of(Role::Text, cells));
    foot
}

fn next(jobs: &Jobs) -> String {
    if jobs.count() == 0 {
        return "? then Q: stop here".to_owned();
    }
    let Some(line) = jobs.named() else {
        return format!("Enter: write a line number first, 1 to {}", jobs.count());
    };
    match (
        jobs.waiting.get(line),
        jobs.all.get(line.wrapping_sub(jobs.waiting.len())),
    ) {
        (Some(waiting), _) => format!(
            "Enter: go on with {}, line {}",
            waiting.family, waiting.line
        ),
        (None, Some(job)) => format!("Enter: a sheet of {}", job.family),
        (None, None) => "? then Q: stop here".to_owned(),
    }
}
