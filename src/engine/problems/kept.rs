//! A drawn problem as it is kept beside a printed paper, and a problem made again from
//! that: from the values that were printed, not from a seed, so that neither a newer
//! program nor another sampling changes what a paper asks.

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::dealer::{Dealer, Kept, Seed};
use super::draw::{DrawError, Request};
use super::figure::Figure;
use super::problem::{Asks, LiveMistake, Offer, Problem, ShownCard};
use super::settings::{SettingFault, Settings};
use super::solve::step_value;
use super::working::working;
use crate::formulas::{Row, Rows, Value, same};
use crate::lessons::{Library, Tables, Variant, show};
use crate::quantities::{Dimension, Quantity, System};

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

/// A problem made again.
#[derive(Debug, Clone)]
pub struct Rebuilt {
    /// The problem, with the figures as they were printed.
    pub problem: Problem,
    /// Where this program works a figure otherwise than the one that printed it.
    pub differs: Vec<Differs>,
}

/// A figure that this program works otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differs {
    /// What it is.
    pub label: String,
    /// As it was when the paper was printed.
    pub printed: String,
    /// As this program has it.
    pub now: String,
}

/// Why a problem is not made again.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum KeptFault {
    /// The family cannot be read from the text that was kept.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// A house rule cannot be set from the text that was kept.
    #[error(transparent)]
    Setting(#[from] SettingFault),
    /// Record and text do not belong together.
    #[error("the record of {family} has {what}, which the kept text of the lesson has not")]
    Foreign {
        /// The family.
        family: String,
        /// What is not there.
        what: String,
    },
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

    fn value(&self, tables: &Tables) -> Option<Value> {
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

    fn asks(&self, tables: &Tables) -> Option<Asks> {
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

    /// The problem again, from a library that was read from the lesson text as it was.
    pub fn rebuild(&self, library: &Library) -> Result<Rebuilt, KeptFault> {
        let foreign = |what: String| KeptFault::Foreign {
            family: self.family.clone(),
            what,
        };
        let system: System =
            (self.units.parse()).map_err(|_| foreign(format!("the units \"{}\"", self.units)))?;
        let mut settings = Settings::default();
        for (name, value) in &self.rules {
            settings.set(library, name, value)?;
        }
        let request = Request {
            family: &self.family,
            level: Some(self.level),
            system,
            draw: 0,
            settings: &settings,
        };
        let dealer = Dealer::new(library, &request)?;
        let variant = Arc::clone(&dealer.variant);
        let tables = library.tables(system);
        let kept = |list: &[(String, KeptValue)], slot: usize| {
            let name = &variant.names.get(slot)?.name;
            let (_, value) = list.iter().find(|(known, _)| known == name)?;
            value.value(tables)
        };
        let mut values = dealer.rules.clone();
        values.resize(variant.names.len(), None);
        for given in &variant.givens {
            let name = || variant.names.get(given.slot).map(|name| name.name.clone());
            let value = kept(&self.givens, given.slot)
                .ok_or_else(|| foreign(format!("no value of {}", name().unwrap_or_default())))?;
            if let Some(place) = values.get_mut(given.slot) {
                *place = Some(value);
            }
        }
        let mut differs = Vec::new();
        for step in &variant.steps {
            let Some(slot) = step.slot else { continue };
            let now = step_value(&variant, step, &values).ok().flatten();
            let printed = kept(&self.found, slot);
            if !alike(printed.as_ref(), now.as_ref()) {
                let shown = |value: Option<&Value>| {
                    value.map_or_else(
                        || "nothing".to_owned(),
                        |value| show(value, step.unit.as_ref()),
                    )
                };
                differs.push(Differs {
                    label: step.label.clone(),
                    printed: shown(printed.as_ref()),
                    now: shown(now.as_ref()),
                });
            }
            if let Some(place) = values.get_mut(slot) {
                *place = printed.or(now);
            }
        }
        let mut lines = Vec::new();
        for line in &self.lines {
            let no_line = || foreign(format!("the line \"{}\"", line.step));
            let at = variant.step(&line.step).ok_or_else(no_line)?;
            let step = variant.steps.get(at).ok_or_else(no_line)?;
            let asks = line.asks.asks(tables).ok_or_else(no_line)?;
            let mut line_again = dealer.line(at, step, asks, &values);
            line_again.marks = line.marks;
            lines.push(line_again);
        }
        let mistakes = self.mistakes_again(&variant, tables)?;
        let figure = match &variant.figure {
            Some(plan) => Figure::of(plan, &variant, &values).ok(),
            None => None,
        };
        let kept = Kept {
            values,
            mistakes,
            lines,
            figure,
        };
        Ok(Rebuilt {
            problem: dealer.problem(Seed::Sealed(&[0; 32]), kept),
            differs,
        })
    }

    fn mistakes_again(
        &self,
        variant: &Variant,
        tables: &Tables,
    ) -> Result<Vec<LiveMistake>, KeptFault> {
        let mistakes = self.mistakes.iter().filter_map(|mistake| {
            let index = (variant.mistakes.iter()).position(|plan| plan.id == mistake.id)?;
            let step = variant.steps.get(variant.mistakes.get(index)?.step)?;
            Some(LiveMistake {
                index,
                id: mistake.id.clone(),
                step: step.id.clone(),
                value: match &mistake.value {
                    Some(value) => Some(value.value(tables)?),
                    None => None,
                },
                text: mistake.text.clone(),
            })
        });
        let mistakes: Vec<LiveMistake> = mistakes.collect();
        if let Some(lost) =
            (self.mistakes.iter()).find(|kept| mistakes.iter().all(|mistake| mistake.id != kept.id))
        {
            return Err(KeptFault::Foreign {
                family: self.family.clone(),
                what: format!("the mistake \"{}\"", lost.id),
            });
        }
        Ok(mistakes)
    }
}

/// Whether two values are the same but for the noise of arithmetic.
fn alike(a: Option<&Value>, b: Option<&Value>) -> bool {
    match (a, b) {
        (Some(Value::Number(a)), Some(Value::Number(b))) => {
            a.dimension == b.dimension && same(a.si, b.si)
        }
        (a, b) => a == b,
    }
}
