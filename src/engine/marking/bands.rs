//! What marking accepts at a line, told beforehand: spans of figures, and how a line
//! follows an earlier figure of the learner's own. For surfaces that mark elsewhere and
//! know no formula; marking itself does not use it, and a test compares the two.

use std::collections::BTreeSet;

use crate::formulas::{Row, SNAP, Value, same};
use crate::lessons::{Within, show};
use crate::problems::judge::{Judge, Tolerance};
use crate::problems::printed_values;
use crate::problems::random::Key;
use crate::problems::solve::{as_row, step_value};
use crate::problems::{Asks, Line, LiveMistake, Problem};
use crate::quantities::print::Direction;

/// A span of figures in the unit of a line, both ends in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// The least figure.
    pub from: f64,
    /// The greatest figure.
    pub to: f64,
}

/// How a line goes with the learner's own earlier figures.
#[derive(Debug, Clone, PartialEq)]
pub enum Follow {
    /// It rests on no line that is asked.
    Alone,
    /// It is a product of earlier figures and a constant.
    Product {
        /// The lines whose figures are multiplied, by their places among the problem's lines.
        lines: Vec<usize>,
        /// The least figure: this times the product, and this added.
        from: (f64, f64),
        /// The greatest figure: this times the product, and this added.
        to: (f64, f64),
        /// The figure that is written, where the step has it taken to a grid.
        written: Option<OnGrid>,
    },
    /// It rests on earlier lines in another way, and is told from the right figures alone.
    NotCarried,
}

/// A product of earlier figures as it is written: so many whole steps of a grid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnGrid {
    /// A step, in the unit of the line.
    pub grid: f64,
    /// The steps: the whole part of this times the product, and this added. Figures below
    /// nothing are not told.
    pub steps: (f64, f64),
}

/// A row that can be an answer, and whether it is the right one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowOffer {
    /// Its name, as an answer has it.
    pub name: String,
    /// Whether it is right.
    pub right: bool,
    /// The mistakes that lead to it, by their places among those of the problem.
    pub mistakes: Vec<usize>,
}

fn judge<'a>(problem: &'a Problem, values: &'a [Option<Value>]) -> Judge<'a> {
    Judge {
        variant: &problem.variant,
        values,
        even: problem.even_rounding,
    }
}

/// The figures that are right at a line: around the value, and around the value through
/// the printed figures of the working. Spans that touch are one.
pub fn accepted(problem: &Problem, line: &Line) -> Vec<Span> {
    let printed = printed_values(problem);
    let mut spans = Vec::new();
    for values in [&problem.values, &printed] {
        let slot = problem
            .variant
            .steps
            .get(line.step)
            .and_then(|step| step.slot);
        let value = slot.and_then(|slot| values.get(slot)?.as_ref()?.number());
        if let Some(value) = value {
            spans.extend(around(problem, values, line, value.si));
        }
    }
    merged(spans)
}

/// The figures that a known mistake gives at a line.
pub fn mistaken(problem: &Problem, line: &Line, mistake: &LiveMistake) -> Vec<Span> {
    let figure = mistake.value.as_ref().and_then(Value::number);
    match figure {
        Some(figure) if mistake.step == line.id => {
            merged(around(problem, &problem.values, line, figure.si))
        }
        _ => Vec::new(),
    }
}

/// The span of the tolerance around a value, and the value as it is to be written.
fn around(problem: &Problem, values: &[Option<Value>], line: &Line, si: f64) -> Vec<Span> {
    let Some(unit) = &line.unit else {
        return Vec::new();
    };
    let judge = judge(problem, values);
    let Tolerance { below, above } = judge.tolerance(line.step, si);
    let noise = si.abs() * SNAP;
    let span = |from: f64, to: f64| {
        let (a, b) = (unit.from_si(from), unit.from_si(to));
        Span {
            from: a.min(b),
            to: a.max(b),
        }
    };
    let mut spans = vec![span(si - below - noise, si + above + noise)];
    if let Some(written) = judge.written(line.step, si) {
        let noise = written.abs() * SNAP;
        spans.push(span(written - noise, written + noise));
    }
    spans
}

fn merged(mut spans: Vec<Span>) -> Vec<Span> {
    spans.sort_by(|a, b| a.from.total_cmp(&b.from));
    let mut merged: Vec<Span> = Vec::new();
    for span in spans {
        match merged.last_mut() {
            Some(last) if span.from <= last.to => last.to = last.to.max(span.to),
            _ => merged.push(span),
        }
    }
    merged
}

/// Whether a later line that is right bears this one when it is left empty.
pub fn bears(problem: &Problem, empty: &Line, later: &Line) -> bool {
    let slot = problem
        .variant
        .steps
        .get(empty.step)
        .and_then(|step| step.slot);
    let figure = matches!(later.asks, Asks::Figure | Asks::Row);
    figure && slot.is_some_and(|slot| problem.variant.rests_on(later.step).contains(&slot))
}

