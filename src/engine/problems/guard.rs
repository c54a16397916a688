//! The guard of a draw: which mistakes can be made in it, and whether one would
//! be marked right. Marking must be able to tell them from the right figure.

use super::dealer::{Dealer, Rejected};
use super::judge::Judge;
use super::problem::{Asks, Line, LiveMistake, Problem};
use super::solve::{last_figure, mistake_value, with_step};
use super::working::printed_values;
use super::written;
use crate::formulas::Value;
use crate::lessons::{Body, MistakePlan, StepPlan, Variant, Way, basis, show};

impl Dealer {
    /// The mistakes that can be made here; a draw in which one would be marked right is refused.
    pub(super) fn mistakes(&self, values: &[Option<Value>]) -> Result<Vec<LiveMistake>, Rejected> {
        let variant = &*self.variant;
        let judge = self.judge(values);
        let last = last_figure(variant, values);
        let mut live = Vec::new();
        for (index, mistake) in variant.mistakes.iter().enumerate() {
            let Some(step) = variant.steps.get(mistake.step) else {
                continue;
            };
            if !matches!(mistake.way, Way::Is(_) | Way::Figures(_)) {
                if self.may_be_made(mistake, values) {
                    live.push(LiveMistake {
                        index,
                        id: mistake.id.clone(),
                        step: step.id.clone(),
                        value: None,
                        text: String::new(),
                    });
                }
                continue;
            }
            let Some(value) = mistake_value(variant, mistake, values) else {
                continue;
            };
            let Some(Some(right)) = step.slot.and_then(|slot| values.get(slot)) else {
                continue;
            };
            let alike = if picked(step, right) {
                written::plain(step, right) == written::plain(step, &value)
            } else {
                passes(&judge, mistake.step, right, &value)
            };
            if alike && picked(step, right) {
                continue;
            }
            if alike || self.hides_at_the_end(values, mistake.step, &value, last) {
                return Err(Rejected::Guard);
            }
            let text = written::answer(&judge, mistake.step, &value);
            live.push(LiveMistake {
                index,
                id: mistake.id.clone(),
                step: step.id.clone(),
                value: Some(value),
                text,
            });
        }
        Ok(live)
    }

    fn may_be_made(&self, mistake: &MistakePlan, values: &[Option<Value>]) -> bool {
        let Some(when) = &mistake.when else {
            return true;
        };
        let held = when.evaluate(values, basis(self.variant.system));
        held.ok().and_then(|value| value.truth()) == Some(true)
    }

    /// Whether a mistake at an earlier step would be marked right at the last figure that it feeds.
    fn hides_at_the_end(
        &self,
        values: &[Option<Value>],
        step: usize,
        value: &Value,
        last: Option<usize>,
    ) -> bool {
        let variant = &*self.variant;
        let Some(last) = last.filter(|last| *last > step) else {
            return false;
        };
        let slot_of = |at: usize| variant.steps.get(at).and_then(|step| step.slot);
        let (Some(own), Some(end)) = (slot_of(step), slot_of(last)) else {
            return false;
        };
        if !variant.rests_on(last).contains(&own) {
            return false;
        }
        let changed = with_step(variant, values, step, value.clone());
        match (values.get(end), changed.get(end)) {
            (Some(Some(right)), Some(Some(wrong))) => {
                passes(&self.judge(values), last, right, wrong)
            }
            _ => false,
        }
    }
}

/// Whether a wrong value would be marked right: as it is, or as it is written.
fn passes(judge: &Judge<'_>, at: usize, right: &Value, wrong: &Value) -> bool {
    judge.accepts(at, right, wrong)
        || judge.accepts(at, right, &written::as_typed(judge, at, wrong))
}

/// A wrong value this near to the right one is held against the printed figures too: they lie
/// off the full ones by half of one in the third figure at most, and where a step is written to
/// a grid, right and wrong one each by up to one stroke of it.
const NEAR: f64 = 0.01;

