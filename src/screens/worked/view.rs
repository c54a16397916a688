//! What a worked sheet shows.

use pumpwright_engine::problems::{Problem, WorkedLine, help, pressed};

use super::Worked;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sheet::{caution, head, job, number};
use crate::sums::line_of;
use crate::words;
use crate::wrap::cells as wide;

const NUMBER: usize = 3;

/// The page of the sheet in so many columns.
pub fn page(worked: &Worked, width: usize) -> Page {
    let problem = &worked.problem;
    let mut flow = Vec::new();
    // The one who comes from the sheet has just read the job.
    if worked.yours.is_none() {
        flow.extend(job(problem, width));
        flow.push(Entry::rule());
    }
    for line in &worked.lines {
        flow.extend(one(worked, line, width));
    }
    flow.push(Entry::rule());
    flow.extend(sums(worked, width));
    flow.extend(words::on_the_job(problem).map(|text| Entry::text(Role::Note, text)));
    flow.extend(
        words::varies(problem).map(|text| Entry::text(Role::Note, format!("What varies: {text}"))),
    );
    let mut fixed = head(problem, width, false);
    fixed.extend(caution(problem));
    let next = match worked.yours {
        Some(_) => "Enter: the same job with other numbers",
        None => "Enter: the same job with other numbers, for you",
    };
    Page {
        title: "JOB SHEET, WORKED".into(),
        place: worked
            .yours
            .as_ref()
            .map_or(String::new(), |_| "with your figures".into()),
        fixed,
        flow,
        next: next.into(),
        strip: vec![
            hint(Key::Enter, "next numbers"),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask"),
            hint(Key::Tables, "tables"),
            hint(Key::Sums, "sums"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

/// The side sums that were worked out on the back of this sheet.
fn sums(worked: &Worked, width: usize) -> Vec<Entry> {
    let done = &worked.back.done;
    if done.is_empty() {
        return Vec::new();
    }
    let rows = done.iter().enumerate();
    let rows = rows.map(|(at, sum)| line_of(at, sum, width));
    let mut entries = vec![Entry::heading("Your sums, on the back of this sheet")];
    entries.extend(rows);
    entries.push(Entry::rule());
    entries
}

/// The job and every line of a worked sheet, without what stands around them.
pub(crate) fn whole(worked: &Worked, width: usize) -> Vec<Entry> {
    let problem = &worked.problem;
    let mut entries = head(problem, width, true);
    entries.extend(job(problem, width));
    entries.push(Entry::rule());
    entries.extend(steps(worked, width));
    entries
}

/// Every line of a worked sheet.
pub(crate) fn steps(worked: &Worked, width: usize) -> Vec<Entry> {
    let lines = worked.lines.iter();
    lines.flat_map(|line| one(worked, line, width)).collect()
}

fn one(worked: &Worked, line: &WorkedLine, width: usize) -> Vec<Entry> {
    let label = if width >= 70 { 19 } else { 15 };
    let left = width.saturating_sub(NUMBER + label);
    let place = worked
        .problem
        .lines
        .iter()
        .position(|other| other.id == line.id);
    let number = place.and_then(|place| number(&worked.problem, place));
    let number = number.map(|number| number.to_string()).unwrap_or_default();
    let rows = answers(worked, line);
    let mut entries = Vec::new();
    for (index, text) in rows.iter().enumerate() {
        let (number, name) = if index == 0 {
            (number.as_str(), &*line.label)
        } else {
            ("", "")
        };
        let mut cells = vec![Cell::columns(number, NUMBER), Cell::columns(name, label)];
        let yours = yours(worked, line).filter(|_| index + 1 == rows.len());
        match yours {
            Some(yours) if wide(text) + wide(&yours) + 2 <= left => {
                cells.push(Cell::columns(text.as_str(), wide(text) + 1));
                cells.push(Cell::rest(yours).right());
                entries.push(Entry::of(Role::Working, cells));
            }
            yours => {
                cells.push(Cell::rest(text.as_str()).hang(2));
                entries.push(Entry::of(Role::Working, cells));
                entries.extend(
                    yours.map(|yours| Entry::of(Role::Working, vec![Cell::rest(yours).right()])),
                );
            }
        }
    }
    let aloud = line.aloud.iter().map(|aloud| format!("in words: {aloud}"));
    for text in aloud.chain(pressed(line)) {
        let cells = vec![Cell::columns("", NUMBER + label), Cell::rest(text).hang(2)];
        entries.push(Entry::of(Role::Working, cells));
    }
    let reasons = [Some(&line.says), line.why.as_ref()];
    for reason in reasons
        .into_iter()
        .flatten()
        .filter(|reason| !reason.is_empty())
    {
        let cells = vec![Cell::columns("", NUMBER), Cell::rest(reason.as_str())];
        entries.push(Entry::of(Role::Working, cells));
    }
    entries.push(Entry::gap());
    entries
}

/// The formula in words and in numbers; for an arrangement, its jobs or pairs.
fn answers(worked: &Worked, line: &WorkedLine) -> Vec<String> {
    let rows = line.words.iter().chain(&line.numbers);
    let rows: Vec<String> = rows.map(|text| format!("= {text}")).collect();
    if rows.is_empty() {
        arranged(&worked.problem, line)
    } else {
        rows
    }
}

/// What a line without a formula comes to: its jobs in order, its pairs, or its answer.
pub(crate) fn arranged(problem: &Problem, line: &WorkedLine) -> Vec<String> {
    let place = problem.lines.iter().position(|other| other.id == line.id);
    let step = place.and_then(|place| help(problem, place).pop());
    let texts = step.map_or_else(|| vec![line.text.clone()], |step| step.text);
    texts.into_iter().filter(|text| !text.is_empty()).collect()
}

/// What the learner wrote at a line, as it stands now.
fn yours(worked: &Worked, line: &WorkedLine) -> Option<String> {
    let marked = worked
        .yours
        .as_ref()?
        .lines
        .iter()
        .find(|marked| marked.id == line.id)?;
    let written = words::written(marked);
    Some(if written.is_empty() {
        "not written".into()
    } else {
        format!("yours {written}")
    })
}
