//! The laws that calculations show, read and evaluated as plain sums over their
//! letters. A law may use any letters; beyond that it is an ordinary formula.

use std::collections::BTreeMap;

use pumpwright_calc::registry::Basis;

use crate::quantities::{Dimension, Quantity, System};

use super::ast::Expression;
use super::check::check_figures;
use super::fault::Fault;
use super::formula::Formula;
use super::lex::Letters;
use super::parse::parse_with;
use super::value::{Name, Scope, Type, Value};

/// Evaluates a law over the bare figures of its letters.
///
/// # Errors
/// A [`Fault`] where the law is written wrong, names a letter that it was not
/// given, or gives no finite figure.
pub fn evaluate_law(law: &str, inputs: &[(&str, f64)]) -> Result<f64, Fault> {
    let letters: Vec<&str> = inputs.iter().map(|(letter, _)| *letter).collect();
    let formula = law_formula(law, &letters)?;
    let values: Vec<_> = inputs
        .iter()
        .map(|(_, figure)| Some(Value::Number(Quantity::plain(*figure))))
        .collect();
    let value = formula.evaluate(&values, Basis::Physical);
    let whole = 0..law.len();
    match value {
        Ok(value) => value
            .number()
            .map(|quantity| quantity.si)
            .ok_or_else(|| Fault::new(&whole, "gives no figure")),
        Err(reason) => Err(Fault::new(&whole, reason.to_string())),
    }
}

/// A law checked over its letters; the letters are the slots, in order.
pub(super) fn law_formula(law: &str, letters: &[&str]) -> Result<Formula, Fault> {
    let expression: Expression = parse_with(law, Letters::Any)?;
    let names: Vec<Name> = letters.iter().map(|letter| plain_name(letter)).collect();
    let tables = BTreeMap::new();
    let scope = Scope {
        names: &names,
        visible: names.len(),
        tables: &tables,
        system: System::Si,
    };
    check_figures(&expression, &scope)
}

fn plain_name(letter: &str) -> Name {
    Name {
        name: letter.to_owned(),
        holds: Type::Quantity(Dimension::NONE),
        label: letter.to_owned(),
        unit: None,
        places: 0,
    }
}

#[cfg(test)]
mod tests;
