//! Where texts go: beside what they name if there is room, else as near as may be;
//! never out of the frame, never over one another.

use super::cells::covered;
use super::scene::{Frame, Ink, Label, Point, Shape, Tone, wide};
use super::sketch::{Side, cell, mid};

/// What a text pays for each row and each column that it stands off its place, and
/// for each cell of a line that it covers. Our own choice, no source.
const ROW: f64 = 2.0;
const COLUMN: f64 = 1.0;
const COVER: f64 = 1.5;

/// Further off than this a guide leads to it.
const FAR: f64 = 5.0;

/// A text that wants a place.
#[derive(Debug, Clone)]
pub(super) struct Wish {
    lines: Vec<String>,
    tone: Tone,
    /// The first cells that would be right, each with the anchor that it goes with.
    homes: Vec<(f64, f64, Option<Point>)>,
    width: usize,
    /// So much lower than the middle of its row is what it names.
    lower: f64,
}

impl Wish {
    /// A text of a scale from a column on, its middle at a height.
    pub fn tick(column: usize, at: f64, text: String, tone: Tone) -> Self {
        let row = cell(at);
        Self {
            lower: (at - mid(row)).clamp(-0.5, 0.5),
            ..Self::fixed(column, row, vec![text], tone)
        }
    }

    /// A text from a cell on.
    pub fn fixed(column: usize, row: usize, lines: Vec<String>, tone: Tone) -> Self {
        let width = widest(&lines);
        Self {
            lines,
            tone,
            homes: vec![(column as f64, row as f64, None)],
            width,
            lower: 0.0,
        }
    }

    /// A text beside an anchor.
    pub fn beside(places: &[(Point, Side)], lines: Vec<String>, tone: Tone, frame: Frame) -> Self {
        let width = widest(&lines);
        let (wide, high) = (width as f64, lines.len() as f64);
        let home = |((x, y), side): &(Point, Side)| {
            let (column, row) = match side {
                Side::Right => (x.floor() + 2.0, y.floor() - ((high - 1.0) / 2.0).floor()),
                Side::Left => (
                    x.floor() - 1.0 - wide,
                    y.floor() - ((high - 1.0) / 2.0).floor(),
                ),
                Side::Above => ((x - wide / 2.0).round(), y.floor() - high),
                Side::Below => ((x - wide / 2.0).round(), y.floor() + 1.0),
                Side::On => (
                    (x - wide / 2.0).round(),
                    y.floor() - ((high - 1.0) / 2.0).floor(),
                ),
            };
            let most = (frame.columns as f64 - wide, frame.rows as f64 - high);
            (
                column.clamp(0.0, most.0.max(0.0)),
                row.clamp(0.0, most.1.max(0.0)),
                Some((*x, *y)),
            )
        };
        Self {
            homes: places.iter().map(home).collect(),
            lines,
            tone,
            width,
            lower: 0.0,
        }
    }

    /// Whether it names a cell and no anchor.
    pub fn is_fixed(&self) -> bool {
        self.homes.iter().all(|(.., anchor)| anchor.is_none())
    }
}

fn widest(lines: &[String]) -> usize {
    lines.iter().map(|line| wide(line)).max().unwrap_or(0)
}

/// The cells of a frame while its texts are placed.
pub(super) struct Board {
    frame: Frame,
    /// For each row, how many cells before a column hold a line, and a text.
    lines: Vec<u32>,
    texts: Vec<u32>,
    labels: Vec<Label>,
    guides: Vec<Shape>,
    left_out: Vec<String>,
}

impl Board {
    pub fn new(frame: Frame, shapes: &[Shape]) -> Self {
        let covered = covered(frame, shapes);
        let stride = frame.columns + 1;
        let mut lines = vec![0; stride * frame.rows];
        for row in 0..frame.rows {
            for column in 0..frame.columns {
                let one = u32::from(covered[row * frame.columns + column]);
                lines[row * stride + column + 1] = lines[row * stride + column] + one;
            }
        }
        Self {
            frame,
            texts: vec![0; lines.len()],
            lines,
            labels: Vec::new(),
            guides: Vec::new(),
            left_out: Vec::new(),
        }
    }

