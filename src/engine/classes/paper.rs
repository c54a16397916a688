//! A paper as it is printed: the one value from which the page, the file for the screen,
//! the key, the strip and the record are made.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::plan::Plan;
use super::roster::Person;
use crate::problems::Problem;
use crate::quantities::System;

/// One person's paper.
#[derive(Debug, Clone)]
pub struct Paper {
    /// What stands at the head of every page.
    pub head: Head,
    /// Whose it is; the id is the number of the paper.
    pub person: Person,
    /// Which version, where several people have the same one.
    pub version: Option<u32>,
    /// The items in the order of the paper.
    pub items: Vec<PaperItem>,
    /// The marks to be expected of it, see [`super::difficulty`].
    pub expected: f64,
    /// How many items have the answer of a neighbor's, since the family had no other.
    pub coincide: u32,
}

/// What stands at the head of a paper, the same for a whole class.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Head {
    /// The plan's id.
    pub plan: String,
    /// The title.
    pub title: String,
    /// The day, as `2026-11-18`.
    pub date: Option<String>,
    /// The last day on which it may come in.
    pub due: Option<String>,
    /// `us` or `si`.
    pub units: String,
    /// The marks of the paper.
    pub marks: u32,
    /// The minutes that it takes.
    pub minutes: u32,
    /// The half marks that pass, where the plan has a pass mark.
    pub pass_halves: Option<u32>,
    /// What may be open, in a sentence.
    pub tables: String,
    /// What earns marks: `steps` or `answer`.
    pub marks_by: String,
}

/// One item of a paper.
#[derive(Debug, Clone)]
pub struct PaperItem {
    /// Its number on the paper, from one.
    pub number: usize,
    /// Its place in the plan, from zero: what is the same item on other papers.
    pub place: usize,
    /// The problem, its lines bearing the marks of this paper. It is sealed: print
    /// [`Problem::shown_code`].
    pub problem: Arc<Problem>,
    /// The marks of the item.
    pub marks: u32,
}

impl Head {
    /// The system of units of the paper.
    pub fn system(&self) -> System {
        let si = self.units == System::Si.letters();
        if si { System::Si } else { System::Us }
    }

    /// The head of a plan.
    pub fn of(plan: &Plan) -> Self {
        Self {
            plan: plan.id.clone(),
            title: plan.title.clone(),
            date: plan.date.clone(),
            due: plan.due.clone(),
            units: plan.system.letters().to_owned(),
            marks: plan.marks(),
            minutes: plan.minutes(),
            pass_halves: plan.pass_marks().map(crate::marking::Marks::in_halves),
            tables: plan.tables_allowed(),
            marks_by: plan.marks_by.word().to_owned(),
        }
    }
}
