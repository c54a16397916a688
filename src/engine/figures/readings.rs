//! What a figure may show of a problem: the values of its ports under a view,
//! each as text and as a number, or withheld until the sheet is handed in.

use crate::formulas::{Formula, Rows, Value};
use crate::lessons::{Binding, Bound, Printed, basis};
use crate::problems::Problem;
use crate::problems::judge::Judge;
use crate::problems::written;
use crate::quantities::{Quantity, System, Unit, print};

use super::view::{Seen, View};

/// What stands for a value that the sheet asks.
pub(super) const ASKED: &str = "?";

/// As many figures as a value of no own rule is printed with.
const FIGURES: usize = 3;

/// The value of a port.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reading {
    /// The port.
    pub port: &'static str,
    /// What stands beside it.
    pub label: String,
    /// The value in SI, where it is a figure that may be drawn.
    pub si: Option<f64>,
    /// The value as printed; a question mark where it is asked.
    pub text: String,
    /// The unit in which it is printed.
    pub unit: Option<Unit>,
}

impl Reading {
    /// Whether the figure may be drawn at its place.
    pub const fn is_known(&self) -> bool {
        self.si.is_some()
    }

    /// The label with the text: `static level 40 ft`.
    pub fn full(&self) -> String {
        format!("{} {}", self.label, self.text)
    }
}

/// The values of a figure's ports under a view.
#[derive(Debug)]
pub(super) struct Readings<'a> {
    pub problem: &'a Problem,
    pub view: &'a View,
    found: Vec<Reading>,
    rows: Vec<(&'static str, Rows)>,
}

impl<'a> Readings<'a> {
    pub fn of(problem: &'a Problem, view: &'a View) -> Self {
        let mut readings = Self {
            problem,
            view,
            found: Vec::new(),
            rows: Vec::new(),
        };
        let plan = problem.variant.scene.as_ref();
        for binding in plan.iter().flat_map(|plan| &plan.bindings) {
            match &binding.bound {
                Bound::Formula(formula) => {
                    let reading = readings.reading(binding, formula);
                    readings.found.extend(reading);
                }
                Bound::Slot(slot) => {
                    if let Some(Some(Value::Rows(rows))) = view.values.get(*slot) {
                        readings.rows.push((binding.port.name, rows.clone()));
                    }
                }
                Bound::Table(table) => readings.rows.push((binding.port.name, Rows::all(table))),
            }
        }
        readings
    }

    /// The reading of a port, where it is bound and has a value.
    pub fn get(&self, port: &str) -> Option<&Reading> {
        self.found.iter().find(|reading| reading.port == port)
    }

    /// The value of a port, where it may be drawn.
    pub fn si(&self, port: &str) -> Option<f64> {
        self.get(port)?.si
    }

    /// The text of a port.
    pub fn text(&self, port: &str) -> Option<&str> {
        self.get(port).map(|reading| reading.text.as_str())
    }

    /// The label and the text of a port.
    pub fn full(&self, port: &str) -> Option<String> {
        self.get(port).map(Reading::full)
    }

    /// The rows of a port.
    pub fn rows(&self, port: &str) -> Option<&Rows> {
        let found = self.rows.iter().find(|(name, _)| *name == port);
        found.map(|(_, rows)| rows)
    }

    /// Every reading, in the order of the kind's list.
    pub fn all(&self) -> &[Reading] {
        &self.found
    }

    /// The system of units.
    pub fn system(&self) -> System {
        self.problem.variant.system
    }

    /// Whether what follows from the problem's figures may be shown.
    pub fn worked_out(&self) -> bool {
        self.view.seen != Seen::Before
    }

    /// A value of the figure's own to three figures, unless it is what a line asks.
    pub fn public(&self, si: f64, unit: &Unit) -> String {
        let value = Value::Number(Quantity::new(si, unit.dimension()));
        if self.view.seen == Seen::Before && self.gives_away(&value) {
            return ASKED.to_owned();
        }
        three(si, unit)
    }

    /// The unit in which a port is printed, else one that the kind of thing has in
    /// the system of the problem.
    pub fn unit(&self, port: &str, us: &str, si: &str) -> Option<Unit> {
        let own = self.get(port).and_then(|reading| reading.unit.clone());
        own.or_else(|| self.unit_of(us, si))
    }

    /// The unit of this name in the system of the problem.
    pub fn unit_of(&self, us: &str, si: &str) -> Option<Unit> {
        let name = if self.system() == System::Us { us } else { si };
        Unit::parse(name).ok()
    }

