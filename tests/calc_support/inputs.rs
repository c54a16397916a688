//! The inputs of a reference row, each to be used or left over: a row with an
//! input that no calculation takes is not covered, whatever the figure.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::units::to_si;

/// Inputs by name, with a note of those used.
pub struct Inputs {
    given: BTreeMap<String, String>,
    used: RefCell<BTreeSet<String>>,
}

impl Inputs {
    /// From `name=value unit; name=value unit`.
    pub fn of(text: &str) -> Self {
        let pairs = text.split(';').filter_map(|pair| pair.split_once('='));
        Self {
            given: pairs
                .map(|(name, value)| (name.trim().to_owned(), value.trim().to_owned()))
                .collect(),
            used: RefCell::default(),
        }
    }

    /// The text of an input.
    pub fn word(&self, name: &str) -> Option<&str> {
        let text = self.given.get(name)?;
        self.used.borrow_mut().insert(name.to_owned());
        Some(text)
    }

    /// The SI value of an input; nothing where it is absent or its unit unknown.
    pub fn si(&self, name: &str) -> Option<f64> {
        let text = self.given.get(name)?;
        let (figure, unit) = text.split_once(' ').unwrap_or((text, ""));
        let value = to_si(figure.parse().ok()?, unit)?;
        self.used.borrow_mut().insert(name.to_owned());
        Some(value)
    }

    /// The first of several names that is given.
    pub fn first(&self, names: &[&str]) -> Option<f64> {
        names.iter().find_map(|name| self.si(name))
    }

    /// Whether a constant, where it is given, is the one that calc works with.
    pub fn agrees(&self, name: &str, ours: f64) -> bool {
        let given = self.given.contains_key(name);
        !given
            || self
                .si(name)
                .is_some_and(|value| (value / ours - 1.0).abs() < 1e-6)
    }

    /// Whether the unit of an input is this one.
    pub fn has_unit(&self, name: &str, unit: &str) -> bool {
        let text = self.given.get(name);
        text.is_some_and(|text| text.split_once(' ').is_some_and(|(_, own)| own == unit))
    }

    /// Inputs that nothing used.
    pub fn left_over(&self) -> Vec<&str> {
        let used = self.used.borrow();
        let names = self.given.keys().map(String::as_str);
        names.filter(|name| !used.contains(*name)).collect()
    }
}
