//! Draws a page in a window: frame, rows, Next line and the row of keys. It
//! reads what was laid out and changes nothing.

use pumpwright_engine::figures::{self, Paint};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;

use crate::figure::Beside;
use crate::layout::{Laid, Row, Size};
use crate::page::Page;
use crate::theme::{Look, Tone};
use crate::wrap::{cells, chop, wrap};

/// The least window that holds a sheet.
pub const LEAST: Size = Size {
    columns: 60,
    rows: 20,
};
/// Below this width there is room for one sentence.
const ONE_SENTENCE: usize = 24;

/// Whether a window is too small for a sheet.
pub const fn too_small(size: Size) -> bool {
    size.columns < LEAST.columns || size.rows < LEAST.rows
}

/// Draws the page; says where the cursor belongs.
pub fn paint(page: &Page, laid: &Laid, look: Look, buffer: &mut Buffer) -> Option<Position> {
    let area = buffer.area;
    let size = Size {
        columns: area.width.into(),
        rows: area.height.into(),
    };
    let mut brush = Brush { buffer, look, area };
    if too_small(size) {
        brush.small(size);
        return None;
    }
    brush.sheet(page, laid)
}

struct Brush<'a> {
    buffer: &'a mut Buffer,
    look: Look,
    area: Rect,
}

impl Brush<'_> {
    fn write(&mut self, column: usize, row: usize, text: &str, style: Style) {
        let (Ok(column), Ok(row)) = (u16::try_from(column), u16::try_from(row)) else {
            return;
        };
        if column < self.area.width && row < self.area.height {
            let (x, y) = (self.area.x + column, self.area.y + row);
            let room = usize::from(self.area.width - column);
            self.buffer.set_stringn(x, y, text, room, style);
        }
    }

    fn small(&mut self, size: Size) {
        let next = "Make the window larger.";
        if size.columns < ONE_SENTENCE || size.rows < 4 {
            for (row, text) in wrap(next, size.columns).iter().enumerate() {
                self.write(0, row, text, Style::default());
            }
            return;
        }
        let next = wrap(next, size.columns.saturating_sub(9));
        let foot = size.rows - next.len();
        let rows = |apart: bool| small_words(size, apart);
        let mut sentences = rows(true);
        if sentences.len() + 2 > foot {
            sentences = rows(false);
        }
        for (row, text) in sentences.iter().enumerate().take(foot.saturating_sub(1)) {
            self.write(2, row + 1, text, Style::default());
        }
        self.write(2, foot, "Next", self.look.style(Tone::Bold));
        for (row, text) in next.iter().enumerate() {
            self.write(8, foot + row, text, Style::default());
        }
    }

    fn sheet(&mut self, page: &Page, laid: &Laid) -> Option<Position> {
        let height = usize::from(self.area.height);
        let foot = height.saturating_sub(2 + laid.next.len());
        let [left, right, low_left, low_right, ..] = self.look.lines().corners;
        self.border(0, (left, right), (&page.title, &page.place));
        self.border(foot, (low_left, low_right), (&laid.message, &laid.hidden));
        let edge = page.beside.as_ref().map(|beside| {
            let size = Size {
                columns: usize::from(self.area.width),
                rows: height,
            };
            beside.rule(size)
        });
        let mut cursor = None;
        for row in 1..foot {
            let empty = Row::default();
            let laid_row = laid.rows.get(row - 1).unwrap_or(&empty);
            self.row(row, laid_row, edge);
            if let Some(column) = laid_row.cursor {
                cursor = position(column + 2, row, self.area);
            }
        }
        if let (Some(beside), Some(edge)) = (&page.beside, edge) {
            self.figure(beside, (edge + 2, 1), foot);
        }
        self.write(2, foot + 1, "Next", self.look.style(Tone::Bold));
        for (index, text) in laid.next.iter().enumerate() {
            self.write(8, foot + 1 + index, text, Style::default());
        }
        self.write(2, height - 1, &laid.strip, Style::default());
        cursor
    }

    fn border(&mut self, row: usize, corners: (&str, &str), words: (&str, &str)) {
        let width = usize::from(self.area.width);
        let across = self.look.lines().across;
        let line = format!("{}{}{}", corners.0, across.repeat(width - 2), corners.1);
        self.write(0, row, &line, Style::default());
        let bold = if row == 0 {
            self.look.style(Tone::Bold)
        } else {
            Style::default()
        };
        // Two corners, a line between the two, and the blanks around each.
        let room = width.saturating_sub(9);
        let (left, right) = both(self.look.text(words.0), self.look.text(words.1), room);
        if !left.is_empty() {
            self.write(2, row, &format!(" {left} "), bold);
        }
        if !right.is_empty() {
            let column = width.saturating_sub(cells(&right) + 4);
            self.write(column, row, &format!(" {right} "), Style::default());
        }
    }

    /// The figure beside the sheet: titles bold, all else as the terminal draws text.
    fn figure(&mut self, beside: &Beside, (column, row): (usize, usize), foot: usize) {
        let rows = foot.saturating_sub(row).min(beside.grid.frame.rows);
        for line in 0..rows {
            for (at, (sign, paint)) in beside.grid.cells(line).iter().enumerate() {
                let bold = matches!(
                    paint,
                    Paint::Text(figures::Tone::Title | figures::Tone::Strong)
                );
                let tone = if bold { Tone::Bold } else { Tone::Plain };
                let mut text = [0; 4];
                let text = sign.encode_utf8(&mut text);
                self.write(column + at, row + line, text, self.look.style(tone));
            }
        }
    }

    /// A row of the sheet, up to the right border or to the rule before a figure.
    fn row(&mut self, row: usize, laid: &Row, edge: Option<usize>) {
        let width = usize::from(self.area.width);
        let end = edge.map_or(width, |edge| edge + 1);
        let lines = self.look.lines();
        if let Some(tone) = laid.rule {
            let [.., left, right] = lines.corners;
            let rule = format!(
                "{left}{}{right}",
                lines.across.repeat(end.saturating_sub(2))
            );
            self.write(0, row, &rule, self.look.style(tone));
            if edge.is_some() {
                self.write(width - 1, row, lines.down, Style::default());
            }
            return;
        }
        self.write(0, row, lines.down, Style::default());
        self.write(width - 1, row, lines.down, Style::default());
        if let Some(edge) = edge {
            self.write(edge, row, lines.down, Style::default());
        }
        for piece in &laid.pieces {
            let style = self.look.style(piece.tone);
            self.write(2 + piece.column, row, &piece.text, style);
        }
    }
}

