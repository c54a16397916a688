//! The verdict on one figure, row or picked answer, beside the chains that it
//! may come from: the full one, the printed one, and the learner's own.

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use super::marked::Verdict;
use super::reading::Said;
use super::slips::unit_slip;
use crate::formulas::{Row, Rows, Table, Value, same};
use crate::lessons::{Body, MistakePlan, StepPlan, Variant, Within, basis, show};
use crate::problems::judge::Judge;
use crate::problems::solve::{as_row, mistake_value, rework, with_step};
use crate::problems::{Asks, Line, Problem};
use crate::problems::{printed_values, written};
use crate::quantities::{
    Quantity,
    print::{Direction, rounded},
};

/// Conversions carry three figures, half a unit in the last of which is at most
/// this share: common practice, no source.
const THREE_FIGURES: f64 = 0.005;

/// The chains of values that an answer may come from.
pub(super) struct Chains<'p> {
    pub problem: &'p Problem,
    /// The values through the printed figures, worked out when first asked for:
    /// most answers are right by the full chain.
    pub printed: OnceCell<Vec<Option<Value>>>,
    /// The values through the learner's own figures, unsafe ones left out, as far as they
    /// are worked: a line that is right by the full chain asks for none of them.
    own: Vec<Option<Value>>,
    /// The same with the unsafe ones put in, to tell what would have followed; none as long
    /// as there is none.
    unsafe_own: Option<Vec<Option<Value>>>,
    /// The learner's figures that are not in these two yet, in the order of the lines.
    waiting: Vec<Own>,
    /// The steps at which something was written: a mistake made there shows there.
    pub written: BTreeSet<usize>,
}

/// A figure of the learner's own.
struct Own {
    step: usize,
    slot: usize,
    value: Value,
    /// Whether it could hurt someone.
    is_unsafe: bool,
}

/// Whether a figure could hurt someone at a line, all else being as it truly is.
pub(crate) fn could_hurt(problem: &Problem, line: &Line, value: &Value) -> bool {
    let chains = Chains::of(problem);
    let step = problem.variant.steps.get(line.step);
    step.is_some_and(|step| chains.is_unsafe(line.step, step, value))
}

/// What was found at a line.
pub(super) struct Finding<'p> {
    pub verdict: Found,
    pub mistakes: Vec<&'p MistakePlan>,
    pub note: Option<String>,
}

/// A verdict before lines have their numbers.
pub(super) enum Found {
    Plain(Verdict),
    /// It follows the learner's own earlier figures.
    Follows,
    /// It follows an unsafe figure.
    FollowsUnsafe,
    /// It could hurt someone, and follows from the learner's own earlier figures.
    UnsafeFollows,
}

impl<'p> Chains<'p> {
    /// The chains before anything is written.
    pub fn of(problem: &'p Problem) -> Self {
        Self {
            problem,
            printed: OnceCell::new(),
            own: Vec::new(),
            unsafe_own: None,
            waiting: Vec::new(),
            written: BTreeSet::new(),
        }
    }

    /// Puts the learner's own figure in the chains that later lines are marked beside.
    pub fn put(&mut self, (step, slot): (usize, usize), value: Value, is_unsafe: bool) {
        self.waiting.push(Own {
            step,
            slot,
            value,
            is_unsafe,
        });
    }

    /// Works the learner's own figures into the chains.
    fn work_own(&mut self) {
        if self.own.is_empty() {
            self.own.clone_from(&self.problem.values);
        }
        for own in std::mem::take(&mut self.waiting) {
            if own.is_unsafe && self.unsafe_own.is_none() {
                self.unsafe_own = Some(self.own.clone());
            }
            let safe = (!own.is_unsafe).then_some(&mut self.own);
            for chain in safe.into_iter().chain(self.unsafe_own.as_mut()) {
                if let Some(place) = chain.get_mut(own.slot) {
                    *place = Some(own.value.clone());
                }
                rework(&self.problem.variant, own.step + 1, chain);
            }
        }
    }

    fn judge<'a>(&'a self, values: &'a [Option<Value>]) -> Judge<'a> {
        Judge {
            variant: &self.problem.variant,
            values,
            even: self.problem.even_rounding,
        }
    }

