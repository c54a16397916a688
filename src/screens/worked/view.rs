//! What a worked sheet shows.

use pumpwright_engine::problems::WorkedLine;

use super::Worked;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sheet::{caution, head, job, number};
use crate::words;

const NUMBER: usize = 3;

/// The page of the sheet in so many columns.
pub fn page(worked: &Worked, width: usize) -> Page {
    let problem = &worked.problem;
    let mut flow = Vec::new();
    // The one who comes from the sheet has just read the job.
    if worked.yours.is_none() {
        flow.extend(job(problem));
        flow.push(Entry::rule());
    }
    for line in &worked.lines {
        flow.extend(one(worked, line, width));
    }
    flow.push(Entry::rule());
    flow.extend(words::on_the_job(problem).map(|text| Entry::text(Role::Note, text)));
    flow.extend(words::varies(problem).map(|text| {
        Entry::text(Role::Note, format!("What varies: {text}"))
    }));
    let mut fixed = head(problem, width, false);
    fixed.extend(caution(problem));
    let next = match worked.yours {
        Some(_) => "Enter: the same job with other numbers",
        None => "Enter: the same job with other numbers, for you",
    };
    Page {
        title: "JOB SHEET, WORKED".into(),
        place: worked.yours.as_ref().map_or(String::new(), |_| "with your figures".into()),
        fixed,
        flow,
        next: next.into(),
        strip: vec![
            hint(Key::Enter, "next numbers"),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn one(worked: &Worked, line: &WorkedLine, width: usize) -> Vec<Entry> {
    let label = if width >= 70 { 19 } else { 15 };
    let place = worked.problem.lines.iter().position(|other| other.id == line.id);
    let number = place.and_then(|place| number(&worked.problem, place));
    let mut entries = Vec::new();
    let mut labels = [number.map(|n| n.to_string()).unwrap_or_default(), line.label.clone()];
    let rows = line.words.iter().chain(&line.numbers);
    for text in rows {
        let [number, label_text] = std::mem::take(&mut labels);
        entries.push(Entry::of(
            Role::Working,
            vec![
                Cell::columns(number, NUMBER),
                Cell::columns(label_text, label),
                Cell::rest(text.as_str()).hang(2),
            ],
        ));
    }
    if line.words.is_empty() && line.numbers.is_empty() {
        let [number, label_text] = labels;
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(label_text, label),
            Cell::rest(line.text.as_str()),
        ];
        entries.push(Entry::of(Role::Working, cells));
    }
    entries.extend(yours(worked, line));
    let reasons = [Some(&line.says), line.why.as_ref()];
    for reason in reasons.into_iter().flatten().filter(|reason| !reason.is_empty()) {
        let cells = vec![Cell::columns("", NUMBER), Cell::rest(reason.as_str())];
        entries.push(Entry::of(Role::Working, cells));
    }
    entries.push(Entry::gap());
    entries
}

fn yours(worked: &Worked, line: &WorkedLine) -> Option<Entry> {
    let marked = worked.yours.as_ref()?.lines.iter().find(|marked| marked.id == line.id)?;
    let written = words::written(marked);
    let text = if written.is_empty() { "not written".into() } else { format!("yours {written}") };
    Some(Entry::of(Role::Working, vec![Cell::rest(text).right()]))
}
