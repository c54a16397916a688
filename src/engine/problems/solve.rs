//! The values of a draw: steps worked in order, mistakes put in one place.

use crate::formulas::{NoValue, Value};
use crate::lessons::{Body, MistakePlan, StepPlan, Variant, Way, basis};
use crate::quantities::Quantity;

/// The value of a step, all slots before it being filled. An arrangement has none.
pub(crate) fn step_value(
    variant: &Variant,
    step: &StepPlan,
    values: &[Option<Value>],
) -> Result<Option<Value>, NoValue> {
    match step.body.formula() {
        Some(formula) => formula.evaluate(values, basis(variant.system)).map(Some),
        None => Ok(None),
    }
}

/// Works the steps from a place on, each with what stands before it. A step
/// without a value leaves its slot empty, and so do those that rest on it.
pub(crate) fn rework(variant: &Variant, from: usize, values: &mut [Option<Value>]) {
    for step in variant.steps.iter().skip(from) {
        let Some(slot) = step.slot else { continue };
        let found = step_value(variant, step, values).ok().flatten();
        if let Some(place) = values.get_mut(slot) {
            *place = found;
        }
    }
}

/// The value that a mistake gives at its step, where it can be made. `values`
/// holds the learner's own figures, or the right ones.
pub(crate) fn mistake_value(
    variant: &Variant,
    mistake: &MistakePlan,
    values: &[Option<Value>],
) -> Option<Value> {
    let basis = basis(variant.system);
    if let Some(when) = &mistake.when
        && when.evaluate(values, basis).ok()?.truth() != Some(true)
    {
        return None;
    }
    match &mistake.way {
        Way::Is(formula) => formula.evaluate(values, basis).ok(),
        Way::Figures(formula) => {
            let unit = variant.steps.get(mistake.step)?.unit.as_ref()?;
            let figure = formula.evaluate(values, basis).ok()?.number()?;
            Some(Value::Number(Quantity::new(
                unit.to_si(figure.si),
                unit.dimension(),
            )))
        }
        Way::Early(..) | Way::Uses(_) | Way::Omits(_) | Way::Pair(..) => None,
    }
}

/// The values when a step is given another value: what follows is worked anew.
pub(crate) fn with_step(
    variant: &Variant,
    values: &[Option<Value>],
    step: usize,
    value: Value,
) -> Vec<Option<Value>> {
    let mut changed = values.to_vec();
    if let Some(slot) = variant.steps.get(step).and_then(|step| step.slot)
        && let Some(place) = changed.get_mut(slot)
    {
        *place = Some(as_row(variant, step, value));
    }
    rework(variant, step + 1, &mut changed);
    changed
}

/// A figure that stands for a row becomes that row, so that later steps can use it.
pub(crate) fn as_row(variant: &Variant, step: usize, value: Value) -> Value {
    let Value::Number(figure) = &value else {
        return value;
    };
    let holds = variant
        .steps
        .get(step)
        .and_then(|step| step.body.formula())
        .map(crate::formulas::Formula::holds);
    match holds {
        Some(crate::formulas::Type::Row(_)) => {
            let rows = step_rows(variant, step);
            super::judge::row_by_figure(rows, *figure).map_or(value, Value::Row)
        }
        _ => value,
    }
}

/// The table whose rows a step finds.
fn step_rows(variant: &Variant, step: usize) -> Option<&std::sync::Arc<crate::formulas::Table>> {
    variant.row_tables.get(&step)
}

/// The place of the last step whose value is a figure or a row and is asked: what
/// mistakes are known by when only the end is handed in.
pub(crate) fn last_figure(variant: &Variant, values: &[Option<Value>]) -> Option<usize> {
    let asked = |step: &StepPlan| step.ask && !matches!(step.body, Body::Offer { .. });
    variant
        .steps
        .iter()
        .enumerate()
        .rev()
        .find_map(|(at, step)| {
            let value = values.get(step.slot?)?.as_ref()?;
            (asked(step) && matches!(value, Value::Number(_) | Value::Row(_))).then_some(at)
        })
}
