//! What a figure draws on: shapes as they come, texts as they are wished for. When
//! all is drawn, the texts find their places.

use super::place::{Board, Wish};
use super::readings::Readings;
use super::scene::{Fill, Frame, Ink, Label, Mark, Point, Scene, Shape, Tone, Value, wide};

/// Rows at the top for the heading, and at the foot for what is said of the scale.
const FOOT: usize = 1;

/// On which side of its anchor a text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Right,
    Left,
    Above,
    Below,
    /// With its middle on the anchor.
    On,
}

pub(super) struct Sketch {
    pub frame: Frame,
    title: String,
    scale: String,
    shapes: Vec<Shape>,
    wishes: Vec<Wish>,
    values: Vec<Value>,
}

/// The middle of a column or a row, so that a line runs through its cells.
pub(super) fn mid(cell: usize) -> f64 {
    cell as f64 + 0.5
}

/// The cell that a place lies in.
pub(super) fn cell(place: f64) -> usize {
    place.max(0.0).floor() as usize
}

impl Sketch {
    pub fn new(title: &str, frame: Frame) -> Self {
        Self {
            frame,
            title: title.to_owned(),
            scale: String::new(),
            shapes: Vec::new(),
            wishes: Vec::new(),
            values: Vec::new(),
        }
    }

    /// The columns.
    pub const fn columns(&self) -> usize {
        self.frame.columns
    }

    /// The heading, in as many rows as it takes.
    fn heading(&self) -> Vec<String> {
        wrap(&self.title, self.columns())
    }

    /// The first row under the heading.
    pub fn top(&self) -> usize {
        self.heading().len().max(1).min(self.frame.rows)
    }

    /// The last row over the foot.
    pub const fn bottom(&self) -> usize {
        self.frame.rows.saturating_sub(FOOT + 1)
    }

    /// Says what the scale is.
    pub fn scale(&mut self, words: impl Into<String>) {
        self.scale = words.into();
    }

    pub fn path(&mut self, points: Vec<Point>, ink: Ink) {
        self.shapes.push(Shape::Path { points, ink });
    }

    pub fn line(&mut self, from: Point, to: Point, ink: Ink) {
        self.path(vec![from, to], ink);
    }

    /// A rectangle by two corners.
    pub fn rect(&mut self, from: Point, to: Point, ink: Ink) {
        let corners = vec![from, (to.0, from.1), to, (from.0, to.1), from];
        self.path(corners, ink);
    }

    pub fn area(&mut self, from: Point, to: Point, fill: Fill) {
        if to.0 > from.0 && to.1 > from.1 {
            self.shapes.push(Shape::Area { from, to, fill });
        }
    }

    pub fn mark(&mut self, at: Point, mark: Mark) {
        self.shapes.push(Shape::Mark { at, mark });
    }

    /// A text beside an anchor; where there is no room it goes to the nearest that
    /// there is, with a guide where it is far.
    pub fn text(&mut self, at: Point, side: Side, text: impl Into<String>, tone: Tone) {
        self.wish(&[(at, side)], &text.into(), tone, self.columns());
    }

    /// A text beside the one of several anchors where it fits best.
    pub fn text_at_one(&mut self, places: &[(Point, Side)], text: impl Into<String>, tone: Tone) {
        self.wish(places, &text.into(), tone, self.columns());
    }

    /// A text that wraps at so many columns.
    pub fn text_within(
        &mut self,
        at: Point,
        side: Side,
        text: impl Into<String>,
        (tone, width): (Tone, usize),
    ) {
        self.wish(&[(at, side)], &text.into(), tone, width);
    }

    fn wish(&mut self, places: &[(Point, Side)], text: &str, tone: Tone, width: usize) {
        if text.trim().is_empty() {
            return;
        }
        let lines = wrap(text, width.clamp(4, self.columns()));
        self.wishes
            .push(Wish::beside(places, lines, tone, self.frame));
    }

