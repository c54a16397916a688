//! From a checked formula to the tree that is written: labels in words, or the
//! figures of these values. Which part of a branch is taken is decided here.

use pumpwright_calc::registry::{Function, Port};

use crate::quantities::print::{Direction, figures, shortest, with_unit};
use crate::quantities::{Quantity, Unit};

use super::super::ast::{Comparison, Logic, Which};
use super::super::evaluate::Around;
use super::super::formula::{
    Body, Branch, ColumnOf, Extreme, Literal, Of, Part, Place, Search, What,
};
use super::super::value::{Name, Row, Type, Value};
use super::fits;
use super::laws::{law_of, named, port_unit};
use super::math::{Math, denied};
use super::plain::{minus, plain};
use super::{Figures, Leaf};

/// Figures of a value that stands in a law and has no figures of its own.
const SIGNIFICANT: usize = 4;

/// From so many on, a row is said to fit the readings, and the comparisons are left out.
pub(super) const MOST_CONDITIONS: usize = 3;

/// What stands for a value that cannot be had.
const NOTHING: &str = "no value";

#[derive(Clone)]
pub(super) enum Mode<'a> {
    /// Labels; with values, only the part of a branch that they take.
    Words(Option<Around<'a>>),
    /// Figures.
    Numbers(Around<'a>, &'a dyn Figures),
}

#[derive(Clone)]
pub(super) struct Shaper<'a> {
    pub body: &'a Body,
    pub names: &'a [Name],
    pub mode: Mode<'a>,
}

/// A leaf of the formula: a name, a column, or one of them as a bare figure.
fn leaf_of(part: &Part) -> Option<Leaf> {
    match &part.what {
        What::Name(slot) => Some(Leaf {
            slot: *slot,
            column: None,
        }),
        What::Column(ColumnOf {
            of: Of::Slot(slot),
            at,
            ..
        }) => Some(Leaf {
            slot: *slot,
            column: Some(*at),
        }),
        _ => None,
    }
}

/// What is asked of a name or a column: whether it is a word.
fn asks_for_a_word(part: &Part) -> Option<&Part> {
    let What::Compare(Comparison::Is | Comparison::IsNot, left, right) = &part.what else {
        return None;
    };
    match (&left.what, &right.what) {
        (_, What::Word(_)) => Some(left),
        (What::Word(_), _) => Some(right),
        _ => None,
    }
}

