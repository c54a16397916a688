//! What a job sheet shows: head, caution, job, lines.

use pumpwright_engine::problems::{Asks, Problem};

use super::Sheet;
use super::checking;
use super::figure::figure;
use super::lines::{Columns, tally};
use super::state::{asked, number};
use super::update::next_words;
use crate::keys::{Key, hint};
use crate::layout::LABEL;
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;
use crate::wrap::cells;

/// The page of the sheet in so many columns.
pub fn page(sheet: &Sheet, width: usize) -> Page {
    let problem = &sheet.problem;
    let mut flow = job(problem, width);
    flow.push(Entry::rule());
    flow.extend(lines(sheet, width));
    let look = checking::look(sheet);
    if sheet.mending.is_none() && look.is_empty() {
        flow.extend(asides(problem));
    }
    flow.extend(look);
    let mut fixed = head(problem, width, true);
    fixed.extend(caution(problem));
    Page {
        title: title(sheet),
        place: place(sheet).into(),
        fixed,
        flow,
        foot: tally(sheet)
            .map(|tally| vec![Entry::rule(), Entry::text(Role::Note, tally)])
            .unwrap_or_default(),
        next: next_words(sheet),
        strip: vec![
            hint(Key::Enter, "line done"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask"),
            hint(Key::Show, "show me"),
            hint(Key::Tables, "tables"),
            hint(Key::Sums, "sums"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

const fn place(sheet: &Sheet) -> &'static str {
    match (sheet.mending.is_some(), sheet.line_by_line) {
        (true, _) => "the marks stay",
        (false, true) => "checked line by line",
        (false, false) => "",
    }
}

fn title(sheet: &Sheet) -> String {
    let once_more = sheet.mending.as_ref().and(sheet.line());
    let line = once_more.and_then(|line| number(&sheet.problem, line));
    line.map_or_else(
        || "JOB SHEET".to_owned(),
        |line| format!("JOB SHEET, LINE {line} ONCE MORE"),
    )
}

/// The head of a sheet: as on a work order. What is read off it and typed again,
/// family and code, is not broken while there is room for it.
pub(crate) fn head(problem: &Problem, width: usize, second: bool) -> Vec<Entry> {
    let left = (width * 43 / 76).saturating_sub(NAME);
    let family = words::family(problem);
    // The labels at the right stand under each other where both rows have room.
    let beside = |wide: usize| width.saturating_sub(NAME + NAME + wide);
    let title = match beside(cells(&family)) {
        room if room > left => left,
        room => room.max(LEAST_TITLE).min(left),
    };
    let label = if title + cells(&family) + NAME + 8 > width {
        NAME
    } else {
        8
    };
    let first = vec![
        Cell::columns("Job", NAME),
        Cell::columns(words::title(problem), title),
        Cell::columns("Family", label),
        Cell::rest(family),
    ];
    let mut head = vec![Entry::of(Role::Head, first)];
    if second {
        head.extend(code(problem, width, title.max(left), label));
    }
    head.push(Entry::rule());
    head
}

/// The room for a name in the head.
const NAME: usize = 7;
/// A title has at least so much room beside the family.
const LEAST_TITLE: usize = 24;

/// The second row of the head: the code, and what it settles.
fn code(problem: &Problem, width: usize, left: usize, label: usize) -> Vec<Entry> {
    let code = problem.code.to_string();
    let settled = |label: usize, units: usize| {
        vec![
            Cell::columns("Units", label),
            Cell::columns(words::units(problem), units),
            Cell::columns("Marks", NAME),
            Cell::rest(problem.marks().to_string()),
        ]
    };
    let head =
        |code: String, wide: usize| vec![Cell::columns("Code", NAME), Cell::columns(code, wide)];
    let long = cells(&code) + 1;
    let rows = if long <= left {
        vec![[head(code, left), settled(label, 8)].concat()]
    } else if NAME + long + SETTLED <= width {
        vec![[head(code, long), settled(NAME, 4)].concat()]
    } else {
        let under = [vec![Cell::columns("", NAME)], settled(NAME, 8)].concat();
        vec![head(code, width.saturating_sub(NAME)), under]
    };
    let rows = rows.into_iter();
    rows.map(|cells| Entry::of(Role::Head, cells).dropping(Drop::SecondHead))
        .collect()
}

/// The least room for units and marks beside a code.
const SETTLED: usize = NAME + 4 + NAME + 2;

/// The caution, framed by rule lines of its own.
pub(crate) fn caution(problem: &Problem) -> Vec<Entry> {
    let Some(text) = words::caution(problem) else {
        return Vec::new();
    };
    let cells = vec![Cell::columns("CAUTION", LABEL), Cell::rest(text)];
    let rule = || Entry::rule().signed(Some(Sign::Caution));
    vec![
        Entry::of(Role::Caution, cells).signed(Some(Sign::Caution)),
        rule(),
    ]
}

/// The job in words, its figure, the house rules and what the figures are.
pub(crate) fn job(problem: &Problem, width: usize) -> Vec<Entry> {
    let story = problem
        .story
        .iter()
        .map(|text| Entry::text(Role::Text, text.as_str()));
    let mut job: Vec<Entry> = story.collect();
    job.extend(figure(problem, width));
    job.extend(
        problem
            .rules
            .iter()
            .map(|rule| Entry::text(Role::Text, words::rule(rule))),
    );
    if problem.training {
        job.push(Entry::text(Role::Text, words::TRAINING).dropping(Drop::Counts));
    }
    job
}

fn lines(sheet: &Sheet, width: usize) -> Vec<Entry> {
    let columns = Columns::fitting(&sheet.problem, width);
    let mut entries = Vec::new();
    let figures = |asks: &Asks| matches!(asks, Asks::Figure | Asks::Row);
    if sheet.problem.lines.iter().any(|line| figures(&line.asks)) {
        entries.push(columns.heading());
    }
    for (index, line) in sheet.problem.lines.iter().enumerate() {
        entries.extend(columns.line(sheet, index, line));
    }
    entries
}

fn asides(problem: &Problem) -> Vec<Entry> {
    let mut asides = Vec::new();
    let mut aside = |text: String| {
        let cells = vec![Cell::columns("", 2), Cell::rest(text)];
        asides.push(Entry::gap());
        asides.push(Entry::of(Role::Note, cells).dropping(Drop::Counts));
    };
    let last = problem.lines.last().map(|line| &line.asks);
    let count = asked(problem);
    if count > 1 && matches!(last, Some(Asks::Figure | Asks::Row | Asks::Pick { .. })) {
        let before = count - 1;
        let lines = match before {
            1 => "Line 1".into(),
            2 => "Lines 1 and 2".into(),
            _ => format!("Lines 1 to {before}"),
        };
        aside(format!(
            "{lines} may stay empty: line {count} alone can be handed in."
        ));
    }
    if let Some(varies) = words::varies(problem).filter(|_| count == 1) {
        aside(varies);
    }
    asides
}
