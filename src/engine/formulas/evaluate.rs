//! From a formula and values to a value. Never panics and always ends: the
//! parser bounds depth, the check bounds rows. Only the part of a branch that is
//! taken is evaluated, and `and` and `or` stop as soon as they know.

use std::sync::Arc;

use pumpwright_calc::registry::{Basis, Function, Kind, Value as CalcValue};
use thiserror::Error;

use crate::quantities::print::rounded;
use crate::quantities::{Dimension, Quantity};

use super::ast::{Comparison, Logic, Sign, Which};
use super::formula::{ColumnOf, Extreme, Formula, Of, Part, Place, Search, What};
use super::snap::{difference, same};
use super::value::{Row, Rows, Type, Value};

/// Why a formula that is sound gives no value for these givens.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoValue {
    /// A search found nothing.
    #[error("no row of {table} fits")]
    NoRow {
        /// The table searched.
        table: Arc<str>,
    },
    /// A calculation refused what it was given.
    #[error("{sentence}")]
    Refused {
        /// The calculation.
        function: &'static str,
        /// Why, in its own words.
        sentence: String,
    },
    /// A division by nothing, a root of a negative, or a figure too large.
    #[error("the result is not a finite figure")]
    NotFinite,
    /// A name that has no value.
    #[error("a value that the formula needs is missing")]
    Missing {
        /// The place of the name.
        slot: usize,
    },
    /// A value that is not of the type that its name says.
    #[error("a value is of another kind than its name")]
    OfAnotherKind,
}

impl Formula {
    /// The value for the values of the names, each at the place of its name.
    pub fn evaluate(&self, values: &[Option<Value>], basis: Basis) -> Result<Value, NoValue> {
        Around {
            values,
            basis,
            candidate: None,
        }
        .value(&self.0.root)
    }
}

/// What a part is evaluated with.
#[derive(Clone)]
pub(super) struct Around<'a> {
    pub values: &'a [Option<Value>],
    pub basis: Basis,
    /// The row that a search is at.
    pub candidate: Option<Row>,
}

