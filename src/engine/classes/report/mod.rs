//! What a class's marks say: what to teach again, which lines are missed, how the marks
//! are spread, how reliable the paper is. One value, which page, table, plain lines and
//! screen all read.
//!
//! No name and no paper's number is in it, and nobody is ranked. Who is not in counts as
//! not in; what was dropped, or cannot be marked, counts nowhere. [`Gathered`] takes in a
//! class's papers one plan at a time and forgets them; [`Gathered::report`] makes the
//! value. The order in which people stand changes nothing in it.

mod board;
mod gather;
mod items;
mod next;
mod plain;
mod read_table;
mod spread;
mod steps;
mod table;
mod turns;

pub use gather::Gathered;
pub use next::{Findings, Missed, next_plan};
pub use plain::{Plain, plain};
pub use read_table::read_table;
pub use spread::{Bin, Pass, Spread};
pub use table::{BEGINS, table};

use crate::marking::Marks;
use crate::statistics::Interval;
pub use crate::statistics::LEAST_PERSONS;

/// The report of a class, or of several pooled.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Each class's paper that it is of, class by class, in the order of their days.
    pub sittings: Vec<Sitting>,
    /// The turns to teach again: the one that most people took comes first.
    pub teach: Vec<Turn>,
    /// The lines that were missed, the one missed most often first.
    pub steps: Vec<Step>,
    /// Each plan's figures, pooled over its classes.
    pub plans: Vec<PlanFigures>,
    /// The families that were met, those longest ago first.
    pub families: Vec<Met>,
    /// What is to be said beside the figures, a sentence each.
    pub notes: Vec<String>,
}

/// One class's paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Sitting {
    /// What the class is called.
    pub class: String,
    /// The plan's id.
    pub plan: String,
    /// Its title.
    pub title: String,
    /// The day of the paper, as `2026-11-18`.
    pub date: Option<String>,
    /// `us` or `si`.
    pub units: String,
    /// How many people have a paper.
    pub papers: usize,
    /// How many of them handed in.
    pub came_in: usize,
    /// The items that count for nobody, by their numbers in the plan.
    pub dropped: Vec<usize>,
    /// How the marks are spread.
    pub spread: Spread,
}

/// A family that was met at a level.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Met {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// Whether it was in a class's last paper.
    pub lately: bool,
}

/// A known mistake that people made.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// Its place, from one: by how many people made it. Equal numbers share a place.
    pub rank: usize,
    /// Whether another one shares the place.
    pub tied: bool,
    /// The family.
    pub family: String,
    /// What the family is called.
    pub title: String,
    /// The level.
    pub level: u8,
    /// The mistake's name in the family.
    pub mistake: String,
    /// In the apprentice's own voice.
    pub did: String,
    /// What is so.
    pub says: String,
    /// Whether it could kill or maim.
    pub fatal: bool,
    /// How many people made it.
    pub made: usize,
    /// How many of these may have made another one that gives the same figure.
    pub perhaps: usize,
    /// How many people had a problem in which it can be made.
    pub met: usize,
    /// The 80 % interval of its share: what another such class might show.
    pub between: Interval,
    /// For each of the sittings: how many made it, how many met it; none where nobody did.
    pub seen: Vec<Option<(usize, usize)>>,
    /// Whether one class made it in more than one of its papers.
    pub comes_back: bool,
    /// The code of a problem for the board, whose right figure and whose figure by this turn
    /// lie well apart; none where no such draw was found.
    pub board: Option<String>,
}

/// A line of an item, over the hand-ins that have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The plan's id.
    pub plan: String,
    /// The item's number in the plan, from one.
    pub item: usize,
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// Its number among the lines that are asked, from one.
    pub line: usize,
    /// The step's name.
    pub step: String,
    /// What it finds, in words.
    pub label: String,
    /// How many hand-ins have it: the next four together.
    pub met: usize,
    /// Right.
    pub right: usize,
    /// Right, worked from an earlier figure that is off.
    pub follows: usize,
    /// Left empty, and borne by a later line that is right.
    pub carried: usize,
    /// Missed.
    pub missed: usize,
    /// Of these, empty.
    pub empty: usize,
    /// Of these, worked from a figure that is not followed since it could hurt someone.
    pub unfollowed: usize,
}

