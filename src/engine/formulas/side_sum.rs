//! A sum worked out at once, as on the back of a job sheet: numbers with units,
//! earlier results by name, the language's own signs. Nothing here is marked.

use std::collections::BTreeMap;

use pumpwright_calc::registry::Basis;

use super::check::check;
use super::fault::Fault;
use super::formula::{Formula, Part, What};
use super::kinds::{example_unit, kind};
use super::parse::parse;
use super::value::{Name, Scope, Type, Value};
use crate::quantities::{Dimension, Quantity, System, Unit, print};

/// A result is shown to this many figures.
const FIGURES: usize = 5;

/// What a sum gave.
#[derive(Debug, Clone, PartialEq)]
pub struct SideSum {
    /// The sum as written.
    pub sum: String,
    /// Its value.
    pub value: Quantity,
    /// The unit in which it is shown; none for a plain number.
    pub unit: Option<Unit>,
    /// The result as shown: `185.5 ft`.
    pub text: String,
}

/// Works out a sum. The results before it are `s1`, `s2` and so on. What cannot
/// be is met with a sentence.
///
/// ```
/// use pumpwright_engine::formulas::work_out;
/// use pumpwright_engine::quantities::System;
///
/// let sum = work_out("70 ft + 2.31 ft/psi * 50 psi", &[], System::Us);
/// assert_eq!(sum.map(|sum| sum.text), Ok("185.5 ft".to_owned()));
/// ```
pub fn work_out(sum: &str, earlier: &[SideSum], system: System) -> Result<SideSum, String> {
    let names: Vec<Name> = (1..)
        .zip(earlier)
        .map(|(number, sum)| Name {
            name: format!("s{number}"),
            holds: Type::Quantity(sum.value.dimension),
            label: sum.text.clone(),
            unit: sum.unit.clone(),
            places: 0,
        })
        .collect();
    let scope = Scope {
        names: &names,
        visible: names.len(),
        tables: &BTreeMap::new(),
        system,
    };
    let written = sum.trim();
    let formula = parse(&in_signs(written))
        .and_then(|read| check(&read, &scope))
        .map_err(|fault| sentence(&fault))?;
    let values: Vec<Option<Value>> = earlier
        .iter()
        .map(|sum| Some(Value::Number(sum.value)))
        .collect();
    let basis = match system {
        System::Us => Basis::UsTrade,
        System::Si => Basis::SiTrade,
    };
    let value = formula
        .evaluate(&values, basis)
        .map_err(|none| format!("{none}"))?;
    let Value::Number(value) = value else {
        return Err(format!(
            "this gives {}, not a figure",
            kind(formula.holds())
        ));
    };
    let unit = formula.unit_shown(&names);
    let text = shown(value, unit.as_ref());
    Ok(SideSum {
        sum: written.to_owned(),
        value,
        unit,
        text,
    })
}

/// The signs that a person may write for those of the language.
fn in_signs(sum: &str) -> String {
    sum.replace(['×', '·'], "*")
        .replace(['÷', '∕'], "/")
        .replace(['−', '–'], "-")
        .replace('²', "^2")
        .replace('³', "^3")
}

fn sentence(fault: &Fault) -> String {
    match &fault.remedy {
        Some(remedy) => format!("{}. Look at: {remedy}", fault.message),
        None => fault.message.clone(),
    }
}

fn shown(value: Quantity, unit: Option<&Unit>) -> String {
    let figure = |number: f64| {
        let whole = print::shortest(number);
        let rounded = print::figures(number, FIGURES);
        if whole.len() <= rounded.len() {
            whole
        } else {
            rounded
        }
    };
    match unit {
        Some(unit) => {
            let number = unit.from_si(value.si);
            print::with_unit(&figure(number), unit, number)
        }
        // A share is read as per cent as often as not.
        None if value.is_plain() && value.si.abs() < 1.0 && value.si != 0.0 => {
            format!("{} = {} %", figure(value.si), figure(value.si * 100.0))
        }
        None => figure(value.si),
    }
}

impl Formula {
    /// The unit in which a result is best shown: that of the first figure of its
    /// kind in the formula, else the customary one; none for a plain number.
    pub fn unit_shown(&self, names: &[Name]) -> Option<Unit> {
        let dimension = match self.holds() {
            Type::Quantity(dimension) => *dimension,
            Type::Temperature => Dimension::TEMPERATURE,
            _ => return None,
        };
        let point = *self.holds() == Type::Temperature;
        let own = unit_within(&self.0.root, names, &|unit| {
            unit.dimension() == dimension && unit.is_point() == point
        });
        own.or_else(|| Unit::parse(example_unit(dimension, self.system())?).ok())
    }
}

fn unit_within(part: &Part, names: &[Name], fits: &dyn Fn(&Unit) -> bool) -> Option<Unit> {
    let own = match &part.what {
        What::Number(literal) => literal.unit.as_ref(),
        What::Name(slot) => names.get(*slot).and_then(|name| name.unit.as_ref()),
        What::Column(column) => column.unit.as_ref(),
        _ => None,
    };
    own.filter(|unit| fits(unit)).cloned().or_else(|| {
        part.parts()
            .into_iter()
            .find_map(|inner| unit_within(inner, names, fits))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn run(sums: &[&str]) -> Vec<Result<String, String>> {
        let mut done: Vec<SideSum> = Vec::new();
        let mut shown = Vec::new();
        for sum in sums {
            let found = work_out(sum, &done, System::Us);
            shown.push(
                found
                    .as_ref()
                    .map(|sum| sum.text.clone())
                    .map_err(Clone::clone),
            );
            done.extend(found.ok());
        }
        shown
    }

    #[test]
    fn a_page_of_sums_works_out() {
        let page = run(&[
            "80 ft + 240 ft",
            "0.396 ohm/100ft * s1",
            "8.0 A × s2",
            "s3 ÷ 230 V",
            "70 ft + 2.31 ft/psi * 50 psi",
            "up(270 / 19, 1)",
        ]);
        let expected = [
            "320 ft",
            "1.2672 ohm",
            "10.138 V",
            "0.044077 = 4.4077 %",
            "185.5 ft",
            "15",
        ];
        let expected: Vec<_> = expected.iter().map(|text| Ok((*text).to_owned())).collect();
        assert_eq!(page, expected);
    }

    #[test]
    fn a_sum_that_cannot_be_says_why() {
        for sum in [
            "8.0 A + 230 V",
            "s9 + 1",
            "80 ft +",
            "1 / 0",
            "5 ft is 5 ft",
            "2 > 1",
        ] {
            let refused = work_out(sum, &[], System::Us);
            assert!(
                refused.as_ref().is_err_and(|said| said.len() > 10),
                "{sum}: {refused:?}"
            );
        }
    }

    proptest! {
        #[test]
        fn anything_may_be_written(sum in "\\PC{0,80}") {
            let _ = work_out(&sum, &[], System::Si);
        }
    }
}