impl Around<'_> {
    pub fn value(&self, part: &Part) -> Result<Value, NoValue> {
        match &part.what {
            What::Number(literal) => Ok(Value::Number(literal.value)),
            What::Word(word) => Ok(Value::Word(Arc::clone(word))),
            What::Name(slot) => fitting(self.slot(*slot)?, &part.holds),
            What::Column(column) => fitting(self.cell(column)?, &part.holds),
            What::Candidate => self
                .candidate
                .clone()
                .map(Value::Row)
                .ok_or(NoValue::OfAnotherKind),
            What::Not(inner) => Ok(Value::Truth(!self.truth(inner)?)),
            What::Compare(comparison, left, right) => {
                self.compare(*comparison, left, right).map(Value::Truth)
            }
            What::Logic(logic, left, right) => {
                let decided = match logic {
                    Logic::And => self.truth(left)? && self.truth(right)?,
                    Logic::Or => self.truth(left)? || self.truth(right)?,
                };
                Ok(Value::Truth(decided))
            }
            What::Branch(branch) => {
                let taken = if self.truth(&branch.test)? {
                    &branch.yes
                } else {
                    &branch.no
                };
                self.value(taken)
            }
            What::Call(function, inputs) => self.call(function, inputs, part),
            What::Search(search) => self.search(search),
            _ => self.arithmetic(part),
        }
    }

    /// The value of a part that is a number, in coherent SI units.
    pub fn number(&self, part: &Part) -> Result<f64, NoValue> {
        self.value(part)?
            .number()
            .map(|quantity| quantity.si)
            .ok_or(NoValue::OfAnotherKind)
    }

    pub fn truth(&self, part: &Part) -> Result<bool, NoValue> {
        self.value(part)?.truth().ok_or(NoValue::OfAnotherKind)
    }

    fn arithmetic(&self, part: &Part) -> Result<Value, NoValue> {
        let si = match &part.what {
            What::Bare(leaf, unit) => {
                let si = self.number(leaf)?;
                unit.as_ref().map_or(si, |unit| unit.from_si(si))
            }
            What::Negate(inner) => -self.number(inner)?,
            What::Size(inner) => self.number(inner)?.abs(),
            What::Root(inner) => self.number(inner)?.sqrt(),
            What::Power(base, exponent) => libm::pow(self.number(base)?, *exponent),
            What::Sum(sign, left, right) => {
                let (left, right) = (self.number(left)?, self.number(right)?);
                match sign {
                    Sign::Plus => difference(left, -right),
                    Sign::Minus => difference(left, right),
                    Sign::Times => left * right,
                    Sign::Over => left / right,
                }
            }
            What::Extreme(extreme, parts) => self.extreme(*extreme, parts)?,
            What::Round(way, value, grid) => {
                let (value, grid) = (self.number(value)?, self.number(grid)?);
                if grid <= 0.0 {
                    return Err(NoValue::NotFinite);
                }
                rounded(value, grid, *way)
            }
            _ => return Err(NoValue::OfAnotherKind),
        };
        finite(si, &part.holds)
    }

    fn extreme(&self, extreme: Extreme, parts: &[Part]) -> Result<f64, NoValue> {
        let mut best: Option<f64> = None;
        for part in parts {
            let value = self.number(part)?;
            best = Some(match (best, extreme) {
                (None, _) => value,
                (Some(best), Extreme::Least) => best.min(value),
                (Some(best), Extreme::Greatest) => best.max(value),
            });
        }
        best.ok_or(NoValue::OfAnotherKind)
    }

    fn slot(&self, slot: usize) -> Result<Value, NoValue> {
        self.values
            .get(slot)
            .cloned()
            .flatten()
            .ok_or(NoValue::Missing { slot })
    }

    pub fn row(&self, of: Of) -> Result<Row, NoValue> {
        match of {
            Of::Candidate => self.candidate.clone().ok_or(NoValue::OfAnotherKind),
            Of::Slot(slot) => match self.values.get(slot) {
                Some(Some(Value::Row(row))) => Ok(row.clone()),
                Some(Some(_)) => Err(NoValue::OfAnotherKind),
                _ => Err(NoValue::Missing { slot }),
            },
        }
    }

    fn cell(&self, column: &ColumnOf) -> Result<Value, NoValue> {
        let row = self.row(column.of)?;
        let here = row.table.columns.get(column.at);
        let at = match here {
            Some(here) if here.name == *column.name => column.at,
            _ => row
                .table
                .column(&column.name)
                .ok_or(NoValue::OfAnotherKind)?,
        };
        row.cell(at).cloned().ok_or(NoValue::OfAnotherKind)
    }

    fn compare(&self, comparison: Comparison, left: &Part, right: &Part) -> Result<bool, NoValue> {
        let (left, right) = (self.value(left)?, self.value(right)?);
        match comparison {
            Comparison::Is => return Ok(left == right),
            Comparison::IsNot => return Ok(left != right),
            _ => {}
        }
        let (Some(left), Some(right)) = (left.number(), right.number()) else {
            return Err(NoValue::OfAnotherKind);
        };
        let (left, right) = (left.si, right.si);
        Ok(match comparison {
            Comparison::Less => left < right && !same(left, right),
            Comparison::More => left > right && !same(left, right),
            Comparison::AtMost => left <= right || same(left, right),
            _ => left >= right || same(left, right),
        })
    }

    fn call(
        &self,
        function: &'static Function,
        inputs: &[Part],
        part: &Part,
    ) -> Result<Value, NoValue> {
        let mut arguments = Vec::with_capacity(inputs.len());
        for (port, input) in function.inputs.iter().zip(inputs) {
            arguments.push(match (port.kind, self.value(input)?) {
                (Kind::Word(words), Value::Word(word)) => {
                    CalcValue::Word(known_word(function, words, &word)?)
                }
                (_, Value::Number(quantity)) => CalcValue::Number(quantity.si),
                _ => return Err(NoValue::OfAnotherKind),
            });
        }
        match (function.call)(self.basis, &arguments) {
            Ok(CalcValue::Number(si)) => finite(si, &part.holds),
            Ok(CalcValue::Word(word)) => Ok(Value::Word(word.into())),
            Err(refusal) => Err(NoValue::Refused {
                function: function.name,
                sentence: refusal.to_string(),
            }),
        }
    }

    /// The rows that a search looks through.
    pub fn rows(&self, search: &Search) -> Result<Rows, NoValue> {
        match &search.place {
            Place::Table(table) => Ok(Rows::all(table)),
            Place::Slot(slot) => match self.values.get(*slot) {
                Some(Some(Value::Rows(rows))) => Ok(rows.clone()),
                Some(Some(_)) => Err(NoValue::OfAnotherKind),
                _ => Err(NoValue::Missing { slot: *slot }),
            },
        }
    }

    /// The same with a search at this row.
    pub fn at(&self, row: Row) -> Self {
        Self {
            candidate: Some(row),
            ..self.clone()
        }
    }

    fn search(&self, search: &Search) -> Result<Value, NoValue> {
        let rows = self.rows(search)?;
        let found = match search.which {
            Which::Last => self.first_of(rows.iter().rev(), &search.test)?,
            Which::First | Which::Any => self.first_of(rows.iter(), &search.test)?,
        };
        match (search.which, found) {
            (Which::Any, found) => Ok(Value::Truth(found.is_some())),
            (_, Some(row)) => Ok(Value::Row(row)),
            (_, None) => Err(NoValue::NoRow {
                table: Arc::clone(&rows.table.name),
            }),
        }
    }

    fn first_of(
        &self,
        rows: impl Iterator<Item = Row>,
        test: &Part,
    ) -> Result<Option<Row>, NoValue> {
        for row in rows {
            if self.at(row.clone()).truth(test)? {
                return Ok(Some(row));
            }
        }
        Ok(None)
    }
}

