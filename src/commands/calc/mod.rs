//! The trade's formulas by name: listed, described, or worked with numbers.
//! The sums themselves are the registry's; here is reading and printing only.

mod gauge;
mod refused;
mod slot;
mod sum;
mod words;

use pumpwright_calc::page;
use pumpwright_calc::registry::{self, Function, Law};
use pumpwright_engine::quantities::DecimalSign;

use self::slot::Slot;
use self::sum::Sum;
use super::json;
use crate::cli::{Calc, Units};
use crate::console::Console;
use crate::failure::{self, Failure};

/// Columns that names get in the list; a longer one pushes its title along.
const NAME_COLUMN: usize = 30;

/// Lists the formulas, describes one, or works it.
///
/// # Errors
/// When there is no such formula, an input is missing, unknown or cannot be
/// read, or a number lies outside the formula's range.
pub fn run(asked: &Calc, decimal: DecimalSign, console: &mut Console) -> Result<(), Failure> {
    if asked.page {
        // As it is kept in the sources: no line is broken anew for a terminal.
        return page::page().lines().try_for_each(|line| console.line(line));
    }
    let units = asked.units.unwrap_or_default();
    let Some(name) = &asked.name else {
        return list(units, asked.json, console);
    };
    let function =
        registry::find(name).ok_or_else(|| failure::unknown("formula", name, &meant_by(name)))?;
    if asked.inputs.is_empty() {
        return describe(function, units, asked.json, console);
    }
    let sum = Sum::of(function, units, &asked.inputs, decimal)?;
    if asked.json {
        return console.json(&sum.as_json());
    }
    sum.show(console)
}

/// The formulas that a wrong name may have meant: the nearest ones, else those of that
/// subject or with that word in their name.
fn meant_by(name: &str) -> Vec<&'static str> {
    let names = || registry::functions().map(|function| function.name);
    let near = failure::nearest(name, names());
    let small = name.to_lowercase();
    if near.is_empty() && small.len() > 2 {
        return names().filter(|own| own.contains(&small)).take(8).collect();
    }
    near
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
    console.gap()?;
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
}
