//! The columns of the CSV file: those of the sheet, the same in each of its rows,
//! then those of the line.

/// The columns of the sheet.
pub const SHEET: [&str; 20] = [
    "format", "id", "person", "at", "zone", "code", "family", "lesson", "title", "level", "units",
    "purpose", "sitting", "area", "place", "seconds", "marks", "out_of", "program", "givens",
];

/// The columns of a line: how many the sheet has, which one it is, and the line.
pub const LINE: [&str; 16] = [
    "lines",
    "line",
    "step",
    "label",
    "typed",
    "expected",
    "verdict",
    "right",
    "line_marks",
    "line_out_of",
    "helped",
    "given",
    "line_seconds",
    "options",
    "skill",
    "mistakes",
];

/// All columns, in the order in which they are written.
pub fn all() -> impl Iterator<Item = &'static str> {
    SHEET.into_iter().chain(LINE)
}
