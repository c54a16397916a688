//! The trade's formulas by name: listed, described, or worked with numbers.
//! The sums themselves are the registry's; here is reading and printing only.

use pumpwright_calc::registry::{self, Function, Kind, Law, Value};
use pumpwright_engine::quantities::{DecimalSign, Quantity, Unit, print, read, read_for};

use super::{json, pair};
use crate::cli::{Calc, Units};
use crate::console::Console;
use crate::failure::{self, Failure};

/// Columns that names get in the list; a longer one pushes its title along.
const NAME_COLUMN: usize = 30;
/// Figures shown of a result.
const RESULT_FIGURES: usize = 4;
/// Figures shown of a number that was changed into the formula's unit.
const MOST_FIGURES: usize = 6;

/// Lists the formulas, describes one, or works it.
///
/// # Errors
/// When there is no such formula, an input is missing, unknown or cannot be
/// read, or a number lies outside the formula's range.
pub fn run(asked: &Calc, decimal: DecimalSign, console: &mut Console) -> Result<(), Failure> {
    let units = asked.units.unwrap_or_default();
    let Some(name) = &asked.name else {
        return list(units, asked.json, console);
    };
    let function = registry::find(name).ok_or_else(|| {
        let names = registry::functions().map(|function| function.name);
        failure::unknown("formula", name, &failure::nearest(name, names))
    })?;
    if asked.inputs.is_empty() {
        return describe(function, units, asked.json, console);
    }
    let sum = Sum::of(function, units, &asked.inputs, decimal)?;
    if asked.json {
        return console.json(&sum.as_json());
    }
    sum.show(console)
}

fn list(units: Units, as_json: bool, console: &mut Console) -> Result<(), Failure> {
    if as_json {
        let formulas = registry::functions()
            .map(|function| formula(function, units))
            .collect();
        return console.json(&json::Formulas {
            format: json::FORMAT,
            units: units.letters().to_owned(),
            formulas,
        });
    }
    let names = registry::functions().map(|function| function.name.len());
    let widest = names.max().unwrap_or(0).min(NAME_COLUMN);
    for function in registry::functions() {
        console.hanging(&format!("{:widest$}  ", function.name), function.title)?;
    }
    Ok(())
}

fn describe(
    function: &Function,
    units: Units,
    as_json: bool,
    console: &mut Console,
) -> Result<(), Failure> {
    if as_json {
        return console.json(&json::Formulas {
            format: json::FORMAT,
            units: units.letters().to_owned(),
            formulas: vec![formula(function, units)],
        });
    }
    head(function, units, console)?;
    foot(function, console)
}

/// Name, formula and legend.
fn head(function: &Function, units: Units, console: &mut Console) -> Result<(), Failure> {
    let shown = formula(function, units);
    console.hanging("", &format!("{}: {}", shown.name, shown.title))?;
    console.gap()?;
    console.hanging("formula  ", &shown.formula)?;
    let ports: Vec<_> = std::iter::once(&shown.gives).chain(&shown.inputs).collect();
    let letters = ports
        .iter()
        .map(|port| port.letter.chars().count())
        .max()
        .unwrap_or(0);
    let names = ports
        .iter()
        .map(|port| port.name.chars().count())
        .max()
        .unwrap_or(0);
    for port in ports {
        let asks = match (&port.words, &port.unit) {
            (Some(words), _) => format!("{}: {}", port.label, words.join(", ")),
            (None, Some(unit)) if port.label == port.name => format!("in {unit}"),
            (None, Some(unit)) => format!("{}, in {unit}", port.label),
            (None, None) => port.label.clone(),
        };
        console.hanging(
            &format!("  {:letters$}  {:names$}  ", port.letter, port.name),
            &asks,
        )?;
    }
    Ok(())
}

/// Where it holds, who says so, what to mind.
fn foot(function: &Function, console: &mut Console) -> Result<(), Failure> {
    console.hanging("valid    ", function.valid)?;
    console.hanging("source   ", function.source)?;
    match function.caution {
        Some(caution) => console.hanging("caution  ", caution),
        None => Ok(()),
    }
}

/// A formula with its numbers.
struct Sum {
    function: &'static Function,
    units: Units,
    inputs: Vec<Value>,
    result: Value,
}

