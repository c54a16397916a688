//! A scene in cells of a terminal: box drawing for what is straight, braille for
//! what is not, ASCII for both where it must be.

use super::scene::{Fill, Frame, Ink, Mark, Point, Scene, Shape, Tone};

/// Which signs may be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signs {
    /// Lines, blocks and braille.
    Drawn,
    /// ASCII alone.
    Ascii,
}

/// What a cell shows, so that a surface can paint it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paint {
    /// Nothing.
    #[default]
    Blank,
    /// A line.
    Line,
    /// A line that leads to a text.
    Guide,
    /// Water.
    Water,
    /// Ground, or another solid part.
    Ground,
    /// A mark.
    Mark,
    /// A text.
    Text(Tone),
}

/// A scene in cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    /// Its frame.
    pub frame: Frame,
    cells: Vec<(char, Paint)>,
}

impl Grid {
    /// A row as text, without the blanks at its end.
    pub fn row(&self, row: usize) -> String {
        let cells = self.cells(row).iter().map(|(sign, _)| sign);
        cells.collect::<String>().trim_end().to_owned()
    }

    /// The cells of a row.
    pub fn cells(&self, row: usize) -> &[(char, Paint)] {
        let from = row * self.frame.columns;
        self.cells
            .get(from..from + self.frame.columns)
            .unwrap_or_default()
    }

    /// All rows as text.
    pub fn rows(&self) -> Vec<String> {
        (0..self.frame.rows).map(|row| self.row(row)).collect()
    }
}

/// Draws a scene in cells.
pub fn cells(scene: &Scene, signs: Signs) -> Grid {
    let mut canvas = Canvas::new(scene.frame);
    canvas.shapes(&scene.shapes);
    let mut cells: Vec<(char, Paint)> = (0..canvas.spots.len())
        .map(|at| canvas.sign(at, signs))
        .collect();
    for label in &scene.labels {
        for (column, sign) in (label.column..).zip(label.text.chars()) {
            let sign = match signs {
                Signs::Drawn => sign,
                Signs::Ascii => ascii(sign),
            };
            let at = label.row * scene.frame.columns + column;
            if column < scene.frame.columns
                && let Some(cell) = cells.get_mut(at)
            {
                *cell = (sign, Paint::Text(label.tone));
            }
        }
    }
    Grid {
        frame: scene.frame,
        cells,
    }
}

/// The cells that a shape's line runs through: a text had better stand elsewhere.
pub(super) fn covered(frame: Frame, shapes: &[Shape]) -> Vec<bool> {
    let mut canvas = Canvas::new(frame);
    canvas.shapes(shapes);
    let busy = |spot: &Spot| spot.arms != 0 || spot.dots != 0 || spot.mark.is_some();
    canvas.spots.iter().map(busy).collect()
}

/// An ASCII sign in place of one that is none.
const fn ascii(sign: char) -> char {
    match sign {
        '×' => 'x',
        '–' | '−' => '-',
        '·' => '.',
        sign if sign.is_ascii() => sign,
        _ => '?',
    }
}

const UP: u8 = 1;
const DOWN: u8 = 2;
const LEFT: u8 = 4;
const RIGHT: u8 = 8;

/// The lines that meet in a cell, by their arms: up, down, left, right.
const LIGHT: [char; 16] = [
    ' ', '│', '│', '│', '─', '┘', '┐', '┤', '─', '└', '┌', '├', '─', '┴', '┬', '┼',
];
const HEAVY: [char; 16] = [
    ' ', '┃', '┃', '┃', '━', '┛', '┓', '┫', '━', '┗', '┏', '┣', '━', '┻', '┳', '╋',
];

#[derive(Debug, Clone, Copy, Default)]
struct Spot {
    arms: u8,
    /// The ink of the arms; where they differ, that of a plain line.
    ink: Option<Ink>,
    dots: u8,
    /// Whether the dots are those of a curve, and not of a guide.
    curve: bool,
    fill: Option<Fill>,
    mark: Option<Mark>,
}

struct Canvas {
    frame: Frame,
    spots: Vec<Spot>,
}