fn finite(si: f64, holds: &Type) -> Result<Value, NoValue> {
    let dimension = match holds {
        Type::Quantity(dimension) => *dimension,
        Type::Temperature => Dimension::TEMPERATURE,
        _ => return Err(NoValue::OfAnotherKind),
    };
    if si.is_finite() {
        Ok(Value::Number(Quantity::new(si, dimension)))
    } else {
        Err(NoValue::NotFinite)
    }
}

/// A value that came from outside, if it is of the type that the formula was
/// checked with.
fn fitting(value: Value, holds: &Type) -> Result<Value, NoValue> {
    let fits = match (&value, holds) {
        (Value::Number(quantity), Type::Quantity(dimension)) => quantity.dimension == *dimension,
        (Value::Number(quantity), Type::Temperature) => {
            quantity.dimension == Dimension::TEMPERATURE
        }
        (Value::Truth(_), Type::Truth)
        | (Value::Word(_), Type::Word)
        | (Value::Row(_), Type::Row(_))
        | (Value::Rows(_), Type::Rows(_)) => true,
        _ => false,
    };
    match value {
        Value::Number(quantity) if fits && !quantity.is_finite() => Err(NoValue::NotFinite),
        value if fits => Ok(value),
        _ => Err(NoValue::OfAnotherKind),
    }
}

fn known_word(
    function: &Function,
    words: &'static [&'static str],
    word: &str,
) -> Result<&'static str, NoValue> {
    words
        .iter()
        .find(|known| **known == word)
        .copied()
        .ok_or_else(|| NoValue::Refused {
            function: function.name,
            sentence: format!("\"{word}\" is none of: {}", words.join(", ")),
        })
}

#[cfg(test)]
mod tests;
