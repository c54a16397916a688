//! One entry of a logbook, as it is kept and handed from machine to machine.

use serde::{Deserialize, Serialize};

use super::id::Id;

/// The format of an entry that is written here.
pub const FORMAT: u32 = 1;

/// What a logbook keeps of one sheet that was handed in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// The format: 1.
    pub format: u32,
    /// Its id.
    pub id: Id,
    /// Whose it is.
    pub person: String,
    /// When it was handed in: milliseconds since 1970, UTC.
    pub at: i64,
    /// How far the person's clock was ahead of UTC, in minutes.
    pub zone: i32,
    /// The code of the problem.
    pub code: String,
    /// Its family.
    pub family: String,
    /// The lesson of the family.
    pub lesson: String,
    /// Its title.
    pub title: String,
    /// The level.
    pub level: u8,
    /// The system of units: `us` or `si`.
    pub units: String,
    /// What it was done for.
    pub purpose: Purpose,
    /// The sitting that it belongs to: the id of an exam that was begun.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sitting: Option<String>,
    /// The area of the exam that it counts for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area: Option<String>,
    /// Where it was done.
    pub place: Place,
    /// Seconds from the first sight of the sheet to the hand-in.
    pub seconds: u32,
    /// What was given.
    pub givens: Vec<GivenEntry>,
    /// The lines, in the order of the sheet.
    pub lines: Vec<LineEntry>,
    /// The marks earned; halves occur.
    pub marks: f64,
    /// The marks that could be earned.
    pub out_of: f64,
    /// The version of the program that made it.
    pub program: String,
}

/// What a sheet was done for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Purpose {
    /// Practice.
    Practice,
    /// A probe among the practice: drawn by the blueprint, without help.
    Probe,
    /// A question of an exam.
    Exam,
    /// A question of the refresher, with which people begin who are in the trade.
    Refresher,
    /// An item of an instructor's paper.
    Assignment,
}

impl Purpose {
    /// All purposes.
    pub const ALL: [Self; 5] = [
        Self::Practice,
        Self::Probe,
        Self::Exam,
        Self::Refresher,
        Self::Assignment,
    ];

    /// Its stable word, as an entry is written down with it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Practice => "practice",
            Self::Probe => "probe",
            Self::Exam => "exam",
            Self::Refresher => "refresher",
            Self::Assignment => "assignment",
        }
    }

    /// The purpose of this word.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|purpose| purpose.name() == name)
    }

    /// Whether it says what a person can do without choosing what suits: its tries
    /// are evidence for the forecast.
    pub const fn is_evidence(self) -> bool {
        !matches!(self, Self::Practice)
    }
}

/// Where a sheet was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// On the screen of the trainer.
    Screen,
    /// In plain lines.
    Plain,
    /// On paper, entered afterwards.
    Paper,
}

impl Place {
    /// All places.
    pub const ALL: [Self; 3] = [Self::Screen, Self::Plain, Self::Paper];

    /// Its stable word, as an entry is written down with it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Screen => "screen",
            Self::Plain => "plain",
            Self::Paper => "paper",
        }
    }

    /// The place of this word.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|place| place.name() == name)
    }
}

/// A given, as the sheet told it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct GivenEntry {
    /// Its name.
    pub name: String,
    /// What it is.
    pub label: String,
    /// Its value with its unit.
    pub text: String,
}

/// A line of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LineEntry {
    /// The name of the step.
    pub id: String,
    /// What was asked.
    pub label: String,
    /// What was typed first, as it was typed; empty where nothing was.
    pub typed: String,
    /// The right answer, as the working prints it.
    pub expected: String,
    /// The verdict, in its stable word.
    pub verdict: String,
    /// Whether the verdict says that the person can do it, or cannot; none where it
    /// says neither.
    pub right: Option<bool>,
    /// The marks earned.
    pub marks: f64,
    /// The marks that could be earned.
    pub out_of: f64,
    /// How many of the four steps of help were opened before.
    pub helped: u8,
    /// Whether the line stood there filled in from the start.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub given: bool,
    /// Seconds that it took, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<u32>,
    /// From how many offers it was picked; none where it was written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub options: Option<u8>,
    /// The family whose skill it exercises.
    pub skill: String,
    /// The known mistakes that it shows.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mistakes: Vec<String>,
}
