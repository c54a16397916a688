//! Drawing a problem: givens dealt, steps worked, nonsense and ambiguity thrown
//! away and dealt anew, within a bound.

use std::sync::Arc;

use thiserror::Error;

use super::arrange;
use super::code::{Code, CodeFault, DRAWS};
use super::judge::Judge;
use super::problem::{Asks, GivenLine, Line, LiveMistake, Problem, RuleLine};
use super::random::{Key, Stream};
use super::settings::{FORM, ROUNDING, SettingFault, Settings, UNIT};
use super::solve::{last_figure, mistake_value, step_value, with_step};
use super::{deal, written};
use crate::formulas::Value;
use crate::lessons::{
    Body, Family, Library, Printed, StepPlan, Variant, Way, basis, paragraphs, show,
};
use crate::quantities::System;

/// How often a draw is tried.
pub const TRIES: u64 = 200;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Request<'a> {
    /// The family's id.
    pub family: &'a str,
    /// The level; none for the home level.
    pub level: Option<u8>,
    /// The system of units.
    pub system: System,
    /// Which draw, below [`DRAWS`].
    pub draw: u32,
    /// House rules off their default.
    pub settings: &'a Settings,
}

/// Why no problem is drawn.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DrawError {
    /// There is no such family.
    #[error("there is no family \"{name}\"{}", nearby(.near))]
    Family {
        /// The name given.
        name: String,
        /// The nearest names.
        near: Vec<String>,
    },
    /// The family does not have that level.
    #[error("{family} has no level {level}; it has {}", levels(.has))]
    Level {
        /// The family.
        family: String,
        /// The level asked for.
        level: u8,
        /// The levels that it has.
        has: Vec<u8>,
    },
    /// The draw's number is too high.
    #[error("there is no draw {0}; draws go from 0 to {last}", last = DRAWS - 1)]
    Draw(u32),
    /// The text is no problem code.
    #[error(transparent)]
    Code(#[from] CodeFault),
    /// A house rule in the code is not to be had.
    #[error("the problem code cannot be drawn here: {0}")]
    Setting(#[from] SettingFault),
    /// The family or its rules have changed since the code was made.
    #[error(
        "{family} has changed since this code was made: the code needs revision {wanted}, here is {here}; use the lessons that it was made with, or draw a new one"
    )]
    Revision {
        /// The family.
        family: String,
        /// The revision in the code.
        wanted: String,
        /// The revision here.
        here: String,
    },
    /// The family does not go with a house rule.
    #[error("{0} is not drawn under this house rule")]
    Ruled(String),
    /// No try gave a problem.
    #[error("{family} gave no problem in {TRIES} tries; run pumpwright check on its file")]
    Tries {
        /// The family.
        family: String,
    },
}

fn nearby(names: &[String]) -> String {
    if names.is_empty() {
        String::new()
    } else {
        format!("; near it: {}", names.join(", "))
    }
}

fn levels(levels: &[u8]) -> String {
    let parts: Vec<String> = levels.iter().map(u8::to_string).collect();
    parts.join(", ")
}

/// Why a try was thrown away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rejected {
    /// A step or a given had no value.
    NoValue,
    /// A requirement was not met.
    Requirement,
    /// A mistake would be marked right.
    Guard,
}

/// Draws a problem.
pub fn draw(library: &Library, request: &Request<'_>) -> Result<Problem, DrawError> {
    let dealer = Dealer::new(library, request)?;
    if request.draw >= DRAWS {
        return Err(DrawError::Draw(request.draw));
    }
    dealer.deal(scatter(request.draw))
}

