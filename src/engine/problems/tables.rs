//! Which tables of the library a sheet has to do with. No table is printed here.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::problem::Problem;
use crate::formulas::Value;
use crate::lessons::{Body, Draw, Pool, StepPlan};

/// The tables that a line of the sheet uses, the nearest first: those that its
/// formula searches or whose rows it reads, then those behind what it rests on.
/// The line goes by its place in `problem.lines`.
pub fn tables_used(problem: &Problem, line: usize) -> Vec<Arc<str>> {
    let variant = &problem.variant;
    let Some(at) = problem.lines.get(line).map(|line| line.step) else {
        return Vec::new();
    };
    let Some(step) = variant.steps.get(at) else {
        return Vec::new();
    };
    let mut found = of_step(problem, step);
    found.extend(variant.row_tables.get(&at).map(|table| table.name.clone()));
    for slot in variant.rests_on(at) {
        found.extend(of_slot(problem, slot));
        let behind = variant.steps.iter().find(|step| step.slot == Some(slot));
        found.extend(behind.into_iter().flat_map(|step| of_step(problem, step)));
    }
    let mut seen = BTreeSet::new();
    found.retain(|name| seen.insert(name.clone()));
    found
}

/// The tables from whose rows a match of the sheet is drawn: to read them is to
/// read the answer.
pub fn tables_asked(problem: &Problem) -> BTreeSet<Arc<str>> {
    let bodies = problem.variant.steps.iter().map(|step| &step.body);
    bodies
        .filter_map(|body| match body {
            Body::Match(plan) => Some(plan.table.name.clone()),
            _ => None,
        })
        .collect()
}

fn of_step(problem: &Problem, step: &StepPlan) -> Vec<Arc<str>> {
    if let Body::Match(plan) = &step.body {
        return vec![plan.table.name.clone()];
    }
    let Some(formula) = step.body.formula() else {
        return Vec::new();
    };
    let slots = formula.slots().iter();
    let mut found: Vec<Arc<str>> = formula.tables().into_iter().collect();
    found.extend(slots.flat_map(|&slot| of_slot(problem, slot)));
    found
}

/// The tables behind a name: of the row or rows that it holds, or from which it
/// is drawn or derived.
fn of_slot(problem: &Problem, slot: usize) -> Vec<Arc<str>> {
    let mut found = Vec::new();
    match problem.values.get(slot).and_then(Option::as_ref) {
        Some(Value::Row(row)) => found.push(row.table.name.clone()),
        Some(Value::Rows(rows)) => found.push(rows.table.name.clone()),
        _ => {}
    }
    let given = problem
        .variant
        .givens
        .iter()
        .find(|given| given.slot == slot);
    match given.map(|given| &given.draw) {
        Some(
            Draw::Row {
                rows: Pool::Table(table),
                ..
            }
            | Draw::Some {
                rows: Pool::Table(table),
                ..
            },
        ) => found.push(table.name.clone()),
        Some(Draw::Is { formula, .. }) => found.extend(formula.tables()),
        _ => {}
    }
    found
}
