//! The worked solution as HTML: of each step the formula in words and with its numbers.
//! What stands in them is what [`working`] prints.
//!
//! [`working`]: super::working()

use super::problem::Problem;
use super::working::{Shown, ending};
use crate::formulas::{Value, escaped, html_numbers, html_words, with_numbers};
use crate::lessons::{StepPlan, basis};

/// The formula lines of one step, each HTML inside a line of text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HtmlLine {
    /// The step's name; empty for a line that only says what to do.
    pub id: String,
    /// The formula in words; empty where there is none.
    pub words: String,
    /// The formula with its numbers, a line each, with the result in the last one.
    pub numbers: Vec<String>,
}

/// The formula lines of each step, in the order of the worked solution.
pub fn working_html(problem: &Problem) -> Vec<HtmlLine> {
    let shown = Shown::of(problem);
    let steps = problem.variant.steps.iter();
    let line = |step: &StepPlan| {
        let (words, numbers) = lines(problem, &shown, step).unwrap_or_default();
        HtmlLine {
            id: step.id.clone(),
            words,
            numbers,
        }
    };
    steps.map(line).collect()
}

fn lines(problem: &Problem, shown: &Shown<'_>, step: &StepPlan) -> Option<(String, Vec<String>)> {
    let variant = &*problem.variant;
    let (formula, slot) = (step.body.formula()?, step.slot?);
    let value: &Value = problem.values.get(slot)?.as_ref()?;
    if let Some(column) = &step.reads {
        let words = format!("read off the figure: {}", escaped(column));
        return Some((words, vec![escaped(&shown.result(step, slot, value))]));
    }
    let (names, values) = (&variant.names, &problem.values);
    let basis = basis(variant.system);
    let words = html_words(formula, names, values, basis);
    let mut numbers = html_numbers(formula, names, values, basis, shown);
    // The plain line decides how its result is joined.
    let plain = with_numbers(formula, names, values, basis, shown);
    let result = shown.result(step, slot, value);
    let end = ending(plain.last().map(String::as_str), &result, value);
    match (numbers.last_mut(), end) {
        (Some(last), Some(end)) => last.push_str(&escaped(&end)),
        (None, Some(end)) => numbers.push(escaped(&end)),
        (_, None) => {}
    }
    Some((words, numbers))
}
