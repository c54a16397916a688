//! The first start: nothing is asked, so there is nothing to keep.

use crate::layout::Scroll;

/// The screen of the first start.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct First {
    /// Where it stands, in a low window.
    pub scroll: Scroll,
}