    fn reading(&self, binding: &Binding, formula: &Formula) -> Option<Reading> {
        let values = &self.view.values;
        let value = formula.evaluate(values, basis(self.system())).ok();
        let label = binding.port.label.to_owned();
        let unit = self.unit_printed(formula);
        let asked = || Reading {
            port: binding.port.name,
            label: label.clone(),
            si: None,
            text: ASKED.to_owned(),
            unit: unit.clone(),
        };
        let Some(value) = value else {
            // What rests on a line left empty has no value yet; what no draw gives is left out.
            return (self.view.seen == Seen::Yours).then(asked);
        };
        if self.withheld(formula, &value) {
            return Some(asked());
        }
        let si = value.number().map(|quantity| quantity.si);
        Some(Reading {
            si,
            text: self.printed(formula, &value),
            ..asked()
        })
    }

    fn unit_printed(&self, formula: &Formula) -> Option<Unit> {
        let names = &self.problem.variant.names;
        match formula.plain_name() {
            Some((slot, column)) => Printed::of(slot, column, names, &self.view.values)?.unit,
            None => formula.unit_shown(names),
        }
    }

    /// Whether the sheet keeps a value back: it rests on a step that is not open; or,
    /// before the sheet is handed in, it rests on something that the story does not
    /// print, or is what a line asks.
    fn withheld(&self, formula: &Formula, value: &Value) -> bool {
        let variant = &self.problem.variant;
        let own = formula
            .slots()
            .iter()
            .filter(|slot| **slot >= variant.rule_count);
        let given = |slot: &usize| variant.givens.iter().find(|given| given.slot == *slot);
        let mut hidden = false;
        for slot in own {
            match given(slot) {
                Some(given) => hidden |= !given.shown,
                None if !self.view.open.contains(slot) => return true,
                None => {}
            }
        }
        if self.view.seen != Seen::Before {
            return false;
        }
        let is_given = matches!(formula.plain_name(), Some((_, None))) && !hidden;
        if is_given || self.in_story(&self.printed(formula, value)) {
            return false;
        }
        hidden || self.gives_away(value)
    }

    /// Whether the story prints a text, not as a part of a longer figure or word.
    fn in_story(&self, text: &str) -> bool {
        let apart = |c: Option<char>| !c.is_some_and(|c| c.is_alphanumeric() || c == '.');
        !text.is_empty()
            && self.problem.story.iter().any(|paragraph| {
                paragraph.match_indices(text).any(|(at, found)| {
                    let (before, after) = paragraph.split_at(at);
                    let after = after.get(found.len()..).unwrap_or_default();
                    // A full stop after it ends the sentence; one before a digit does not.
                    apart(before.chars().next_back())
                        && !after.starts_with(|c: char| c.is_alphanumeric())
                })
            })
    }

    /// Whether a value worked out from givens alone is what a line asks.
    fn gives_away(&self, value: &Value) -> bool {
        let variant = &self.problem.variant;
        let closed = variant.steps.iter().filter_map(|step| step.slot);
        closed
            .filter(|slot| !self.view.open.contains(slot))
            .filter_map(|slot| self.problem.values.get(slot)?.as_ref())
            .any(|asked| match (asked, value) {
                (Value::Number(asked), Value::Number(own)) => asked.is_about(*own),
                (Value::Row(asked), Value::Word(_)) => asked.key() == Some(value),
                (asked, own) => asked == own,
            })
    }

    fn printed(&self, formula: &Formula, value: &Value) -> String {
        let variant = &self.problem.variant;
        let values = &self.view.values;
        if let Some((slot, column)) = formula.plain_name() {
            let step = variant
                .steps
                .iter()
                .position(|step| step.slot == Some(slot));
            if let (Some(at), None) = (step, column) {
                let judge = Judge {
                    variant,
                    values,
                    even: self.problem.even_rounding,
                };
                return written::answer(&judge, at, value);
            }
            if let Some(printed) = Printed::of(slot, column, &variant.names, values) {
                return printed.text();
            }
        }
        match (value, formula.unit_shown(&variant.names)) {
            (Value::Number(quantity), Some(unit)) => three(quantity.si, &unit),
            (value, unit) => crate::lessons::show(value, unit.as_ref()),
        }
    }
}

/// A value to three figures, or whole where it is short, with its unit.
pub(super) fn three(si: f64, unit: &Unit) -> String {
    let number = unit.from_si(si);
    let figure = if written::is_short(number) {
        print::shortest(number)
    } else {
        print::figures(number, FIGURES)
    };
    print::with_unit(&figure, unit, number)
}
