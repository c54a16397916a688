//! The lines of a sheet: where label, blank, unit and form stand.

use pumpwright_engine::problems::{Asks, Line, Offer, Problem};

use super::checking;
use super::state::{Sheet, Slot, number};
use crate::page::{Cell, Drop, Entry, Role};
use crate::theme::Sign;
use crate::words;
use crate::wrap::cells;

/// The columns of the lines of one sheet.
pub struct Columns {
    label: usize,
    blank: usize,
    unit: usize,
    /// Whether the form of the answer has room beside the blank.
    form: bool,
    /// The number by which the line goes, where it is another than on the sheet.
    number: Option<usize>,
}

const NUMBER: usize = 3;

impl Columns {
    /// Columns that fit this sheet in this width.
    pub fn fitting(problem: &Problem, width: usize) -> Self {
        let units = problem
            .lines
            .iter()
            .map(|line| cells(&words::unit(problem, line)) + 1);
        let unit = units.max().unwrap_or(0).clamp(8, 14);
        if width >= 70 {
            // Labels give room, as far as they have any, before a form is broken.
            let lines = || problem.lines.iter();
            let widest = |found: Option<usize>| found.unwrap_or(0);
            let form = widest(lines().map(|line| cells(&words::form(problem, line))).max());
            let label = widest(lines().map(|line| cells(&line.label) + 1).max());
            let room = width.saturating_sub(2 + NUMBER + 14 + unit + form);
            return Self {
                label: room.max(label).min(29),
                blank: 14,
                unit,
                form: true,
                number: None,
            };
        }
        let label = width.saturating_sub(2 + NUMBER + 14 + unit).max(12);
        Self {
            label,
            blank: 14,
            unit,
            form: false,
            number: None,
        }
    }

    /// The same where a line goes by this number: that of a question on a paper.
    #[must_use]
    pub const fn numbered(mut self, number: usize) -> Self {
        self.number = Some(number);
        self
    }

    /// The heads of the columns.
    pub fn heading(&self) -> Entry {
        let cells = vec![
            Cell::columns("line", NUMBER + self.label),
            Cell::rest("write here"),
        ];
        Entry::of(Role::Line, cells).dropping(Drop::First)
    }

    /// The rows of one line.
    pub fn line(&self, sheet: &Sheet, index: usize, line: &Line) -> Vec<Entry> {
        match &line.asks {
            Asks::Nothing => Vec::new(),
            Asks::Figure | Asks::Row => self.single(sheet, index, line),
            Asks::Pick { offers, .. } => {
                let mut rows: Vec<Entry> = offers.iter().map(offer).collect();
                rows.push(Entry::gap());
                rows.extend(self.single(sheet, index, line));
                rows
            }
            Asks::Order { .. } => order(sheet, index, line),
            Asks::Match { .. } => matching(sheet, index, line),
        }
    }

    fn single(&self, sheet: &Sheet, index: usize, line: &Line) -> Vec<Entry> {
        let own = || number(&sheet.problem, index).unwrap_or(1);
        let number = self.number.unwrap_or_else(own).to_string();
        let mut cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(line.label.as_str(), self.label).hang(1),
        ];
        let found = sheet
            .slots
            .iter()
            .enumerate()
            .find(|(_, slot)| slot.line == index);
        let Some((place, slot)) = found else {
            cells.push(Cell::rest(written_before(sheet, line)));
            return vec![Entry::of(Role::Line, cells)];
        };
        let pen = place == sheet.pen;
        let kept = slot
            .kept
            .as_ref()
            .filter(|kept| !pen && kept.contains(" = "));
        let mut below = None;
        let verdict = checking::verdict(sheet, index);
        let sign = verdict
            .as_ref()
            .map(|(marked, _)| words::sign(&marked.verdict));
        let form = verdict.map(|(_, words)| words);
        let form = form.or_else(|| checking::was(sheet, index));
        let given = sheet.given.get(index) == Some(&true);
        let form = form.or_else(|| given.then(|| "given".to_owned()));
        let form = form.unwrap_or_else(|| words::form(&sheet.problem, line));
        if let (Some(kept), Asks::Figure) = (kept, &line.asks) {
            let kept = match sign {
                Some(_) => format!("{kept}, {form}"),
                None => kept.clone(),
            };
            cells.push(Cell::rest(kept));
        } else {
            cells.push(blank(slot, self.blank, pen));
            cells.push(Cell::columns(words::unit(&sheet.problem, line), self.unit));
            if self.form {
                cells.push(Cell::rest(form));
            } else if sign.is_some() && !pen {
                // The sign and its word stand in one row: in a narrow window the
                // verdict takes the place of the unit, which the first row shows.
                cells.pop();
                cells.push(Cell::rest(form));
            } else if pen && !form.is_empty() {
                let indent = Cell::columns("", NUMBER + self.label);
                below = Some(Entry::of(Role::Line, vec![indent, Cell::rest(form)]));
            }
        }
        let row = penned(Entry::of(Role::Line, cells), pen);
        let row = if pen { row } else { row.signed(sign) };
        std::iter::once(row).chain(below).collect()
    }
}