impl Canvas {
    fn new(frame: Frame) -> Self {
        Self {
            frame,
            spots: vec![Spot::default(); frame.columns * frame.rows],
        }
    }

    /// Guides come last: they give way to every other line.
    fn shapes(&mut self, shapes: &[Shape]) {
        for shape in shapes {
            match shape {
                Shape::Path { points, ink } if *ink != Ink::Guide => self.path(points, *ink),
                Shape::Path { .. } => {}
                Shape::Area { from, to, fill } => self.area(*from, *to, *fill),
                Shape::Mark { at, mark } => {
                    if let Some(spot) = self.spot(at.0.floor(), at.1.floor()) {
                        spot.mark = Some(*mark);
                    }
                }
            }
        }
        for shape in shapes {
            if let Shape::Path {
                points,
                ink: Ink::Guide,
            } = shape
            {
                self.path(points, Ink::Guide);
            }
        }
    }

    fn spot(&mut self, column: f64, row: f64) -> Option<&mut Spot> {
        let inside = (0.0..self.frame.columns as f64).contains(&column)
            && (0.0..self.frame.rows as f64).contains(&row);
        let at = inside.then(|| row as usize * self.frame.columns + column as usize)?;
        self.spots.get_mut(at)
    }

    fn area(&mut self, from: Point, to: Point, fill: Fill) {
        let (mut row, last) = ((from.1 - 0.5).ceil(), to.1 - 0.5);
        while row < last + 1e-9 {
            let mut column = (from.0 - 0.5).ceil();
            while column < to.0 - 0.5 + 1e-9 {
                if let Some(spot) = self.spot(column, row) {
                    spot.fill = Some(fill);
                }
                column += 1.0;
            }
            row += 1.0;
        }
    }

    fn path(&mut self, points: &[Point], ink: Ink) {
        let level = |one: f64, two: f64| (one - two).abs() < 1e-9;
        let pieces = || points.iter().zip(points.iter().skip(1));
        let slanted = pieces().any(|(one, two)| !level(one.0, two.0) && !level(one.1, two.1));
        for (one, two) in pieces() {
            if slanted {
                self.dots(*one, *two, ink);
            } else if level(one.1, two.1) {
                self.straight((one.0, two.0), one.1, (LEFT, RIGHT), ink);
            } else {
                self.straight((one.1, two.1), one.0, (UP, DOWN), ink);
            }
        }
    }

    /// A line along a row or a column: `from` and `to` along it, `across` the other way.
    fn straight(&mut self, (from, to): (f64, f64), across: f64, arms: (u8, u8), ink: Ink) {
        let (first, last) = (from.min(to).floor(), from.max(to).floor());
        let mut at = first;
        while at <= last {
            let mut own = 0;
            if at > first || first == last {
                own |= arms.0;
            }
            if at < last || first == last {
                own |= arms.1;
            }
            let place = if arms.0 == LEFT {
                (at, across.floor())
            } else {
                (across.floor(), at)
            };
            if let Some(spot) = self.spot(place.0, place.1) {
                spot.add(own, ink);
            }
            at += 1.0;
        }
    }

    fn dots(&mut self, from: Point, to: Point, ink: Ink) {
        let steps = ((to.0 - from.0).abs() * 2.0)
            .max((to.1 - from.1).abs() * 4.0)
            .ceil()
            .max(1.0);
        let mut step = 0.0;
        while step <= steps {
            let share = step / steps;
            let x = (to.0 - from.0).mul_add(share, from.0);
            let y = (to.1 - from.1).mul_add(share, from.1);
            let (column, row) = (x.floor(), y.floor());
            let (left, sub) = (x - column < 0.5, ((y - row) * 4.0).floor());
            let skips = match ink {
                Ink::Dashed => step % 6.0 > 3.0,
                Ink::Guide => step % 2.0 > 0.5,
                Ink::Line | Ink::Heavy => false,
            };
            if !skips && let Some(spot) = self.spot(column, row) {
                spot.dot(left, sub as u8, ink);
            }
            step += 1.0;
        }
    }