/// How a line follows earlier figures.
pub fn follow(problem: &Problem, line: &Line) -> Follow {
    let before = parents(problem, line);
    if before.is_empty() {
        return Follow::Alone;
    }
    let lines: Vec<&Line> = before
        .iter()
        .filter_map(|at| problem.lines.get(*at))
        .collect();
    let lines = (before.iter().copied().collect(), lines);
    product(problem, line, lines).unwrap_or(Follow::NotCarried)
}

/// The asked lines that a line's formula uses, itself or through steps that are not asked.
fn parents(problem: &Problem, line: &Line) -> BTreeSet<usize> {
    let variant = &problem.variant;
    let mut found = BTreeSet::new();
    let mut open = vec![line.step];
    let mut seen = BTreeSet::new();
    while let Some(at) = open.pop() {
        let formula = variant.steps.get(at).and_then(|step| step.body.formula());
        for slot in formula
            .into_iter()
            .flat_map(crate::formulas::Formula::slots)
        {
            let step = variant
                .steps
                .iter()
                .position(|step| step.slot == Some(*slot));
            let Some(step) = step.filter(|step| seen.insert(*step)) else {
                continue;
            };
            let asked = problem.lines.iter().position(|line| line.step == step);
            match asked {
                Some(at)
                    if problem
                        .lines
                        .get(at)
                        .is_some_and(|l| l.asks != Asks::Nothing) =>
                {
                    found.insert(at);
                }
                _ => open.push(step),
            }
        }
    }
    found
}

/// By how much earlier figures are moved to see whether a line is their product: to both
/// sides, little and much, so that a power, a step or a limit in its formula shows. Our
/// own choice, no source.
const SCALES: [f64; 5] = [0.4, 0.83, 1.1, 1.7, 3.0];

/// How a line follows, where it is a product of these lines, given with their places.
fn product(
    problem: &Problem,
    line: &Line,
    (places, before): (Vec<usize>, Vec<&Line>),
) -> Option<Follow> {
    let variant = &problem.variant;
    let step = variant.steps.get(line.step)?;
    let plain = |line: &Line| {
        let unit = line.unit.as_ref()?;
        let unsafe_if = &variant.steps.get(line.step)?.unsafe_if;
        let figure = matches!(line.asks, Asks::Figure) && unsafe_if.is_none();
        (figure && !unit.is_point()).then(|| unit.clone())
    };
    let unit = plain(line)?;
    let units = before.iter().map(|line| plain(line));
    let units: Vec<_> = units.collect::<Option<_>>()?;
    let own: Vec<f64> = before
        .iter()
        .map(|line| Some(problem.value(line.step)?.number()?.si))
        .collect::<Option<_>>()?;
    let right = found(problem, line, &before, &own)?;
    // Each figure by itself, then all at once: a product scales as its factors do.
    let counts = |scales: &[f64]| {
        let moved: Vec<f64> = own.iter().zip(scales).map(|(own, by)| own * by).collect();
        let wanted = right * scales.iter().product::<f64>();
        found(problem, line, &before, &moved).is_some_and(|found| same(found, wanted))
    };
    for scale in SCALES {
        let mut scales = vec![scale; own.len()];
        if !counts(&scales) {
            return None;
        }
        for at in 0..own.len() {
            scales.fill(1.0);
            if let Some(place) = scales.get_mut(at) {
                *place = scale;
            }
            if !counts(&scales) {
                return None;
            }
        }
    }
    let figures = own.iter().zip(&units).map(|(own, unit)| unit.from_si(*own));
    let shown = unit.from_si(right);
    let factor = shown / figures.product::<f64>();
    if !(factor > 0.0 && factor.is_finite() && shown > 0.0) {
        return None;
    }
    let Tolerance { below, above } = judge(problem, &problem.values).tolerance(line.step, right);
    let below = shown - unit.from_si(right - below);
    let above = unit.from_si(right + above) - shown;
    // By an amount it is the same around every product, else it grows with the product.
    let (from, to) = if matches!(step.within, Some(Within::By(_))) {
        (
            (factor, -below - shown * SNAP),
            (factor, above + shown * SNAP),
        )
    } else {
        let (low, high) = (below / shown + SNAP, above / shown + SNAP);
        ((factor * (1.0 - low), 0.0), (factor * (1.0 + high), 0.0))
    };
    let written = step.write.map(|write| OnGrid {
        grid: write.grid_shown,
        steps: (factor / write.grid_shown, to_steps(write.direction)),
    });
    Some(Follow::Product {
        lines: places,
        from,
        to,
        written,
    })
}

/// What is added to a number of steps, so that its whole part is the step to be written;
/// what is as near to a step as noise stands on it.
const fn to_steps(direction: Direction) -> f64 {
    match direction {
        Direction::Up => 1.0 - SNAP,
        Direction::Down => SNAP,
        Direction::Nearest => 0.5 + SNAP,
    }
}