/// The figures of a plan, pooled over the classes that sat it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanFigures {
    /// The plan's id.
    pub plan: String,
    /// Its title.
    pub title: String,
    /// What rows of it are called: its id, and its classes where another plan has the same.
    pub label: String,
    /// The classes that are pooled, where another plan has the same id; else empty.
    pub of: String,
    /// How many classes are pooled.
    pub classes: usize,
    /// How many hand-ins count: those in which every item that counts is marked.
    pub hand_ins: usize,
    /// How many hand-ins do not, since an item of theirs cannot be marked.
    pub left_out: usize,
    /// How reliable the paper is.
    pub reliability: Reliability,
    /// The items that count for all, in the order of the plan.
    pub items: Vec<Item>,
}

/// How reliable a paper is, or why that is not said.
#[derive(Debug, Clone, PartialEq)]
pub enum Reliability {
    /// There are too few hand-ins.
    Missing {
        /// So many are needed.
        needs: usize,
        /// So many are here.
        here: usize,
    },
    /// The marks do not differ, or there is one item: nothing can be said.
    Alike,
    /// It is known.
    Known(Known),
}

/// How reliable a paper is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// Coefficient alpha.
    pub alpha: f64,
    /// Whether it is KR-20: every item bears the same, and was right or wrong.
    pub is_kr20: bool,
    /// Its 95 % interval.
    pub between: Option<Interval>,
    /// The standard error of measurement, in marks.
    pub error: f64,
    /// How many hand-ins lie within it of the pass mark, where there is one.
    pub near_pass: Option<usize>,
}

/// An item of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Its number in the plan, from one.
    pub item: usize,
    /// The families that it was drawn from, each with its level.
    pub families: Vec<(String, u8)>,
    /// The marks that it bears.
    pub bears: Marks,
    /// How many hand-ins count.
    pub hand_ins: usize,
    /// How many of them earned all of it.
    pub whole: usize,
    /// Difficulty and correlation; none below [`LEAST_PERSONS`] hand-ins.
    pub figures: Option<crate::statistics::TalliedItem>,
}

impl Report {
    /// How many people have a paper, over all sittings, and how many handed in.
    pub fn came_in(&self) -> (usize, usize) {
        let sittings = self.sittings.iter();
        sittings.fold((0, 0), |(came, papers), own| {
            (came + own.came_in, papers + own.papers)
        })
    }

    /// What is said where there is no turn to teach again.
    pub fn without_turns(&self) -> &'static str {
        match self.came_in() {
            (0, _) => "Nobody is in yet.",
            _ => "No known mistake was made.",
        }
    }

    /// The title of the page.
    pub fn title(&self) -> String {
        match self.sittings.as_slice() {
            [] => "Class report".to_owned(),
            [one] => format!("Class report: {}", one.title),
            several => format!("Class report: {} papers", several.len()),
        }
    }
}

impl Reliability {
    /// Why it is not shown, in words; none where it is.
    pub fn missing(&self) -> Option<String> {
        match self {
            Self::Missing { needs, here } => Some(format!(
                "not shown: it needs {needs} hand-ins of this plan, {here} {} here",
                if *here == 1 { "is" } else { "are" }
            )),
            Self::Alike => {
                Some("not shown: there is one item, or all marks are the same".to_owned())
            }
            Self::Known(_) => None,
        }
    }
}

impl Known {
    /// What the coefficient is called.
    pub const fn name(&self) -> &'static str {
        if self.is_kr20 {
            "KR-20"
        } else {
            "Coefficient alpha"
        }
    }
}
