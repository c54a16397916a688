//! From a tree to a formula that holds: every name known, every dimension
//! sound. What is wrong is said in words, with what to write instead.

mod arithmetic;
mod calls;
mod compare;
mod names;

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

use pumpwright_calc::registry::Function;

use crate::quantities::{Dimension, Quantity, Unit};

use super::ast::{Branch as BranchNode, Expression, Logic, Node, Spot, Tree};
use super::fault::Fault;
use super::formula::{Body, Branch, Formula, Literal, Part, What};
use super::kinds::kind;
use super::value::{Scope, Table, Type};

/// How much work one formula may be: parts of a condition times rows searched.
pub const MOST_WORK: usize = 50_000;

/// Resolves the names of a formula and checks its dimensions.
pub fn check(expression: &Expression, scope: &Scope) -> Result<Formula, Fault> {
    Checker::new(scope, Reading::Quantities).formula(expression)
}

/// The same for arithmetic on bare printed figures: each name is read in its own
/// unit, and the result is a plain number. No units and no calls.
pub fn check_figures(expression: &Expression, scope: &Scope) -> Result<Formula, Fault> {
    let formula = Checker::new(scope, Reading::Figures).formula(expression)?;
    match formula.holds() {
        Type::Quantity(_) => Ok(formula),
        other => Err(Fault::new(
            &(0..expression.source().len()),
            format!("gives {}; bare figures give a number", kind(other)),
        )),
    }
}

/// How names are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reading {
    /// With their dimension.
    Quantities,
    /// As the figure printed, without its unit.
    Figures,
}

struct Checker<'a> {
    scope: &'a Scope<'a>,
    reading: Reading,
    /// The row of the search around, by its name, and the table it is of.
    candidate: Option<(&'a str, Arc<Table>)>,
    slots: BTreeSet<usize>,
    calls: Vec<&'static Function>,
    tables: BTreeSet<Arc<str>>,
    work: usize,
}

impl<'a> Checker<'a> {
    fn new(scope: &'a Scope<'a>, reading: Reading) -> Self {
        Self {
            scope,
            reading,
            candidate: None,
            slots: BTreeSet::new(),
            calls: Vec::new(),
            tables: BTreeSet::new(),
            work: 0,
        }
    }

    fn formula(mut self, expression: &'a Expression) -> Result<Formula, Fault> {
        let root = self.part(&expression.root)?;
        Ok(Formula(Arc::new(Body {
            expression: expression.clone(),
            root,
            system: self.scope.system,
            slots: self.slots,
            calls: self.calls,
            tables: self.tables,
        })))
    }

    fn part(&mut self, node: &'a Node) -> Result<Part, Fault> {
        let span = &node.span;
        match &node.tree {
            Tree::Number { value, unit } => self.number(*value, unit.as_ref(), span),
            Tree::Word(word) => Ok(made(What::Word(word.as_str().into()), Type::Word, span)),
            Tree::Path(path) => self.path(path, span),
            Tree::Negate(inner) => self.negate(inner, span),
            Tree::Not(inner) => {
                let inner = self.part(inner)?;
                truth(&inner, "\"not\"")?;
                Ok(made(What::Not(Box::new(inner)), Type::Truth, span))
            }
            Tree::Sum(sign, left, right) => {
                let (left, right) = (self.part(left)?, self.part(right)?);
                self.sum(*sign, left, right, span)
            }
            Tree::Power(base, exponent) => {
                let base = self.part(base)?;
                self.power(base, *exponent, span)
            }
            Tree::Compare(comparison, left, right) => {
                let (left, right) = (self.part(left)?, self.part(right)?);
                self.compare(*comparison, left, right, span)
            }
            Tree::Logic(logic, left, right) => self.logic(*logic, left, right, span),
            Tree::Branch(branch) => self.branch(branch, span),
            Tree::Call { path, inputs } => self.call(path, inputs, span),
            Tree::Search(search) => self.search(search, span),
        }
    }

