//! The first start: nothing is asked.

use crate::layout::Scroll;

/// The screen of the first start.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct First {
    /// Whether what is written is kept after the stop.
    pub keeps: bool,
    /// Where it stands, in a low window.
    pub scroll: Scroll,
}
