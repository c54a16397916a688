//! What a screen makes from its state: lines with roles, in the order in which
//! the eye meets them. The terminal and the plain list are its readers.

use crate::figure::Beside;
use crate::keys::Hint;
use crate::theme::{Look, Sign};

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// The head of the sheet.
    Head,
    /// What can hurt.
    Caution,
    /// The job, and other text.
    Text,
    /// A line that is written, or taken.
    Line,
    /// An offer, a meaning.
    Offer,
    /// A verdict.
    Verdict,
    /// A likely turn, and the way out.
    Turn,
    /// The marks explained.
    Marks,
    /// What else is good to know.
    Note,
    /// A line of the working.
    Working,
    /// A row of a table.
    Row,
    /// A step of help.
    Help,
    /// A letter of the slip, or a key.
    Tool,
    /// A rule across the sheet.
    Rule,
    /// An empty row.
    Gap,
    /// A row of a figure; what it shows is read as a list.
    Drawing,
}

impl Role {
    /// The word with which a plain line begins; none for what is only room.
    pub const fn prefix(self) -> Option<&'static str> {
        Some(match self {
            Self::Head => "head",
            Self::Caution => "caution",
            Self::Text => "text",
            Self::Line => "line",
            Self::Offer => "offer",
            Self::Verdict => "verdict",
            Self::Turn => "turn",
            Self::Marks => "marks",
            Self::Note => "note",
            Self::Working => "working",
            Self::Row => "row",
            Self::Help => "help",
            Self::Tool => "key",
            Self::Rule | Self::Gap | Self::Drawing => return None,
        })
    }
}

/// When a line may give way in a low window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Drop {
    /// Never.
    #[default]
    Never,
    /// Third: counts and asides.
    Counts,
    /// Second: the second row of the head.
    SecondHead,
    /// First: empty rows.
    First,
}

/// How wide a cell is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// So many columns.
    Columns(usize),
    /// What is left of the row.
    Rest,
}

/// Where text stands in its cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// At the left.
    #[default]
    Left,
    /// At the right.
    Right,
}

/// A cell of a line. Text wraps inside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// The text.
    pub text: String,
    /// Its width.
    pub width: Width,
    /// Where it stands.
    pub side: Side,
    /// Whether it is a heading.
    pub bold: bool,
    /// Whether it is a blank, drawn to its full width.
    pub blank: bool,
    /// The text before the cursor, in a blank with the pen.
    pub cursor: Option<String>,
    /// Cells of room before continued rows.
    pub hang: usize,
    /// Whether it stands as it is: no blank is taken out and nothing wraps.
    pub kept: bool,
}

impl Cell {
    fn new(text: String, width: Width) -> Self {
        Self {
            text,
            width,
            side: Side::Left,
            bold: false,
            blank: false,
            cursor: None,
            hang: 0,
            kept: false,
        }
    }

    /// Text in so many columns.
    pub fn columns(text: impl Into<String>, columns: usize) -> Self {
        Self::new(text.into(), Width::Columns(columns))
    }

    /// Text in what is left of the row.
    pub fn rest(text: impl Into<String>) -> Self {
        Self::new(text.into(), Width::Rest)
    }

    /// A blank of so many columns, with the text before its cursor if the pen is there.
    pub fn blank(text: impl Into<String>, columns: usize, cursor: Option<&str>) -> Self {
        Self {
            blank: true,
            cursor: cursor.map(str::to_owned),
            ..Self::new(text.into(), Width::Columns(columns))
        }
    }

    /// The same, as a heading.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    /// The same, at the right of its columns.
    #[must_use]
    pub fn right(self) -> Self {
        Self {
            side: Side::Right,
            ..self
        }
    }

    /// The same, as it stands.
    #[must_use]
    pub fn kept(self) -> Self {
        Self { kept: true, ..self }
    }

    /// The same, with room before continued rows.
    #[must_use]
    pub fn hang(self, hang: usize) -> Self {
        Self { hang, ..self }
    }
}

/// A line of a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub role: Role,
    /// The sign at its left edge.
    pub sign: Option<Sign>,
    /// Its cells.
    pub cells: Vec<Cell>,
    /// When it may give way.
    pub drop: Drop,
    /// Whether the screen is scrolled to show it.
    pub focus: bool,
}

