//! A drawn problem as it is kept beside a printed paper: the values that were printed, not a
//! seed, so that neither a newer program nor another sampling changes what a paper asks.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::problem::{Asks, Offer, Problem, ShownCard};
use super::working::working;
use crate::formulas::{Row, Rows, Value};
use crate::lessons::Tables;
use crate::quantities::{Dimension, Quantity};

/// A problem as it was printed: what was given, what was found, how each line was
/// asked, which mistakes were known. The words come out of the lesson's own text, which
/// is kept beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptProblem {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// `us` or `si`.
    pub units: String,
    /// House rules off their default, as a problem code has them.
    pub rules: Vec<(String, String)>,
    /// The givens by name, hidden ones too.
    pub givens: Vec<(String, KeptValue)>,
    /// What the steps find, by name.
    pub found: Vec<(String, KeptValue)>,
    /// The lines of the sheet.
    pub lines: Vec<KeptLine>,
    /// The mistakes that could be made in it.
    pub mistakes: Vec<KeptMistake>,
}

/// A value as it is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase", deny_unknown_fields)]
pub enum KeptValue {
    /// A figure in SI, with the exponents of its dimension.
    Figure(f64, [i8; 5]),
    /// Yes or no.
    Truth(bool),
    /// A word.
    Word(String),
    /// A row: the table, and its place there.
    Row(String, usize),
    /// Several rows of a table.
    Rows(String, Vec<usize>),
}

/// A line as it was printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptLine {
    /// The step's name.
    pub step: String,
    /// The marks that it bears.
    pub marks: u32,
    /// How it is asked.
    pub asks: KeptAsks,
    /// The right answer, as it is written.
    pub answer: String,
    /// The least and the greatest figure that are right, in the unit of the line.
    pub accept: Option<(f64, f64)>,
}

/// How a line was asked.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase", deny_unknown_fields)]
pub enum KeptAsks {
    /// Not at all.
    Nothing,
    /// A figure.
    Figure,
    /// A row of a table.
    Row,
    /// Offers in the order printed, and the place of the right one.
    Pick(Vec<(String, KeptValue)>, usize),
    /// Jobs in the order printed.
    Order(Vec<KeptCard>),
    /// Parts, each with the place of its meaning, and meanings.
    Match(Vec<(String, usize)>, Vec<(String, KeptValue)>),
}

/// A job of an order, as it was printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptCard {
    /// Its id.
    pub id: String,
    /// Its text.
    pub text: String,
    /// Its number in one right order; none where it is to be left out.
    pub place: Option<usize>,
    /// The jobs that must come before it, by their places.
    pub after: Vec<usize>,
}

/// A mistake that could be made.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptMistake {
    /// Its name.
    pub id: String,
    /// The value that it gives; none for an arrangement.
    pub value: Option<KeptValue>,
    /// The value as it would be written.
    pub text: String,
}

impl KeptValue {
    fn of(value: &Value) -> Self {
        match value {
            Value::Number(quantity) => Self::Figure(quantity.si, quantity.dimension.0),
            Value::Truth(truth) => Self::Truth(*truth),
            Value::Word(word) => Self::Word(word.to_string()),
            Value::Row(row) => Self::Row(row.table.name.to_string(), row.index),
            Value::Rows(rows) => Self::Rows(rows.table.name.to_string(), rows.indices.to_vec()),
        }
    }

    pub(super) fn value(&self, tables: &Tables) -> Option<Value> {
        let table = |name: &str, last: Option<&usize>| {
            let table = tables.get(name)?;
            let there = last.is_none_or(|last| *last < table.rows.len());
            there.then(|| Arc::clone(table))
        };
        Some(match self {
            Self::Figure(si, exponents) => Value::Number(Quantity::new(*si, Dimension(*exponents))),
            Self::Truth(truth) => Value::Truth(*truth),
            Self::Word(word) => Value::Word(word.as_str().into()),
            Self::Row(name, index) => Value::Row(Row {
                table: table(name, Some(index))?,
                index: *index,
            }),
            Self::Rows(name, indices) => Value::Rows(Rows {
                table: table(name, indices.iter().max())?,
                indices: indices.as_slice().into(),
            }),
        })
    }
}

