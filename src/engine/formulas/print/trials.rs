//! A search as a tradesman tells it: row by row, what each has and why it will
//! not do, down to the one that passes.

use crate::quantities::print::with_unit;
use crate::quantities::{Dimension, Unit};

use super::super::ast::{Comparison, Which};
use super::super::formula::{Of, Part, Search, What};
use super::super::value::{Row, Type};
use super::fits::{flatten, readings};
use super::plain::falls;
use super::shape::{MOST_CONDITIONS, Mode, Shaper, key, shown};

/// How many trials are told; the ones nearest the choice.
const MOST_TRIALS: usize = 8;

/// A line for each row that was tried.
pub(super) fn trials(shaper: &Shaper, search: &Search) -> Vec<String> {
    let Mode::Numbers(around, _) = &shaper.mode else {
        return Vec::new();
    };
    let Ok(rows) = around.rows(search) else {
        return Vec::new();
    };
    let rows: Vec<Row> = match search.which {
        Which::Last => rows.iter().rev().collect(),
        Which::First | Which::Any => rows.iter().collect(),
    };
    let mut lines = Vec::new();
    for row in rows {
        let (line, passes) = trial(shaper, search, &row);
        lines.extend(line);
        if passes {
            break;
        }
    }
    let told = lines.len().saturating_sub(MOST_TRIALS);
    lines.split_off(told)
}

/// What is told of a row, and whether it passes. A row that is of another kind
/// altogether is no trial, and nothing is told of it.
fn trial(shaper: &Shaper, search: &Search, row: &Row) -> (Option<String>, bool) {
    let Mode::Numbers(around, figures) = &shaper.mode else {
        return (None, false);
    };
    let here = around.at(row.clone());
    let at_row = Shaper {
        mode: Mode::Numbers(here.clone(), *figures),
        ..shaper.clone()
    };
    let mut conditions = Vec::new();
    flatten(&search.test, &mut conditions);
    let readings = readings(&search.test);
    let by_readings = readings.len() >= MOST_CONDITIONS;
    let mut told = Vec::new();
    for condition in conditions {
        let passes = here.truth(condition).unwrap_or(false);
        if by_readings && !passes {
            return (at_row.misfit(condition, row), false);
        }
        match at_row.finding(condition, passes) {
            Finding::Told(text) => told.push(text),
            Finding::OfAnotherKind => return (None, false),
            Finding::Untold if !passes => told.push("does not pass".to_owned()),
            Finding::Untold => {}
        }
        if !passes {
            return (Some(format!("{}: {}.", key(row), told.join("; "))), false);
        }
    }
    if by_readings {
        told = vec!["fits all of them".to_owned()];
    }
    if told.is_empty() {
        told = matched(&search.test, row);
    }
    if told.is_empty() {
        told.push("passes".to_owned());
    }
    (Some(format!("{}: {}.", key(row), told.join("; "))), true)
}

enum Finding {
    /// What the row has, and whether that will do.
    Told(String),
    /// A word of the row is not the one wanted.
    OfAnotherKind,
    /// Nothing to be said about it.
    Untold,
}

