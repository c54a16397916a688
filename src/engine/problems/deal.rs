//! Dealing the givens: each drawn from its values or rows, or derived from others.

use super::random::Stream;
use crate::formulas::{NoValue, Row, Rows, Value};
use crate::lessons::{Condition, Draw, GivenPlan, Pool, Variant, basis};
use crate::quantities::{
    Quantity,
    print::{Direction, rounded},
};

/// Fills the slots of the givens; house rules stand in theirs already.
pub(super) fn givens(
    variant: &Variant,
    stream: &mut Stream,
    values: &mut [Option<Value>],
) -> Result<(), NoValue> {
    for given in &variant.givens {
        let value = one(variant, given, stream, values)?;
        if let Some(place) = values.get_mut(given.slot) {
            *place = Some(value);
        }
    }
    Ok(())
}

fn one(
    variant: &Variant,
    given: &GivenPlan,
    stream: &mut Stream,
    values: &[Option<Value>],
) -> Result<Value, NoValue> {
    match &given.draw {
        Draw::Of(list) => list.get(stream.below(list.len())).cloned().ok_or_else(none),
        Draw::Row { rows, where_ } => {
            let rows = candidates(variant, rows, where_.as_ref(), values)?;
            rows.get(stream.below(rows.len()))
                .cloned()
                .map(Value::Row)
                .ok_or_else(none)
        }
        Draw::Some {
            rows,
            where_,
            least,
            most,
        } => {
            let rows = candidates(variant, rows, where_.as_ref(), values)?;
            let count = stream.between(*least, *most);
            if rows.len() < count {
                return Err(none());
            }
            let chosen = stream.choose(count, rows.len());
            let table = rows.first().map(|row| row.table.clone()).ok_or_else(none)?;
            let indices = chosen
                .iter()
                .filter_map(|at| rows.get(*at))
                .map(|row| row.index)
                .collect();
            Ok(Value::Rows(Rows { table, indices }))
        }
        Draw::Is { formula, grid } => {
            let value = formula.evaluate(values, basis(variant.system))?;
            Ok(match (value, grid) {
                (Value::Number(quantity), Some(grid)) => {
                    Value::Number(on_grid(variant, given, quantity, *grid))
                }
                (value, _) => value,
            })
        }
    }
}

/// A derived figure as the story prints it, so that learner and program use one number.
fn on_grid(variant: &Variant, given: &GivenPlan, quantity: Quantity, grid: f64) -> Quantity {
    let unit = variant
        .names
        .get(given.slot)
        .and_then(|name| name.unit.as_ref());
    let Some(unit) = unit else { return quantity };
    let step = grid / (unit.to_si(1.0) - unit.to_si(0.0));
    let shown = rounded(unit.from_si(quantity.si), step, Direction::Nearest);
    Quantity::new(unit.to_si(shown), quantity.dimension)
}

/// The rows of a pool that meet a condition.
pub(super) fn candidates(
    variant: &Variant,
    pool: &Pool,
    condition: Option<&Condition>,
    values: &[Option<Value>],
) -> Result<Vec<Row>, NoValue> {
    let rows = match pool {
        Pool::Table(table) => Rows::drawn(table),
        Pool::Slot(slot) => match values.get(*slot) {
            Some(Some(Value::Rows(rows))) => rows.clone(),
            _ => return Err(none()),
        },
    };
    meeting(variant, rows.iter(), condition, values)
}

/// The rows among some that meet a condition, which knows each by its own slot.
pub(super) fn meeting(
    variant: &Variant,
    rows: impl Iterator<Item = Row>,
    condition: Option<&Condition>,
    values: &[Option<Value>],
) -> Result<Vec<Row>, NoValue> {
    let Some(condition) = condition else {
        return Ok(rows.collect());
    };
    let mut scope = values.to_vec();
    scope.resize(scope.len().max(condition.slot + 1), None);
    let mut found = Vec::new();
    for row in rows {
        if let Some(place) = scope.get_mut(condition.slot) {
            *place = Some(Value::Row(row.clone()));
        }
        let verdict = condition.formula.evaluate(&scope, basis(variant.system))?;
        if verdict.truth() == Some(true) {
            found.push(row);
        }
    }
    Ok(found)
}

/// There is nothing to choose from.
fn none() -> NoValue {
    NoValue::NoRow {
        table: "the draw".into(),
    }
}