impl KeptAsks {
    fn of(asks: &Asks) -> Self {
        let offers = |list: &[Offer]| {
            let pairs = list.iter();
            let pairs = pairs.map(|offer| (offer.text.clone(), KeptValue::of(&offer.value)));
            pairs.collect::<Vec<_>>()
        };
        match asks {
            Asks::Nothing => Self::Nothing,
            Asks::Figure => Self::Figure,
            Asks::Row => Self::Row,
            Asks::Pick { offers: list, key } => Self::Pick(offers(list), *key),
            Asks::Order { cards } => {
                let cards = cards.iter().cloned().map(|card| KeptCard {
                    id: card.id,
                    text: card.text,
                    place: card.place,
                    after: card.after,
                });
                Self::Order(cards.collect())
            }
            Asks::Match { parts, meanings } => Self::Match(parts.clone(), offers(meanings)),
        }
    }

    pub(super) fn asks(&self, tables: &Tables) -> Option<Asks> {
        let offers = |list: &[(String, KeptValue)]| {
            let values = list.iter();
            let values = values.map(|(text, value)| Some((text.clone(), value.value(tables)?)));
            values
                .collect::<Option<Vec<_>>>()
                .map(super::arrange::offers)
        };
        Some(match self {
            Self::Nothing => Asks::Nothing,
            Self::Figure => Asks::Figure,
            Self::Row => Asks::Row,
            Self::Pick(list, key) => Asks::Pick {
                offers: offers(list).filter(|offers| *key < offers.len())?,
                key: *key,
            },
            Self::Order(cards) => {
                let cards = cards.iter().cloned().map(|card| ShownCard {
                    id: card.id,
                    text: card.text,
                    place: card.place,
                    after: card.after,
                });
                Asks::Order {
                    cards: cards.collect(),
                }
            }
            Self::Match(parts, meanings) => Asks::Match {
                parts: parts.clone(),
                meanings: offers(meanings)?,
            },
        })
    }
}

impl KeptProblem {
    /// The marks that could be earned. A line that was not asked bears none, whatever
    /// its step is worth elsewhere.
    pub fn marks(&self) -> u32 {
        let asked = self
            .lines
            .iter()
            .filter(|line| line.asks != KeptAsks::Nothing);
        asked.fold(0, |sum, line| sum.saturating_add(line.marks))
    }

    /// A problem as it is kept.
    pub fn of(problem: &Problem) -> Self {
        let variant = &problem.variant;
        let named = |slot: usize| {
            let value = problem.values.get(slot)?.as_ref()?;
            Some((variant.names.get(slot)?.name.clone(), KeptValue::of(value)))
        };
        let worked = working(problem);
        let lines = problem.lines.iter().map(|line| {
            let right = problem.value(line.step).and_then(Value::number);
            let accept = problem.tolerance(line).and_then(|(below, above)| {
                let shown = line.unit.as_ref()?.from_si(right?.si);
                Some((shown - below, shown + above))
            });
            let answer = worked.iter().find(|worked| worked.id == line.id);
            KeptLine {
                step: line.id.clone(),
                marks: line.marks,
                asks: KeptAsks::of(&line.asks),
                answer: answer.map_or_else(String::new, |worked| worked.text.clone()),
                accept,
            }
        });
        let mistakes = problem.mistakes.iter().map(|mistake| KeptMistake {
            id: mistake.id.clone(),
            value: mistake.value.as_ref().map(KeptValue::of),
            text: mistake.text.clone(),
        });
        Self {
            family: problem.code.family.clone(),
            level: problem.code.level,
            units: problem.code.system.letters().to_owned(),
            rules: problem.code.rules.clone(),
            givens: (variant.givens.iter())
                .filter_map(|given| named(given.slot))
                .collect(),
            found: (variant.steps.iter())
                .filter_map(|step| named(step.slot?))
                .collect(),
            lines: lines.collect(),
            mistakes: mistakes.collect(),
        }
    }
}
