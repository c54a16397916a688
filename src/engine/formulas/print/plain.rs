//! The tree in plain text: × ÷ − and as few brackets as it takes.

use super::super::ast::{Comparison, Logic, Sign};
use super::math::Math;

/// How tightly a part binds; a looser part stands in brackets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Level {
    Whole,
    Either,
    Both,
    Compare,
    Sum,
    Product,
    Signed,
    Power,
    Atom,
}

/// The tree as one line of text.
pub(super) fn plain(math: &Math) -> String {
    at_least(math, Level::Whole)
}

fn at_least(math: &Math, place: Level) -> String {
    let text = text(math);
    if level(math) < place {
        format!("({text})")
    } else {
        text
    }
}

pub(super) fn level(math: &Math) -> Level {
    match math {
        Math::Branch { .. } | Math::Since { .. } | Math::Rounded(..) | Math::Where { .. } => {
            Level::Whole
        }
        Math::Extreme { .. } => Level::Whole,
        Math::Logic(Logic::Or, ..) => Level::Either,
        Math::Logic(Logic::And, ..) => Level::Both,
        Math::Not(_) | Math::Compare(..) => Level::Compare,
        Math::Sum(Sign::Plus | Sign::Minus, ..) => Level::Sum,
        Math::Sum(Sign::Times | Sign::Over, ..) => Level::Product,
        Math::Negate(_) => Level::Signed,
        Math::Text(text) if text.starts_with('−') => Level::Signed,
        Math::Power(..) | Math::InUnit(..) => Level::Power,
        // Under a power, what has a unit or several words is bracketed.
        Math::Text(text) if text.contains(' ') => Level::Power,
        Math::Text(_) | Math::Root(_) | Math::Size(_) => Level::Atom,
    }
}

fn text(math: &Math) -> String {
    match math {
        Math::Text(text) => text.clone(),
        Math::Negate(inner) => format!("−{}", at_least(inner, Level::Power)),
        Math::Sum(sign, left, right) => {
            let (sign, own, above) = match sign {
                Sign::Plus => ("+", Level::Sum, Level::Product),
                Sign::Minus => ("−", Level::Sum, Level::Product),
                Sign::Times => ("×", Level::Product, Level::Signed),
                Sign::Over => ("÷", Level::Product, Level::Signed),
            };
            format!("{} {sign} {}", at_least(left, own), at_least(right, above))
        }
        Math::Power(base, exponent) => {
            format!("{}{}", at_least(base, Level::Atom), raised(*exponent))
        }
        Math::Root(inner) => format!("√({})", plain(inner)),
        Math::Size(inner) => format!("|{}|", plain(inner)),
        Math::Extreme { least, parts } => extreme(*least, parts),
        Math::Rounded(inner, how) => format!("{}, {how}", at_least(inner, Level::Sum)),
        Math::InUnit(inner, unit) if unit.is_empty() => format!("({})", plain(inner)),
        Math::InUnit(inner, unit) => format!("({}) {unit}", plain(inner)),
        Math::Compare(comparison, left, right) => {
            let (left, right) = (at_least(left, Level::Sum), at_least(right, Level::Sum));
            format!("{left} {} {right}", sign(*comparison))
        }
        Math::Logic(logic, left, right) => {
            let (own, above) = match logic {
                Logic::Or => (Level::Either, Level::Both),
                Logic::And => (Level::Both, Level::Compare),
            };
            format!(
                "{} {} {}",
                at_least(left, own),
                logic.text(),
                at_least(right, above)
            )
        }
        Math::Not(inner) => format!("not {}", at_least(inner, Level::Atom)),
        Math::Branch { test, yes, no } => format!(
            "{} if {}, otherwise {}",
            at_least(yes, Level::Sum),
            at_least(test, Level::Either),
            plain(no)
        ),
        Math::Since { test, taken } => {
            format!("since {}, {}", at_least(test, Level::Either), plain(taken))
        }
        Math::Where { row, test } => format!("{row} with {}", at_least(test, Level::Either)),
    }
}

/// "smaller" of two, "smallest" of more.
pub(super) fn extreme_word(least: bool, count: usize) -> &'static str {
    match (least, count > 2) {
        (true, false) => "smaller",
        (true, true) => "smallest",
        (false, false) => "larger",
        (false, true) => "largest",
    }
}

fn extreme(least: bool, parts: &[Math]) -> String {
    let word = extreme_word(least, parts.len());
    let mut texts: Vec<String> = parts
        .iter()
        .map(|part| at_least(part, Level::Sum))
        .collect();
    let last = texts.pop().unwrap_or_default();
    format!("the {word} of {} and {last}", texts.join(", "))
}

fn raised(exponent: f64) -> String {
    if exponent == 2.0 {
        "²".to_owned()
    } else if exponent == 3.0 {
        "³".to_owned()
    } else {
        format!("^{}", minus(&exponent.to_string()))
    }
}

/// A figure with a true minus sign.
pub(super) fn minus(figure: &str) -> String {
    match figure.strip_prefix('-') {
        Some(rest) => format!("−{rest}"),
        None => figure.to_owned(),
    }
}

/// A comparison as a sentence says that it fails.
/// A comparison as it is printed, with the signs of a sum on paper.
fn sign(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::AtMost => "≤",
        Comparison::AtLeast => "≥",
        other => other.text(),
    }
}

pub(super) fn falls(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::AtMost => "more than",
        Comparison::Less => "not less than",
        Comparison::AtLeast => "less than",
        Comparison::More => "not more than",
        Comparison::Is => "not",
        Comparison::IsNot => "again",
    }
}