impl Shaper<'_> {
    /// A row out of the right words whose span a reading lies outside of.
    fn misfit(&self, condition: &Part, row: &Row) -> Option<String> {
        let What::Compare(Comparison::AtLeast | Comparison::AtMost, reading, _) = &condition.what
        else {
            return None;
        };
        Some(format!("{}: not by {}.", key(row), self.label(reading)))
    }

    fn finding(&self, condition: &Part, passes: bool) -> Finding {
        let What::Compare(comparison, left, right) = &condition.what else {
            return Finding::Untold;
        };
        if matches!(comparison, Comparison::Is | Comparison::IsNot) {
            return if passes {
                Finding::Untold
            } else {
                Finding::OfAnotherKind
            };
        }
        let (comparison, own, other) = match (left.uses_candidate(), right.uses_candidate()) {
            (true, _) => (*comparison, left, right),
            (false, true) => (turned(*comparison), right, left),
            (false, false) => return Finding::Untold,
        };
        let Some(own_text) = self.measured(own, own, other) else {
            return Finding::Untold;
        };
        // The row is called by its own figure already.
        let own_text = if self.is_candidate_key(own) {
            String::new()
        } else {
            format!("{own_text}, ")
        };
        if passes {
            return Finding::Told(format!("{own_text}passes"));
        }
        match self.measured(other, own, other) {
            Some(other) => Finding::Told(format!("{own_text}{} {other}", falls(comparison))),
            None => Finding::Untold,
        }
    }

    /// A side of a comparison in the unit that both sides are told in. A unit
    /// with a "per" in it is left out: the table's head says it.
    fn measured(&self, part: &Part, own: &Part, other: &Part) -> Option<String> {
        let unit = unit_in(self, own).or_else(|| unit_in(self, other));
        let Some(unit) = unit else {
            return (own.holds == Type::Quantity(Dimension::NONE))
                .then(|| self.plain_figure(part))
                .flatten();
        };
        let figure = self.figure_in(part, &unit)?;
        if unit.written().contains('/') && !self.is_candidate_key(own) {
            return Some(figure);
        }
        let Mode::Numbers(around, _) = &self.mode else {
            return None;
        };
        let value = around.number(part).ok()?;
        Some(with_unit(&figure, &unit, unit.from_si(value)))
    }

    fn plain_figure(&self, part: &Part) -> Option<String> {
        let Mode::Numbers(around, _) = &self.mode else {
            return None;
        };
        around.value(part).ok().map(|value| shown(&value, None))
    }

    fn is_candidate_key(&self, part: &Part) -> bool {
        let What::Column(column) = &part.what else {
            return false;
        };
        let Mode::Numbers(around, _) = &self.mode else {
            return false;
        };
        column.of == Of::Candidate
            && around
                .candidate
                .as_ref()
                .is_some_and(|row| row.table.key == column.at)
    }
}

/// The unit of the first leaf that is of the same kind as the whole part.
fn unit_in(shaper: &Shaper, part: &Part) -> Option<Unit> {
    let dimension = match &part.holds {
        Type::Quantity(dimension) => *dimension,
        Type::Temperature => Dimension::TEMPERATURE,
        _ => return None,
    };
    find(part, &|inner| {
        if inner.holds != part.holds {
            return None;
        }
        let unit = match &inner.what {
            What::Column(column) => column.unit.as_ref(),
            What::Name(slot) => shaper.names.get(*slot)?.unit.as_ref(),
            What::Number(literal) => literal.unit.as_ref(),
            _ => None,
        };
        unit.filter(|unit| unit.dimension() == dimension).cloned()
    })
}

fn find<T>(part: &Part, pick: &dyn Fn(&Part) -> Option<T>) -> Option<T> {
    pick(part).or_else(|| part.parts().into_iter().find_map(|inner| find(inner, pick)))
}

/// The comparison with its sides changed over.
fn turned(comparison: Comparison) -> Comparison {
    match comparison {
        Comparison::Less => Comparison::More,
        Comparison::AtMost => Comparison::AtLeast,
        Comparison::More => Comparison::Less,
        Comparison::AtLeast => Comparison::AtMost,
        same => same,
    }
}

/// The words by which a row was picked, where words alone decided.
fn matched(test: &Part, row: &Row) -> Vec<String> {
    let mut conditions = Vec::new();
    flatten(test, &mut conditions);
    let mut words = Vec::new();
    for condition in conditions {
        let What::Compare(Comparison::Is, left, right) = &condition.what else {
            continue;
        };
        for side in [left, right] {
            if let What::Column(column) = &side.what
                && column.of == Of::Candidate
                && column.at != row.table.key
                && let Some(cell) = row.cell(column.at)
            {
                words.push(shown(cell, None));
            }
        }
    }
    if words.is_empty() {
        words
    } else {
        vec![words.join(", ")]
    }
}
