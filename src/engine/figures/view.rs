//! From where a figure is looked at: before the sheet is handed in, worked, or as
//! the learner's own figures would have it.

use std::collections::BTreeSet;

use crate::formulas::Value;
use crate::problems::Problem;
use crate::problems::solve::{as_row, step_value};

/// What the one who looks may know.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The sheet is open: what it asks is not shown.
    Before,
    /// The working is open: all is shown.
    Worked,
    /// The learner's own figures in place of the right ones.
    Yours,
}

/// A view of a problem.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// What may be known.
    pub seen: Seen,
    /// The values by slot.
    pub(super) values: Vec<Option<Value>>,
    /// The steps, by slot, whose values may be shown.
    pub(super) open: BTreeSet<usize>,
}

impl View {
    /// As the sheet shows it before it is handed in.
    pub fn before(problem: &Problem) -> Self {
        Self {
            seen: Seen::Before,
            values: problem.values.clone(),
            open: BTreeSet::new(),
        }
    }

    /// As the worked sheet shows it.
    pub fn worked(problem: &Problem) -> Self {
        let steps = problem.variant.steps.iter();
        Self {
            seen: Seen::Worked,
            values: problem.values.clone(),
            open: steps.filter_map(|step| step.slot).collect(),
        }
    }

    /// As it may be shown when the working is open up to here: these steps' values, by
    /// their places in the variant's list, and nothing beyond.
    pub fn up_to(problem: &Problem, steps: impl IntoIterator<Item = usize>) -> Self {
        let steps = steps.into_iter();
        let slots = steps.filter_map(|step| problem.variant.steps.get(step)?.slot);
        Self {
            open: slots.collect(),
            ..Self::before(problem)
        }
    }

    /// As the learner's own figures would have it, each with the place of its step:
    /// what no line asks follows from them, and a line left empty has no value.
    pub fn yours(problem: &Problem, written: &[(usize, Value)]) -> Self {
        let variant = &problem.variant;
        let mut values = problem.values.clone();
        let mut open = BTreeSet::new();
        for (at, step) in variant.steps.iter().enumerate() {
            let Some(slot) = step.slot else { continue };
            let own = written.iter().find(|(step, _)| *step == at);
            let value = match own {
                Some((_, value)) => Some(as_row(variant, at, value.clone())),
                None if step.ask => None,
                None => step_value(variant, step, &values).ok().flatten(),
            };
            if value.is_some() {
                open.insert(slot);
            }
            if let Some(place) = values.get_mut(slot) {
                *place = value;
            }
        }
        Self {
            seen: Seen::Yours,
            values,
            open,
        }
    }
}