    /// Puts a text where it costs least. A frame without room for it anywhere leaves it out.
    pub fn put(&mut self, wish: &Wish) {
        let high = wish.lines.len();
        if wish.width > self.frame.columns || high > self.frame.rows || high == 0 {
            return self.leave_out(wish);
        }
        let mut best: Option<(f64, usize, usize)> = None;
        for row in 0..=self.frame.rows - high {
            for column in 0..=self.frame.columns - wish.width {
                let off = wish.off(column, row);
                if best.is_some_and(|(cost, ..)| off >= cost) {
                    continue;
                }
                let Some(covers) = self.covers(wish, column, row) else {
                    continue;
                };
                let cost = COVER.mul_add(f64::from(covers), off);
                if best.is_none_or(|(least, ..)| cost < least) {
                    best = Some((cost, column, row));
                }
            }
        }
        match best {
            Some((_, column, row)) => self.take(wish, column, row),
            None => self.leave_out(wish),
        }
    }

    fn leave_out(&mut self, wish: &Wish) {
        self.left_out.push(wish.lines.join(" "));
    }

    /// The texts for which there was no room.
    pub fn left_out(&mut self) -> Vec<String> {
        std::mem::take(&mut self.left_out)
    }

    /// How many cells of lines a text would cover there; none where a text stands.
    fn covers(&self, wish: &Wish, column: usize, row: usize) -> Option<u32> {
        let stride = self.frame.columns + 1;
        let mut sum = 0;
        for line in row..row + wish.lines.len() {
            let (from, to) = (column, column + wish.width);
            // One cell of air on each side.
            let (left, right) = (from.saturating_sub(1), (to + 1).min(self.frame.columns));
            let at = line * stride;
            if self.texts[at + right] > self.texts[at + left] {
                return None;
            }
            sum += self.lines[at + to] - self.lines[at + from];
        }
        Some(sum)
    }

    fn take(&mut self, wish: &Wish, column: usize, row: usize) {
        let at_home = wish.off(column, row) == 0.0;
        let stride = self.frame.columns + 1;
        for (index, text) in wish.lines.iter().enumerate() {
            let at = (row + index) * stride;
            let mut count = 0;
            for cell in 0..self.frame.columns {
                let own = cell >= column && cell < column + wish.width;
                count += u32::from(own);
                self.texts[at + cell + 1] += count;
            }
            self.labels.push(Label {
                column,
                row: row + index,
                lower: if at_home { wish.lower } else { 0.0 },
                text: text.clone(),
                tone: wish.tone,
            });
        }
        self.guide(wish, column, row);
    }

    /// A guide from the anchor to a text that stands far from it.
    fn guide(&mut self, wish: &Wish, column: usize, row: usize) {
        if wish.off(column, row) <= FAR {
            return;
        }
        let middle = row as f64 + wish.lines.len() as f64 / 2.0;
        let (left, right) = (column as f64, (column + wish.width) as f64);
        let nearest = wish
            .homes
            .iter()
            .filter_map(|(.., anchor)| *anchor)
            .min_by(|one, two| {
                let far = |(x, y): &Point| {
                    (x - f64::midpoint(left, right)).abs() + ROW * (y - middle).abs()
                };
                far(one).total_cmp(&far(two))
            });
        let Some(anchor) = nearest else { return };
        let end = if anchor.0 < left {
            (left - 0.3, middle)
        } else if anchor.0 > right {
            (right + 0.3, middle)
        } else if anchor.1 < middle {
            (anchor.0, row as f64)
        } else {
            (anchor.0, (row + wish.lines.len()) as f64)
        };
        self.guides.push(Shape::Path {
            points: vec![anchor, end],
            ink: Ink::Guide,
        });
    }

    /// The texts in their places, and the guides to them.
    pub fn done(mut self) -> (Vec<Label>, Vec<Shape>) {
        let meets = |one: &Label, other: &Label| {
            let rows = one.row.abs_diff(other.row);
            let apart = (one.row as f64 + one.lower) - (other.row as f64 + other.lower);
            let side = |first: &Label, second: &Label| first.column + first.width() > second.column;
            rows > 0 && apart.abs() < 1.0 && side(one, other) && side(other, one)
        };
        // A text that would run into the one over or under it stays in its row. That may bring
        // it nearer to a third one, so all are looked at again.
        while let Some(at) = self
            .labels
            .iter()
            .position(|own| own.lower != 0.0 && self.labels.iter().any(|other| meets(own, other)))
        {
            self.labels[at].lower = 0.0;
        }
        (self.labels, self.guides)
    }
}

impl Wish {
    /// What a cell costs for being off the nearest home.
    fn off(&self, column: usize, row: usize) -> f64 {
        let cost = |(home, line, _): &(f64, f64, Option<Point>)| {
            COLUMN.mul_add(
                (column as f64 - home).abs(),
                ROW * (row as f64 - line).abs(),
            )
        };
        self.homes.iter().map(cost).fold(f64::INFINITY, f64::min)
    }
}