/// Draws the problem of a code again.
pub fn again(library: &Library, code: &Code) -> Result<Problem, DrawError> {
    let mut settings = Settings::default();
    for (name, value) in &code.rules {
        settings.set(library, name, value)?;
    }
    let request = Request {
        family: &code.family,
        level: Some(code.level),
        system: code.system,
        draw: 0,
        settings: &settings,
    };
    let dealer = Dealer::new(library, &request)?;
    if dealer.variant.revision != code.revision {
        let shown = |revision| {
            let code = Code {
                revision,
                ..code.clone()
            };
            let text = Code {
                rules: Vec::new(),
                ..code
            }
            .to_string();
            text.rsplit('.').next().unwrap_or_default().to_owned()
        };
        return Err(DrawError::Revision {
            family: code.family.clone(),
            wanted: shown(code.revision),
            here: shown(dealer.variant.revision),
        });
    }
    dealer.deal(code.seed)
}

/// Spreads the numbers of draws over the seeds, one to one, so that neighbors
/// have codes that do not look alike. Odd factor, so it can be undone; ours.
pub(super) const fn scatter(draw: u32) -> u32 {
    (draw.wrapping_mul(0x2C5D_3A6B) ^ 0x1B87_4E25) & (DRAWS - 1)
}

/// Deals tries of one variant under some settings.
pub(super) struct Dealer {
    pub(super) family: Arc<Family>,
    pub(super) variant: Arc<Variant>,
    rules: Vec<Option<Value>>,
    rule_lines: Vec<RuleLine>,
    code_rules: Vec<(String, String)>,
    even: bool,
    unit_wanted: bool,
    as_choice: bool,
}

/// A try that was kept.
struct Kept {
    values: Vec<Option<Value>>,
    mistakes: Vec<LiveMistake>,
    lines: Vec<Line>,
}

impl Dealer {
    pub(super) fn new(library: &Library, request: &Request<'_>) -> Result<Self, DrawError> {
        let unknown = || DrawError::Family {
            name: request.family.chars().take(60).collect(),
            near: library.nearest_family(request.family),
        };
        let family = library.family(request.family).ok_or_else(unknown)?;
        let level = request.level.unwrap_or(family.home);
        let variant = library
            .variant(&family.id, level, request.system)
            .ok_or_else(|| DrawError::Level {
                family: family.id.clone(),
                level,
                has: family.levels.clone(),
            })?;
        let rules = library.rules(request.system);
        let values = request.settings.values(rules);
        if let Some(only_if) = &variant.only_if {
            let held = only_if.evaluate(&values, basis(request.system));
            if held.ok().and_then(|value| value.truth()) != Some(true) {
                return Err(DrawError::Ruled(family.id.clone()));
            }
        }
        let told: Vec<usize> = variant.story.slots().collect();
        let printed = |slot: &&usize| !told.contains(slot);
        let rule_lines = variant
            .rules_used
            .iter()
            .filter(printed)
            .filter_map(|slot| {
                let rule = rules.get(*slot)?;
                let value = values.get(*slot)?.as_ref()?;
                let value = match value {
                    Value::Rows(rows) => format!("table {}", rows.table.name),
                    value => show(value, rule.unit.as_ref()),
                };
                Some(RuleLine {
                    name: rule.name.clone(),
                    text: format!("{}: {value}", rule.label),
                })
            });
        Ok(Self {
            family: Arc::clone(family),
            variant: Arc::clone(variant),
            rule_lines: rule_lines.collect(),
            code_rules: request.settings.for_code(variant, rules),
            rules: values,
            even: request.settings.is_off(ROUNDING),
            unit_wanted: request.settings.is_off(UNIT),
            as_choice: request.settings.is_off(FORM),
        })
    }

    fn deal(&self, seed: u32) -> Result<Problem, DrawError> {
        (0..TRIES)
            .find_map(|attempt| self.try_once(seed, attempt).ok())
            .ok_or_else(|| DrawError::Tries {
                family: self.family.id.clone(),
            })
    }

    /// One try of a seed.
    pub(super) fn try_once(&self, seed: u32, attempt: u64) -> Result<Problem, Rejected> {
        let kept = self.attempt(&mut self.stream(seed, attempt))?;
        Ok(self.problem(seed, kept))
    }

