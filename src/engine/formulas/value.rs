//! What a formula can hold: types and values, rows and sets of rows.

use std::fmt;
use std::sync::Arc;

use crate::quantities::{Dimension, Quantity, System, Unit};

/// The type of a name or a formula, known when a lesson is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Type {
    /// A quantity of this dimension; of the dimension of temperature, an interval.
    Quantity(Dimension),
    /// A temperature: a point on a scale.
    Temperature,
    /// Yes or no.
    Truth,
    /// A word out of a list.
    Word,
    /// A row of the named table.
    Row(Arc<str>),
    /// Several rows of the named table.
    Rows(Arc<str>),
}

/// A value while a problem is drawn, worked or marked.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A quantity, or a temperature in kelvin.
    Number(Quantity),
    /// Yes or no.
    Truth(bool),
    /// A word out of a list.
    Word(Arc<str>),
    /// A row of a table.
    Row(Row),
    /// Several rows of a table, in the table's order.
    Rows(Rows),
}

impl Value {
    /// The quantity, if it is one.
    pub const fn number(&self) -> Option<Quantity> {
        match self {
            Self::Number(quantity) => Some(*quantity),
            _ => None,
        }
    }

    /// The truth, if it is one.
    pub const fn truth(&self) -> Option<bool> {
        match self {
            Self::Truth(truth) => Some(*truth),
            _ => None,
        }
    }

    /// The row, if it is one.
    pub const fn row(&self) -> Option<&Row> {
        match self {
            Self::Row(row) => Some(row),
            _ => None,
        }
    }
}

/// A table as one unit system sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its name in formulas.
    pub name: Arc<str>,
    /// The column that a row goes by.
    pub key: usize,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows: one value for each column, each a number or a word.
    pub rows: Vec<Vec<Value>>,
    /// The decimals with which each cell is written, row by row: 21.0 has one.
    pub places: Vec<Vec<usize>>,
    /// How many of its rows, the last ones, are only offered and never drawn.
    pub decoys: usize,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its name in formulas.
    pub name: String,
    /// What it holds, in words.
    pub label: String,
    /// The type of its cells.
    pub holds: Type,
    /// The unit in which its cells are written; none for words and plain numbers.
    pub unit: Option<Unit>,
}

impl Column {
    /// Whether it holds plain numbers.
    pub fn is_number(&self) -> bool {
        self.unit.is_none() && self.holds != Type::Word
    }
}

impl Table {
    /// The place of the column of this name.
    pub fn column(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|column| column.name == name)
    }
}

/// A row of a table. Two rows are one when table and place agree.
#[derive(Clone)]
pub struct Row {
    /// The table.
    pub table: Arc<Table>,
    /// The place in it.
    pub index: usize,
}

impl Row {
    /// The cell in a column.
    pub fn cell(&self, column: usize) -> Option<&Value> {
        self.table.rows.get(self.index)?.get(column)
    }

    /// The decimals with which a cell is written.
    pub fn places(&self, column: usize) -> usize {
        let row = self.table.places.get(self.index);
        row.and_then(|row| row.get(column)).copied().unwrap_or(0)
    }

    /// The cell that the row goes by.
    pub fn key(&self) -> Option<&Value> {
        self.cell(self.table.key)
    }
}

impl PartialEq for Row {
    fn eq(&self, other: &Self) -> bool {
        self.index == other.index && self.table.name == other.table.name
    }
}

impl fmt::Debug for Row {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}[{}]", self.table.name, self.index)
    }
}

/// Several rows of a table, in the table's order.
#[derive(Clone)]
pub struct Rows {
    /// The table.
    pub table: Arc<Table>,
    /// The places in it.
    pub indices: Arc<[usize]>,
}

impl Rows {
    /// Every row of a table.
    pub fn all(table: &Arc<Table>) -> Self {
        Self {
            table: Arc::clone(table),
            indices: (0..table.rows.len()).collect(),
        }
    }

    /// Every row of a table that can be drawn.
    pub fn drawn(table: &Arc<Table>) -> Self {
        Self {
            table: Arc::clone(table),
            indices: (0..table.rows.len().saturating_sub(table.decoys)).collect(),
        }
    }

    /// The rows one by one.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = Row> + '_ {
        self.indices.iter().map(|&index| Row {
            table: Arc::clone(&self.table),
            index,
        })
    }
}

impl PartialEq for Rows {
    fn eq(&self, other: &Self) -> bool {
        self.indices == other.indices && self.table.name == other.table.name
    }
}

impl fmt::Debug for Rows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{:?}", self.table.name, self.indices)
    }
}

/// A name that formulas may use: a given, a step, or a house rule by its full
/// dotted name, as in `rule.tank.precharge_below`.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// As formulas write it.
    pub name: String,
    /// Its type.
    pub holds: Type,
    /// What it is, in words.
    pub label: String,
    /// The unit in which it is printed, and read where figures are bare.
    pub unit: Option<Unit>,
    /// The decimals with which it is printed at least: 8.0 A has one.
    pub places: usize,
}

/// What a formula may name, at the place where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Scope<'a> {
    /// The names, in order; a name's place is its slot when evaluating.
    pub names: &'a [Name],
    /// How many of them, from the first, may be used here; house rules stand first.
    pub visible: usize,
    /// The tables, by name; usable after `in` only.
    pub tables: &'a std::collections::BTreeMap<Arc<str>, Arc<Table>>,
    /// The system of units whose laws and constants count.
    pub system: System,
}