/// What stands left and right on a border, so that both have room: the longer gives way, for
/// it is what somebody wrote.
fn both(left: String, right: String, room: usize) -> (String, String) {
    if cells(&left) + cells(&right) <= room {
        return (left, right);
    }
    if cells(&left) > cells(&right) {
        let rest = room.saturating_sub(cells(&right));
        (shortened(&left, rest), right)
    } else {
        let rest = room.saturating_sub(cells(&left));
        (left, shortened(&right, rest))
    }
}

/// A text in this many cells, with dots for what it lacks.
fn shortened(text: &str, room: usize) -> String {
    let dots = "...";
    let kept = chop(text, room.saturating_sub(dots.len()));
    let kept = kept.first().map_or("", String::as_str).trim_end();
    format!("{kept}{dots}")
}

/// What there is for a window that stays as small as it is.
const SMALL: &str = "Or in plain lines: --plain behind practice, exam, sit or board.";

fn small_words(size: Size, apart: bool) -> Vec<String> {
    let sizes = format!(
        "This window is {} wide and {} high.",
        size.columns, size.rows
    );
    let parts: [&[&str]; 3] = [
        &[&sizes, "A job sheet needs 60 by 20; it likes 80 by 24."],
        &["Make the window larger, or the letters smaller: the sheet comes back by itself."],
        &["What you wrote is kept.", SMALL],
    ];
    let mut rows = Vec::new();
    for part in parts {
        if apart && !rows.is_empty() {
            rows.push(String::new());
        }
        rows.extend(
            part.iter()
                .flat_map(|text| wrap(text, size.columns.saturating_sub(3))),
        );
    }
    rows
}

fn position(column: usize, row: usize, area: Rect) -> Option<Position> {
    let x = area.x.checked_add(u16::try_from(column).ok()?)?;
    let y = area.y.checked_add(u16::try_from(row).ok()?)?;
    area.contains(Position { x, y })
        .then_some(Position { x, y })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_title_leaves_room_for_the_frame() {
        let long = "Week 6: voltage drop, tanks and relief valves of the whole of the autumn term";
        let own = |left: &str, right: &str| both(left.to_owned(), right.to_owned(), 51);
        assert_eq!(
            own("PAPER", "Week 6"),
            ("PAPER".to_owned(), "Week 6".to_owned())
        );
        let (left, right) = own("PAPER, HANDED IN", long);
        assert_eq!(left, "PAPER, HANDED IN");
        assert_eq!(right, "Week 6: voltage drop, tanks and...");
        let (left, right) = own(long, "more below");
        assert_eq!(cells(&left) + cells(&right), 51);
        assert!(left.ends_with("..."), "{left}");
    }
}