    fn stream(&self, seed: u32, attempt: u64) -> Stream {
        let level = self.variant.level.to_string();
        let system = self.variant.system.letters();
        Key::of(&[&self.family.id, &level, system, &seed.to_string()]).stream(attempt)
    }

    fn attempt(&self, stream: &mut Stream) -> Result<Kept, Rejected> {
        let variant = &*self.variant;
        let mut values = self.rules.clone();
        values.resize(variant.names.len(), None);
        deal::givens(variant, stream, &mut values).map_err(|_| Rejected::NoValue)?;
        for step in &variant.steps {
            let Some(slot) = step.slot else { continue };
            let value = step_value(variant, step, &values).map_err(|_| Rejected::NoValue)?;
            if let Some(place) = values.get_mut(slot) {
                *place = value;
            }
        }
        for require in &variant.requires {
            let met = require.that.evaluate(&values, basis(variant.system));
            if met.map_err(|_| Rejected::NoValue)?.truth() != Some(true) {
                return Err(Rejected::Requirement);
            }
        }
        let mistakes = self.mistakes(&values)?;
        let lines = self.lines(stream, &values, &mistakes)?;
        let mistakes = only_shown(variant, mistakes, &lines);
        Ok(Kept {
            values,
            mistakes,
            lines,
        })
    }

    fn judge<'v>(&'v self, values: &'v [Option<Value>]) -> Judge<'v> {
        Judge {
            variant: &self.variant,
            values,
            even: self.even,
        }
    }