impl Shaper<'_> {
    /// The whole formula.
    pub fn root(&self) -> Math {
        match (&self.body.root.what, &self.mode) {
            (What::Call(function, inputs), _) => self.call_alone(function, inputs),
            _ => self.part(&self.body.root),
        }
    }

    /// A part as it stands among others.
    pub fn part(&self, part: &Part) -> Math {
        match &part.what {
            What::Number(literal) => Math::Text(written(literal)),
            What::Word(word) => Math::Text(format!("\"{word}\"")),
            What::Name(_) | What::Column(_) | What::Candidate => self.leaf(part),
            What::Bare(leaf, unit) => self.bare(leaf, unit.as_ref()),
            What::Branch(branch) => self.branch(branch),
            What::Call(function, inputs) => self.call_within(function, inputs, part),
            What::Search(search) => self.search(search),
            What::Logic(logic, left, right) => (self.settled(*logic, left, right))
                .unwrap_or_else(|| structure(part, &|inner| self.part(inner))),
            What::Compare(..) => {
                let told = self.told_word(part).map(Math::Text);
                told.unwrap_or_else(|| structure(part, &|inner| self.part(inner)))
            }
            _ => structure(part, &|inner| self.part(inner)),
        }
    }

    /// Beside the numbers, what is left of two conditions where one asks for a word: it is
    /// settled, so it is told alone where it decides, else not at all.
    fn settled(&self, logic: Logic, left: &Part, right: &Part) -> Option<Math> {
        let Mode::Numbers(around, _) = &self.mode else {
            return None;
        };
        [(left, right), (right, left)]
            .into_iter()
            .find_map(|(word, other)| {
                asks_for_a_word(word)?;
                let decides = around.truth(word).ok()? == (logic == Logic::Or);
                Some(self.part(if decides { word } else { other }))
            })
    }

    /// What a name is, where a condition asks whether it is a word and stands beside numbers.
    fn told_word(&self, part: &Part) -> Option<String> {
        let Mode::Numbers(around, _) = &self.mode else {
            return None;
        };
        let named = asks_for_a_word(part)?;
        let word = shown(&around.value(named).ok()?, None);
        Some(format!("{} is {word}", self.label(named)))
    }

    fn leaf(&self, part: &Part) -> Math {
        let text = match (&self.mode, leaf_of(part), &part.what) {
            (Mode::Numbers(_, figures), Some(leaf), _) => minus(&figures.text(leaf)),
            (Mode::Numbers(around, _), None, What::Column(column)) => {
                let cell = around.value(part).ok();
                cell.map_or(NOTHING.to_owned(), |cell| {
                    shown(&cell, column.unit.as_ref())
                })
            }
            (Mode::Numbers(around, _), None, _) => {
                around.candidate.as_ref().map_or(NOTHING.to_owned(), key)
            }
            (Mode::Words(_), ..) => self.label(part),
        };
        Math::Text(text)
    }

    pub fn label(&self, part: &Part) -> String {
        let name = |slot: usize| {
            self.names
                .get(slot)
                .map_or(NOTHING, |name| name.label.as_str())
        };
        match &part.what {
            What::Name(slot) => name(*slot).to_owned(),
            What::Column(column) => match column.of {
                // The figure that a row goes by is what the row is called.
                Of::Slot(slot) if column.is_key && self.ambiguous(column) => name(slot).to_owned(),
                Of::Slot(slot) if self.ambiguous(column) => {
                    format!("{} of {}", column.label, name(slot))
                }
                _ => column.label.to_string(),
            },
            _ => "it".to_owned(),
        }
    }

    /// Whether another row's column of the same label stands in the formula.
    fn ambiguous(&self, column: &ColumnOf) -> bool {
        any(&self.body.root, &|part| match &part.what {
            What::Column(other) => other.label == column.label && other.of != column.of,
            _ => false,
        })
    }

    fn bare(&self, leaf: &Part, unit: Option<&Unit>) -> Math {
        match (&self.mode, leaf_of(leaf), unit) {
            (Mode::Numbers(_, figures), Some(leaf), Some(unit)) => {
                Math::Text(minus(&figures.bare(leaf, unit)))
            }
            _ => self.leaf(leaf),
        }
    }

    fn branch(&self, branch: &Branch) -> Math {
        if let Some(taken) = self.branch_on_a_word(branch) {
            return taken;
        }
        let test = Box::new(self.part(&branch.test));
        let around = match &self.mode {
            Mode::Words(around) => around.as_ref(),
            Mode::Numbers(around, _) => Some(around),
        };
        let taken = around.and_then(|around| around.truth(&branch.test).ok());
        match taken {
            Some(true) => Math::Since {
                test,
                taken: Box::new(self.part(&branch.yes)),
            },
            Some(false) => Math::Since {
                test: Box::new(denied(*test)),
                taken: Box::new(self.part(&branch.no)),
            },
            None => Math::Branch {
                test,
                yes: Box::new(self.part(&branch.yes)),
                no: Box::new(self.part(&branch.no)),
            },
        }
    }

    /// A branch that hangs on a word: the words say what it is, and beside the numbers
    /// only the part taken stands.
    fn branch_on_a_word(&self, branch: &Branch) -> Option<Math> {
        let named = asks_for_a_word(&branch.test)?;
        let around = match &self.mode {
            Mode::Words(around) => around.as_ref()?,
            Mode::Numbers(around, _) => around,
        };
        let yes = around.truth(&branch.test).ok()?;
        let taken = self.part(if yes { &branch.yes } else { &branch.no });
        if matches!(self.mode, Mode::Numbers(..)) {
            return Some(taken);
        }
        let word = shown(&around.value(named).ok()?, None);
        let test = Box::new(Math::Text(format!("{} is {word}", self.label(named))));
        // One word that several branches ask for in turn is said once.
        if matches!(&taken, Math::Since { test: inner, .. } if *inner == test) {
            return Some(taken);
        }
        Some(Math::Since {
            test,
            taken: Box::new(taken),
        })
    }

    fn search(&self, search: &Search) -> Math {
        let what = self.searched(search);
        let row = match search.which {
            Which::Any => format!("there is one {what}"),
            which => format!("the {} {what}", which.text()),
        };
        // A condition is about every row, so it is said in words.
        let words = Shaper {
            mode: Mode::Words(None),
            ..self.clone()
        };
        if let (Which::Any, Some(label)) = (search.which, fits::differs_in(&search.test)) {
            let all = what.trim_start_matches("of ");
            return Math::Text(format!("one of {all} differs in {label}"));
        }
        let fits = fits::readings(&search.test);
        if fits.len() >= MOST_CONDITIONS {
            let label = |part: &&Part| match &part.what {
                What::Column(column) => column.label.to_string(),
                _ => words.label(part),
            };
            let labels: Vec<String> = fits.iter().map(label).collect();
            return Math::Text(format!("{row} that fits: {}", labels.join("; ")));
        }
        Math::Where {
            row,
            test: Box::new(words.part(&search.test)),
        }
    }

    /// What a search goes through, as it is called: a wire, or one of the tanks.
    fn searched(&self, search: &Search) -> String {
        match &search.place {
            Place::Table(table) => match table.columns.get(table.key) {
                Some(column) if column.holds == Type::Word && column.label != "name" => {
                    column.label.clone()
                }
                _ => format!("of the {}", table.name.replace('_', " ")),
            },
            Place::Slot(slot) => {
                let name = self.names.get(*slot);
                format!("of the {}", name.map_or(NOTHING, |name| &name.label))
            }
        }
    }

    /// A calculation that is the whole formula: its law, with bare figures.
    fn call_alone(&self, function: &'static Function, inputs: &[Part]) -> Math {
        match (law_of(function, self.body.system), &self.mode) {
            (Some(law), _) => law.with(&|at| self.input(function, inputs, at)),
            (None, Mode::Words(_)) => Math::Text(named(function)),
            (None, Mode::Numbers(..)) => {
                let list = function.inputs.iter().zip(inputs);
                let list = list
                    .map(|(port, input)| format!("{} {}", port.label, plain(&self.part(input))));
                Math::Text(list.collect::<Vec<_>>().join(", "))
            }
        }
    }

    /// A calculation inside arithmetic: its law in brackets, and the unit in
    /// which it comes out.
    fn call_within(&self, function: &'static Function, inputs: &[Part], part: &Part) -> Math {
        let law = law_of(function, self.body.system);
        match (law, &self.mode) {
            (Some(law), Mode::Words(_)) => law.with(&|at| self.input(function, inputs, at)),
            (Some(law), Mode::Numbers(..)) => {
                let bare = law.with(&|at| self.input(function, inputs, at));
                let unit = port_unit(&function.gives, self.body.system);
                Math::InUnit(
                    Box::new(bare),
                    unit.map_or(String::new(), |unit| unit.symbol().to_owned()),
                )
            }
            (None, Mode::Words(_)) => Math::Text(function.title.to_owned()),
            (None, Mode::Numbers(around, _)) => {
                let unit = port_unit(&function.gives, self.body.system);
                let value = around.value(part).ok();
                Math::Text(value.map_or(NOTHING.to_owned(), |value| about(&value, unit.as_ref())))
            }
        }
    }

    /// What is put into a law in the place of an input.
    fn input(&self, function: &'static Function, inputs: &[Part], at: usize) -> Math {
        let (Some(port), Some(input)) = (function.inputs.get(at), inputs.get(at)) else {
            return Math::Text(NOTHING.to_owned());
        };
        match &self.mode {
            Mode::Words(_) => self.part(input),
            Mode::Numbers(around, figures) => {
                Math::Text(self.bare_input(around, *figures, port, input))
            }
        }
    }

    fn bare_input(
        &self,
        around: &Around,
        figures: &dyn Figures,
        port: &Port,
        input: &Part,
    ) -> String {
        let unit = port_unit(port, self.body.system);
        if let Some(leaf) = leaf_of(input) {
            return minus(&match unit.or_else(|| self.counting_unit(input)) {
                Some(unit) => figures.bare(leaf, &unit),
                None => figures.text(leaf),
            });
        }
        match (around.value(input), &input.what) {
            (Ok(Value::Number(value)), What::Number(_)) => {
                minus(&shortest(in_unit(value, unit.as_ref())))
            }
            (Ok(Value::Number(value)), _) => minus(&rounded(in_unit(value, unit.as_ref()))),
            (Ok(value), _) => shown(&value, None),
            (Err(_), _) => NOTHING.to_owned(),
        }
    }

    /// The unit of a leaf that counts things: without it the figure is bare.
    fn counting_unit(&self, part: &Part) -> Option<Unit> {
        let unit = match &part.what {
            What::Name(slot) => self.names.get(*slot)?.unit.as_ref(),
            What::Column(column) => column.unit.as_ref(),
            _ => None,
        };
        unit.filter(|unit| unit.is_count()).cloned()
    }

    /// The figure of a part in a unit, as it is printed where it is a leaf.
    pub fn figure_in(&self, part: &Part, unit: &Unit) -> Option<String> {
        let Mode::Numbers(around, figures) = &self.mode else {
            return None;
        };
        if let Some(leaf) = leaf_of(part) {
            return Some(minus(&figures.bare(leaf, unit)));
        }
        let value = around.value(part).ok()?.number()?;
        let figure = unit.from_si(value.si);
        let exact = matches!(part.what, What::Column(_) | What::Number(_));
        Some(minus(&if exact {
            shortest(figure)
        } else {
            rounded(figure)
        }))
    }
}

