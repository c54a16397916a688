//! The faults of the lesson files, and which one is shown.

use pumpwright_engine::lessons::Fault;

use crate::layout::Scroll;

/// What a fault stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A lesson file.
    Lessons,
    /// The settings file.
    Settings,
}

/// The faults of the lesson files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Faults {
    /// All of them.
    pub all: Vec<Fault>,
    /// The one that is shown.
    pub at: usize,
    /// What they stand in.
    pub of: Of,
    /// How many families work.
    pub families: usize,
    /// Where it stands.
    pub scroll: Scroll,
}
