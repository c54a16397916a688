//! An input or result of a formula as one system of units sees it: read, and shown.

use pumpwright_calc::dimension::Dimension;
use pumpwright_calc::registry::{Kind, Port, Value};
use pumpwright_engine::quantities::{DecimalSign, Quantity, Reading, Unit, print, read, read_for};

use super::{gauge, words};
use crate::cli::Units;
use crate::commands::json;
use crate::failure::{self, Failure};

/// Figures shown of a result.
const RESULT_FIGURES: usize = 4;
/// Figures shown of a number that was changed into the formula's unit.
const MOST_FIGURES: usize = 6;

/// A port as one system of units sees it.
#[derive(Clone, Copy)]
pub(super) struct Slot<'a> {
    /// The input or result.
    pub(super) port: &'a Port,
    /// The system of units.
    pub(super) units: Units,
}

impl Slot<'_> {
    /// The unit of the formula; none for a word or a plain number.
    pub(super) fn unit(self) -> Option<Unit> {
        Unit::parse(self.port.unit.of(self.units.basis())).ok()
    }

    pub(super) fn unit_text(self) -> Option<String> {
        self.unit().map(|unit| unit.symbol().to_owned())
    }

    pub(super) fn read(self, typed: &str, decimal: DecimalSign) -> Result<Value, Failure> {
        if let Kind::Word(words) = self.port.kind {
            let word = words::meant(typed, words, decimal);
            return word.map(Value::Word).ok_or_else(|| {
                let (name, typed) = (self.port.name, failure::shown(typed));
                Failure::Input(format!(
                    "{name} is \"{typed}\"; it must be one of: {}",
                    words.join(", ")
                ))
            });
        }
        if self.is_gauge()
            && let Some(size) = gauge::read(typed)
        {
            return Ok(Value::Number(size));
        }
        let unit = self.unit();
        let reading = match &unit {
            Some(unit) => read_for(typed, decimal, unit),
            None => read(typed, decimal),
        };
        let reading =
            reading.map_err(|reason| Failure::Input(format!("{}: {reason}", self.port.name)))?;
        let reading = self.in_water(reading);
        let is_point = |unit: &Option<Unit>| unit.as_ref().is_some_and(Unit::is_point);
        let quantity = match (&unit, &reading.unit) {
            (Some(asked), _) => reading.quantity(asked),
            (None, Some(own)) => Quantity::new(own.to_si(reading.number), own.dimension()),
            (None, None) => Quantity::plain(reading.number),
        };
        let same_scale = reading.unit.is_none() || is_point(&reading.unit) == is_point(&unit);
        if quantity.dimension != self.dimension() || !same_scale {
            return Err(self.wrong_kind(typed));
        }
        Ok(Value::Number(quantity.si))
    }

    /// In water a part in a million is a milligram in a liter; a dose may be given so.
    fn in_water(self, reading: Reading) -> Reading {
        let parts = reading
            .unit
            .as_ref()
            .is_some_and(|unit| unit.symbol() == "ppm");
        if parts && self.dimension() == Dimension::DENSITY {
            let unit = Unit::parse("mg/L").ok();
            return Reading { unit, ..reading };
        }
        reading
    }

    /// Whether it is a wire size, which the trade writes in its own way.
    fn is_gauge(self) -> bool {
        self.port.name == "awg"
    }

    /// What was typed beside what it is in the formula's unit, where that is another.
    pub(super) fn given(self, typed: &str, value: Value) -> String {
        let text = self.text(value);
        let typed = failure::shown(typed.trim());
        let has_a_unit = typed.chars().any(char::is_alphabetic);
        let own = typed.chars().filter(|c| !c.is_whitespace());
        let alike = own.eq(text.chars().filter(|c| !c.is_whitespace()));
        if matches!(value, Value::Number(_)) && !self.is_gauge() && has_a_unit && !alike {
            format!("{typed} = {text}")
        } else {
            text
        }
    }

    fn dimension(self) -> Dimension {
        match self.port.kind {
            Kind::Quantity(dimension) => dimension,
            Kind::Temperature => Dimension::TEMPERATURE,
            Kind::Word(_) => Dimension::NONE,
        }
    }

    fn wrong_kind(self, typed: &str) -> Failure {
        let (name, typed) = (self.port.name, failure::shown(typed));
        let wants = match self.unit_text() {
            Some(unit) => format!("{unit}, or a unit of the same kind"),
            None => "a plain number".to_owned(),
        };
        Failure::Input(format!(
            "{name} is \"{typed}\", a unit of another kind; it must be in {wants}"
        ))
    }

    /// The figure in the formula's unit.
    fn figure(self, value: f64) -> f64 {
        self.unit().map_or(value, |unit| unit.from_si(value))
    }

    /// The figure without its unit, as it stands in the formula.
    pub(super) fn bare(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
            Value::Number(si) => short(self.figure(si)),
        }
    }

    pub(super) fn text(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
            Value::Number(si) => self
                .gauge(si)
                .unwrap_or_else(|| self.with_unit(&short(self.figure(si)), si)),
        }
    }

    fn gauge(self, si: f64) -> Option<String> {
        self.is_gauge().then(|| gauge::write(si)).flatten()
    }

    /// A count has no figures behind the point.
    fn is_count(self, si: f64) -> bool {
        self.port.kind == Kind::Quantity(Dimension::NONE)
            && self.figure(si).fract() == 0.0
            && self.figure(si).abs() < 1e9
    }

    pub(super) fn result_text(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
            Value::Number(si) if self.is_gauge() || self.is_count(si) => self.text(value),
            Value::Number(si) => {
                self.with_unit(&print::figures(self.figure(si), RESULT_FIGURES), si)
            }
        }
    }

    fn with_unit(self, figure: &str, si: f64) -> String {
        match self.unit() {
            Some(unit) => print::with_unit(figure, &unit, unit.from_si(si)),
            None => figure.to_owned(),
        }
    }

    pub(super) fn named(self, value: Value, text: String) -> json::Named {
        let value = match value {
            Value::Number(si) => json::Scalar::figure(self.figure(si)),
            Value::Word(word) => json::Scalar::Text(word.to_owned()),
        };
        json::Named {
            name: self.port.name.to_owned(),
            value,
            unit: self.unit_text(),
            text,
        }
    }

    pub(super) fn as_json(self) -> json::Port {
        let words = match self.port.kind {
            Kind::Word(words) => Some(words.iter().map(|word| (*word).to_owned()).collect()),
            Kind::Quantity(_) | Kind::Temperature => None,
        };
        json::Port {
            name: self.port.name.to_owned(),
            letter: self.port.letter.to_owned(),
            label: self.port.label.to_owned(),
            unit: self.unit_text(),
            words,
        }
    }
}

/// A figure without the digits that changing units makes up.
pub(super) fn short(figure: f64) -> String {
    let shortest = print::shortest(figure);
    let digits = shortest.chars().filter(char::is_ascii_digit).count();
    if digits > MOST_FIGURES {
        print::figures(figure, MOST_FIGURES)
    } else {
        shortest
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pumpwright_calc::registry;

    #[test]
    fn a_changed_number_is_not_printed_to_its_last_bit() {
        assert_eq!(short(40.0), "40");
        assert_eq!(short(39.885_378_4), "39.8854");
    }

    #[test]
    fn every_unit_of_the_registry_can_be_read() {
        for function in registry::functions() {
            for port in function.inputs.iter().chain([&function.gives]) {
                for units in [Units::Us, Units::Si] {
                    let text = port.unit.of(units.basis());
                    let slot = Slot { port, units };
                    assert_eq!(
                        slot.unit().is_none(),
                        text.is_empty(),
                        "{}: {text}",
                        function.name
                    );
                }
            }
        }
    }
}
