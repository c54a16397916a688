//! From a page to rows of cells: columns, wrapping, what gives way in a low
//! window, and which part of a long sheet is in sight. Nothing is drawn here.

use crate::keys::Key;
use crate::page::{Cell, Drop, Entry, Page, Role, Side, Width};
use crate::theme::{Look, Sign, Tone};
use crate::wrap::{cells, chop, wrap};

/// The size of a window, in cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Its width.
    pub columns: usize,
    /// Its height.
    pub rows: usize,
}

impl Size {
    /// The columns inside the frame.
    pub const fn inside(self) -> usize {
        self.columns.saturating_sub(4)
    }
}

/// Where a long sheet stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Scroll {
    /// The first row in sight.
    pub top: usize,
    /// Whether the line with the pen is brought into sight.
    pub follow: bool,
}

impl Scroll {
    /// Brings the pen into sight.
    pub const fn follow(&mut self) {
        self.follow = true;
    }

    /// Goes down by so many rows.
    pub const fn down(&mut self, rows: usize) {
        self.top = self.top.saturating_add(rows);
        self.follow = false;
    }

    /// Goes up by so many rows.
    pub const fn up(&mut self, rows: usize) {
        self.top = self.top.saturating_sub(rows);
        self.follow = false;
    }
}

/// Where the line with the pen is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Focus {
    /// In sight, or nowhere.
    #[default]
    InSight,
    /// Above what is in sight.
    Above,
    /// Below what is in sight.
    Below,
}

/// What is out of sight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Sight {
    /// Rows above.
    pub above: usize,
    /// Rows below.
    pub below: usize,
    /// Rows in a screenful.
    pub page: usize,
    /// Where the pen is.
    pub focus: Focus,
}

/// A piece of text in a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The column, counted inside the frame.
    pub column: usize,
    /// The text.
    pub text: String,
    /// How it is drawn.
    pub tone: Tone,
}

/// A row inside the frame.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// Its pieces, from left to right.
    pub pieces: Vec<Piece>,
    /// The tone of the rule, where the row is one.
    pub rule: Option<Tone>,
    /// The column of the cursor, if it is here.
    pub cursor: Option<usize>,
    focus: bool,
    drop: Drop,
    /// The line of the page that it is a part of.
    entry: usize,
}

/// A page laid out for a window.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Laid {
    /// The rows inside the frame, from the top; empty rows at the foot left out.
    pub rows: Vec<Row>,
    /// The left of the lower border.
    pub message: String,
    /// The right of the lower border.
    pub hidden: String,
    /// The rows of the Next line.
    pub next: Vec<String>,
    /// The row of keys.
    pub strip: String,
    /// The first row of the flow that is in sight.
    pub top: usize,
    /// What is out of sight.
    pub sight: Sight,
}

/// The columns of a label such as CAUTION at the left of its text.
pub const LABEL: usize = 9;
/// The rows that are kept for a flow that is scrolled.
const LEAST_FLOW: usize = 3;

/// The widest text that is easy to follow; wider windows leave room at its right.
const WIDEST_TEXT: usize = 76;

/// The columns that text has in a window.
pub fn text_width(size: Size) -> usize {
    size.inside().min(WIDEST_TEXT)
}

/// The columns that the text of a page has: fewer where a figure stands beside it.
fn width_of(page: &Page, size: Size) -> usize {
    let beside = page.beside.as_ref();
    beside.map_or_else(|| text_width(size), |beside| beside.text_columns(size))
}

/// Lays a page out.
pub fn lay(page: &Page, look: Look, size: Size, scroll: Scroll) -> Laid {
    let message = page
        .message
        .as_deref()
        .map(|text| look.text(text))
        .unwrap_or_default();
    let page = &with_what_enter_does(page, look, size, scroll);
    let mut laid = lay_with(page, look, size, scroll, "");
    if cells(&message) + cells(&laid.hidden) + 8 > size.columns {
        laid = lay_with(page, look, size, scroll, &message);
    } else {
        laid.message = message;
    }
    laid
}

/// The page with the Next row that holds for what is in sight.
fn with_what_enter_does(page: &Page, look: Look, size: Size, scroll: Scroll) -> Page {
    let mut page = page.clone();
    if let Some(words) = page.next_below.take()
        && lay_with(&page, look, size, scroll, "").sight.below > 0
    {
        page.next = words;
    }
    page
}

