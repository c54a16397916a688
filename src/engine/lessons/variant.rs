//! A problem family at one level in one system of units: everything that a draw
//! needs, with its formulas parsed and checked.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::figure::FigurePlan;
use super::kind::Kind;
use super::scene::ScenePlan;
use super::template::Template;
use crate::formulas::{Formula, Name, Table, Value};
use crate::quantities::{Quantity, System, Unit, print::Direction};

/// A problem family as its file heads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Family {
    /// Its id, as in problem codes.
    pub id: String,
    /// The lesson that it belongs to.
    pub lesson: String,
    /// Its title.
    pub title: String,
    /// The levels that it has, ascending.
    pub levels: Vec<u8>,
    /// The level that counts where none is asked for.
    pub home: u8,
    /// Minutes that it may take.
    pub minutes: Option<u32>,
    /// Seconds under which a first try is a rapid guess.
    pub quick: Option<u32>,
    /// Where its contents come from.
    pub sources: Vec<String>,
    /// The file that it was read from.
    pub file: String,
}

/// A family at one level in one system.
#[derive(Debug, Clone)]
pub struct Variant {
    /// The level.
    pub level: u8,
    /// The system of units.
    pub system: System,
    /// What sort of work its sheet asks for.
    pub kind: Kind,
    /// Every name, by slot: house rules, then givens, then steps.
    pub names: Vec<Name>,
    /// How many of the names are house rules.
    pub rule_count: usize,
    /// The house rules that decide anything here, by slot.
    pub rules_used: BTreeSet<usize>,
    /// A rule must have this value for the family to be drawn at all.
    pub only_if: Option<Formula>,
    /// The job; its paragraphs in one text.
    pub story: Template,
    /// The caution before the numbers.
    pub caution: Option<Template>,
    /// What varies by place or maker.
    pub varies: Option<Template>,
    /// What the figure is good for on the job.
    pub on_the_job: Option<Template>,
    /// The figure that stands beside the job.
    pub figure: Option<FigurePlan>,
    /// The givens, in order.
    pub givens: Vec<GivenPlan>,
    /// What a draw must meet.
    pub requires: Vec<Requirement>,
    /// The steps, in order.
    pub steps: Vec<StepPlan>,
    /// The jobs of an order, in right order.
    pub cards: Vec<CardPlan>,
    /// The tables whose rows steps find, by the place of the step.
    pub row_tables: BTreeMap<usize, Arc<Table>>,
    /// The known mistakes, in the order in which they are looked for.
    pub mistakes: Vec<MistakePlan>,
    /// What is drawn beside the sheet.
    pub scene: Option<ScenePlan>,
    /// Whether training or remembered figures stand in it.
    pub training: bool,
    /// The revision: a hash of whatever decides a number or a verdict.
    pub revision: u32,
}

/// How a given comes about.
#[derive(Debug, Clone)]
pub struct GivenPlan {
    /// Its slot.
    pub slot: usize,
    /// Whether it is shown; a hidden one only serves others.
    pub shown: bool,
    /// How it is drawn or derived.
    pub draw: Draw,
    /// One in the last place as it is printed, in SI; nothing for exact things.
    pub last_place: Option<f64>,
}

/// How a given gets its value.
#[derive(Debug, Clone)]
pub enum Draw {
    /// One of the values.
    Of(Vec<Value>),
    /// One of the rows for which the formula holds; the candidate is in `slot`.
    Row {
        /// The rows.
        rows: Pool,
        /// What a row must meet.
        where_: Option<Condition>,
    },
    /// Several rows.
    Some {
        /// The rows.
        rows: Pool,
        /// What each must meet.
        where_: Option<Condition>,
        /// The least number of rows.
        least: usize,
        /// The greatest number of rows.
        most: usize,
    },
    /// Derived from others, then brought to the nearest step of a grid.
    Is {
        /// The formula.
        formula: Formula,
        /// The grid in SI; none for rows and words.
        grid: Option<f64>,
    },
}

/// A condition on a candidate row, which it knows by its own slot.
#[derive(Debug, Clone)]
pub struct Condition {
    /// The formula.
    pub formula: Formula,
    /// The slot of the candidate, past all names.
    pub slot: usize,
}

/// The rows that a draw chooses among.
#[derive(Debug, Clone)]
pub enum Pool {
    /// All rows of a table.
    Table(Arc<Table>),
    /// The rows that a name holds: a house rule, or a set drawn before.
    Slot(usize),
}

/// What a draw must meet.
#[derive(Debug, Clone)]
pub struct Requirement {
    /// The formula.
    pub that: Formula,
    /// Why.
    pub why: String,
}

/// One step of the solution.
#[derive(Debug, Clone)]
pub struct StepPlan {
    /// Its name; empty for a line that only says what to do.
    pub id: String,
    /// Its slot; none for a line that only says what to do.
    pub slot: Option<usize>,
    /// What it finds, in words.
    pub label: String,
    /// The unit printed beside the blank.
    pub unit: Option<Unit>,
    /// How it is found.
    pub body: Body,
    /// How the answer is written.
    pub write: Option<Write>,
    /// How far off an answer may be; none: derived from the givens.
    pub within: Option<Within>,
    /// The span in which the value makes sense.
    pub sane: Option<(Quantity, Quantity)>,
    /// Whether it is asked on the sheet.
    pub ask: bool,
    /// The marks that it bears.
    pub marks: u32,
    /// The principle.
    pub says: Template,
    /// Why it is done or rounded so.
    pub why: Option<Template>,
    /// When a learner's figure is unsafe and so not followed.
    pub unsafe_if: Option<Formula>,
    /// The words for yes and no.
    pub words: Option<[String; 2]>,
    /// The family whose skill it exercises.
    pub skill: Option<String>,
    /// What the column of the figure is called off which the value is read.
    pub reads: Option<String>,
}

