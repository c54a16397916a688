//! A formula that holds: names are slots, units are applied, dimensions agree.
//! Made by `check` alone.

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

use pumpwright_calc::registry::Function;

use crate::quantities::{Quantity, System, Unit};

use super::ast::{Comparison, Expression, Logic, Sign, Which};
use super::canonical::canonical;
use super::value::{Table, Type};
use crate::quantities::print::Direction;

/// A formula that may be evaluated and printed. Cheap to clone.
#[derive(Debug, Clone)]
pub struct Formula(pub(super) Arc<Body>);

#[derive(Debug)]
pub(super) struct Body {
    pub expression: Expression,
    pub root: Part,
    pub system: System,
    pub slots: BTreeSet<usize>,
    pub calls: Vec<&'static Function>,
    pub tables: BTreeSet<Arc<str>>,
}

/// Equal when they say the same about the same names.
impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        self.0.expression == other.0.expression
            && self.0.slots == other.0.slots
            && self.0.root.holds == other.0.root.holds
            && self.0.system == other.0.system
    }
}

impl Formula {
    /// The type of its value.
    pub fn holds(&self) -> &Type {
        &self.0.root.holds
    }

    /// The text that was read.
    pub fn source(&self) -> &str {
        self.0.expression.source()
    }

    /// The system of units whose laws it takes.
    pub fn system(&self) -> System {
        self.0.system
    }

    /// The names that it uses, by their place in the scope.
    pub fn slots(&self) -> &BTreeSet<usize> {
        &self.0.slots
    }

    /// The calculations that it calls, each once.
    pub fn calls(&self) -> impl Iterator<Item = &'static Function> + '_ {
        self.0.calls.iter().copied()
    }

    /// The tables that it searches by name.
    pub fn tables(&self) -> BTreeSet<Arc<str>> {
        self.0.tables.clone()
    }

    /// Whether its value is a decision: rounded, searched, compared or branched
    /// at the root. What follows takes a decision as it is written.
    pub fn decides(&self) -> bool {
        matches!(
            self.0.root.what,
            What::Round(..)
                | What::Search(_)
                | What::Compare(..)
                | What::Logic(..)
                | What::Not(_)
                | What::Branch(_)
        )
    }

    /// The name that the formula is and nothing more, or the column of a name's row.
    pub fn plain_name(&self) -> Option<(usize, Option<usize>)> {
        match &self.0.root.what {
            What::Name(slot) => Some((*slot, None)),
            What::Column(ColumnOf {
                of: Of::Slot(slot),
                at,
                ..
            }) => Some((*slot, Some(*at))),
            _ => None,
        }
    }

    /// The formula in the one spelling that all its spellings share; it can be
    /// parsed again.
    pub fn canonical(&self) -> String {
        canonical(&self.0.expression)
    }
}

/// A part of a formula, with its type and where it was read.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub what: What,
    pub holds: Type,
    pub span: Range<usize>,
}

#[derive(Debug, Clone)]
pub(super) enum What {
    Number(Literal),
    Word(Arc<str>),
    Name(usize),
    Column(ColumnOf),
    /// The row that the search around it is at.
    Candidate,
    /// A leaf read as a bare figure in a unit.
    Bare(Box<Part>, Option<Unit>),
    Negate(Box<Part>),
    Not(Box<Part>),
    Sum(Sign, Box<Part>, Box<Part>),
    Power(Box<Part>, f64),
    Root(Box<Part>),
    Size(Box<Part>),
    Extreme(Extreme, Vec<Part>),
    Round(Direction, Box<Part>, Box<Part>),
    Compare(Comparison, Box<Part>, Box<Part>),
    Logic(Logic, Box<Part>, Box<Part>),
    Branch(Box<Branch>),
    Call(&'static Function, Vec<Part>),
    Search(Box<Search>),
}

/// A number as it stands in the formula.
#[derive(Debug, Clone)]
pub(super) struct Literal {
    pub value: Quantity,
    /// The figure as written.
    pub figure: String,
    pub unit: Option<Unit>,
}

/// Which row a column is read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    Slot(usize),
    Candidate,
}

/// A column of a row. The place holds for the table that was checked against;
/// another table of the same shape is read by the column's name.
#[derive(Debug, Clone)]
pub(super) struct ColumnOf {
    pub of: Of,
    pub at: usize,
    pub name: Arc<str>,
    pub label: Arc<str>,
    pub unit: Option<Unit>,
    /// Whether the rows go by this column.
    pub is_key: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Extreme {
    Least,
    Greatest,
}

#[derive(Debug, Clone)]
pub(super) struct Branch {
    pub test: Part,
    pub yes: Part,
    pub no: Part,
}

#[derive(Debug, Clone)]
pub(super) struct Search {
    pub which: Which,
    pub place: Place,
    pub test: Part,
}

/// Where a search looks.
#[derive(Debug, Clone)]
pub(super) enum Place {
    Slot(usize),
    Table(Arc<Table>),
}

impl Part {
    /// The parts directly inside.
    pub fn parts(&self) -> Vec<&Part> {
        match &self.what {
            What::Number(_) | What::Word(_) | What::Name(_) | What::Column(_) | What::Candidate => {
                Vec::new()
            }
            What::Bare(one, _)
            | What::Negate(one)
            | What::Not(one)
            | What::Power(one, _)
            | What::Root(one)
            | What::Size(one) => vec![one],
            What::Sum(_, one, two)
            | What::Round(_, one, two)
            | What::Compare(_, one, two)
            | What::Logic(_, one, two) => vec![one, two],
            What::Branch(branch) => vec![&branch.test, &branch.yes, &branch.no],
            What::Extreme(_, parts) | What::Call(_, parts) => parts.iter().collect(),
            What::Search(search) => vec![&search.test],
        }
    }

    /// How many parts there are, itself counted.
    pub fn size(&self) -> usize {
        1 + self.parts().into_iter().map(Part::size).sum::<usize>()
    }

    /// Whether the row of the search around it is used.
    pub fn uses_candidate(&self) -> bool {
        match &self.what {
            What::Candidate => true,
            What::Column(column) => column.of == Of::Candidate,
            _ => self.parts().into_iter().any(Part::uses_candidate),
        }
    }
}
