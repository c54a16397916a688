//! Values as texts print them: with the unit and the decimals that go with the
//! name or the table's cell.

use crate::formulas::{Name, Row, Value};
use crate::quantities::{Unit, print};

/// A value with the unit and the decimals in which it is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// The value.
    pub value: Value,
    /// The unit in which it is printed.
    pub unit: Option<Unit>,
    /// The decimals that it has at least.
    pub places: usize,
}

impl Printed {
    /// The value of a name, or of a column of the row that it holds.
    pub fn of(
        slot: usize,
        column: Option<usize>,
        names: &[Name],
        values: &[Option<Value>],
    ) -> Option<Self> {
        let value = values.get(slot)?.clone()?;
        if let Some(column) = column {
            return Self::cell(value.row()?, column);
        }
        let name = names.get(slot)?;
        Some(Self {
            value,
            unit: name.unit.clone(),
            places: name.places,
        })
    }

    /// A cell of a row.
    fn cell(row: &Row, column: usize) -> Option<Self> {
        Some(Self {
            value: row.cell(column)?.clone(),
            unit: row.table.columns.get(column)?.unit.clone(),
            places: row.places(column),
        })
    }

    /// With its unit.
    pub fn text(&self) -> String {
        match (&self.value, &self.unit) {
            (Value::Number(quantity), Some(unit)) => {
                print::with_unit(&self.figure(), unit, unit.from_si(quantity.si))
            }
            (Value::Rows(rows), _) => {
                let keys: Vec<Self> = rows.iter().filter_map(|row| key(&row)).collect();
                let texts: Vec<String> = keys.iter().map(Self::figure).collect();
                match keys.first().and_then(|key| key.unit.as_ref()) {
                    Some(unit) => format!("{} {}", and(&texts), unit.symbol()),
                    None => and(&texts),
                }
            }
            (Value::Row(row), _) => key(row).map_or_else(String::new, |key| key.text()),
            _ => self.figure(),
        }
    }

    /// Without its unit.
    pub fn figure(&self) -> String {
        match (&self.value, &self.unit) {
            (Value::Number(quantity), Some(unit)) => {
                print::at_least(unit.from_si(quantity.si), self.places)
            }
            (Value::Number(quantity), None) => print::at_least(quantity.si, self.places),
            (Value::Truth(truth), _) => if *truth { "yes" } else { "no" }.to_owned(),
            (Value::Word(word), _) => word.to_string(),
            (Value::Row(row), _) => key(row).map_or_else(String::new, |key| key.figure()),
            (Value::Rows(_), _) => self.text(),
        }
    }

    /// Before a noun: `6-inch`, `150 mm`.
    pub fn side(&self) -> String {
        match (&self.value, &self.unit) {
            (Value::Number(_), Some(unit)) => print::side(&self.figure(), unit),
            _ => self.text(),
        }
    }

    /// Whether it is a count of nothing, which a list leaves out.
    pub fn is_nothing(&self) -> bool {
        self.value
            .number()
            .is_some_and(|quantity| quantity.si == 0.0)
    }
}

/// The name or figure that a row goes by.
fn key(row: &Row) -> Option<Printed> {
    Printed::cell(row, row.table.key)
}

/// A value with its unit, where no name or cell says to how many decimals.
pub fn show(value: &Value, unit: Option<&Unit>) -> String {
    Printed {
        value: value.clone(),
        unit: unit.cloned(),
        places: 0,
    }
    .text()
}

/// `a, b and c`.
pub(super) fn and(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
