//! The standing screen: families with their state, turns, the forecast.

use pumpwright_engine::learner::{Stage, Week};

use crate::layout::Scroll;
use crate::picked::Picked;

/// A line that can be taken.
#[derive(Debug, Clone, PartialEq)]
pub enum Line {
    /// A family and how one stands in it.
    Family {
        /// Its id.
        family: String,
        /// The state.
        stage: Stage,
        /// The chance of a right step, and the ends of its interval; none where it
        /// was not met.
        chance: Option<(f64, (f64, f64))>,
        /// When it will need a refresher.
        refresh: String,
    },
    /// A turn that comes back.
    Turn {
        /// The family in which it is taken.
        family: String,
        /// The mistake's name.
        mistake: String,
        /// The turn in words.
        did: String,
        /// In how many of the last problems, and out of how many.
        times: (usize, usize),
    },
}

impl Line {
    /// The family that is practised.
    pub fn family(&self) -> &str {
        match self {
            Self::Family { family, .. } | Self::Turn { family, .. } => family,
        }
    }
}

/// The standing screen.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Standing {
    /// Whose it is, and the day.
    pub place: String,
    /// The lines, families before turns.
    pub lines: Vec<Line>,
    /// The last weeks, the newest last.
    pub weeks: Vec<Week>,
    /// The forecast, a line each: what it is for, and what is said.
    pub forecast: Vec<(String, String)>,
    /// What the forecast rests on.
    pub rests: String,
    /// The line that is taken.
    pub picked: Picked,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Standing {
    /// Puts the pen at a line, and writes its number.
    pub fn go(&mut self, line: usize) {
        self.picked.go(line, self.lines.len());
        self.scroll.follow();
    }

    /// The line that Enter takes; none where there is no such line.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.lines.len())
    }
}