/// How a step is found.
#[derive(Debug, Clone)]
pub enum Body {
    /// By a formula.
    Is(Formula),
    /// By a formula; answered by picking one of the offers.
    Offer {
        /// The formula, which gives a row.
        formula: Formula,
        /// The column whose words are offered.
        column: usize,
        /// How many offers.
        count: usize,
        /// What a row must meet to be offered beside the right one.
        where_: Option<Condition>,
        /// The column that says what a row would show, told where it is wrongly picked.
        shows: Option<usize>,
    },
    /// By putting jobs in order.
    Order {
        /// The least number of jobs shown.
        least: usize,
        /// The greatest number of jobs shown.
        most: usize,
    },
    /// By matching parts to their meanings.
    Match(MatchPlan),
    /// A line that says what to do and bears no mark.
    Does(Template),
}

impl Body {
    /// The formula, where there is one.
    pub const fn formula(&self) -> Option<&Formula> {
        match self {
            Self::Is(formula) | Self::Offer { formula, .. } => Some(formula),
            Self::Order { .. } | Self::Match(_) | Self::Does(_) => None,
        }
    }
}

/// A matching: rows of a table, two of its columns.
#[derive(Debug, Clone)]
pub struct MatchPlan {
    /// The table.
    pub table: Arc<Table>,
    /// What a row must meet to be shown.
    pub where_: Option<Condition>,
    /// The column of the parts.
    pub left: usize,
    /// The column of the meanings.
    pub right: usize,
    /// The least number of parts.
    pub least: usize,
    /// The greatest number of parts.
    pub most: usize,
    /// How many meanings are left over.
    pub spare: usize,
}

/// How an answer is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Write {
    /// To which side.
    pub direction: Direction,
    /// The grid, in SI.
    pub grid: f64,
    /// The grid in the unit of the step.
    pub grid_shown: f64,
}

/// How far off an answer may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Within {
    /// Not at all.
    Exact,
    /// By this share of the value.
    Share(f64),
    /// By this much, in SI.
    By(f64),
}

/// A job to be put in order.
#[derive(Debug, Clone)]
pub struct CardPlan {
    /// Its id.
    pub id: String,
    /// Its text.
    pub text: String,
    /// The cards that must come before it, by place; none where it is a decoy.
    pub after: Vec<usize>,
    /// Whether it is always shown.
    pub always: bool,
    /// Whether it belongs in no order.
    pub decoy: bool,
    /// When it may be shown.
    pub when: Option<Formula>,
}

/// A wrong turn that apprentices are known to take.
#[derive(Debug, Clone)]
pub struct MistakePlan {
    /// Its name.
    pub id: String,
    /// The place of the step where it is made.
    pub step: usize,
    /// What it does there.
    pub way: Way,
    /// In the apprentice's own voice.
    pub did: Template,
    /// What is so.
    pub says: Template,
    /// Which words or part of the sheet to look at.
    pub look: Option<Template>,
    /// When it can be made.
    pub when: Option<Formula>,
    /// Whether it ends the item.
    pub fatal: bool,
}

/// What a mistake does.
#[derive(Debug, Clone)]
pub enum Way {
    /// Another formula in place of the step's.
    Is(Formula),
    /// Arithmetic on the bare printed figures, read in the step's unit.
    Figures(Formula),
    /// The first card before the second.
    Early(usize, usize),
    /// A card that does not belong.
    Uses(usize),
    /// A card left out.
    Omits(usize),
    /// A part with this wrong meaning, by the rows of the two.
    Pair(usize, usize),
}

impl Variant {
    /// The place of a step in the list, by its name.
    pub fn step(&self, id: &str) -> Option<usize> {
        self.steps
            .iter()
            .position(|step| step.id == id && step.slot.is_some())
    }

    /// Whether every step finds a figure, a row or a yes or no by a formula: such a
    /// problem can be asked as a choice among the right figure and its mistakes.
    pub fn is_numeric(&self) -> bool {
        self.steps
            .iter()
            .all(|step| matches!(step.body, Body::Is(_) | Body::Does(_)))
    }

    /// The slots that a step's value rests on, through other steps and derived givens.
    pub fn rests_on(&self, step: usize) -> BTreeSet<usize> {
        let mut found = BTreeSet::new();
        let mut open: Vec<usize> = self.direct(self.steps.get(step).and_then(|step| step.slot));
        while let Some(slot) = open.pop() {
            if found.insert(slot) {
                open.extend(self.direct(Some(slot)));
            }
        }
        found
    }

    fn direct(&self, slot: Option<usize>) -> Vec<usize> {
        let Some(slot) = slot else { return Vec::new() };
        let step = self.steps.iter().find(|step| step.slot == Some(slot));
        if let Some(formula) = step.and_then(|step| step.body.formula()) {
            return formula.slots().iter().copied().collect();
        }
        let given = self.givens.iter().find(|given| given.slot == slot);
        match given.map(|given| &given.draw) {
            Some(Draw::Is { formula, .. }) => formula.slots().iter().copied().collect(),
            _ => Vec::new(),
        }
    }
}
