//! What the slip holds.

use pumpwright_engine::problems::Help;

use crate::keys::Tool;
use crate::layout::Scroll;

/// How many steps of help there are.
pub const STEPS: usize = 4;

/// The line that is asked about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// The place of the line in the problem.
    pub line: usize,
    /// Its number on the sheet.
    pub number: usize,
    /// The four steps.
    pub steps: Vec<Help>,
    /// How many were given so far.
    pub given: usize,
}

impl About {
    /// What the record says of this line.
    pub const fn record(&self) -> &'static str {
        match self.given {
            0 => "record: without help",
            STEPS => "record: shown",
            _ => "record: with help",
        }
    }
}

/// The slip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slip {
    /// The line that is asked about, if there is one.
    pub about: Option<About>,
    /// The tools that have a use at this place.
    pub tools: Vec<Tool>,
    /// Why there is no help here, where that is so.
    pub no_help: Option<&'static str>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Slip {
    /// A slip about a line, or about none.
    pub fn new(about: Option<About>, tools: Vec<Tool>) -> Self {
        Self {
            about,
            tools,
            no_help: None,
            scroll: Scroll {
                top: 0,
                follow: true,
            },
        }
    }
}
