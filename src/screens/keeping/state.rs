//! A sheet on its way to the disk.

use pumpwright_engine::entries::Entry;

use crate::blank::Blank;
use crate::handed_in::HandedIn;
use crate::layout::Scroll;

/// A sheet on its way to the disk.
#[derive(Debug, Clone)]
pub struct Keeping {
    /// The sheet, marked; shown when it is kept.
    pub sheet: HandedIn,
    /// What is written down of it.
    pub entry: Entry,
    /// Why it could not be written down, if it could not.
    pub trouble: Option<String>,
    /// The letter of what to do then.
    pub choice: Blank,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Keeping {
    /// A sheet that was handed over just now.
    pub fn new(sheet: HandedIn, entry: Entry) -> Self {
        Self {
            sheet,
            entry,
            trouble: None,
            choice: Blank::default(),
            scroll: Scroll::default(),
        }
    }
}