fn written_before(sheet: &Sheet, line: &Line) -> String {
    let answers = sheet.mending.iter().flat_map(|written| &written.answers);
    let typed = answers
        .filter(|(id, _)| *id == line.id)
        .map(|(_, typed)| typed.clone())
        .next();
    typed.map_or_else(
        || "not written".into(),
        |typed| format!("{typed}, as handed in"),
    )
}

fn blank(slot: &Slot, columns: usize, pen: bool) -> Cell {
    let cursor = pen.then(|| slot.blank.before());
    Cell::blank(slot.blank.text(), columns, cursor)
}

fn penned(entry: Entry, pen: bool) -> Entry {
    entry.signed(pen.then_some(Sign::Pen)).focused(pen)
}

/// An offer with its letter.
pub fn offer(offer: &Offer) -> Entry {
    let cells = vec![
        Cell::columns("", 5),
        Cell::columns(offer.mark.as_str(), 4),
        Cell::rest(offer.text.as_str()),
    ];
    Entry::of(Role::Offer, cells)
}

fn order(sheet: &Sheet, index: usize, line: &Line) -> Vec<Entry> {
    let Asks::Order { cards } = &line.asks else {
        return Vec::new();
    };
    let head = vec![
        Cell::columns("", NUMBER),
        Cell::columns("no.", 5),
        Cell::rest("write - at what does not belong"),
    ];
    let mut rows = vec![Entry::of(Role::Line, head)];
    let slots = sheet
        .slots
        .iter()
        .enumerate()
        .filter(|(_, slot)| slot.line == index);
    for ((place, slot), card) in slots.zip(cards) {
        let pen = place == sheet.pen;
        let cells = vec![
            Cell::columns("", NUMBER),
            blank(slot, 3, pen),
            Cell::columns("", 2),
            Cell::rest(card.text.as_str()),
        ];
        rows.push(penned(Entry::of(Role::Line, cells), pen));
    }
    rows
}

/// What is still open in the order with the pen, and what is written twice.
pub fn tally(sheet: &Sheet) -> Option<String> {
    let line = sheet.line()?;
    if !matches!(sheet.problem.lines.get(line)?.asks, Asks::Order { .. }) {
        return None;
    }
    let (open, twice) = sheet.order_tally(line);
    let open = match open.as_slice() {
        [] => "Every number is written.".to_owned(),
        open => format!("Still open: {}.", words::listed(open)),
    };
    let twice = match twice.as_slice() {
        [] => String::new(),
        twice => format!(" Written twice: {}.", words::listed(twice)),
    };
    Some(format!("{open}{twice}"))
}

fn matching(sheet: &Sheet, index: usize, line: &Line) -> Vec<Entry> {
    let Asks::Match { parts, meanings } = &line.asks else {
        return Vec::new();
    };
    let widest = parts.iter().map(|(part, _)| cells(part)).max().unwrap_or(0);
    let part_column = (widest + 2).clamp(10, 22);
    let head = vec![
        Cell::columns("", NUMBER),
        Cell::columns("part", part_column + 5),
        Cell::rest("does"),
    ];
    let mut rows = vec![Entry::of(Role::Line, head).dropping(Drop::First)];
    let slots: Vec<(usize, &Slot)> = sheet
        .slots
        .iter()
        .enumerate()
        .filter(|(_, slot)| slot.line == index)
        .collect();
    for row in 0..parts.len().max(meanings.len()) {
        let mut cells = Vec::new();
        let mut pen = false;
        match (slots.get(row), parts.get(row)) {
            (Some((place, slot)), Some((part, _))) => {
                pen = *place == sheet.pen;
                cells.push(Cell::columns((row + 1).to_string(), NUMBER));
                cells.push(Cell::columns(part.as_str(), part_column));
                cells.push(blank(slot, 3, pen));
                cells.push(Cell::columns("", 2));
            }
            _ => cells.push(Cell::columns("", NUMBER + part_column + 5)),
        }
        if let Some(meaning) = meanings.get(row) {
            cells.push(Cell::columns(meaning.mark.as_str(), 3));
            cells.push(Cell::rest(meaning.text.as_str()));
        }
        rows.push(penned(Entry::of(Role::Line, cells), pen));
    }
    let spare = meanings.len().saturating_sub(parts.len());
    if spare > 0 {
        let are = if spare == 1 {
            "One letter is".into()
        } else {
            format!("{spare} letters are")
        };
        rows.push(Entry::gap());
        rows.push(Entry::text(Role::Note, format!("{are} left over.")));
    }
    rows
}
