//! The inputs of a reference row, each to be used: a row with an input that no
//! calculation takes fails, whatever the figure.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::units::{to_si, to_si_interval};

/// Why a row cannot be worked, in words.
pub type Trouble = String;

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

    /// Whether an input is given.
    pub fn has(&self, name: &str) -> bool {
        self.given.contains_key(name)
    }

    /// Whether an input is given in a unit that holds this text.
    pub fn in_unit(&self, name: &str, unit: &str) -> bool {
        let text = self.given.get(name);
        text.is_some_and(|text| {
            text.split_once(' ')
                .is_some_and(|(_, own)| own.contains(unit))
        })
    }

    /// The text of an input.
    pub fn word(&self, name: &str) -> Result<&str, Trouble> {
        let text = self.given.get(name);
        let text = text.ok_or_else(|| format!("the input {name} is missing"))?;
        self.used.borrow_mut().insert(name.to_owned());
        Ok(text)
    }

    /// Inputs that only say what a row is about.
    pub fn note(&self, names: &[&str]) {
        for name in names {
            self.used.borrow_mut().insert((*name).to_owned());
        }
    }

    /// The SI value of an input.
    pub fn si(&self, name: &str) -> Result<f64, Trouble> {
        self.read(name, to_si)
    }

    /// The SI value of a difference of temperatures, or of something for each degree.
    pub fn interval(&self, name: &str) -> Result<f64, Trouble> {
        self.read(name, to_si_interval)
    }

    fn read(&self, name: &str, of: fn(f64, &str) -> Option<f64>) -> Result<f64, Trouble> {
        let text = self.word(name)?;
        let (figure, unit) = text.split_once(' ').unwrap_or((text, ""));
        let figure = figure_of(figure).ok_or_else(|| format!("{name} is no figure: {text}"))?;
        of(figure, unit).ok_or_else(|| format!("{name} has an unknown unit: {text}"))
    }

    /// The SI value of an input, or what stands for it where it is not given.
    pub fn or(&self, name: &str, otherwise: f64) -> Result<f64, Trouble> {
        if self.has(name) {
            self.si(name)
        } else {
            Ok(otherwise)
        }
    }

    /// The first of several names that is given.
    pub fn first(&self, names: &[&str]) -> Result<f64, Trouble> {
        match names.iter().find(|name| self.has(name)) {
            Some(name) => self.si(name),
            None => Err(format!("none of the inputs {} is given", names.join(", "))),
        }
    }

    /// Whether one of several names is given.
    pub fn any(&self, names: &[&str]) -> bool {
        names.iter().any(|name| self.has(name))
    }

    /// Inputs that nothing used.
    pub fn left_over(&self) -> Vec<&str> {
        let used = self.used.borrow();
        let names = self.given.keys().map(String::as_str);
        names.filter(|name| !used.contains(*name)).collect()
    }
}

/// A figure, which may be a fraction or a mixed number: `1-1/2`.
pub fn figure_of(text: &str) -> Option<f64> {
    if let Ok(figure) = text.parse() {
        return Some(figure);
    }
    let (whole, part) = text.split_once('-').unwrap_or(("0", text));
    let (above, below) = part.split_once('/')?;
    let number = |text: &str| text.parse::<f64>().ok();
    Some(number(whole)? + number(above)? / number(below)?)
}
