//! A figure asked as a choice: the right one among what its known mistakes give, and,
//! where three offers are wanted, among nearby slips as far as there are too few.

use super::arrange;
use super::dealer::{Dealer, Form, Rejected};
use super::judge::Judge;
use super::problem::{Asks, LiveMistake};
use super::random::Stream;
use super::solve::with_step;
use super::written;
use crate::formulas::{Row, Value};
use crate::quantities::Quantity;

/// The right figure and at most this many minus one of its mistakes.
const CHOICES: usize = 4;

/// So many wrong offers stand beside the right one at least, where any can be made:
/// three offers are enough (Rodriguez 2005, from memory).
const WRONG: usize = 2;

/// Slips that anybody may make where no known mistake is at hand: one of two counted,
/// two for one, the point a place too far. Common practice, no source.
const SLIPS: [f64; 4] = [2.0, 0.5, 10.0, 0.1];

/// How far down and up a table a row beside the right one is looked for.
const ROWS: usize = 3;

impl Dealer {
    /// The last figure asked as a choice among the right one and its own mistakes.
    pub(super) fn as_choice(
        &self,
        stream: &mut Stream,
        values: &[Option<Value>],
        mistakes: &[LiveMistake],
        end: usize,
    ) -> Result<Asks, Rejected> {
        let variant = &*self.variant;
        let judge = self.judge(values);
        let at_end = |values: &[Option<Value>]| values.get(variant.steps.get(end)?.slot?)?.clone();
        let right = at_end(values).ok_or(Rejected::NoValue)?;
        let mut wrong: Vec<(String, Value)> = mistakes
            .iter()
            .filter_map(|mistake| {
                let step = variant.step(&mistake.step)?;
                let changed = with_step(variant, values, step, mistake.value.clone()?);
                let value = at_end(&changed)?;
                is_wrong(&judge, end, (&right, &value))
                    .then(|| (written::answer(&judge, end, &value), value))
            })
            .collect();
        if wrong.is_empty() {
            return Err(Rejected::NoValue);
        }
        let right = (written::answer(&judge, end, &right), right);
        if self.form == Form::ChoiceOfThree {
            fill(&mut wrong, &right, slips(&judge, end, &right.1, stream));
        }
        let (offers, key) = arrange::pick(stream, right, Vec::new(), wrong, CHOICES);
        Ok(Asks::Pick { offers, key })
    }
}

/// Adds slips until there are offers enough, each written otherwise than all others.
fn fill(
    wrong: &mut Vec<(String, Value)>,
    right: &(String, Value),
    slips: impl Iterator<Item = (String, Value)>,
) {
    let mut texts: Vec<String> = Vec::new();
    for (text, _) in wrong.iter().filter(|(text, _)| *text != right.0) {
        if !texts.contains(text) {
            texts.push(text.clone());
        }
    }
    if texts.len() >= WRONG {
        return;
    }
    for slip in slips {
        if texts.len() >= WRONG {
            return;
        }
        if slip.0 != right.0 && !texts.contains(&slip.0) {
            texts.push(slip.0.clone());
            wrong.push(slip);
        }
    }
}

/// Figures or rows beside the right one that would be marked wrong, in a drawn order.
/// Nothing is drawn before the first is asked for.
fn slips<'v>(
    judge: &'v Judge<'v>,
    end: usize,
    right: &'v Value,
    stream: &'v mut Stream,
) -> impl Iterator<Item = (String, Value)> + use<'v> {
    let mut found = None;
    std::iter::from_fn(move || {
        let list = found.get_or_insert_with(|| {
            let mut list = candidates(judge, end, right);
            stream.shuffle(&mut list);
            list
        });
        list.pop()
    })
    .map(move |value| (written::answer(judge, end, &value), value))
}

fn candidates(judge: &Judge<'_>, end: usize, right: &Value) -> Vec<Value> {
    let values = match right {
        Value::Number(quantity) => figures(judge, end, *quantity),
        Value::Row(row) => rows(row),
        _ => Vec::new(),
    };
    let wrong = |value: &Value| is_wrong(judge, end, (right, value));
    values.into_iter().filter(wrong).collect()
}

/// Whether an offer is marked wrong, as it comes and as it is printed: what is off by more than
/// the span may be written to a figure within it.
fn is_wrong(judge: &Judge<'_>, end: usize, (right, value): (&Value, &Value)) -> bool {
    !judge.accepts(end, right, value)
        && !judge.accepts(end, right, &written::as_typed(judge, end, value))
}

/// The figure off by one of the slips; where figures go by a grid, by two steps of it too.
fn figures(judge: &Judge<'_>, end: usize, right: Quantity) -> Vec<Value> {
    let off = SLIPS.iter().map(|factor| right.si * factor);
    let grid = judge.variant.steps.get(end).and_then(|step| step.write);
    let steps = grid.map(|write| [right.si - 2.0 * write.grid, right.si + 2.0 * write.grid]);
    let positive = |si: &f64| right.si <= 0.0 || *si > 0.0;
    off.chain(steps.into_iter().flatten())
        .filter(positive)
        .map(|si| Value::Number(Quantity::new(si, right.dimension)))
        .collect()
}

/// The rows nearest to the right one in its table.
fn rows(right: &Row) -> Vec<Value> {
    let least = right.index.saturating_sub(ROWS);
    let most = (right.index + ROWS + 1).min(right.table.rows.len());
    (least..most)
        .filter(|index| *index != right.index)
        .map(|index| {
            Value::Row(Row {
                table: right.table.clone(),
                index,
            })
        })
        .collect()
}
