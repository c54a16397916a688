//! The tree as HTML: what plain text says, with powers raised by `sup`, so that it reads
//! right in whatever shows HTML.

use super::super::ast::{Comparison, Logic, Sign};
use super::math::Math;
use super::plain::{Level, extreme_word, level, minus};

/// The tree as HTML that stands inside a line of text.
pub(super) fn html(math: &Math) -> String {
    at_least(math, Level::Whole)
}

/// Text as HTML has it.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

fn at_least(math: &Math, place: Level) -> String {
    let inner = inside(math);
    if level(math) < place {
        format!("({inner})")
    } else {
        inner
    }
}

fn inside(math: &Math) -> String {
    match math {
        Math::Text(text) => escaped(text),
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
            let exponent = minus(&exponent.to_string());
            format!("{}<sup>{exponent}</sup>", at_least(base, Level::Atom))
        }
        Math::Root(inner) => format!("√({})", html(inner)),
        Math::Size(inner) => format!("|{}|", html(inner)),
        Math::Extreme { least, parts } => extreme(*least, parts),
        Math::Rounded(inner, how) => {
            format!("{}, {}", at_least(inner, Level::Sum), escaped(how))
        }
        Math::InUnit(inner, unit) if unit.is_empty() => format!("({})", html(inner)),
        Math::InUnit(inner, unit) => format!("({}) {}", html(inner), escaped(unit)),
        Math::Compare(comparison, left, right) => {
            let (left, right) = (at_least(left, Level::Sum), at_least(right, Level::Sum));
            format!("{left} {} {right}", sign(*comparison))
        }
        Math::Logic(logic, left, right) => {
            let (own, above) = match logic {
                Logic::Or => (Level::Either, Level::Both),
                Logic::And => (Level::Both, Level::Compare),
            };
            let (left, right) = (at_least(left, own), at_least(right, above));
            format!("{left} {} {right}", logic.text())
        }
        Math::Not(inner) => format!("not {}", at_least(inner, Level::Atom)),
        Math::Branch { test, yes, no } => format!(
            "{} if {}, otherwise {}",
            at_least(yes, Level::Sum),
            at_least(test, Level::Either),
            html(no)
        ),
        Math::Since { test, taken } => {
            format!("since {}, {}", at_least(test, Level::Either), html(taken))
        }
        Math::Where { row, test } => {
            format!("{} with {}", escaped(row), at_least(test, Level::Either))
        }
    }
}

fn extreme(least: bool, parts: &[Math]) -> String {
    let word = extreme_word(least, parts.len());
    let parts = parts.iter().map(|part| at_least(part, Level::Sum));
    let mut texts: Vec<String> = parts.collect();
    let last = texts.pop().unwrap_or_default();
    format!("the {word} of {} and {last}", texts.join(", "))
}

const fn sign(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::Less => "&lt;",
        Comparison::AtMost => "≤",
        Comparison::More => "&gt;",
        Comparison::AtLeast => "≥",
        Comparison::Is => "is",
        Comparison::IsNot => "is not",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> Math {
        Math::Text(text.to_owned())
    }

    fn sum(sign: Sign, left: Math, right: Math) -> Math {
        Math::Sum(sign, Box::new(left), Box::new(right))
    }

    #[test]
    fn a_power_is_raised_and_a_sign_of_html_is_none() {
        let flow = Math::Power(Box::new(text("flow < 5")), 1.852);
        let product = sum(Sign::Times, text("0.5"), flow);
        assert_eq!(html(&product), "0.5 × (flow &lt; 5)<sup>1.852</sup>");
        let square = Math::Power(Box::new(sum(Sign::Plus, text("a"), text("b"))), -2.0);
        assert_eq!(html(&square), "(a + b)<sup>−2</sup>");
    }
}