    fn sign(&self, at: usize, signs: Signs) -> (char, Paint) {
        let spot = self.spots.get(at).copied().unwrap_or_default();
        let drawn = signs == Signs::Drawn;
        if let Some(mark) = spot.mark {
            return (mark_sign(mark, drawn), Paint::Mark);
        }
        if spot.dots != 0 && (spot.curve || spot.arms == 0) {
            let paint = if spot.curve {
                Paint::Line
            } else {
                Paint::Guide
            };
            return (spot.dotted(drawn), paint);
        }
        if spot.arms != 0 {
            let paint = if spot.ink == Some(Ink::Guide) {
                Paint::Guide
            } else {
                Paint::Line
            };
            return (spot.boxed(drawn), paint);
        }
        match spot.fill {
            Some(Fill::Water) => (if drawn { '░' } else { '~' }, Paint::Water),
            Some(Fill::Ground) => (if drawn { '▒' } else { ':' }, Paint::Ground),
            Some(Fill::Solid) => (if drawn { '▓' } else { '#' }, Paint::Ground),
            None => (' ', Paint::Blank),
        }
    }
}

impl Spot {
    fn add(&mut self, arms: u8, ink: Ink) {
        let empty = self.arms == 0;
        if ink == Ink::Guide {
            if empty && self.dots == 0 {
                self.arms = arms;
                self.ink = Some(Ink::Guide);
            } else if self.ink == Some(Ink::Guide) {
                self.arms |= arms;
            }
            return;
        }
        let alike = empty || self.ink == Some(ink);
        self.ink = Some(if alike { ink } else { Ink::Line });
        self.arms |= arms;
    }

    const fn dot(&mut self, left: bool, sub: u8, ink: Ink) {
        if matches!(ink, Ink::Guide) && (self.arms != 0 || self.curve) {
            return;
        }
        let bit = match (left, sub) {
            (true, 0) => 0x01,
            (true, 1) => 0x02,
            (true, 2) => 0x04,
            (false, 0) => 0x08,
            (false, 1) => 0x10,
            (false, 2) => 0x20,
            (true, _) => 0x40,
            (false, _) => 0x80,
        };
        self.dots |= bit;
        self.curve |= !matches!(ink, Ink::Guide);
    }

    fn dotted(self, drawn: bool) -> char {
        if drawn {
            char::from_u32(0x2800 + u32::from(self.dots)).unwrap_or('.')
        } else if self.curve {
            '*'
        } else {
            '.'
        }
    }

    fn boxed(self, drawn: bool) -> char {
        let across = self.arms & (LEFT | RIGHT) != 0;
        let down = self.arms & (UP | DOWN) != 0;
        let straight = across != down;
        let (heavy, guide) = (self.ink == Some(Ink::Heavy), self.ink == Some(Ink::Guide));
        let broken = self.ink == Some(Ink::Dashed);
        match (drawn, straight) {
            (true, true) if guide => {
                if across {
                    '┈'
                } else {
                    '┊'
                }
            }
            (true, true) if broken => {
                if across {
                    '╌'
                } else {
                    '╎'
                }
            }
            (true, _) => {
                let set = if heavy { HEAVY } else { LIGHT };
                set.get(usize::from(self.arms)).copied().unwrap_or(' ')
            }
            (false, true) if guide || broken => {
                if across {
                    '.'
                } else {
                    ':'
                }
            }
            (false, true) if heavy && across => '=',
            (false, true) => {
                if across {
                    '-'
                } else {
                    '|'
                }
            }
            (false, false) => '+',
        }
    }
}

const fn mark_sign(mark: Mark, drawn: bool) -> char {
    match (mark, drawn) {
        (Mark::Dot, true) => '●',
        (Mark::Dot, false) => 'o',
        (Mark::Cross, true) => '×',
        (Mark::Cross, false) => 'x',
        (Mark::Up, true) => '▲',
        (Mark::Up, false) => '^',
        (Mark::Down, true) => '▼',
        (Mark::Down | Mark::Level, false) => 'v',
        (Mark::Left, true) => '◄',
        (Mark::Left, false) => '<',
        (Mark::Right, true) => '►',
        (Mark::Right, false) => '>',
        (Mark::Level, true) => '▽',
    }
}
