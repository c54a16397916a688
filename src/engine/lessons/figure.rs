//! A figure as a family has it: what it shows as data, bound to givens and steps.
//! How it is drawn is no matter of lessons.

use super::template::Template;
use crate::formulas::Formula;
use crate::quantities::Unit;

/// The drawings that a family may name. Whoever does not know one of them lists its points.
pub(super) const DRAWINGS: [&str; 3] = ["pressure-trace", "pump-curve", "tank-states"];

/// What a figure shows.
#[derive(Debug, Clone)]
pub struct FigurePlan {
    /// Which drawing it is.
    pub kind: String,
    /// What stands over it.
    pub title: Template,
    /// What each point has: the axes of a curve, the readings of a tank.
    pub columns: Vec<FigureColumn>,
    /// The curves, or the things drawn side by side.
    pub series: Vec<SeriesPlan>,
    /// Values marked on an axis.
    pub marks: Vec<MarkPlan>,
    /// Further values that the drawing needs, by name; no list prints them.
    pub values: Vec<(String, Formula)>,
}

/// One of the things that each point has.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureColumn {
    /// Its name.
    pub name: String,
    /// What it is.
    pub label: String,
    /// Its unit; none for words.
    pub unit: Option<Unit>,
    /// The grid to which a point is printed, in the unit; none for words.
    pub to: Option<f64>,
    /// The finest that can be read off its scale, in SI; none for words.
    pub scale: Option<f64>,
}

/// A curve, or one of several things drawn side by side.
#[derive(Debug, Clone)]
pub struct SeriesPlan {
    /// Its name.
    pub name: Template,
    /// Its points, each with a formula for each column.
    pub points: Vec<Vec<Formula>>,
}

/// A value marked on an axis.
#[derive(Debug, Clone)]
pub struct MarkPlan {
    /// What it is.
    pub label: Template,
    /// The place of the column on whose axis it stands.
    pub column: usize,
    /// The value.
    pub at: Formula,
}