/// Lays a page out, with a message too long for the border at the foot of the sheet.
fn lay_with(page: &Page, look: Look, size: Size, scroll: Scroll, message: &str) -> Laid {
    let next = wrap(&look.text(&page.next), size.columns.saturating_sub(9));
    let room = size.rows.saturating_sub(3 + next.len());
    let width = width_of(page, size);
    let mut foot = rows_of(&page.foot, look, width);
    if !message.is_empty() {
        foot.extend(rows_of(
            &[Entry::rule(), Entry::text(Role::Note, message)],
            look,
            width,
        ));
    }
    let mut parts = Parts {
        fixed: rows_of(&page.fixed, look, width),
        flow: rows_of(&page.flow, look, width),
        foot,
    };
    parts.give_way(room);
    parts.leave_room_to_scroll(room);
    let mut laid = parts.in_sight(room, scroll);
    // Where Up and Down go from line to line, a screenful at a time brings the rest.
    let by_pages = page.strip.iter().any(|hint| hint.key == Key::Pages);
    laid.hidden = hidden_words(laid.sight, by_pages);
    if laid.hidden.is_empty() {
        laid.hidden = look.text(&page.beyond);
    }
    laid.strip = strip(page, look, size.columns);
    laid.next = next;
    laid
}

struct Parts {
    fixed: Vec<Row>,
    flow: Vec<Row>,
    foot: Vec<Row>,
}

impl Parts {
    fn total(&self) -> usize {
        self.fixed.len() + self.flow.len() + self.foot.len()
    }

    /// Takes out what may give way, one line after the other, until all fits. A
    /// flow that must be scrolled anyway keeps its empty rows.
    fn give_way(&mut self, room: usize) {
        let whole_flow = self.flow.clone();
        for level in [Drop::First, Drop::SecondHead, Drop::Counts] {
            for part in [&mut self.foot, &mut self.flow, &mut self.fixed] {
                part.reverse();
            }
            while self.total() > room {
                let taken = [&mut self.foot, &mut self.flow, &mut self.fixed]
                    .into_iter()
                    .any(|part| take_one(part, level));
                if !taken {
                    break;
                }
            }
            for part in [&mut self.foot, &mut self.flow, &mut self.fixed] {
                part.reverse();
            }
        }
        if self.total() > room {
            self.flow = whole_flow;
        }
    }

    /// Where head or foot would leave no room for the flow, they are scrolled with it.
    fn leave_room_to_scroll(&mut self, room: usize) {
        let least = LEAST_FLOW.min(self.flow.len());
        if self.total() > room && self.fixed.len() + self.foot.len() + least > room {
            self.flow.append(&mut self.foot);
        }
        let least = LEAST_FLOW.min(self.flow.len());
        if self.total() > room && self.fixed.len() + least > room {
            let mut all = std::mem::take(&mut self.fixed);
            all.append(&mut self.flow);
            self.flow = all;
        }
    }

    fn in_sight(self, room: usize, scroll: Scroll) -> Laid {
        let height = room
            .saturating_sub(self.fixed.len() + self.foot.len())
            .min(self.flow.len());
        let focus = focus_span(&self.flow);
        let top = first_row(scroll, focus, self.flow.len(), height);
        let above = top;
        let below = self.flow.len() - top - height;
        let place = match focus {
            Some((first, _)) if first < top => Focus::Above,
            Some((_, last)) if last >= top + height => Focus::Below,
            _ => Focus::InSight,
        };
        let mut rows = self.fixed;
        rows.extend(self.flow.into_iter().skip(top).take(height));
        rows.extend(self.foot);
        rows.truncate(room);
        Laid {
            rows,
            hidden: String::new(),
            top,
            sight: Sight {
                above,
                below,
                page: height.saturating_sub(1).max(1),
                focus: place,
            },
            ..Laid::default()
        }
    }
}

fn take_one(part: &mut Vec<Row>, level: Drop) -> bool {
    let found = part
        .iter()
        .find(|row| row.drop == level)
        .map(|row| row.entry);
    if let Some(entry) = found {
        // A text goes with all its rows: nothing is ever cut.
        part.retain(|row| row.entry != entry);
    }
    found.is_some()
}

fn focus_span(rows: &[Row]) -> Option<(usize, usize)> {
    let first = rows.iter().position(|row| row.focus)?;
    let last = rows.iter().rposition(|row| row.focus)?;
    Some((first, last))
}

fn first_row(scroll: Scroll, focus: Option<(usize, usize)>, length: usize, height: usize) -> usize {
    let mut top = scroll.top;
    if let Some((first, last)) = focus.filter(|_| scroll.follow) {
        if last >= top + height {
            top = (last + 1).saturating_sub(height);
        }
        top = top.min(first);
    }
    top.min(length.saturating_sub(height))
}

fn hidden_words(Sight { above, below, .. }: Sight, by_pages: bool) -> String {
    let lines = |count: usize| if count == 1 { "line" } else { "lines" };
    let (up, down) = if by_pages {
        ("PgUp", "PgDn")
    } else {
        ("Up", "Down")
    };
    match (above, below) {
        (0, 0) => String::new(),
        (0, _) => format!("{below} more {} below: {down}", lines(below)),
        (_, 0) => format!("{above} {} above: {up}", lines(above)),
        _ => format!("{above} {} above, {below} below: {up} {down}", lines(above)),
    }
}

