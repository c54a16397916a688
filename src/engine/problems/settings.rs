//! House rules off their default: how a person or a code sets them.

use std::collections::BTreeMap;

use thiserror::Error;

use crate::formulas::Value;
use crate::lessons::{Library, Rule, Variant, nearest};
use crate::quantities::System;

/// The rule that says whether a numeric problem is asked line by line or as a choice.
pub(crate) const FORM: &str = "sheet.form";
/// The place of the form that has three offers at least.
const OF_THREE: usize = 2;
/// The rule that says whether a bare number may stand for one with its unit.
pub(crate) const UNIT: &str = "marking.unit";
/// The rule that says whether the unsafe side of a rounding gets less tolerance.
pub(crate) const ROUNDING: &str = "rounding.safe";

/// House rules off their default, each with the place of its value among the choices.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Settings {
    chosen: BTreeMap<String, usize>,
}

/// Why a house rule cannot be set so.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum SettingFault {
    /// There is no such rule.
    #[error("there is no house rule \"{name}\"{}", nearby(.near))]
    Rule {
        /// The name given.
        name: String,
        /// The nearest names.
        near: Vec<String>,
    },
    /// The rule has no such value.
    #[error("the house rule {name} has no value \"{value}\"; it has {}", .has.join(", "))]
    Value {
        /// The rule.
        name: String,
        /// The value given.
        value: String,
        /// The values that it has.
        has: Vec<String>,
    },
}

fn nearby(names: &[String]) -> String {
    if names.is_empty() {
        String::new()
    } else {
        format!("; near it: {}", names.join(", "))
    }
}

impl Settings {
    /// Sets a rule to one of its values.
    pub fn set(&mut self, library: &Library, name: &str, value: &str) -> Result<(), SettingFault> {
        let rules = [System::Us, System::Si].map(|system| library.rules(system));
        let Some(rule) = rules[0].iter().position(|rule| rule.name == name) else {
            let near = nearest(name, rules[0].iter().map(|rule| rule.name.as_str()));
            return Err(SettingFault::Rule {
                name: name.to_owned(),
                near,
            });
        };
        let faces = || rules.iter().filter_map(|face| face.get(rule));
        let found = faces().find_map(|face| {
            face.choices
                .iter()
                .position(|choice| plain(&choice.text) == plain(value))
        });
        let Some(choice) = found else {
            let mut has: Vec<String> = Vec::new();
            for choice in faces().flat_map(|face| &face.choices) {
                if !has.contains(&choice.text) {
                    has.push(choice.text.clone());
                }
            }
            return Err(SettingFault::Value {
                name: name.to_owned(),
                value: value.to_owned(),
                has,
            });
        };
        if choice == 0 {
            self.chosen.remove(name);
        } else {
            self.chosen.insert(name.to_owned(), choice);
        }
        Ok(())
    }

    /// Sets a rule to the choice at this place.
    pub(crate) fn choose(&mut self, name: &str, choice: usize) {
        if choice == 0 {
            self.chosen.remove(name);
        } else {
            self.chosen.insert(name.to_owned(), choice);
        }
    }

    /// What a class's own rules file sets.
    pub fn of_class(library: &Library) -> Self {
        let mut settings = Self::default();
        settings.take_class(library);
        settings
    }

    /// Lets what a class's own rules file sets stand in place of what was set before.
    pub fn take_class(&mut self, library: &Library) {
        for (name, choice) in library.class_rules() {
            self.choose(name, *choice);
        }
    }

    /// The values of all rules, in the order of the library.
    pub fn values(&self, rules: &[Rule]) -> Vec<Option<Value>> {
        rules
            .iter()
            .map(|rule| rule.value(self.choice(&rule.name)))
            .collect()
    }

    fn choice(&self, name: &str) -> usize {
        self.chosen.get(name).copied().unwrap_or(0)
    }

    /// Whether a rule that the engine itself reads is off its default.
    pub(crate) fn is_off(&self, name: &str) -> bool {
        self.choice(name) != 0
    }

    /// Whether a choice is to have three offers at least.
    pub(super) fn wants_three(&self) -> bool {
        self.choice(FORM) == OF_THREE
    }

    /// The same settings, with numeric problems asked as choices of three offers at least,
    /// or line by line.
    #[must_use]
    pub(crate) fn asking_choices(&self, choices: bool) -> Self {
        let mut settings = self.clone();
        settings.chosen.remove(FORM);
        if choices {
            settings.chosen.insert(FORM.to_owned(), OF_THREE);
        }
        settings
    }

    /// All settings that are off their default, as a code writes them.
    pub(crate) fn all_for_code(&self, rules: &[Rule]) -> Vec<(String, String)> {
        let off = rules.iter().filter(|rule| self.is_off(&rule.name));
        off.filter_map(|rule| {
            let choice = rule.choices.get(self.choice(&rule.name))?;
            Some((rule.name.clone(), compact(&choice.text)))
        })
        .collect()
    }

    /// The settings that bear on a variant, as a code writes them.
    pub(super) fn for_code(&self, variant: &Variant, rules: &[Rule]) -> Vec<(String, String)> {
        let bears = |at: usize, rule: &Rule| {
            variant.rules_used.contains(&at) || [FORM, UNIT, ROUNDING].contains(&rule.name.as_str())
        };
        rules
            .iter()
            .enumerate()
            .filter(|(at, rule)| bears(*at, rule) && self.is_off(&rule.name))
            .filter_map(|(_, rule)| {
                let choice = rule.choices.get(self.choice(&rule.name))?;
                Some((rule.name.clone(), compact(&choice.text)))
            })
            .collect()
    }
}

/// A value without blanks, as a code writes it.
fn compact(text: &str) -> String {
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        text.replace(' ', "")
    } else {
        text.replace(' ', "-")
    }
}

/// A value as it is compared: blanks, hyphens and capitals do not count.
fn plain(text: &str) -> String {
    text.chars()
        .filter(|c| !matches!(c, ' ' | '-' | '_'))
        .flat_map(char::to_lowercase)
        .collect()
}