/// The signs of a part, with its inner parts as given. What is no sign is empty:
/// the callers have seen to it.
pub(super) fn structure(part: &Part, inner: &dyn Fn(&Part) -> Math) -> Math {
    let boxed = |part: &Part| Box::new(inner(part));
    match &part.what {
        What::Number(literal) => Math::Text(written(literal)),
        What::Negate(one) => Math::Negate(boxed(one)),
        What::Not(one) => Math::Not(boxed(one)),
        What::Sum(sign, left, right) => Math::Sum(*sign, boxed(left), boxed(right)),
        What::Power(base, exponent) => Math::Power(boxed(base), *exponent),
        What::Root(one) => Math::Root(boxed(one)),
        What::Size(one) => Math::Size(boxed(one)),
        What::Compare(comparison, left, right) => {
            Math::Compare(*comparison, boxed(left), boxed(right))
        }
        What::Logic(logic, left, right) => Math::Logic(*logic, boxed(left), boxed(right)),
        What::Extreme(extreme, parts) => Math::Extreme {
            least: *extreme == Extreme::Least,
            parts: parts.iter().map(inner).collect(),
        },
        What::Round(way, value, grid) => Math::Rounded(boxed(value), how(*way, grid, inner)),
        What::Branch(branch) => Math::Branch {
            test: boxed(&branch.test),
            yes: boxed(&branch.yes),
            no: boxed(&branch.no),
        },
        _ => Math::Text(NOTHING.to_owned()),
    }
}

