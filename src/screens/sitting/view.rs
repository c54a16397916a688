//! What a question of a paper shows: counts, question, blank, what may be used.

use pumpwright_engine::problems::{Asks, Problem};

use super::closing;
use super::state::Sitting;
use crate::keys::{Key, hint};
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::sheet::{self, Sheet, caution, job};

/// The page of the open question in so many columns.
pub fn page(sitting: &Sitting, width: usize) -> Page {
    if let Some(number) = &sitting.closing {
        return closing::page(sitting, number);
    }
    let Some(sheet) = sitting.sheet() else {
        return closing::page(sitting, &crate::blank::Blank::default());
    };
    let problem = &sheet.problem;
    let mut flow = job(problem, width);
    flow.extend(
        problem
            .sheets
            .iter()
            .map(|text| Entry::text(Role::Note, text.as_str())),
    );
    flow.push(Entry::gap());
    flow.extend(lines(sitting, sheet, width));
    flow.push(Entry::rule());
    flow.extend(below(sitting));
    let mut fixed = head(sitting, width);
    fixed.extend(caution(problem));
    Page {
        title: "EXAM PAPER".into(),
        place: sitting.clock.words(),
        fixed,
        flow,
        foot: sheet::tally(sheet)
            .map(|tally| vec![Entry::rule(), Entry::text(Role::Note, tally)])
            .unwrap_or_default(),
        next: next(sitting, sheet),
        strip: vec![
            hint(Key::Enter, "on"),
            hint(Key::UpDown, "questions"),
            hint(Key::Tables, "tables"),
            hint(Key::Sums, "sums"),
            hint(Key::Ask, "ask: A set aside, Z hand in"),
        ],
        ..Page::default()
    }
}

/// Which question, and how the paper stands.
fn head(sitting: &Sitting, width: usize) -> Vec<Entry> {
    let aside = sitting.set_aside();
    let which = match aside.as_slice() {
        [] => "set aside 0".to_owned(),
        [_, _, _, _, _, ..] => format!("set aside {}", aside.len()),
        aside => {
            let numbers: Vec<String> = aside.iter().map(usize::to_string).collect();
            format!("set aside {}: no. {}", aside.len(), numbers.join(", "))
        }
    };
    let question = format!("Question {} of {}", sitting.at + 1, sitting.sheets.len());
    let answered = format!("answered {}", sitting.answered());
    let open = format!("open {}", sitting.unanswered().len());
    let cells = if width >= 70 {
        vec![
            Cell::columns(question, 23),
            Cell::columns(answered, 15),
            Cell::columns(which, width.saturating_sub(23 + 15 + 8)),
            Cell::rest(open).right(),
        ]
    } else {
        vec![
            Cell::columns(question, 21),
            Cell::rest(format!("{answered}, {which}, {open}")),
        ]
    };
    vec![Entry::of(Role::Head, cells), Entry::rule()]
}

/// The line that is asked, under the number of its question.
fn lines(sitting: &Sitting, sheet: &Sheet, width: usize) -> Vec<Entry> {
    let asked = sitting.question().and_then(|question| question.asked());
    let Some((index, line)) = asked else {
        return Vec::new();
    };
    sheet::Columns::fitting(&sheet.problem, width)
        .numbered(sitting.at + 1)
        .line(sheet, index, line)
}

/// What may be used, and what the form of the paper rests on; the code of the paper.
fn below(sitting: &Sitting) -> Vec<Entry> {
    let notes = allowed(sitting).into_iter().enumerate().map(|(at, text)| {
        let drop = if at == 0 { Drop::Never } else { Drop::Counts };
        Entry::text(Role::Note, text).dropping(drop)
    });
    let code = format!("Paper {}", sitting.paper.code);
    let code = Entry::text(Role::Note, code).dropping(Drop::Counts);
    notes.chain(std::iter::once(code)).collect()
}

/// What may be used, and what the form of the paper rests on, in sentences.
pub fn allowed(sitting: &Sitting) -> Vec<String> {
    let exam = &sitting.paper.exam;
    let form = match exam.choices {
        100 => "offers choices for every figure",
        0 => "asks for the figures themselves",
        _ => "offers choices for some of the figures",
    };
    let book = if exam.closed_book {
        "Closed book"
    } else {
        "Open book"
    };
    vec![
        format!("{book}: {}. No help on this paper.", exam.book),
        "You may change every answer until you hand the paper in.".to_owned(),
        format!(
            "No public outline says in which form such questions are asked; this paper {form}."
        ),
    ]
}

fn next(sitting: &Sitting, sheet: &Sheet) -> String {
    let to = match sitting.after() {
        Some(after) => format!("on to question {}", after + 1),
        None => "the last one: see what is open".to_owned(),
    };
    if !sheet.is_begun() {
        return format!("Enter: left open, {to}");
    }
    if !sheet::is_at_its_end(sheet) {
        return "Enter: this blank is done, on to the next empty one".to_owned();
    }
    format!("Enter: answer noted, {to}")
}

/// The offers of a question as they stand on the paper.
pub fn offers(problem: &Problem) -> Vec<Entry> {
    let asked = problem.lines.iter().rev();
    let asked = asked
        .map(|line| &line.asks)
        .find(|asks| **asks != Asks::Nothing);
    match asked {
        Some(Asks::Pick { offers, .. }) => offers.iter().map(sheet::offer).collect(),
        _ => Vec::new(),
    }
}