    fn number(&self, value: f64, unit: Option<&Spot>, span: &Range<usize>) -> Result<Part, Fault> {
        let figure = format!("{value}");
        let Some(spot) = unit else {
            let literal = Literal {
                value: Quantity::plain(value),
                figure,
                unit: None,
            };
            return Ok(made(
                What::Number(literal),
                Type::Quantity(Dimension::NONE),
                span,
            ));
        };
        if self.reading == Reading::Figures {
            return Err(Fault::new(&spot.span, "puts a unit on a bare figure")
                .remedy(format!("write \"{figure}\"")));
        }
        let unit = self.unit(spot, &figure)?;
        let quantity = Quantity::new(unit.to_si(value), unit.dimension());
        let holds = if unit.is_point() {
            Type::Temperature
        } else {
            Type::Quantity(unit.dimension())
        };
        Ok(made(
            What::Number(Literal {
                value: quantity,
                figure,
                unit: Some(unit),
            }),
            holds,
            span,
        ))
    }

    fn unit(&self, spot: &Spot, figure: &str) -> Result<Unit, Fault> {
        let text = &spot.text;
        Unit::parse(text).map_err(|unknown| {
            let fault = Fault::new(&spot.span, format!("has \"{text}\", which is no unit"));
            let (unit, after) = text.split_once(['/', '*']).unwrap_or((text, ""));
            if self.scope.names.iter().any(|name| name.name == *text) {
                return fault.remedy(format!("to multiply write \"{figure} * {text}\""));
            }
            if Unit::parse(unit).is_ok() && self.scope.names.iter().any(|name| name.name == after) {
                let sign = if text.contains('/') { '/' } else { '*' };
                return fault.remedy(format!(
                    "write \"{figure} {unit} {sign} {after}\", with blanks"
                ));
            }
            let in_all = unknown.name == *text && after.is_empty();
            let near = unknown.near.iter().map(|near| {
                if in_all {
                    format!("\"{figure} {near}\"")
                } else {
                    format!("\"{near}\" in it")
                }
            });
            let near = near.collect::<Vec<_>>().join(" or ");
            if near.is_empty() {
                fault
            } else {
                fault.remedy(format!("write {near}"))
            }
        })
    }

    fn logic(
        &mut self,
        logic: Logic,
        left: &'a Node,
        right: &'a Node,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let (left, right) = (self.part(left)?, self.part(right)?);
        for side in [&left, &right] {
            truth(side, &format!("\"{}\"", logic.text()))?;
        }
        Ok(made(
            What::Logic(logic, Box::new(left), Box::new(right)),
            Type::Truth,
            span,
        ))
    }

    fn branch(&mut self, branch: &'a BranchNode, span: &Range<usize>) -> Result<Part, Fault> {
        let test = self.part(&branch.test)?;
        truth(&test, "\"if\"")?;
        let (yes, no) = (self.part(&branch.yes)?, self.part(&branch.no)?);
        if yes.holds != no.holds {
            let message = format!(
                "gives {} after \"then\" and {} after \"else\"",
                kind(&yes.holds),
                kind(&no.holds)
            );
            let fault = Fault::new(&no.span, message);
            return Err(self.alike(fault, &yes, &no));
        }
        let holds = yes.holds.clone();
        Ok(made(
            What::Branch(Box::new(Branch { test, yes, no })),
            holds,
            span,
        ))
    }
}

fn made(what: What, holds: Type, span: &Range<usize>) -> Part {
    Part {
        what,
        holds,
        span: span.clone(),
    }
}

/// Refuses what is no yes or no.
fn truth(part: &Part, wants: &str) -> Result<(), Fault> {
    if part.holds == Type::Truth {
        return Ok(());
    }
    let message = format!("has {} where {wants} needs a yes or no", kind(&part.holds));
    let remedy = match part.holds {
        Type::Word | Type::Row(_) => "compare it, as in 'sheet is \"any\"'",
        _ => "compare it, as in \"a > b\"",
    };
    Err(Fault::new(&part.span, message).remedy(remedy))
}

#[cfg(test)]
mod tests;
