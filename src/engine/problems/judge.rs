//! How far off an answer may be. One owner for the guard of a draw and for
//! marking, so that what is drawn and what is marked agree.

use std::sync::Arc;

use super::problem::{Asks, Line, Problem};
use super::solve::{as_row, rework};
use crate::formulas::{Row, Table, Value, same};
use crate::lessons::{StepPlan, Variant, Within};
use crate::quantities::{
    Quantity,
    print::{Direction, rounded},
};

/// A figure names the row whose own figure is this near: common practice, no source.
const ROW_SHARE: f64 = 0.015;

/// The wrong side of a rounding gets this share of the tolerance: our own choice, no source.
const WRONG_SIDE: f64 = 0.1;

/// Trade arithmetic is carried to three figures, half a unit in the last of which
/// is at most this share: common practice, no source.
const THREE_FIGURES: f64 = 0.005;

/// How far below and above the right value an answer may be, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Tolerance {
    pub below: f64,
    pub above: f64,
}

/// Judges answers to one drawn problem.
#[derive(Clone, Copy)]
pub(crate) struct Judge<'a> {
    pub variant: &'a Variant,
    pub values: &'a [Option<Value>],
    /// Whether both sides of a rounding get the whole tolerance.
    pub even: bool,
}

impl Judge<'_> {
    /// The tolerance of a step around a value.
    pub fn tolerance(&self, at: usize, value: f64) -> Tolerance {
        let Some(step) = self.variant.steps.get(at) else {
            return Tolerance {
                below: 0.0,
                above: 0.0,
            };
        };
        let whole = match step.within {
            Some(Within::Exact) => 0.0,
            Some(Within::Share(share)) => value.abs() * share,
            Some(Within::By(by)) => by,
            None => self.derived(step),
        };
        let direction = step.write.map(|write| write.direction);
        let part = if self.even { whole } else { whole * WRONG_SIDE };
        match direction {
            Some(Direction::Up) => Tolerance {
                below: part,
                above: whole,
            },
            Some(Direction::Down) => Tolerance {
                below: whole,
                above: part,
            },
            _ => Tolerance {
                below: whole,
                above: whole,
            },
        }
    }

    /// Whether a value would be marked right where another is.
    pub fn accepts(&self, at: usize, right: &Value, typed: &Value) -> bool {
        // The value of a mistake may be a figure that names a row, as a typed one may.
        let [right, typed] = [right, typed].map(|value| as_row(self.variant, at, value.clone()));
        match (&right, &typed) {
            (Value::Number(right), Value::Number(typed)) => self.accepts_figure(at, *right, *typed),
            (right, typed) => right == typed,
        }
    }

    fn accepts_figure(&self, at: usize, right: Quantity, typed: Quantity) -> bool {
        if right.dimension != typed.dimension {
            return false;
        }
        let Tolerance { below, above } = self.tolerance(at, right.si);
        let noise = right.si.abs().max(typed.si.abs()) * crate::formulas::SNAP;
        let off = typed.si - right.si;
        if off >= -below - noise && off <= above + noise {
            return true;
        }
        self.written(at, right.si)
            .is_some_and(|written| same(written, typed.si))
    }

    /// The value as the step has it written.
    pub fn written(&self, at: usize, value: f64) -> Option<f64> {
        let step = self.variant.steps.get(at)?;
        let (write, unit) = (step.write?, step.unit.as_ref()?);
        let shown = rounded(unit.from_si(value), write.grid_shown, write.direction);
        Some(unit.to_si(shown))
    }

    /// The tolerance that the rounding of the givens and of the trade's figures
    /// deserves: each given moved half its last place, the sum taken up to 1, 2 or 5.
    fn derived(&self, step: &StepPlan) -> f64 {
        let Some(slot) = step.slot else { return 0.0 };
        let value = |values: &[Option<Value>]| {
            values
                .get(slot)
                .and_then(Option::as_ref)
                .and_then(Value::number)
                .map(|q| q.si)
        };
        let Some(right) = value(self.values) else {
            return 0.0;
        };
        let mut sum = right.abs() * THREE_FIGURES;
        // How far a given moves the figure is a matter of the problem: it is looked at on the
        // true chain, so that a figure of the learner's own is not taken for a movement.
        let mut true_chain = self.values.to_vec();
        rework(self.variant, 0, &mut true_chain);
        let unmoved = value(&true_chain).unwrap_or(right);
        for given in &self.variant.givens {
            let Some(half) = given.last_place.map(|place| place / 2.0) else {
                continue;
            };
            let mut moved = self.values.to_vec();
            if let Some(Some(Value::Number(quantity))) = moved.get_mut(given.slot) {
                quantity.si += half;
            }
            rework(self.variant, 0, &mut moved);
            sum += value(&moved).map_or(0.0, |moved| (moved - unmoved).abs());
        }
        let unit = step
            .unit
            .as_ref()
            .map_or(1.0, |unit| unit.to_si(1.0) - unit.to_si(0.0));
        one_two_five(sum / unit) * unit
    }
}

impl Problem {
    /// How far below and above the right figure an answer to a line may be, in the
    /// unit of the line; none where no figure is asked.
    pub fn tolerance(&self, line: &Line) -> Option<(f64, f64)> {
        let (Asks::Figure, Some(unit)) = (&line.asks, &line.unit) else {
            return None;
        };
        let right = self.value(line.step)?.number()?.si;
        let judge = Judge {
            variant: &self.variant,
            values: &self.values,
            even: self.even_rounding,
        };
        let Tolerance { below, above } = judge.tolerance(line.step, right);
        let shown = unit.from_si(right);
        Some((
            shown - unit.from_si(right - below),
            unit.from_si(right + above) - shown,
        ))
    }
}

/// A positive value taken up to 1, 2 or 5 times a power of ten.
fn one_two_five(value: f64) -> f64 {
    if !(value > 0.0 && value.is_finite()) {
        return 0.0;
    }
    let power = libm::pow(10.0, libm::floor(libm::log10(value)));
    let lead = value / power;
    let step = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|step| lead <= *step + 1e-9)
        .unwrap_or(10.0);
    step * power
}

/// The row of a table that a figure names: the nearest within 1.5 %.
pub(crate) fn row_by_figure(table: Option<&Arc<Table>>, figure: Quantity) -> Option<Row> {
    let table = table?;
    let off = |index: usize| {
        let key = table.rows.get(index)?.get(table.key)?.number()?;
        let near = key.dimension == figure.dimension
            && (key.si - figure.si).abs() <= ROW_SHARE * key.si.abs();
        near.then(|| (key.si - figure.si).abs())
    };
    let nearest = (0..table.rows.len())
        .filter_map(|index| off(index).map(|off| (off, index)))
        .min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Row {
        table: Arc::clone(table),
        index: nearest.1,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_taken_up_to_one_two_or_five() {
        assert!(same(one_two_five(0.03), 0.05));
        assert!(same(one_two_five(1.0), 1.0));
        assert!(same(one_two_five(61.0), 100.0));
        assert_eq!(one_two_five(f64::NAN), 0.0);
    }
}