    /// The verdict on what was said at a line.
    pub fn find(&mut self, line: &Line, said: &Said) -> Finding<'p> {
        let problem: &'p Problem = self.problem;
        let Some(step) = problem.variant.steps.get(line.step) else {
            return plain(Verdict::LookHere);
        };
        let Some(value) = value_of(line, said) else {
            return plain(Verdict::LookHere);
        };
        // Most answers are right as they stand, in the unit asked: nothing else is worked.
        let as_asked = match said {
            Said::Figure {
                unit: Some(own), ..
            } => line.unit.as_ref().is_some_and(|asked| own.same_size(asked)),
            _ => true,
        };
        if as_asked && !self.is_unsafe(line.step, step, &value) && self.right(line, step, &value) {
            return self.as_wanted(said);
        }
        self.work_own();
        self.find_off(line, step, said, value)
    }

    /// The same where the answer is not right as it stands.
    fn find_off(&self, line: &Line, step: &StepPlan, said: &Said, value: Value) -> Finding<'p> {
        if let Some(finding) = self.wrong_kind(line, step, said) {
            return finding;
        }
        let value = self.converted(line, step, said, value);
        let mistakes = self.mistakes(line, step, &value);
        if self.is_unsafe(line.step, step, &value) {
            return self.found_unsafe(line, step, &value, mistakes);
        }
        if self.right(line, step, &value) {
            return self.as_wanted(said);
        }
        if self.matches(&self.own, line, step, &value) {
            let wanted = self.as_wanted(said);
            return match wanted.verdict {
                Found::Plain(Verdict::Right) => Finding {
                    verdict: Found::Follows,
                    ..wanted
                },
                _ => wanted,
            };
        }
        let would_follow = |own: &Vec<_>| self.matches(own, line, step, &value);
        if self.unsafe_own.as_ref().is_some_and(would_follow) {
            return Finding {
                verdict: Found::FollowsUnsafe,
                mistakes: Vec::new(),
                note: None,
            };
        }
        if !mistakes.is_empty() {
            return Finding {
                verdict: Found::Plain(Verdict::Mistake),
                mistakes,
                note: None,
            };
        }
        self.slip(step, &value)
    }

    /// An unsafe figure: it may be right all the same in what the learner wrote
    /// before, and then it is there that something is off.
    fn found_unsafe(
        &self,
        line: &Line,
        step: &StepPlan,
        value: &Value,
        mistakes: Vec<&'p MistakePlan>,
    ) -> Finding<'p> {
        let follows = self.matches(&self.own, line, step, value);
        let slip = self.slip(step, value).note;
        Finding {
            verdict: if follows {
                Found::UnsafeFollows
            } else {
                Found::Plain(Verdict::Unsafe)
            },
            mistakes: if follows { Vec::new() } else { mistakes },
            note: slip.or_else(|| step.why.as_ref().map(|why| self.render(why))),
        }
    }

    /// A figure that must be exact and is written in another unit is that figure
    /// where it agrees with it to three figures: conversions carry no more.
    fn converted(&self, line: &Line, step: &StepPlan, said: &Said, value: Value) -> Value {
        let (
            Said::Figure {
                unit: Some(own), ..
            },
            Some(asked),
            Some(Within::Exact),
            Some(slot),
        ) = (said, &line.unit, step.within, step.slot)
        else {
            return value;
        };
        if own.same_size(asked) || step.write.is_some() {
            return value;
        }
        let near = |right: &Value| match (right, &value) {
            (Value::Number(right), Value::Number(typed)) => {
                right.dimension == typed.dimension
                    && (typed.si - right.si).abs() <= THREE_FIGURES * right.si.abs()
            }
            _ => false,
        };
        [&self.problem.values, &self.own]
            .into_iter()
            .filter_map(|values| values.get(slot)?.as_ref())
            .find(|right| near(right))
            .map_or(value.clone(), Clone::clone)
    }

    /// Right, or half where the house rule wants a unit and none was written.
    fn as_wanted(&self, said: &Said) -> Finding<'p> {
        let bare = matches!(said, Said::Figure { unit: None, .. });
        if self.problem.unit_wanted && bare {
            let note = "The figure is right; here its unit must stand beside it.".to_owned();
            return Finding {
                verdict: Found::Plain(Verdict::UnitOfWrongKind),
                mistakes: Vec::new(),
                note: Some(note),
            };
        }
        plain(Verdict::Right)
    }

    /// A unit of another kind: half where the figure is right, else nothing.
    fn wrong_kind(&self, line: &Line, step: &StepPlan, said: &Said) -> Option<Finding<'p>> {
        let Said::Figure {
            quantity,
            bare,
            unit: Some(unit),
        } = said
        else {
            return None;
        };
        let wanted = match &line.unit {
            Some(asked) => asked,
            None => {
                let table = self.problem.variant.row_tables.get(&line.step)?;
                table.columns.get(table.key)?.unit.as_ref()?
            }
        };
        if quantity.dimension == wanted.dimension() {
            return None;
        }
        let value = Value::Number(Quantity::new(wanted.to_si(*bare), wanted.dimension()));
        let value = as_row(&self.problem.variant, line.step, value);
        let right = !self.is_unsafe(line.step, step, &value)
            && (self.right(line, step, &value) || self.matches(&self.own, line, step, &value));
        let verdict = if right {
            Verdict::UnitOfWrongKind
        } else {
            Verdict::LookHere
        };
        let note = if right {
            format!(
                "The figure is right; it wants {}, not {}.",
                wanted.symbol(),
                unit.symbol()
            )
        } else {
            format!(
                "{} is another kind of unit; this line wants {}.",
                unit.symbol(),
                wanted.symbol()
            )
        };
        Some(Finding {
            verdict: Found::Plain(verdict),
            mistakes: Vec::new(),
            note: Some(note),
        })
    }

    fn printed(&self) -> &[Option<Value>] {
        self.printed.get_or_init(|| printed_values(self.problem))
    }

    fn right(&self, line: &Line, step: &StepPlan, value: &Value) -> bool {
        self.matches(&self.problem.values, line, step, value)
            || self.matches(self.printed(), line, step, value)
    }

    /// Whether the value would be marked right where these values are the true ones.
    fn matches(
        &self,
        values: &[Option<Value>],
        line: &Line,
        step: &StepPlan,
        value: &Value,
    ) -> bool {
        let Some(Some(right)) = step.slot.and_then(|slot| values.get(slot)) else {
            return false;
        };
        if let Body::Offer { .. } = step.body {
            return written::plain(step, right) == written::plain(step, value);
        }
        self.judge(values).accepts(line.step, right, value)
    }

    /// Whether the figure could hurt someone, all else being as it truly is.
    fn is_unsafe(&self, at: usize, step: &StepPlan, value: &Value) -> bool {
        let (Some(formula), Some(slot)) = (&step.unsafe_if, step.slot) else {
            return false;
        };
        let value = match value {
            Value::Number(figure) if self.problem.value_is_row(step) => {
                self.no_row(at, *figure).unwrap_or_else(|| value.clone())
            }
            _ => value.clone(),
        };
        let mut values = self.problem.values.clone();
        if let Some(place) = values.get_mut(slot) {
            *place = Some(value);
        }
        match formula.evaluate(&values, basis(self.problem.variant.system)) {
            Ok(found) => found.truth() == Some(true),
            // Nothing is known of it but its figure, and that does not settle it: it is not safe.
            Err(_) => self.problem.value_is_row(step),
        }
    }

    /// A figure that stands for no row of the table, as a row of which only the
    /// figure is known.
    fn no_row(&self, at: usize, figure: Quantity) -> Option<Value> {
        let table = self.problem.variant.row_tables.get(&at)?;
        if table.key != 0 {
            return None;
        }
        let lone = Table {
            rows: vec![vec![Value::Number(figure)]],
            ..Table::clone(table)
        };
        Some(Value::Row(Row {
            table: Arc::new(lone),
            index: 0,
        }))
    }

    /// The known mistakes that give this value: made here, or made earlier where
    /// the earlier line was left empty.
    fn mistakes(&self, line: &Line, step: &StepPlan, value: &Value) -> Vec<&'p MistakePlan> {
        let variant: &'p Variant = &self.problem.variant;
        let mut found: Vec<&'p MistakePlan> = Vec::new();
        for live in &self.problem.mistakes {
            let Some(plan) = variant.mistakes.get(live.index) else {
                continue;
            };
            let made = match plan.step.cmp(&line.step) {
                std::cmp::Ordering::Equal => [&self.problem.values, &self.own]
                    .into_iter()
                    .filter_map(|values| mistake_value(variant, plan, values))
                    .any(|wrong| self.near(line, step, &wrong, value)),
                // Half of all mistakes give a yes where no is right: that tells nothing.
                std::cmp::Ordering::Less if matches!(value, Value::Truth(_)) => false,
                std::cmp::Ordering::Less if self.written.contains(&plan.step) => false,
                std::cmp::Ordering::Less => live.value.as_ref().is_some_and(|wrong| {
                    let changed =
                        with_step(variant, &self.problem.values, plan.step, wrong.clone());
                    let end = step.slot.and_then(|slot| changed.get(slot)?.as_ref());
                    self.rests(line.step, plan.step)
                        && end.is_some_and(|end| self.near(line, step, end, value))
                }),
                std::cmp::Ordering::Greater => false,
            };
            if made {
                found.push(plan);
            }
        }
        found
    }

    fn rests(&self, later: usize, earlier: usize) -> bool {
        let variant = &self.problem.variant;
        let slot = variant.steps.get(earlier).and_then(|step| step.slot);
        slot.is_some_and(|slot| variant.rests_on(later).contains(&slot))
    }

    /// Whether a value is the one that a mistake gives.
    fn near(&self, line: &Line, step: &StepPlan, wrong: &Value, value: &Value) -> bool {
        if let Body::Offer { .. } = step.body {
            return written::plain(step, wrong) == written::plain(step, value);
        }
        let judge = self.judge(&self.problem.values);
        if let Asks::Pick { .. } = line.asks {
            // Two mistakes that are written alike share one offer.
            let text = |value| written::answer(&judge, line.step, value);
            return text(wrong) == text(value);
        }
        judge.accepts(line.step, wrong, value)
    }

    /// A slip of rounding or of units, or none that is known.
    fn slip(&self, step: &StepPlan, value: &Value) -> Finding<'p> {
        let Value::Number(typed) = value else {
            return Finding {
                note: would_show(step, value),
                ..plain(Verdict::LookHere)
            };
        };
        let Some(slot) = step.slot else {
            return plain(Verdict::LookHere);
        };
        for values in [&self.problem.values, &self.own] {
            let Some(Some(Value::Number(right))) = values.get(slot) else {
                continue;
            };
            if right.dimension != typed.dimension {
                continue;
            }
            if rounded_wrong_way(step, right.si, typed.si) {
                let note = step.why.as_ref().map(|why| self.render(why));
                return Finding {
                    verdict: Found::Plain(Verdict::RoundedWrongWay),
                    mistakes: Vec::new(),
                    note,
                };
            }
            if let Some(note) = unit_slip(right.si, typed.si, step.unit.as_ref()) {
                return Finding {
                    verdict: Found::Plain(Verdict::UnitFactor),
                    mistakes: Vec::new(),
                    note: Some(note),
                };
            }
        }
        plain(Verdict::LookHere)
    }

    fn render(&self, text: &crate::lessons::Template) -> String {
        text.render(&self.problem.variant.names, &self.problem.values)
    }
}