impl Sum {
    fn of(
        function: &'static Function,
        units: Units,
        typed: &[String],
        decimal: DecimalSign,
    ) -> Result<Self, Failure> {
        let mut given: Vec<(&str, &str)> = Vec::new();
        for input in typed {
            let (name, value) = pair(input, "INPUT=VALUE")?;
            if !function.inputs.iter().any(|port| port.name == name) {
                let message = format!(
                    "{} has no input \"{}\"",
                    function.name,
                    failure::shown(name)
                );
                return Err(Failure::Input(format!(
                    "{message}; {}",
                    has(function, units)
                )));
            }
            if given.iter().any(|(earlier, _)| *earlier == name) {
                return Err(Failure::Input(format!(
                    "the input {name} is given twice; give it once"
                )));
            }
            given.push((name, value));
        }
        let inputs = function
            .inputs
            .iter()
            .map(
                |port| match given.iter().find(|(name, _)| *name == port.name) {
                    Some((_, typed)) => Slot { port, units }.read(typed, decimal),
                    None => Err(Failure::Input(format!(
                        "{} also needs {}; {}",
                        function.name,
                        port.name,
                        has(function, units)
                    ))),
                },
            )
            .collect::<Result<Vec<_>, _>>()?;
        let result = (function.call)(units.basis(), &inputs)
            .map_err(|refusal| Failure::Input(refusal.to_string()))?;
        Ok(Self {
            function,
            units,
            inputs,
            result,
        })
    }

    fn slots(&self) -> impl Iterator<Item = (Slot<'_>, Value)> {
        let units = self.units;
        self.function
            .inputs
            .iter()
            .map(move |port| Slot { port, units })
            .zip(self.inputs.iter().copied())
    }

    fn gives(&self) -> Slot<'_> {
        Slot {
            port: &self.function.gives,
            units: self.units,
        }
    }

    /// The law with the numbers in place of its letters.
    fn numbers(&self) -> Option<String> {
        let Law::Shown(law) = self.function.law else {
            return None;
        };
        let values: Vec<(&str, String)> = self
            .slots()
            .map(|(slot, value)| (slot.port.letter, slot.bare(value)))
            .collect();
        Some(put_in(law.of(self.units.basis()), &values))
    }

    fn show(&self, console: &mut Console) -> Result<(), Failure> {
        head(self.function, self.units, console)?;
        console.gap()?;
        for (slot, value) in self.slots() {
            console.hanging(
                "given    ",
                &format!("{} = {}", slot.port.name, slot.text(value)),
            )?;
        }
        if let Some(numbers) = self.numbers() {
            let letter = self.function.gives.letter;
            console.hanging("numbers  ", &format!("{letter} = {numbers}"))?;
        }
        let result = self.gives().result_text(self.result);
        console.hanging(
            "result   ",
            &format!("{} = {result}", self.function.gives.name),
        )?;
        console.gap()?;
        foot(self.function, console)
    }

    fn as_json(&self) -> json::Worked {
        json::Worked {
            format: json::FORMAT,
            units: self.units.letters().to_owned(),
            formula: formula(self.function, self.units),
            numbers: self.numbers(),
            values: self
                .slots()
                .map(|(slot, value)| slot.named(value, slot.text(value)))
                .collect(),
            result: self
                .gives()
                .named(self.result, self.gives().result_text(self.result)),
        }
    }
}

fn has(function: &Function, units: Units) -> String {
    let inputs = function
        .inputs
        .iter()
        .map(|port| match (Slot { port, units }).unit_text() {
            Some(unit) => format!("{} ({unit})", port.name),
            None => port.name.to_owned(),
        });
    format!("it has: {}", inputs.collect::<Vec<_>>().join(", "))
}

/// A port as one system of units sees it.
#[derive(Clone, Copy)]
struct Slot<'a> {
    port: &'a registry::Port,
    units: Units,
}