    /// The mistakes that can be made here; a draw in which one would be marked right is refused.
    fn mistakes(&self, values: &[Option<Value>]) -> Result<Vec<LiveMistake>, Rejected> {
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
                judge.accepts(mistake.step, right, &value)
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

    fn may_be_made(&self, mistake: &crate::lessons::MistakePlan, values: &[Option<Value>]) -> bool {
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
                self.judge(values).accepts(last, right, wrong)
            }
            _ => false,
        }
    }

    fn lines(
        &self,
        stream: &mut Stream,
        values: &[Option<Value>],
        mistakes: &[LiveMistake],
    ) -> Result<Vec<Line>, Rejected> {
        let variant = &*self.variant;
        let choice = if self.as_choice {
            last_figure(variant, values)
        } else {
            None
        };
        let mut lines = Vec::new();
        for (at, step) in variant.steps.iter().enumerate() {
            if step.slot.is_none() {
                continue;
            }
            let asks = match choice {
                Some(end) if at == end => self.as_choice(stream, values, mistakes, end)?,
                Some(_) => Asks::Nothing,
                None if !step.ask => Asks::Nothing,
                None => self.asks(stream, values, mistakes, at)?,
            };
            let render = |text: &crate::lessons::Template| text.render(&variant.names, values);
            let form = match &asks {
                Asks::Pick { .. } => "write one letter".to_owned(),
                Asks::Figure => written::form(step),
                _ => String::new(),
            };
            lines.push(Line {
                id: step.id.clone(),
                step: at,
                label: step.label.clone(),
                unit: if matches!(asks, Asks::Pick { .. }) {
                    None
                } else {
                    step.unit.clone()
                },
                asks,
                marks: step.marks,
                form,
                says: render(&step.says),
                why: step.why.as_ref().map(render),
            });
        }
        Ok(lines)
    }

    fn asks(
        &self,
        stream: &mut Stream,
        values: &[Option<Value>],
        mistakes: &[LiveMistake],
        at: usize,
    ) -> Result<Asks, Rejected> {
        let variant = &*self.variant;
        let Some(step) = variant.steps.get(at) else {
            return Err(Rejected::NoValue);
        };
        match &step.body {
            Body::Order { least, most } => {
                let cards = arrange::order(variant, stream, values, (*least, *most));
                return cards
                    .map(|cards| Asks::Order { cards })
                    .map_err(|_| Rejected::NoValue);
            }
            Body::Match(plan) => {
                return arrange::matching(variant, plan, stream, values)
                    .map_err(|_| Rejected::NoValue);
            }
            Body::Is(_) | Body::Offer { .. } | Body::Does(_) => {}
        }
        let Some(Some(value)) = step.slot.and_then(|slot| values.get(slot)) else {
            return Err(Rejected::NoValue);
        };
        match (value, &step.body, &step.words) {
            (Value::Truth(truth), _, Some([yes, no])) => {
                let list = vec![
                    (yes.clone(), Value::Truth(true)),
                    (no.clone(), Value::Truth(false)),
                ];
                Ok(Asks::Pick {
                    offers: arrange::offers(list),
                    key: usize::from(!truth),
                })
            }
            (Value::Row(row), Body::Offer { count, .. }, _) => {
                let own = mistakes.iter().filter(|mistake| mistake.step == step.id);
                let must = own.filter_map(|mistake| {
                    let value = mistake.value.clone()?;
                    Some((written::plain(step, &value), value))
                });
                let all = crate::formulas::Rows::all(&row.table);
                let others = all.iter().map(|row| {
                    let value = Value::Row(row);
                    (written::plain(step, &value), value)
                });
                let right = (written::plain(step, value), value.clone());
                let (offers, key) =
                    arrange::pick(stream, right, must.collect(), others.collect(), *count);
                Ok(Asks::Pick { offers, key })
            }
            (Value::Row(_), ..) => Ok(Asks::Row),
            (Value::Number(_), ..) => Ok(Asks::Figure),
            _ => Err(Rejected::NoValue),
        }
    }

    /// The last figure asked as a choice among the right one and its own mistakes.
    fn as_choice(
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
        let wrong: Vec<(String, Value)> = mistakes
            .iter()
            .filter_map(|mistake| {
                let step = variant.step(&mistake.step)?;
                let changed = with_step(variant, values, step, mistake.value.clone()?);
                let value = at_end(&changed)?;
                (!judge.accepts(end, &right, &value))
                    .then(|| (written::answer(&judge, end, &value), value))
            })
            .collect();
        if wrong.is_empty() {
            return Err(Rejected::NoValue);
        }
        let right = (written::answer(&judge, end, &right), right);
        let (offers, key) = arrange::pick(stream, right, Vec::new(), wrong, CHOICES);
        Ok(Asks::Pick { offers, key })
    }

    fn problem(&self, seed: u32, kept: Kept) -> Problem {
        let variant = &self.variant;
        let story = paragraphs(&variant.story.render(&variant.names, &kept.values));
        let shown = variant.givens.iter().filter(|given| given.shown);
        let givens = shown.filter_map(|given| {
            let name = variant.names.get(given.slot)?;
            let printed = Printed::of(given.slot, None, &variant.names, &kept.values)?;
            Some(GivenLine {
                name: name.name.clone(),
                label: name.label.clone(),
                text: printed.text(),
                value: printed.value,
                unit: printed.unit,
            })
        });
        Problem {
            code: Code {
                family: self.family.id.clone(),
                level: variant.level,
                system: variant.system,
                seed,
                revision: variant.revision,
                rules: self.code_rules.clone(),
            },
            family: Arc::clone(&self.family),
            variant: Arc::clone(variant),
            story,
            rules: self.rule_lines.clone(),
            givens: givens.collect(),
            lines: kept.lines,
            mistakes: kept.mistakes,
            training: variant.training,
            values: kept.values,
            even_rounding: self.even,
            unit_wanted: self.unit_wanted,
        }
    }
}

/// The right figure and at most this many minus one of its mistakes.
const CHOICES: usize = 4;

/// Whether a step is answered by picking, so that a mistake may well give the right offer.
fn picked(step: &StepPlan, value: &Value) -> bool {
    matches!(step.body, Body::Offer { .. }) || matches!(value, Value::Truth(_))
}

/// Of the mistakes of an arrangement, those whose jobs or parts are shown.
fn only_shown(variant: &Variant, mistakes: Vec<LiveMistake>, lines: &[Line]) -> Vec<LiveMistake> {
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
