//! What a handed-in sheet shows: signs, verdicts, the line to look at, the marks.

use pumpwright_engine::marking::{MarkedLine, Turn};

use super::HandedIn;
use super::update::last_letter;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sheet::{head, number};
use crate::theme::Sign;
use crate::words;

const LABEL: usize = 9;

/// The page of the sheet in so many columns.
pub fn page(sheet: &HandedIn, width: usize) -> Page {
    let mut flow = verdicts(sheet, width);
    flow.push(Entry::rule());
    flow.extend(looked_at(sheet));
    flow.push(Entry::gap());
    flow.extend(explained(sheet));
    flow.extend(on_the_job(sheet));
    let marked = &sheet.marked;
    Page {
        title: "JOB SHEET, HANDED IN".into(),
        place: format!("{} of {}", marked.score, words::marks(marked.out_of)),
        fixed: head(sheet.problem(), width, false),
        flow,
        next: next(sheet),
        strip: vec![
            hint(Key::Enter, enter_words(sheet)),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: W working, N next numbers"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn verdicts(sheet: &HandedIn, width: usize) -> Vec<Entry> {
    let (label, wrote) = if width >= 70 { (22, 15) } else { (14, 11) };
    let verdict = width.saturating_sub(5 + label + wrote + 6);
    let columns = |cells: [String; 5]| {
        let [number, name, written, words, marks] = cells;
        vec![
            Cell::columns(number, 3),
            Cell::columns(name, label),
            Cell::columns(written, wrote),
            Cell::columns(words, verdict),
            Cell::rest(marks).right(),
        ]
    };
    let mut head = vec![Cell::columns("line", 3 + label)];
    let heads = ["", "", "you wrote", "verdict", "marks"].map(str::to_owned);
    head.extend(columns(heads).into_iter().skip(2));
    let mut rows = vec![Entry::of(Role::Verdict, head)];
    for line in &sheet.marked.lines {
        let text = label_of(sheet, line);
        let cells = columns([
            line.number.to_string(),
            text,
            words::written(line).to_owned(),
            words::verdict(line, sheet.helped(line)),
            line.marks.to_string(),
        ]);
        rows.push(Entry::of(Role::Verdict, cells).signed(Some(words::sign(&line.verdict))));
        if let Some(mended) = sheet.mended.iter().find(|mended| mended.id == line.id) {
            let (mended, helped) = (&mended.line, mended.helped);
            let cells = columns([
                String::new(),
                "once more".into(),
                words::written(mended).to_owned(),
                words::verdict(mended, helped),
                String::new(),
            ]);
            rows.push(Entry::of(Role::Verdict, cells).signed(Some(words::sign(&mended.verdict))));
        }
    }
    rows
}

fn label_of(sheet: &HandedIn, marked: &MarkedLine) -> String {
    let line = sheet
        .problem()
        .lines
        .iter()
        .find(|line| line.id == marked.id);
    line.map(|line| line.label.clone()).unwrap_or_default()
}

fn labelled(role: Role, label: &str, text: impl Into<String>) -> Entry {
    let cells = vec![Cell::columns(label, LABEL).bold(), Cell::rest(text)];
    Entry::of(role, cells)
}

fn looked_at(sheet: &HandedIn) -> Vec<Entry> {
    let Some(line) = sheet.line() else {
        return Vec::new();
    };
    let label = format!("LINE {}", line.number);
    let mut entries = Vec::new();
    if sheet.asked_turns().is_empty() {
        for turn in sheet.shown_turns() {
            entries.extend(one_turn(turn));
        }
    } else {
        entries.extend(asked(sheet));
    }
    if let Some(note) = &line.note {
        entries.push(labelled(Role::Turn, "", note.as_str()));
    }
    if entries.is_empty() {
        entries.push(labelled(Role::Turn, "", alone(sheet, line)));
    }
    if let Some(cell) = entries
        .first_mut()
        .and_then(|entry| entry.cells.first_mut())
    {
        cell.text = label;
    }
    entries
}

/// What is said of a line of which nothing else is known.
fn alone(sheet: &HandedIn, line: &MarkedLine) -> String {
    if let Some(from) = sheet.follows_first_writing() {
        return format!("This figure still comes from your first line {from}. Work it once more.");
    }
    if line.verdict.asks_for_a_look() {
        let says = words::principle(sheet.problem(), &line.id).unwrap_or_default();
        return format!("{} {says}", words::sentence(&line.words))
            .trim_end()
            .to_owned();
    }
    words::sentence(&line.words)
}

fn one_turn(turn: &Turn) -> Vec<Entry> {
    let mut entries = vec![
        labelled(
            Role::Turn,
            "",
            format!("Likely turn:  {}", words::turn(turn)),
        ),
        labelled(Role::Turn, "", turn.says.as_str()),
    ];
    entries.extend(words::look(turn).map(|look| labelled(Role::Turn, "", look)));
    entries
}

fn asked(sheet: &HandedIn) -> Vec<Entry> {
    let turns = sheet.asked_turns();
    let many = match turns.len() {
        2 => "Two".to_owned(),
        3 => "Three".to_owned(),
        more => more.to_string(),
    };
    let mut entries = vec![labelled(
        Role::Turn,
        "",
        format!("{many} turns give this figure. Which was it?"),
    )];
    let letters = 'a'..;
    for (letter, turn) in letters.zip(turns) {
        entries.push(labelled(
            Role::Offer,
            "",
            format!("{letter}  {}", words::turn(turn)),
        ));
    }
    let last = last_letter(turns.len());
    entries.push(labelled(Role::Offer, "", format!("{last}  something else")));
    let cells = vec![
        Cell::columns("turn", LABEL - 2),
        Cell::blank(sheet.choice.text(), 5, Some(sheet.choice.before())),
        Cell::rest("write one letter"),
    ];
    entries.push(
        Entry::of(Role::Line, cells)
            .signed(Some(Sign::Pen))
            .focused(true),
    );
    entries
}

fn explained(sheet: &HandedIn) -> Vec<Entry> {
    let text = sheet.marked.explained.join(" ");
    let stay = if sheet.mended.is_empty() {
        ""
    } else {
        " What was mended changes no mark."
    };
    if text.is_empty() && stay.is_empty() {
        return Vec::new();
    }
    vec![labelled(
        Role::Marks,
        "MARKS",
        format!("{text}{stay}").trim(),
    )]
}

/// What the figure is good for: said when it is found.
fn on_the_job(sheet: &HandedIn) -> Vec<Entry> {
    let found = sheet.now_marked.first_to_mend().is_none();
    let text = words::on_the_job(sheet.problem()).filter(|_| found);
    text.map(|text| vec![Entry::gap(), labelled(Role::Note, "ON A JOB", text)])
        .unwrap_or_default()
}

fn next(sheet: &HandedIn) -> String {
    let turns = sheet.asked_turns().len();
    if turns > 0 {
        let letters: Vec<String> = ('a'..).take(turns).map(String::from).collect();
        return format!(
            "Enter: write {} or {}",
            letters.join(", "),
            last_letter(turns)
        );
    }
    let line = sheet
        .to_mend()
        .and_then(|line| number(sheet.problem(), line));
    line.map_or_else(
        || "Enter: the same job with other numbers".to_owned(),
        |line| format!("Enter: write line {line} again (the marks above stay as they are)"),
    )
}

fn enter_words(sheet: &HandedIn) -> String {
    if !sheet.asked_turns().is_empty() {
        return "letter done".to_owned();
    }
    let line = sheet
        .to_mend()
        .and_then(|line| number(sheet.problem(), line));
    line.map_or_else(
        || "next numbers".to_owned(),
        |line| format!("mend line {line}"),
    )
}
