//! A formula to be written: labels or figures joined by signs. Every way of
//! writing walks this tree, and none of them knows where a text came from.

use super::super::ast::{Comparison, Logic, Sign};

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Math {
    /// A label, a figure with or without its unit, a word.
    Text(String),
    Negate(Box<Math>),
    Sum(Sign, Box<Math>, Box<Math>),
    Power(Box<Math>, f64),
    Root(Box<Math>),
    Size(Box<Math>),
    /// The smaller or larger of several.
    Extreme {
        least: bool,
        parts: Vec<Math>,
    },
    /// A part and how it is rounded: "up to a whole number".
    Rounded(Box<Math>, String),
    /// Bare figures in brackets, and the unit in which their result is.
    InUnit(Box<Math>, String),
    Compare(Comparison, Box<Math>, Box<Math>),
    Logic(Logic, Box<Math>, Box<Math>),
    Not(Box<Math>),
    Branch {
        test: Box<Math>,
        yes: Box<Math>,
        no: Box<Math>,
    },
    /// The part of a branch that is taken, and why.
    Since {
        test: Box<Math>,
        taken: Box<Math>,
    },
    /// A row of a set: "the first wire", with which the test holds.
    Where {
        row: String,
        test: Box<Math>,
    },
}

/// The condition that holds when this one does not.
pub(super) fn denied(test: Math) -> Math {
    match test {
        Math::Compare(comparison, left, right) => Math::Compare(opposite(comparison), left, right),
        Math::Not(inner) => *inner,
        Math::Logic(logic, left, right) => {
            let other = match logic {
                Logic::And => Logic::Or,
                Logic::Or => Logic::And,
            };
            Math::Logic(other, Box::new(denied(*left)), Box::new(denied(*right)))
        }
        other => Math::Not(Box::new(other)),
    }
}

fn opposite(comparison: Comparison) -> Comparison {
    match comparison {
        Comparison::Less => Comparison::AtLeast,
        Comparison::AtMost => Comparison::More,
        Comparison::More => Comparison::AtMost,
        Comparison::AtLeast => Comparison::Less,
        Comparison::Is => Comparison::IsNot,
        Comparison::IsNot => Comparison::Is,
    }
}