/// What a line comes to with these figures at the lines before it, all else being true.
fn found(problem: &Problem, line: &Line, before: &[&Line], own: &[f64]) -> Option<f64> {
    let variant = &problem.variant;
    let mut values = problem.values.clone();
    for (at, step) in variant.steps.iter().enumerate().take(line.step + 1) {
        let Some(slot) = step.slot else { continue };
        let place = values.get_mut(slot)?;
        match before.iter().position(|line| line.step == at) {
            Some(which) => {
                if let Some(Value::Number(quantity)) = place {
                    quantity.si = *own.get(which)?;
                }
            }
            None => {
                let value = step_value(variant, step, &values).ok().flatten();
                *values.get_mut(slot)? = value;
            }
        }
    }
    let slot = variant.steps.get(line.step)?.slot?;
    Some(values.get(slot)?.as_ref()?.number()?.si)
}

/// The rows that a line can be answered with, in the order of their table; of a long
/// table some that stand together, the right one anywhere among them.
pub fn row_offers(problem: &Problem, line: &Line) -> Vec<RowOffer> {
    let variant = &problem.variant;
    let (Some(table), Some(Value::Row(right))) =
        (variant.row_tables.get(&line.step), problem.value(line.step))
    else {
        return Vec::new();
    };
    let own = problem.mistakes.iter().enumerate();
    let own: Vec<(usize, Value)> = own
        .filter(|(_, live)| live.step == line.id)
        .filter_map(|(at, live)| Some((at, as_row(variant, line.step, live.value.clone()?))))
        .collect();
    let count = table.rows.len();
    let first = first_offered(problem, line, count, right.index);
    let mut offers: Vec<RowOffer> = Vec::new();
    for index in first..count.min(first + MOST) {
        let row = Value::Row(Row {
            table: std::sync::Arc::clone(table),
            index,
        });
        let name = show(&row, None);
        let is_right = index == right.index;
        let made = own.iter().filter(|(_, wrong)| *wrong == row);
        let offer = RowOffer {
            right: is_right,
            mistakes: made.map(|(at, _)| *at).collect(),
            name,
        };
        match offers.iter_mut().find(|other| other.name == offer.name) {
            Some(same_name) => same_name.right |= is_right,
            None => offers.push(offer),
        }
    }
    offers
}

/// A list of more rows is no help: from one of 24 the right one can still be found at a
/// glance. Our own choice, no source.
const MOST: usize = 24;

/// The first row that is offered of a table of so many: by chance, so that the place among
/// the offers does not tell the right one, and for the same job the same each time.
fn first_offered(problem: &Problem, line: &Line, count: usize, right: usize) -> usize {
    let mut named = vec!["rows offered", &problem.code.family, &line.id];
    // No code names the numbers of a sealed problem; its story has them.
    named.extend(problem.story.iter().map(String::as_str));
    let least = (right + 1).saturating_sub(MOST);
    let most = right.min(count.saturating_sub(MOST));
    Key::of(&named).stream(0).between(least, most)
}

/// How a mistake in an arrangement is told from an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arranged {
    /// The job at the first place is put before the job at the second place of those shown.
    Early(usize, usize),
    /// The job at this place of those shown has a number, and belongs nowhere.
    Uses(usize),
    /// The job at this place of those shown has none, and belongs.
    Omits(usize),
    /// The part at the first place has the meaning at the second place of those shown.
    Pair(usize, usize),
}

/// A mistake in an arrangement, by what is shown, and whether it ends the item.
pub fn arranged(problem: &Problem, line: &Line, live: &LiveMistake) -> Option<(Arranged, bool)> {
    use crate::lessons::{Body, Way};
    let variant = &problem.variant;
    let plan = variant.mistakes.get(live.index)?;
    if plan.step != line.step {
        return None;
    }
    let way = match &line.asks {
        Asks::Order { cards } => {
            let place = |at: usize| {
                let id = &variant.cards.get(at)?.id;
                cards.iter().position(|card| card.id == *id)
            };
            match plan.way {
                Way::Early(first, second) => Arranged::Early(place(first)?, place(second)?),
                Way::Uses(at) => Arranged::Uses(place(at)?),
                Way::Omits(at) => Arranged::Omits(place(at)?),
                _ => return None,
            }
        }
        Asks::Match { parts, meanings } => {
            let Body::Match(of) = &variant.steps.get(line.step)?.body else {
                return None;
            };
            let Way::Pair(left, right) = plan.way else {
                return None;
            };
            let cell = |row: usize, column: usize| {
                let cell = of.table.rows.get(row)?.get(column)?;
                Some(show(cell, None))
            };
            let (part, meaning) = (cell(left, of.left)?, cell(right, of.right)?);
            let part = parts.iter().position(|(text, _)| *text == part)?;
            let meaning = meanings.iter().position(|offer| offer.text == meaning)?;
            Arranged::Pair(part, meaning)
        }
        _ => return None,
    };
    Some((way, plan.fatal))
}