impl Entry {
    /// A line of cells.
    pub const fn of(role: Role, cells: Vec<Cell>) -> Self {
        Self {
            role,
            sign: None,
            cells,
            drop: Drop::Never,
            focus: false,
        }
    }

    /// A line of text over the whole width.
    pub fn text(role: Role, text: impl Into<String>) -> Self {
        Self::of(role, vec![Cell::rest(text)])
    }

    /// A heading.
    pub fn heading(text: impl Into<String>) -> Self {
        Self::of(Role::Head, vec![Cell::rest(text).bold()])
    }

    /// An empty row.
    pub fn gap() -> Self {
        Self {
            drop: Drop::First,
            ..Self::of(Role::Gap, Vec::new())
        }
    }

    /// A rule across the sheet.
    pub const fn rule() -> Self {
        Self::of(Role::Rule, Vec::new())
    }

    /// The same, with a sign at its left edge.
    #[must_use]
    pub fn signed(self, sign: Option<Sign>) -> Self {
        Self { sign, ..self }
    }

    /// The same, giving way in a low window.
    #[must_use]
    pub fn dropping(self, drop: Drop) -> Self {
        Self { drop, ..self }
    }

    /// The same, kept in sight.
    #[must_use]
    pub fn focused(self, focus: bool) -> Self {
        Self { focus, ..self }
    }

    fn said(&self) -> String {
        let cells = self
            .cells
            .iter()
            .map(|cell| match (cell.blank, cell.text.is_empty()) {
                (true, true) => "(empty)",
                _ => cell.text.trim(),
            });
        cells
            .filter(|text| !text.is_empty())
            .collect::<Vec<_>>()
            .join("  ")
    }
}

/// A whole screen, ready to be laid out or read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Page {
    /// What this is: left in the first row.
    pub title: String,
    /// Where in it: right in the first row.
    pub place: String,
    /// What is never scrolled away: head and caution.
    pub fixed: Vec<Entry>,
    /// What is scrolled where it is longer than the screen.
    pub flow: Vec<Entry>,
    /// The figure beside the sheet, where there is room for both.
    pub beside: Option<Beside>,
    /// A figure that lies over the sheet, as lines to read.
    pub said: Vec<String>,
    /// What stands at the foot of the sheet and is not scrolled away.
    pub foot: Vec<Entry>,
    /// What is reached by going on where nothing is hidden: the right of the lower border.
    pub beyond: String,
    /// The message in the lower border.
    pub message: Option<String>,
    /// What Enter does.
    pub next: String,
    /// What Enter does instead while more stands below.
    pub next_below: Option<String>,
    /// The keys that have a use here, most needed first.
    pub strip: Vec<Hint>,
}

impl Page {
    /// Every line, from top to bottom.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.fixed.iter().chain(&self.flow).chain(&self.foot)
    }

    /// Leaves a figure out that stands over the lines: it stands beside them.
    pub fn leave_the_figure_out(&mut self) {
        self.flow.retain(|entry| entry.role != Role::Drawing);
        self.said.clear();
    }

    /// The whole screen as plain lines, each with a prefix and a colon.
    pub fn plain(&self, look: Look) -> Vec<String> {
        let mut lines = vec![format!(
            "sheet: {}",
            join_nonempty(&self.title, &self.place)
        )];
        for entry in self.entries() {
            let said = entry.said();
            match entry.role.prefix() {
                Some(prefix) if !said.is_empty() => {
                    let said = said.strip_prefix("CAUTION").unwrap_or(&said).trim_start();
                    lines.push(format!("{prefix}: {}", look.text(said)));
                }
                _ => {}
            }
        }
        let beside = self.beside.iter().flat_map(|beside| &beside.said);
        for said in self.said.iter().chain(beside) {
            lines.push(format!("figure: {}", look.text(said)));
        }
        if let Some(message) = &self.message {
            lines.push(format!("note: {}", look.text(message)));
        }
        lines.push(format!("next: {}", look.text(&self.next)));
        lines
    }
}

fn join_nonempty(left: &str, right: &str) -> String {
    if right.is_empty() {
        left.to_owned()
    } else {
        format!("{left}, {right}")
    }
}
