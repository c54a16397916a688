//! The worked solution for the typesetter of papers: of each step the formula in words
//! and with its numbers, as pieces. What stands in them is what [`working`] prints.
//!
//! [`working`]: super::working()

use super::problem::Problem;
use super::working::{Shown, ending};
use crate::formulas::{Piece, Value, typeset_numbers, typeset_words};
use crate::lessons::{StepPlan, basis};

/// The formula lines of one step.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SetLine {
    /// The step's name; empty for a line that only says what to do.
    pub id: String,
    /// The formula in words; empty where there is none.
    pub words: Vec<Piece>,
    /// The formula with its numbers, a line each, with the result in the last one.
    pub numbers: Vec<Vec<Piece>>,
}

/// The formula lines of each step, in the order of the worked solution.
pub fn typeset(problem: &Problem) -> Vec<SetLine> {
    let shown = Shown::of(problem);
    let steps = problem.variant.steps.iter();
    steps.map(|step| line(problem, &shown, step)).collect()
}

fn line(problem: &Problem, shown: &Shown<'_>, step: &StepPlan) -> SetLine {
    let (words, numbers) = lines(problem, shown, step).unwrap_or_default();
    SetLine {
        id: step.id.clone(),
        words,
        numbers,
    }
}

fn lines(
    problem: &Problem,
    shown: &Shown<'_>,
    step: &StepPlan,
) -> Option<(Vec<Piece>, Vec<Vec<Piece>>)> {
    let variant = &*problem.variant;
    let (formula, slot) = (step.body.formula()?, step.slot?);
    let value: &Value = problem.values.get(slot)?.as_ref()?;
    if let Some(column) = &step.reads {
        let words = Piece::Prose(format!("read off the figure: {column}"));
        let result = Piece::Prose(shown.result(step, slot, value));
        return Some((vec![words], vec![vec![result]]));
    }
    let (names, values) = (&variant.names, &problem.values);
    let basis = basis(variant.system);
    let words = typeset_words(formula, names, values, basis);
    let mut numbers = typeset_numbers(formula, names, values, basis, shown);
    // The plain line decides how its result is joined.
    let plain = crate::formulas::with_numbers(formula, names, values, basis, shown);
    let result = shown.result(step, slot, value);
    let end = ending(plain.last().map(String::as_str), &result, value);
    match (numbers.last_mut(), end) {
        (Some(last), Some(end)) => last.push(Piece::Prose(end)),
        (None, Some(end)) => numbers.push(vec![Piece::Prose(end)]),
        (_, None) => {}
    }
    Some((words, numbers))
}
