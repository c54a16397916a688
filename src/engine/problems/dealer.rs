//! One try after another: givens dealt, steps worked, requirements met, until a
//! try is kept and becomes a problem.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::code::Code;
use super::deal;
use super::draw::{DrawError, Request, TRIES};
use super::figure::Figure;
use super::guard::{only_shown, passes_in_print};
use super::judge::Judge;
use super::problem::{GivenLine, Line, LiveMistake, Problem, RuleLine};
use super::random::{Key, Stream, hex};
use super::settings::{FORM, ROUNDING, UNIT};
use super::solve::step_value;
use crate::formulas::Value;
use crate::lessons::{Family, Library, Printed, SHEET, Variant, basis, paragraphs, show};

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

/// Deals tries of one variant under some settings.
pub(super) struct Dealer {
    pub(super) family: Arc<Family>,
    pub(super) variant: Arc<Variant>,
    pub(super) rules: Vec<Option<Value>>,
    rule_lines: Vec<RuleLine>,
    code_rules: Vec<(String, String)>,
    /// What stands with rows of a sheet, by the sheet's name.
    sheets: BTreeMap<String, String>,
    even: bool,
    unit_wanted: bool,
    /// How a figure is asked.
    pub(super) form: Form,
}

/// How a figure is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Line by line.
    Lines,
    /// As a choice among the right one and its mistakes.
    Choice,
    /// As a choice of three offers at least.
    ChoiceOfThree,
}

/// What a draw is made from.
#[derive(Debug, Clone, Copy)]
pub(super) enum Seed<'s> {
    /// The number that stands in a problem code.
    Open(u32),
    /// A secret, which no code tells.
    Sealed(&'s [u8; 32]),
}

/// A try that was kept.
pub(super) struct Kept {
    pub values: Vec<Option<Value>>,
    pub mistakes: Vec<LiveMistake>,
    pub lines: Vec<Line>,
    pub figure: Option<Figure>,
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
                    Value::Rows(rows) => the_table(library, &rows.table.name),
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
            sheets: library
                .jurisdictions()
                .iter()
                .map(|sheet| (sheet.name.clone(), sheet.caution()))
                .collect(),
            even: request.settings.is_off(ROUNDING),
            unit_wanted: request.settings.is_off(UNIT),
            form: if !variant.is_numeric() || !request.settings.is_off(FORM) {
                Form::Lines
            } else if request.settings.wants_three() {
                Form::ChoiceOfThree
            } else {
                Form::Choice
            },
        })
    }

    pub(super) fn deal(&self, seed: Seed<'_>) -> Result<Problem, DrawError> {
        (0..TRIES)
            .find_map(|attempt| self.try_once(seed, attempt).ok())
            .ok_or_else(|| DrawError::Tries {
                family: self.family.id.clone(),
            })
    }

    /// One try of a seed.
    pub(super) fn try_once(&self, seed: Seed<'_>, attempt: u64) -> Result<Problem, Rejected> {
        let kept = self.attempt(&mut self.stream(seed, attempt))?;
        let problem = self.problem(seed, kept);
        if passes_in_print(&problem) {
            return Err(Rejected::Guard);
        }
        Ok(problem)
    }

    fn stream(&self, seed: Seed<'_>, attempt: u64) -> Stream {
        let level = self.variant.level.to_string();
        let system = self.variant.system.letters();
        let key = |seed: &[&str]| {
            let named = [self.family.id.as_str(), &level, system];
            Key::of(&[&named, seed].concat())
        };
        match seed {
            Seed::Open(number) => key(&[&number.to_string()]).stream(attempt),
            Seed::Sealed(secret) => key(&["sealed", &hex(secret)]).stream(attempt),
        }
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
        let figure = match &variant.figure {
            Some(plan) => Some(Figure::of(plan, variant, &values).map_err(|_| Rejected::NoValue)?),
            None => None,
        };
        Ok(Kept {
            values,
            mistakes,
            lines,
            figure,
        })
    }

    pub(super) fn judge<'v>(&'v self, values: &'v [Option<Value>]) -> Judge<'v> {
        Judge {
            variant: &self.variant,
            values,
            even: self.even,
        }
    }

    /// What stands with each sheet that a row of the problem is from.
    fn sheets_in(&self, values: &[Option<Value>]) -> Vec<String> {
        let mut told: Vec<String> = Vec::new();
        for value in values.iter().flatten() {
            let Value::Row(row) = value else { continue };
            let Some(column) = row.table.column(SHEET) else {
                continue;
            };
            let Some(Value::Word(name)) = row.cell(column) else {
                continue;
            };
            let caution = self.sheets.get(&**name);
            if let Some(caution) = caution.filter(|caution| !told.contains(caution)) {
                told.push(caution.clone());
            }
        }
        told
    }

    pub(super) fn problem(&self, seed: Seed<'_>, kept: Kept) -> Problem {
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
            sealed: matches!(seed, Seed::Sealed(_)),
            code: Code {
                family: self.family.id.clone(),
                level: variant.level,
                system: variant.system,
                seed: match seed {
                    Seed::Open(number) => number,
                    Seed::Sealed(_) => 0,
                },
                revision: variant.revision,
                rules: self.code_rules.clone(),
            },
            family: Arc::clone(&self.family),
            variant: Arc::clone(variant),
            story,
            rules: self.rule_lines.clone(),
            sheets: self.sheets_in(&kept.values),
            givens: givens.collect(),
            figure: kept.figure,
            lines: kept.lines,
            mistakes: kept.mistakes,
            training: variant.training,
            values: kept.values,
            even_rounding: self.even,
            unit_wanted: self.unit_wanted,
        }
    }
}

/// A table as it is called where people read: by the heading over it.
fn the_table(library: &Library, name: &str) -> String {
    let note = library.table_notes().iter().find(|note| note.name == name);
    note.map_or_else(
        || format!("table {name}"),
        |note| format!("the table \"{}\"", note.title),
    )
}