/// How a value is rounded: "up to a whole number", "to the nearest 5 psi".
fn how(way: Direction, grid: &Part, inner: &dyn Fn(&Part) -> Math) -> String {
    let whole = matches!(
        &grid.what,
        What::Number(Literal { value, unit: None, .. }) if value.si == 1.0
    );
    let literal = matches!(grid.what, What::Number(_));
    let (start, step) = match way {
        Direction::Up => ("up to", "the next"),
        Direction::Down => ("down to", "a full"),
        Direction::Nearest => ("to", "the nearest"),
    };
    match (whole, way) {
        (true, Direction::Nearest) => "to the nearest whole number".to_owned(),
        (true, _) => format!("{start} a whole number"),
        (false, _) if literal => format!("{start} {step} {}", plain(&inner(grid))),
        (false, _) => format!("{start} {step} multiple of {}", plain(&inner(grid))),
    }
}

fn any(part: &Part, is: &dyn Fn(&Part) -> bool) -> bool {
    is(part) || part.parts().into_iter().any(|inner| any(inner, is))
}

fn written(literal: &Literal) -> String {
    let figure = minus(&literal.figure);
    match &literal.unit {
        Some(unit) => with_unit(&figure, unit, unit.from_si(literal.value.si)),
        None => figure,
    }
}

fn in_unit(value: Quantity, unit: Option<&Unit>) -> f64 {
    unit.map_or(value.si, |unit| unit.from_si(value.si))
}

/// A figure to four places, without the zeros that say nothing.
fn rounded(figure: f64) -> String {
    let text = figures(figure, SIGNIFICANT);
    text.parse().map_or(text, shortest)
}

fn about(value: &Value, unit: Option<&Unit>) -> String {
    match (value, unit) {
        (Value::Number(number), Some(unit)) => {
            let figure = unit.from_si(number.si);
            with_unit(&minus(&rounded(figure)), unit, figure)
        }
        (Value::Number(number), None) => minus(&rounded(number.si)),
        (other, _) => shown(other, None),
    }
}

/// A cell or another value that has no figures of its own.
pub(super) fn shown(value: &Value, unit: Option<&Unit>) -> String {
    match (value, unit) {
        (Value::Number(number), Some(unit)) => {
            let figure = unit.from_si(number.si);
            with_unit(&minus(&shortest(figure)), unit, figure)
        }
        (Value::Number(number), None) => minus(&shortest(number.si)),
        (Value::Truth(true), _) => "yes".to_owned(),
        (Value::Truth(false), _) => "no".to_owned(),
        (Value::Word(word), _) => word.to_string(),
        (Value::Row(row), _) => key(row),
        (Value::Rows(rows), _) => rows
            .iter()
            .map(|row| key(&row))
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// What a row goes by.
pub(super) fn key(row: &Row) -> String {
    let unit = row
        .table
        .columns
        .get(row.table.key)
        .and_then(|column| column.unit.as_ref());
    row.key()
        .map_or(NOTHING.to_owned(), |value| shown(value, unit))
}
