//! Answers and values as they are written: figures with their unit, rows by name,
//! yes and no in the words of the step.

use super::judge::{Judge, Tolerance};
use crate::formulas::Value;
use crate::lessons::{Body, StepPlan, show};
use crate::quantities::{Quantity, Unit, print};

/// As many figures as trade arithmetic carries.
const FIGURES: usize = 3;

/// The most figures that are ever written.
const MOST_FIGURES: usize = 12;

/// A value that is short anyway is written whole up to this many figures.
const SHORT: usize = 4;

/// The answer to a step as it is written on the sheet: by the step's own rule,
/// else to as many figures as its tolerance deserves.
pub(crate) fn answer(judge: &Judge<'_>, at: usize, value: &Value) -> String {
    let Some(step) = judge.variant.steps.get(at) else {
        return String::new();
    };
    match value {
        Value::Number(quantity) => match &step.unit {
            Some(unit) => {
                let tolerance = judge.tolerance(at, quantity.si);
                let figure = figure(step, unit, quantity.si, tolerance);
                print::with_unit(&figure, unit, unit.from_si(quantity.si))
            }
            None => show(value, key_unit(judge, at)),
        },
        other => plain(step, other),
    }
}

/// A value as a learner who has it would write it, read again: marking sees this.
pub(crate) fn as_typed(judge: &Judge<'_>, at: usize, value: &Value) -> Value {
    let step = judge.variant.steps.get(at);
    let (Value::Number(quantity), Some(step)) = (value, step) else {
        return value.clone();
    };
    let Some(unit) = &step.unit else {
        return value.clone();
    };
    let tolerance = judge.tolerance(at, quantity.si);
    let figure = parse(&figure(step, unit, quantity.si, tolerance));
    Value::Number(Quantity::new(unit.to_si(figure), quantity.dimension))
}

/// The unit of the figure that the rows of a step go by.
fn key_unit<'a>(judge: &Judge<'a>, at: usize) -> Option<&'a Unit> {
    let table = judge.variant.row_tables.get(&at)?;
    table.columns.get(table.key)?.unit.as_ref()
}

/// A value that is no figure, in the words of the step.
pub(crate) fn plain(step: &StepPlan, value: &Value) -> String {
    match (value, &step.words, &step.body) {
        (Value::Truth(truth), Some([yes, no]), _) => if *truth { yes } else { no }.clone(),
        (Value::Row(row), _, Body::Offer { column, .. }) => {
            let unit = row
                .table
                .columns
                .get(*column)
                .and_then(|column| column.unit.as_ref());
            row.cell(*column)
                .map_or_else(String::new, |cell| show(cell, unit))
        }
        (value, ..) => show(value, step.unit.as_ref()),
    }
}

/// A figure without its unit, as an answer writes it.
pub(crate) fn figure(step: &StepPlan, unit: &Unit, si: f64, tolerance: Tolerance) -> String {
    let number = unit.from_si(si);
    if let Some(write) = step.write {
        let shown = print::rounded(number, write.grid_shown, write.direction);
        return print::on_grid(shown, write.grid_shown);
    }
    let whole = print::shortest(number);
    if is_short_text(&whole) {
        return whole;
    }
    let scale = (unit.to_si(1.0) - unit.to_si(0.0)).abs();
    let (below, above) = (tolerance.below / scale, tolerance.above / scale);
    (FIGURES..=MOST_FIGURES)
        .map(|count| print::figures(number, count))
        .find(|text| {
            let off = parse(text) - number;
            // Half the tolerance, so that a reader's own rounding still fits in.
            off >= -below / 2.0 && off <= above / 2.0
        })
        .unwrap_or(whole)
}

/// Whether a value is short enough to be written whole.
pub(crate) fn is_short(number: f64) -> bool {
    is_short_text(&print::shortest(number))
}

/// Whether a value is short, by its shortest text.
pub(crate) fn is_short_text(shortest: &str) -> bool {
    significant(shortest) <= SHORT
}

/// How many figures a number is written with, without the zeros that only hold places.
pub(crate) fn significant(text: &str) -> usize {
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    let held = if text.contains('.') {
        digits
    } else {
        digits.trim_end_matches('0')
    };
    held.len()
}

/// A printed figure as a number.
pub(crate) fn parse(text: &str) -> f64 {
    text.parse().unwrap_or(f64::NAN)
}

/// How an answer is to be written, for the end of its line.
pub(super) fn form(step: &StepPlan) -> String {
    if let (Some(write), Some(unit)) = (step.write, &step.unit) {
        let grid = print::shortest(write.grid_shown);
        let grid = if unit.is_noun() {
            grid
        } else {
            print::with_unit(&grid, unit, write.grid_shown)
        };
        return match write.direction {
            print::Direction::Up => format!("up to {grid}"),
            print::Direction::Down => format!("down to {grid}"),
            print::Direction::Nearest => format!("to {grid}"),
        };
    }
    match (&step.body, step.within) {
        (Body::Is(formula), _) if formula.decides() => String::new(),
        (_, Some(crate::lessons::Within::Exact)) => String::new(),
        (Body::Is(_), _) if step.unit.is_some() => "3 figures are enough".to_owned(),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_held_by_zeros_are_no_figures() {
        assert_eq!(significant("320"), 2);
        assert_eq!(significant("0.0396"), 3);
        assert_eq!(significant("1.2672"), 5);
        assert_eq!(significant("10.0"), 3);
    }
}
