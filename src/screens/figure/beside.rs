//! The figure beside a sheet, in a window that has room for both.

use pumpwright_engine::figures::{Frame, Grid, View, cells, list, scene};
use pumpwright_engine::problems::Problem;

use super::state::signs;
use crate::layout::Size;
use crate::theme::Look;

/// The least window that has room for both.
const ROOM: Size = Size {
    columns: 100,
    rows: 24,
};

/// Text beside a figure is no wider than this: longer lines are hard to follow.
const TEXT: usize = 62;

/// The widest figure that stands beside a sheet.
const WIDEST: usize = 76;

/// The columns between the text and the figure: a rule with air on both sides.
const APART: usize = 3;

/// Rows of the window that are not for the sheet: two borders, Next in two, keys.
const OTHER_ROWS: usize = 5;

/// A figure with the numbers in it, ready to be painted and read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// What is painted.
    pub grid: Grid,
    /// What is read.
    pub said: Vec<String>,
}

/// The columns of a figure beside a sheet, in a window that has room for one.
const fn columns(size: Size) -> Option<usize> {
    if size.columns < ROOM.columns || size.rows < ROOM.rows {
        return None;
    }
    let rest = size.inside() - APART;
    let left = rest.saturating_sub(TEXT);
    Some(if left < Frame::LEAST.columns {
        Frame::LEAST.columns
    } else if left > WIDEST {
        WIDEST
    } else {
        left
    })
}

impl Beside {
    /// The figure of a problem for a window, where the problem has one and the window
    /// has room.
    pub fn of(problem: &Problem, view: &View, size: Size, look: Look) -> Option<Self> {
        let frame = Frame {
            columns: columns(size)?,
            rows: size.rows - OTHER_ROWS,
        };
        let scene = scene(problem, view, frame)?;
        // A text that found no place would be missing here: the list has it all.
        let fits = scene.left_out.is_empty() && scene.frame.rows <= frame.rows;
        fits.then(|| Self {
            grid: cells(&scene, signs(look)),
            said: list(&scene),
        })
    }

    /// The columns that are left for the text.
    pub const fn text_columns(&self, size: Size) -> usize {
        let left = size
            .inside()
            .saturating_sub(self.grid.frame.columns + APART);
        if left < TEXT { left } else { TEXT }
    }

    /// The column of the window where the rule stands between the two.
    pub const fn rule(&self, size: Size) -> usize {
        size.columns - 2 - self.grid.frame.columns - 2
    }
}