fn plain<'p>(verdict: Verdict) -> Finding<'p> {
    Finding {
        verdict: Found::Plain(verdict),
        mistakes: Vec::new(),
        note: None,
    }
}

/// What was said, as a value of the step.
pub(super) fn value_of(line: &Line, said: &Said) -> Option<Value> {
    match said {
        Said::Figure { quantity, .. } => Some(Value::Number(*quantity)),
        Said::Row(row) => Some(Value::Row(row.clone())),
        Said::Pick(place) => match &line.asks {
            Asks::Pick { offers, .. } => offers.get(*place).map(|offer| offer.value.clone()),
            _ => None,
        },
        Said::Order(_) | Said::Match(_) => None,
    }
}

/// Whether the figure is the right one taken to the side that the step does not allow.
fn rounded_wrong_way(step: &StepPlan, right: f64, typed: f64) -> bool {
    let (Some(write), Some(unit)) = (step.write, &step.unit) else {
        return false;
    };
    let wrong = match write.direction {
        Direction::Up => Direction::Down,
        Direction::Down => Direction::Up,
        Direction::Nearest => return false,
    };
    let shown = rounded(unit.from_si(right), write.grid_shown, wrong);
    same(unit.to_si(shown), typed)
}

/// What a wrongly picked row would show, where the lesson says it: of several rows that
/// are offered as one, the first says it.
fn would_show(step: &StepPlan, value: &Value) -> Option<String> {
    let (Body::Offer { shows, .. }, Value::Row(picked)) = (&step.body, value) else {
        return None;
    };
    let offered = |row: Row| written::plain(step, &Value::Row(row));
    let text = offered(picked.clone());
    let rows = Rows::all(&picked.table);
    let alike = rows.iter().filter(|row| offered(row.clone()) == text);
    let mut said = alike.filter_map(|row| row.cell((*shows)?).map(|cell| show(cell, None)));
    said.find(|said| !said.is_empty())
}
