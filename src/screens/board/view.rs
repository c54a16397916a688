//! What the board shows: few words, the figure, the lines one by one.

use pumpwright_engine::figures::{Frame, cells, list, scene};
use pumpwright_engine::problems::{Asks, Offer, WorkedLine};

use super::Board;
use crate::keys::{Key, hint};
use crate::layout::LABEL;
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::sheet::{caution, offer};
use crate::words;

/// The columns of a number, and of what a line is called.
const NUMBER: usize = 4;
const NAME: usize = 21;
const NAME_IN_LITTLE_ROOM: usize = 17;

/// The rows of the figure, where it stands over the lines.
const ROWS: usize = 18;

/// The page in so many columns. The figure stands over the lines; where it has room
/// beside them, that page leaves it out here.
pub fn page(board: &Board, width: usize) -> Page {
    let problem = &board.problem;
    let mut fixed = vec![Entry::heading(words::title(problem).to_uppercase())];
    fixed.push(Entry::rule());
    fixed.extend(caution(problem));
    let turns = turn(board);
    let drawn = figure(board, width);
    let mut flow = Vec::new();
    // Whoever looks at a wrong turn needs the job beside it: the figure gives way first, no
    // row stays empty, and lines below the turn wait.
    let lines = board.turn_line().map_or(board.lines.len(), |line| {
        board.shown.max(line + 1).min(board.lines.len())
    });
    if turns.is_empty() {
        flow.extend(job(board));
        flow.extend(drawn.rows);
    } else {
        flow.extend(drawn.rows);
        flow.extend(job(board));
    }
    flow.push(Entry::rule());
    for (at, line) in board.lines.iter().enumerate().take(lines) {
        flow.extend(Some(Entry::gap()).filter(|_| turns.is_empty()));
        let last = at + 1 == board.shown && turns.is_empty();
        flow.extend(one(board, (at, line), width, last));
    }
    flow.extend(turns);
    if board.shown == board.lines.len() {
        let job = words::on_the_job(problem);
        let job = job.map(|text| [Entry::gap(), Entry::text(Role::Note, text)]);
        flow.extend(job.into_iter().flatten());
    }
    Page {
        title: "BOARD".into(),
        place: board.so_far(),
        fixed,
        flow,
        said: drawn.said,
        next: board.next(),
        strip: strip(board),
        ..Page::default()
    }
}

fn strip(board: &Board) -> Vec<crate::keys::Hint> {
    let ask = if board.problem.mistakes.is_empty() {
        "ask: N next numbers"
    } else {
        "ask: V a known turn, N next numbers"
    };
    vec![
        hint(Key::Enter, "next line"),
        hint(Key::UpDown, "back, on"),
        hint(Key::Ask, ask),
        hint(Key::Pages, "scroll"),
        hint(Key::Escape, "back"),
    ]
}

/// The job in words, and what its figures are.
fn job(board: &Board) -> Vec<Entry> {
    let problem = &board.problem;
    let story = problem.story.iter();
    let mut job: Vec<Entry> = story
        .map(|text| Entry::text(Role::Text, text.as_str()))
        .collect();
    let rules = problem.rules.iter();
    job.extend(rules.map(|rule| Entry::text(Role::Text, words::rule(rule))));
    if problem.training {
        job.push(Entry::text(Role::Text, words::TRAINING).dropping(Drop::Counts));
    }
    job
}

/// The figure as rows, and as a list to hear.
#[derive(Default)]
struct Drawn {
    rows: Vec<Entry>,
    said: Vec<String>,
}

fn figure(board: &Board, width: usize) -> Drawn {
    let frame = Frame {
        columns: width,
        rows: ROWS,
    };
    let Some(scene) = scene(&board.problem, &board.view(), frame) else {
        return Drawn::default();
    };
    let rows = cells(&scene, board.signs).rows();
    let rows = rows.into_iter();
    let mut rows: Vec<Entry> = rows
        .map(|row| Entry::of(Role::Drawing, vec![Cell::rest(row).kept()]))
        .collect();
    rows.insert(0, Entry::gap());
    let left_out = scene.left_out.iter();
    rows.extend(left_out.map(|text| Entry::text(Role::Drawing, text.as_str())));
    Drawn {
        rows,
        said: list(&scene),
    }
}

/// A line of the working: its name, and where it is shown what it comes to.
fn one(board: &Board, (at, line): (usize, &WorkedLine), width: usize, last: bool) -> Vec<Entry> {
    let shown = at < board.shown;
    let number = board.number(line);
    let number = number.map(|number| number.to_string()).unwrap_or_default();
    let name_wide = if width >= 70 {
        NAME
    } else {
        NAME_IN_LITTLE_ROOM
    };
    let mut entries = Vec::new();
    if !shown && line.id.is_empty() {
        // What it says is all there is of it.
        let cells = vec![Cell::columns(number, NUMBER), Cell::rest("")];
        return vec![Entry::of(Role::Working, cells)];
    }
    if line.id.is_empty() {
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::rest(line.says.as_str()),
        ];
        return vec![Entry::of(Role::Working, cells).focused(last)];
    }
    let mut rows = if shown {
        board.comes_to(line)
    } else {
        Vec::new()
    };
    if rows.is_empty() {
        rows.push(String::new());
    }
    for (row, text) in rows.iter().enumerate() {
        let (number, name) = match row {
            0 => (number.as_str(), line.label.as_str()),
            _ => ("", ""),
        };
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(name, name_wide),
            Cell::rest(text.as_str()).hang(2),
        ];
        entries.push(Entry::of(Role::Working, cells).focused(last));
    }
    if !shown {
        entries.extend(offers(board, line));
    }
    entries
}

/// What can be chosen, put in order or matched at a line that is not shown yet.
fn offers(board: &Board, line: &WorkedLine) -> Vec<Entry> {
    let asked = board.problem.lines.iter().find(|other| other.id == line.id);
    let Some(asked) = asked else {
        return Vec::new();
    };
    let numbered = |at: usize, text: &str| {
        let cells = vec![
            Cell::columns("", NUMBER + 1),
            Cell::columns((at + 1).to_string(), NUMBER),
            Cell::rest(text),
        ];
        Entry::of(Role::Offer, cells)
    };
    let lettered = |offers: &[Offer]| offers.iter().map(offer).collect::<Vec<_>>();
    match &asked.asks {
        Asks::Nothing | Asks::Figure | Asks::Row => Vec::new(),
        Asks::Pick { offers, .. } => lettered(offers),
        Asks::Order { cards } => {
            let cards = cards.iter().enumerate();
            cards.map(|(at, card)| numbered(at, &card.text)).collect()
        }
        Asks::Match { parts, meanings } => {
            let rows = parts.iter().enumerate();
            let mut rows: Vec<Entry> = rows.map(|(at, (part, _))| numbered(at, part)).collect();
            rows.extend(lettered(meanings));
            rows
        }
    }
}

/// The known turn that is shown.
fn turn(board: &Board) -> Vec<Entry> {
    let Some((line, told)) = board.told_turn() else {
        return Vec::new();
    };
    let mut entries = vec![Entry::rule()];
    for (at, text) in told.into_iter().enumerate() {
        let label = if at == 0 { line.as_str() } else { "" };
        let cells = vec![Cell::columns(label, LABEL).bold(), Cell::rest(text)];
        entries.push(Entry::of(Role::Turn, cells).focused(true));
    }
    entries
}
