//! What a marked paper shows: marks against both limits, areas, where to begin.

use pumpwright_engine::papers::{MarkedPaper, Tally};
use pumpwright_engine::statistics::Interval;

use super::state::PaperResult;
use crate::keeping::ask;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sitting::duration;
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 5;
const RIGHT: usize = 14;
const BETWEEN: usize = 15;

/// The page in so many columns.
pub fn page(result: &PaperResult, width: usize) -> Page {
    if !result.is_written_down() {
        return on_its_way(result);
    }
    let marked = &result.marked;
    let mut flow = vec![row(
        ["line", "area", "right", "likely between"],
        width,
        false,
    )];
    for (at, area) in marked.areas.iter().enumerate() {
        let texts = [
            (at + 1).to_string(),
            area.area.clone(),
            right_of(area.tally),
            between(area.tally.between()),
        ];
        let texts = texts.each_ref().map(String::as_str);
        flow.push(row(texts, width, at == result.picked.pen));
    }
    flow.push(Entry::rule());
    flow.extend(below(result));
    let mut fixed = head(result, width);
    fixed.push(Entry::rule());
    Page {
        title: "EXAM PAPER, MARKED".into(),
        place: if marked.passed {
            "PASSED"
        } else {
            "NOT PASSED"
        }
        .into(),
        fixed,
        flow,
        foot: foot(result),
        next: next(result),
        strip: vec![
            hint(Key::Enter, "take line"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: W all worked, T front page"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

/// The shares against both limits.
pub fn limits(result: &PaperResult) -> [String; 2] {
    let exam = &result.sitting.paper.exam;
    [
        limit("Right", result.marked.whole, exam.pass),
        limit("Safety", result.marked.safety, exam.safety.pass),
    ]
}

/// What was right of an area, and how sure that is.
pub fn tally_words(tally: Tally) -> String {
    let between = between(tally.between());
    format!("{}, likely between {between}", right_of(tally))
}

fn head(result: &PaperResult, width: usize) -> Vec<Entry> {
    let exam = &result.sitting.paper.exam;
    let [whole, safety] = limits(result);
    let line = |cells| Entry::of(Role::Head, cells);
    let mut head = if width >= 70 {
        let half = width / 2 + 1;
        vec![line(vec![Cell::columns(whole, half), Cell::rest(safety)])]
    } else {
        vec![
            line(vec![Cell::rest(whole)]),
            line(vec![Cell::rest(safety)]),
        ]
    };
    let sentences = summary(&result.marked, exam.pass, exam.safety.pass);
    head.extend(
        sentences
            .into_iter()
            .map(|text| line(vec![Cell::rest(text)])),
    );
    head
}

/// `Right 55 of 75: 73 %, pass 70 %`.
fn limit(what: &str, tally: Tally, pass: u32) -> String {
    if tally.of == 0 {
        return format!("{what}: none asked");
    }
    format!(
        "{what} {}: {}, pass {pass} %",
        right_of(tally),
        per_cent(tally.share())
    )
}

/// What came of it in sentences: what was missing, and how sure the share is.
pub fn summary(marked: &MarkedPaper, pass: u32, safety: u32) -> Vec<String> {
    let mut sentences = Vec::new();
    let missed = |tally: Tally, pass: u32| {
        (!tally.reaches(pass))
            .then(|| format!("{}, {} were needed", right_of(tally), tally.needed(pass)))
    };
    let whole = missed(marked.whole, pass);
    let safe = missed(marked.safety, safety).map(|words| format!("in safety {words}"));
    let missed: Vec<String> = whole.into_iter().chain(safe).collect();
    if !missed.is_empty() {
        sentences.push(format!("NOT PASSED: {}.", missed.join("; ")));
    }
    sentences.push(format!(
        "Another paper of this kind would likely fall between {}.",
        between(marked.whole.between())
    ));
    sentences
}

fn right_of(tally: Tally) -> String {
    format!("{} of {}", tally.right, tally.of)
}

fn per_cent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

fn between(interval: Interval) -> String {
    let [low, high] = [interval.low, interval.high].map(|end| end * 100.0);
    format!("{low:.0} and {high:.0} %")
}

fn row(texts: [&str; 4], width: usize, pen: bool) -> Entry {
    let [number, area, right, between] = texts;
    let area_wide = width.saturating_sub(2 + NUMBER + RIGHT + BETWEEN);
    let cells = vec![
        Cell::columns(number, NUMBER),
        Cell::columns(area, area_wide).hang(1),
        Cell::columns(right, RIGHT),
        Cell::rest(between),
    ];
    Entry::of(Role::Line, cells)
        .signed(pen.then_some(Sign::Pen))
        .focused(pen)
}

/// How long it took, where it is kept, where to begin.
fn below(result: &PaperResult) -> Vec<Entry> {
    let note = |text: String| Entry::text(Role::Note, text);
    let mut below = vec![note(time_words(result))];
    below.push(note(format!("Paper {}", result.sitting.paper.code)));
    below.push(Entry::gap());
    below.push(note(begin(&result.marked)));
    below
}

/// How long it took, and where it is kept.
pub fn time_words(result: &PaperResult) -> String {
    let clock = &result.sitting.clock;
    let time = match clock.minutes {
        Some(minutes) => format!(
            "Time {} of {}.",
            duration(clock.taken()),
            duration(minutes.into())
        ),
        None => format!("Time {}, without a clock.", duration(clock.taken())),
    };
    let kept = match (result.kept, result.handed_in.as_str()) {
        (true, "") => "In the logbook.".to_owned(),
        (true, since) => format!("In the logbook since {since}."),
        (false, _) => words::NOT_KEPT.to_owned(),
    };
    format!("{time} {kept}")
}

/// Where to begin.
pub fn begin(marked: &MarkedPaper) -> String {
    match marked
        .weakest()
        .and_then(|at| Some((at, marked.areas.get(at)?)))
    {
        Some((at, area)) => {
            let lost = f64::from(area.tally.of) - area.tally.right.number();
            format!(
                "Start with line {}: {lost} of its {} went wrong. No area lost more.",
                at + 1,
                area.tally.of
            )
        }
        None => "Everything is right.".to_owned(),
    }
}

fn foot(result: &PaperResult) -> Vec<Entry> {
    let cells = vec![
        Cell::columns("Take line", 12),
        Cell::blank(
            result.picked.number.text(),
            6,
            Some(result.picked.number.before()),
        ),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(result: &PaperResult) -> String {
    let Some(area) = result.named() else {
        let last = result.marked.areas.len();
        return format!("Enter: write a line number first, 1 to {last}");
    };
    let (questions, all_right) = result.to_go_through(area);
    let count = words::count(questions.len(), "question", "questions");
    let right = if all_right { ", all right" } else { "" };
    format!("Enter: go through the {count} of line {}{right}", area + 1)
}

/// While it is being written down, and where it cannot be.
fn on_its_way(result: &PaperResult) -> Page {
    ask::page(&ask::OnItsWay {
        what: "paper",
        head: ("Paper", &result.sitting.paper.exam.title),
        title: "EXAM PAPER, HANDED IN",
        comes: "The marks come when every question is on the disk.",
        stands: "This paper is not whole in the logbook.",
        trouble: result.trouble.as_deref(),
        choice: &result.picked.number,
    })
}
