//! What marking says: a verdict and marks for each line, and the score in words.

use std::fmt;
use std::ops::{Add, AddAssign};

/// Marks, counted in halves so that sums are exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Marks {
    halves: u32,
}

impl Marks {
    /// This many whole marks.
    pub const fn whole(marks: u32) -> Self {
        Self {
            halves: marks.saturating_mul(2),
        }
    }

    /// This many half marks.
    pub const fn halves(halves: u32) -> Self {
        Self { halves }
    }

    /// The marks as a number.
    pub fn number(self) -> f64 {
        f64::from(self.halves) / 2.0
    }

    /// How many half marks there are.
    pub const fn in_halves(self) -> u32 {
        self.halves
    }
}

impl Add for Marks {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            halves: self.halves.saturating_add(other.halves),
        }
    }
}

impl AddAssign for Marks {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl std::iter::Sum for Marks {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::default(), Add::add)
    }
}

impl fmt::Display for Marks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.number())
    }
}

/// A response handed in, line by line as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Response {
    /// The line's id and what was typed there; lines may be missing.
    pub answers: Vec<(String, String)>,
}

/// A marked response.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// One entry for each line that bears marks, in the order of the sheet.
    pub lines: Vec<MarkedLine>,
    /// The marks earned.
    pub score: Marks,
    /// The marks that could be earned.
    pub out_of: Marks,
    /// The score explained, a sentence each.
    pub explained: Vec<String>,
}

impl Marked {
    /// The first line that is worth another look.
    pub fn first_to_mend(&self) -> Option<&MarkedLine> {
        self.lines
            .iter()
            .find(|line| line.verdict.asks_for_a_look())
    }
}

/// One marked line.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedLine {
    /// The step's name.
    pub id: String,
    /// Its number among the lines that bear marks, from one.
    pub number: usize,
    /// What was typed, trimmed; empty where nothing was written.
    pub typed: String,
    /// What it was read as: `38 psi`, or the text of an offer.
    pub read_as: Option<String>,
    /// The verdict.
    pub verdict: Verdict,
    /// The verdict in words, as the sheet prints it.
    pub words: String,
    /// The marks earned.
    pub marks: Marks,
    /// The marks that could be earned.
    pub out_of: Marks,
    /// The likely turns.
    pub turns: Vec<Turn>,
    /// Whether the turns are alternatives: mistakes that give one figure, of which
    /// only one was made. In an arrangement every turn named was taken.
    pub alternatives: bool,
    /// What else is to be said: why a rounding matters, how a unit was read.
    pub note: Option<String>,
}

/// A likely wrong turn, and the way out of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// The mistake's name.
    pub mistake: String,
    /// In the apprentice's own voice.
    pub did: String,
    /// What is so.
    pub says: String,
    /// Which words or part of the sheet to look at.
    pub look: Option<String>,
    /// Whether it could kill or maim, and ends the item.
    pub fatal: bool,
}

/// What marking found at a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Right.
    Right,
    /// Right, worked from the learner's own earlier figure.
    Follows {
        /// The number of the line that it follows.
        line: usize,
    },
    /// Left empty, and borne by a later line that is right.
    Carried {
        /// The number of the line that bears it.
        by: usize,
    },
    /// The right figure with a unit of the wrong kind, or with none where one is wanted: half.
    UnitOfWrongKind,
    /// Right but for a unit: off by a factor between two units.
    UnitFactor,
    /// Rounded to the side that the line does not allow.
    RoundedWrongWay,
    /// A known mistake, or two that give the same figure.
    Mistake,
    /// A figure that could hurt someone; later lines do not follow it.
    Unsafe,
    /// Worked from an unsafe or unreadable figure, which is not followed.
    NotFollowed {
        /// The number of that line.
        line: usize,
    },
    /// An arrangement that is right in part.
    PartRight,
    /// None of these.
    LookHere,
    /// Nothing was written.
    NotWritten,
    /// It cannot be read; the words say what can.
    Unreadable,
}

impl Verdict {
    /// Whether the line is worth another look.
    pub const fn asks_for_a_look(&self) -> bool {
        !matches!(
            self,
            Self::Right | Self::Follows { .. } | Self::Carried { .. }
        )
    }

    /// A stable word for scripts.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Follows { .. } => "follows",
            Self::Carried { .. } => "carried",
            Self::UnitOfWrongKind => "unit-of-wrong-kind",
            Self::UnitFactor => "unit-factor",
            Self::RoundedWrongWay => "rounded-wrong-way",
            Self::Mistake => "mistake",
            Self::Unsafe => "unsafe",
            Self::NotFollowed { .. } => "not-followed",
            Self::PartRight => "part-right",
            Self::LookHere => "look-here",
            Self::NotWritten => "not-written",
            Self::Unreadable => "unreadable",
        }
    }
}