impl Slot<'_> {
    /// The unit of the formula; none for a word or a plain number.
    fn unit(self) -> Option<Unit> {
        Unit::parse(self.port.unit.of(self.units.basis())).ok()
    }

    fn unit_text(self) -> Option<String> {
        self.unit().map(|unit| unit.symbol().to_owned())
    }

    fn read(self, typed: &str, decimal: DecimalSign) -> Result<Value, Failure> {
        if let Kind::Word(words) = self.port.kind {
            let word = words
                .iter()
                .find(|word| word.eq_ignore_ascii_case(typed.trim()));
            return word.map(|word| Value::Word(word)).ok_or_else(|| {
                let (name, typed) = (self.port.name, failure::shown(typed));
                Failure::Input(format!(
                    "{name} is \"{typed}\"; it must be one of: {}",
                    words.join(", ")
                ))
            });
        }
        let unit = self.unit();
        let reading = match &unit {
            Some(unit) => read_for(typed, decimal, unit),
            None => read(typed, decimal),
        };
        let reading =
            reading.map_err(|reason| Failure::Input(format!("{}: {reason}", self.port.name)))?;
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

    fn dimension(self) -> pumpwright_calc::dimension::Dimension {
        match self.port.kind {
            Kind::Quantity(dimension) => dimension,
            Kind::Temperature => pumpwright_calc::dimension::Dimension::TEMPERATURE,
            Kind::Word(_) => pumpwright_calc::dimension::Dimension::NONE,
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
    fn bare(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
            Value::Number(si) => short(self.figure(si)),
        }
    }

    fn text(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
            Value::Number(si) => self.with_unit(&short(self.figure(si)), si),
        }
    }

    fn result_text(self, value: Value) -> String {
        match value {
            Value::Word(word) => word.to_owned(),
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

    fn named(self, value: Value, text: String) -> json::Named {
        let value = match value {
            Value::Number(si) => json::Scalar::Number(self.figure(si)),
            Value::Word(word) => json::Scalar::Text(word.to_owned()),
        };
        json::Named {
            name: self.port.name.to_owned(),
            value,
            unit: self.unit_text(),
            text,
        }
    }

    fn as_json(self) -> json::Port {
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

fn short(figure: f64) -> String {
    let shortest = print::shortest(figure);
    let digits = shortest.chars().filter(char::is_ascii_digit).count();
    if digits > MOST_FIGURES {
        print::figures(figure, MOST_FIGURES)
    } else {
        shortest
    }
}

fn formula(function: &Function, units: Units) -> json::Formula {
    let shown = match function.law {
        Law::Shown(law) => {
            format!(
                "{} = {}",
                function.gives.letter,
                put_in(law.of(units.basis()), &[])
            )
        }
        Law::Named(name) => name.to_owned(),
    };
    let port = |port| Slot { port, units }.as_json();
    json::Formula {
        name: function.name.to_owned(),
        title: function.title.to_owned(),
        formula: shown,
        inputs: function.inputs.iter().map(port).collect(),
        gives: port(&function.gives),
        valid: function.valid.to_owned(),
        source: function.source.to_owned(),
        caution: function.caution.map(str::to_owned),
    }
}

/// A law with numbers for its letters, and with the signs of paper. A negative
/// number gets brackets, so that the line still reads.
fn put_in(law: &str, values: &[(&str, String)]) -> String {
    let mut shown = String::new();
    let mut rest = law;
    while let Some(first) = rest.chars().next() {
        let word = rest
            .find(|c: char| !c.is_alphanumeric() && c != '_')
            .unwrap_or(rest.len());
        let (token, after) = rest.split_at(if word == 0 { first.len_utf8() } else { word });
        match values.iter().find(|(letter, _)| *letter == token) {
            Some((_, number)) if number.starts_with('-') => {
                shown.push('(');
                shown.push_str(number);
                shown.push(')');
            }
            Some((_, number)) => shown.push_str(number),
            None => shown.push_str(match token {
                "*" => "×",
                "/" => "÷",
                other => other,
            }),
        }
        rest = after;
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_take_the_place_of_whole_letters_only() {
        let values = [("p", "40".to_owned()), ("dp", "-3".to_owned())];
        assert_eq!(
            put_in("2.31 * p + dp / sqrt(p)", &values),
            "2.31 × 40 + (-3) ÷ sqrt(40)"
        );
        assert_eq!(put_in("q^1.852", &[("q", "10".to_owned())]), "10^1.852");
    }

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