/// Whether a mistake, or a wrong offer, would be marked right beside the chain through the printed
/// figures, which marking takes as well as the full one.
pub(super) fn passes_in_print(problem: &Problem) -> bool {
    let judge = Judge {
        variant: &problem.variant,
        values: &problem.values,
        even: problem.even_rounding,
    };
    let near = |at: usize, wrong: &Value| {
        let (Some(Value::Number(right)), Value::Number(wrong)) = (problem.value(at), wrong) else {
            return false;
        };
        let tolerance = judge.tolerance(at, right.si);
        let widest = tolerance.below.max(tolerance.above);
        let write = judge.variant.steps.get(at).and_then(|step| step.write);
        let strokes = write.map_or(0.0, |write| 2.0 * write.grid);
        (wrong.si - right.si).abs() <= widest + NEAR * right.si.abs() + strokes
    };
    let last = last_figure(&problem.variant, &problem.values);
    let mut suspects: Vec<(usize, Value)> = Vec::new();
    for mistake in &problem.mistakes {
        let (Some(at), Some(value)) = (problem.variant.step(&mistake.step), &mistake.value) else {
            continue;
        };
        suspects.push((at, value.clone()));
        if let Some(last) = last.filter(|last| *last > at) {
            let changed = with_step(&problem.variant, &problem.values, at, value.clone());
            let slot = problem.variant.steps.get(last).and_then(|step| step.slot);
            let end = slot.and_then(|slot| changed.get(slot)?.clone());
            let moved = end.filter(|end| Some(end) != problem.value(last));
            suspects.extend(moved.map(|end| (last, end)));
        }
    }
    for line in &problem.lines {
        let Asks::Pick { offers, key } = &line.asks else {
            continue;
        };
        let wrong = offers.iter().enumerate().filter(|(at, _)| at != key);
        suspects.extend(wrong.map(|(_, offer)| (line.step, offer.value.clone())));
    }
    suspects.retain(|(at, value)| near(*at, value));
    if suspects.is_empty() {
        return false;
    }
    let printed = printed_values(problem);
    suspects.iter().any(|(at, wrong)| {
        let slot = problem.variant.steps.get(*at).and_then(|step| step.slot);
        let right = slot.and_then(|slot| printed.get(slot)?.as_ref());
        right.is_some_and(|right| passes(&judge, *at, right, wrong))
    })
}

/// Whether a step is answered by picking, so that a mistake may well give the right offer.
fn picked(step: &StepPlan, value: &Value) -> bool {
    matches!(step.body, Body::Offer { .. }) || matches!(value, Value::Truth(_))
}

/// Of the mistakes of an arrangement, those whose jobs or parts are shown.
pub(super) fn only_shown(
    variant: &Variant,
    mistakes: Vec<LiveMistake>,
    lines: &[Line],
) -> Vec<LiveMistake> {
    let shown = |mistake: &LiveMistake| {
        let Some(plan) = variant.mistakes.get(mistake.index) else {
            return false;
        };
        let Some(line) = lines.iter().find(|line| line.step == plan.step) else {
            return true;
        };
        let card = |at: usize| match &line.asks {
            Asks::Order { cards } => variant
                .cards
                .get(at)
                .is_some_and(|plan| cards.iter().any(|card| card.id == plan.id)),
            _ => false,
        };
        match &plan.way {
            Way::Is(_) | Way::Figures(_) => true,
            Way::Early(first, second) => card(*first) && card(*second),
            Way::Uses(at) | Way::Omits(at) => card(*at),
            Way::Pair(left, right) => pair_shown(variant, plan.step, line, (*left, *right)),
        }
    };
    mistakes.into_iter().filter(shown).collect()
}

fn pair_shown(variant: &Variant, step: usize, line: &Line, (left, right): (usize, usize)) -> bool {
    let (Asks::Match { parts, meanings }, Some(Body::Match(plan))) =
        (&line.asks, variant.steps.get(step).map(|step| &step.body))
    else {
        return false;
    };
    let cell = |row: usize, column: usize| {
        plan.table
            .rows
            .get(row)
            .and_then(|row| row.get(column))
            .map(|cell| show(cell, None))
    };
    let (part, meaning) = (cell(left, plan.left), cell(right, plan.right));
    parts.iter().any(|(text, _)| Some(text) == part.as_ref())
        && meanings
            .iter()
            .any(|offer| Some(&offer.text) == meaning.as_ref())
}
