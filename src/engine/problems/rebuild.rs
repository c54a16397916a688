//! Problems made again from what is kept of them, as they were printed. Where this program
//! works a figure otherwise, that is said, and the printed one stands.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::sync::Arc;

use thiserror::Error;

use super::dealer::{Dealer, Kept, Seed};
use super::draw::{DrawError, Request};
use super::figure::Figure;
use super::kept::{KeptProblem, KeptValue};
use super::problem::{LiveMistake, Problem};
use super::settings::{SettingFault, Settings};
use super::solve::step_value;
use crate::formulas::{Value, same};
use crate::lessons::{Library, Tables, Variant, show};
use crate::quantities::System;

/// Makes problems again from a library that was read from the lesson text as it was. What is
/// the same for all problems of a family is looked up once.
pub struct Rebuilder<'l> {
    library: &'l Library,
    dealers: BTreeMap<Face, Dealer>,
}

/// Family, level, system of units, house rules.
type Face = (String, u8, String, Vec<(String, String)>);

impl<'l> Rebuilder<'l> {
    /// From a library.
    pub const fn of(library: &'l Library) -> Self {
        Self {
            library,
            dealers: BTreeMap::new(),
        }
    }

    /// A problem again, with the figures that were printed.
    ///
    /// # Errors
    /// Why record and text make no problem together.
    pub fn problem(&mut self, kept: &KeptProblem) -> Result<Rebuilt, KeptFault> {
        let rules = kept.rules.clone();
        let face = (kept.family.clone(), kept.level, kept.units.clone(), rules);
        let dealer = match self.dealers.entry(face) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(free) => free.insert(kept.dealer(self.library)?),
        };
        kept.rebuild(dealer, self.library.tables(dealer.variant.system))
    }
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

impl KeptProblem {
    fn foreign(&self, what: String) -> KeptFault {
        KeptFault::Foreign {
            family: self.family.clone(),
            what,
        }
    }

    /// What deals problems of this family, level, system and house rules.
    fn dealer(&self, library: &Library) -> Result<Dealer, KeptFault> {
        let system: System = (self.units.parse())
            .map_err(|_| self.foreign(format!("the units \"{}\"", self.units)))?;
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
        Ok(Dealer::new(library, &request)?)
    }

    /// The problem again, with the figures that were printed.
    fn rebuild(&self, dealer: &Dealer, tables: &Tables) -> Result<Rebuilt, KeptFault> {
        let foreign = |what: String| self.foreign(what);
        let variant = Arc::clone(&dealer.variant);
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
            return Err(self.foreign(format!("the mistake \"{}\"", lost.id)));
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
