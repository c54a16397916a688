//! A figure as shapes and texts in a frame of columns and rows, and as a list of
//! labelled numbers. A surface draws it or reads it; none works anything out.

/// A place: columns from the left, rows from the top, both from zero and broken.
pub type Point = (f64, f64);

/// How large a frame is, in columns and rows of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Frame {
    /// Its columns.
    pub columns: usize,
    /// Its rows.
    pub rows: usize,
}

impl Frame {
    /// The smallest frame that every figure fits in.
    pub const LEAST: Self = Self {
        columns: 34,
        rows: 18,
    };
    /// What a screen of 80 by 24 has room for.
    pub const SCREEN: Self = Self {
        columns: 76,
        rows: 20,
    };

    /// The frame, or the least that does.
    #[must_use]
    pub fn at_least(self) -> Self {
        Self {
            columns: self.columns.max(Self::LEAST.columns),
            rows: self.rows.max(Self::LEAST.rows),
        }
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// A thing's outline.
    Line,
    /// A thing that counts most, or a curve.
    Heavy,
    /// What is not there or not so: a limit, a level asked.
    Dashed,
    /// What leads the eye from a text to its place.
    Guide,
}

/// What an area is filled with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// Water.
    Water,
    /// Ground.
    Ground,
    /// Grout, or another solid part.
    Solid,
}

/// A mark at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// A point.
    Dot,
    /// A cross.
    Cross,
    /// An arrow's head.
    Up,
    /// An arrow's head.
    Down,
    /// An arrow's head.
    Left,
    /// An arrow's head.
    Right,
    /// A level: an open triangle that stands on the water.
    Level,
}

/// A shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Straight pieces, one after another.
    Path {
        /// The corners.
        points: Vec<Point>,
        /// How it is drawn.
        ink: Ink,
    },
    /// A filled rectangle without an outline.
    Area {
        /// Its upper left corner.
        from: Point,
        /// Its lower right corner.
        to: Point,
        /// What fills it.
        fill: Fill,
    },
    /// A mark.
    Mark {
        /// Its place.
        at: Point,
        /// What it is.
        mark: Mark,
    },
}

/// How a text is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// The heading.
    Title,
    /// A figure or a part by its name.
    Plain,
    /// What counts most.
    Strong,
    /// Ticks of a scale, and what is said of the figure as a whole.
    Faint,
}

/// A text in its place: a row of cells from a column on.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The first column.
    pub column: usize,
    /// The row.
    pub row: usize,
    /// So much lower than its row it belongs, in rows, half a row at most: a page of vectors
    /// sets it there, cells cannot.
    pub lower: f64,
    /// The text, one row of it.
    pub text: String,
    /// How it is drawn.
    pub tone: Tone,
}

impl Label {
    /// Its cells.
    pub fn width(&self) -> usize {
        wide(&self.text)
    }
}

/// A labelled number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Value {
    /// What it is.
    pub label: String,
    /// The number with its unit, or a question mark where it is asked.
    pub text: String,
}

/// A figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Its heading.
    pub title: String,
    /// Its frame.
    pub frame: Frame,
    /// Its shapes, the lowest first.
    pub shapes: Vec<Shape>,
    /// Its texts.
    pub labels: Vec<Label>,
    /// Its numbers, in the order in which they are read.
    pub values: Vec<Value>,
    /// What is said of its scale.
    pub scale: String,
    /// What can hurt where such work is done.
    pub caution: Option<String>,
    /// Texts that found no place in the frame; a surface says them below it.
    pub left_out: Vec<String>,
}

/// The cells of a text.
pub(super) fn wide(text: &str) -> usize {
    unicode_width::UnicodeWidthStr::width(text)
}