    /// Texts one under another in the columns from one on, each as near as may be to
    /// the place that it names, with a guide from there. The places rise.
    pub fn stack(&mut self, from: f64, column: usize, levels: &[(f64, String, Tone)]) {
        let width = self.columns().saturating_sub(column).max(8);
        let blocks: Vec<Vec<String>> = levels
            .iter()
            .map(|(_, text, _)| wrap(text, width))
            .collect();
        let wanted: Vec<f64> = levels.iter().map(|(at, ..)| *at).collect();
        let heights: Vec<usize> = blocks.iter().map(Vec::len).collect();
        let rows = stacked(&wanted, &heights, (self.top(), self.bottom()));
        for (((at, _, tone), lines), row) in levels.iter().zip(blocks).zip(rows) {
            let to = (column as f64 - 0.6, mid(row));
            // A guide that stays in its row is one straight line.
            let start = if cell(*at) == row { mid(row) } else { *at };
            self.line((from, start), to, Ink::Guide);
            self.wishes.push(Wish::fixed(column, row, lines, *tone));
        }
    }

    /// A text from a cell on.
    pub fn at(&mut self, column: usize, row: usize, text: impl Into<String>, tone: Tone) {
        let text: String = text.into();
        if !text.trim().is_empty() {
            self.wishes.push(Wish::fixed(column, row, vec![text], tone));
        }
    }

    /// A text of a scale, ending before a column.
    pub fn tick(&mut self, end: usize, at: f64, text: &str) {
        let column = end.saturating_sub(wide(text));
        self.wishes
            .push(Wish::tick(column, at, text.to_owned(), Tone::Faint));
    }

    /// A labelled number for the list.
    pub fn value(&mut self, label: impl Into<String>, text: impl Into<String>) {
        self.values.push(Value {
            label: label.into(),
            text: text.into(),
        });
    }

    /// Every reading of the figure for the list.
    pub fn values_of(&mut self, readings: &Readings<'_>) {
        for reading in readings.all() {
            self.value(reading.label.clone(), reading.text.clone());
        }
    }

    /// The figure, its texts in their places.
    pub fn done(self) -> Scene {
        let mut board = Board::new(self.frame, &self.shapes);
        let columns = self.columns();
        let heading = self.heading();
        let foot = cut(&self.scale, columns);
        board.put(&Wish::fixed(0, 0, heading, Tone::Title));
        if !foot.is_empty() {
            let row = self.frame.rows.saturating_sub(1);
            board.put(&Wish::fixed(0, row, vec![foot], Tone::Faint));
        }
        let (fixed, free): (Vec<_>, Vec<_>) = self.wishes.into_iter().partition(Wish::is_fixed);
        for wish in fixed.iter().chain(&free) {
            board.put(wish);
        }
        let mut shapes = self.shapes;
        let left_out = board.left_out();
        let (labels, guides): (Vec<Label>, Vec<Shape>) = board.done();
        shapes.extend(guides);
        Scene {
            title: self.title,
            frame: self.frame,
            shapes,
            labels,
            values: self.values,
            scale: self.scale,
            caution: None,
            left_out,
        }
    }
}

/// A text in rows of so many columns at most; a word that is longer is broken.
pub(super) fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut rows: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match rows.last_mut() {
            Some(row) if wide(row) + 1 + wide(word) <= width => {
                row.push(' ');
                row.push_str(word);
            }
            _ => rows.push(word.to_owned()),
        }
    }
    let broken = |row: String| {
        let letters: Vec<char> = row.chars().collect();
        let pieces = letters
            .chunks(width.max(1))
            .map(|piece| piece.iter().collect());
        pieces.collect::<Vec<String>>()
    };
    rows.into_iter().flat_map(broken).collect()
}

/// A text that must stay in one row.
fn cut(text: &str, width: usize) -> String {
    wrap(text, width).into_iter().next().unwrap_or_default()
}

/// The first rows of blocks that stand one under another in an order, each as near
/// as may be to its place, inside a span of rows.
fn stacked(wanted: &[f64], heights: &[usize], (top, bottom): (usize, usize)) -> Vec<usize> {
    let mut rows: Vec<usize> = Vec::new();
    let mut free = top;
    for (at, height) in wanted.iter().zip(heights) {
        let row = cell(*at).max(free);
        rows.push(row);
        free = row + height;
    }
    let mut limit = bottom + 1;
    for (row, height) in rows.iter_mut().zip(heights).rev() {
        *row = (*row).min(limit.saturating_sub(*height));
        limit = *row;
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_keep_their_order_and_stay_inside() {
        let rows = stacked(&[2.0, 2.1, 9.9, 9.9], &[1, 2, 1, 1], (1, 10));
        assert_eq!(rows, [2, 3, 9, 10]);
    }

    #[test]
    fn long_words_are_broken() {
        assert_eq!(wrap("one twothree", 5), ["one", "twoth", "ree"]);
        assert!(wrap("", 5).is_empty());
    }
}