fn strip(page: &Page, look: Look, columns: usize) -> String {
    let apart = if columns >= 100 { "   " } else { "  " };
    let mut strip = String::new();
    for hint in &page.strip {
        let whole = look.text(&hint.words);
        // Where the whole hint has no room, its first words still say what the key is.
        let short = whole.split(':').next().unwrap_or_default();
        for words in [whole.as_str(), short] {
            let words = format!("{} {words}", hint.key.label());
            let gap = if strip.is_empty() { "" } else { apart };
            if cells(&strip) + gap.len() + cells(&words) + 3 <= columns {
                strip.push_str(gap);
                strip.push_str(&words);
                break;
            }
        }
    }
    strip
}

fn rows_of(entries: &[Entry], look: Look, width: usize) -> Vec<Row> {
    let rows = entries.iter().enumerate().flat_map(|(at, entry)| {
        let mut rows = entry_rows(entry, look, width);
        for row in &mut rows {
            row.entry = at;
        }
        rows
    });
    rows.collect()
}

fn entry_rows(entry: &Entry, look: Look, width: usize) -> Vec<Row> {
    if entry.role == Role::Rule {
        let tone = entry.sign.map_or(Tone::Plain, Tone::Accent);
        return vec![Row {
            rule: Some(tone),
            drop: entry.drop,
            ..Row::default()
        }];
    }
    let margin = margin(entry.role);
    let mut rows = vec![Row::default()];
    if let Some(sign) = entry.sign {
        rows[0].pieces.push(sign_piece(sign, look));
    }
    let mut column = margin;
    for cell in &entry.cells {
        let left = width.saturating_sub(column).max(1);
        let wide = match cell.width {
            Width::Columns(columns) => columns.min(left),
            Width::Rest => left,
        };
        place(cell, look, Span { column, wide }, &mut rows);
        column += wide;
    }
    for row in &mut rows {
        row.focus = entry.focus;
        row.drop = entry.drop;
    }
    rows
}

const fn margin(role: Role) -> usize {
    match role {
        Role::Line | Role::Verdict | Role::Caution => 2,
        _ => 0,
    }
}

fn sign_piece(sign: Sign, look: Look) -> Piece {
    Piece {
        column: 0,
        text: sign.glyph(look).to_owned(),
        tone: Tone::Accent(sign),
    }
}

#[derive(Clone, Copy)]
struct Span {
    column: usize,
    wide: usize,
}

fn place(cell: &Cell, look: Look, span: Span, rows: &mut Vec<Row>) {
    let text = look.text(&cell.text);
    // A column keeps one cell of air at its right; the last has the whole row.
    let room = match cell.width {
        Width::Columns(_) => span.wide.saturating_sub(1).max(1),
        Width::Rest => span.wide,
    };
    let pieces = if cell.blank {
        blank_rows(&text, room)
    } else {
        text_rows(cell, &text, room)
    };
    if rows.len() < pieces.len() {
        rows.resize(pieces.len(), Row::default());
    }
    if let Some(before) = &cell.cursor {
        let at = cells(&look.text(before));
        let row = (at / room).min(rows.len() - 1);
        rows[row].cursor = Some(span.column + (at - row * room).min(room));
    }
    for (row, text) in rows.iter_mut().zip(pieces) {
        let shift = match cell.side {
            Side::Left => 0,
            Side::Right => room.saturating_sub(cells(&text)),
        };
        let tone = if cell.bold { Tone::Bold } else { Tone::Plain };
        if !text.is_empty() {
            row.pieces.push(Piece {
                column: span.column + shift,
                text,
                tone,
            });
        }
    }
}

fn text_rows(cell: &Cell, text: &str, room: usize) -> Vec<String> {
    if cell.kept {
        return vec![text.to_owned()];
    }
    if cell.hang == 0 || cells(text) <= room {
        return wrap(text, room);
    }
    let narrow = wrap(text, room.saturating_sub(cell.hang));
    let pad = " ".repeat(cell.hang);
    let hung = |(index, row): (usize, String)| {
        if index == 0 {
            row
        } else {
            format!("{pad}{row}")
        }
    };
    narrow.into_iter().enumerate().map(hung).collect()
}

/// A blank's rows, filled up with the line to write on.
fn blank_rows(text: &str, room: usize) -> Vec<String> {
    let mut rows = chop(text, room);
    if rows.last().is_some_and(|row| cells(row) == room) {
        rows.push(String::new());
    }
    if rows.len() == 1 || rows.last().is_some_and(|row| !row.is_empty()) {
        if let Some(row) = rows.last_mut() {
            let gap = room.saturating_sub(cells(row));
            row.push_str(&"_".repeat(gap));
        }
    } else {
        rows.pop();
    }
    rows
}
