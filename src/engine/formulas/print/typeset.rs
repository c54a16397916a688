//! The tree as the typesetter of papers takes it: prose and formulas in turn. What is
//! prose breaks over lines as prose does; a formula has fractions, powers and roots, and
//! the same in words for whoever hears it. Only here is anything written that the
//! typesetter reads as a formula, and every text in one stands in quotes.

use super::super::ast::{Comparison, Logic, Sign};
use super::math::Math;
use super::plain::{Level, extreme_word, level};
use super::spoken::spoken;

/// A piece of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    /// Words.
    Prose(String),
    /// A formula.
    Formula {
        /// In the typesetter's language for formulas.
        typeset: String,
        /// The same read aloud.
        spoken: String,
    },
}

/// The tree as pieces in turn.
pub(super) fn pieces(math: &Math) -> Vec<Piece> {
    let mut line = Line::default();
    line.put(math, Level::Whole);
    line.pieces
}

/// A line as it grows.
#[derive(Default)]
struct Line {
    pieces: Vec<Piece>,
}

impl Line {
    fn prose(&mut self, text: &str) {
        if let Some(Piece::Prose(before)) = self.pieces.last_mut() {
            before.push_str(text);
        } else if !text.is_empty() {
            self.pieces.push(Piece::Prose(text.to_owned()));
        }
    }

    fn put(&mut self, math: &Math, place: Level) {
        let bracketed = is_prose(math) && level(math) < place;
        if bracketed {
            self.prose("(");
        }
        self.put_bare(math);
        if bracketed {
            self.prose(")");
        }
    }

    fn put_bare(&mut self, math: &Math) {
        match math {
            Math::Text(text) => self.prose(text),
            Math::Extreme { least, parts } => {
                self.prose(&format!("the {} of ", extreme_word(*least, parts.len())));
                for (at, part) in parts.iter().enumerate() {
                    self.prose(match at {
                        0 => "",
                        _ if at + 1 == parts.len() => " and ",
                        _ => ", ",
                    });
                    self.put(part, Level::Sum);
                }
            }
            Math::Rounded(inner, how) => {
                self.put(inner, Level::Sum);
                self.prose(&format!(", {how}"));
            }
            Math::Logic(logic, left, right) => {
                let (own, above) = sides(*logic);
                self.put(left, own);
                self.prose(&format!(" {} ", logic.text()));
                self.put(right, above);
            }
            Math::Not(inner) => {
                self.prose("not ");
                self.put(inner, Level::Atom);
            }
            Math::Branch { test, yes, no } => {
                self.put(yes, Level::Sum);
                self.prose(" if ");
                self.put(test, Level::Either);
                self.prose(", otherwise ");
                self.put(no, Level::Whole);
            }
            Math::Since { test, taken } => {
                self.prose("since ");
                self.put(test, Level::Either);
                self.prose(", ");
                self.put(taken, Level::Whole);
            }
            Math::Where { row, test } => {
                self.prose(&format!("{row} with "));
                self.put(test, Level::Either);
            }
            _ => self.pieces.push(Piece::Formula {
                typeset: formula(math, Level::Whole, false),
                spoken: spoken(math),
            }),
        }
    }
}

/// Whether a part is told in words, with its inner formulas among them.
fn is_prose(math: &Math) -> bool {
    matches!(
        math,
        Math::Text(_)
            | Math::Extreme { .. }
            | Math::Rounded(..)
            | Math::Logic(..)
            | Math::Not(_)
            | Math::Branch { .. }
            | Math::Since { .. }
            | Math::Where { .. }
    )
}

const fn sides(logic: Logic) -> (Level, Level) {
    match logic {
        Logic::Or => (Level::Either, Level::Both),
        Logic::And => (Level::Both, Level::Compare),
    }
}

/// A part as a formula. Inside a fraction a further one is written with a sign, for
/// letters in letters' letters cannot be read.
fn formula(math: &Math, place: Level, in_fraction: bool) -> String {
    let bare = bare(math, in_fraction);
    // A fraction and a root hold together by their line.
    let stacked = matches!(math, Math::Sum(Sign::Over, ..)) && !in_fraction;
    let shut = matches!(math, Math::InUnit(..));
    if level(math) < place && !stacked && !shut {
        format!("({bare})")
    } else {
        bare
    }
}

fn bare(math: &Math, in_fraction: bool) -> String {
    let part = |math: &Math, place: Level| formula(math, place, in_fraction);
    match math {
        Math::Text(text) => quoted(text),
        Math::Negate(inner) => format!("-{}", part(inner, Level::Power)),
        Math::Sum(Sign::Over, above, below) if !in_fraction => format!(
            "frac({}, {})",
            formula(above, Level::Whole, true),
            formula(below, Level::Whole, true)
        ),
        Math::Sum(sign, left, right) => {
            let (sign, own, above) = match sign {
                Sign::Plus => ("+", Level::Sum, Level::Product),
                Sign::Minus => ("-", Level::Sum, Level::Product),
                Sign::Times => ("times", Level::Product, Level::Signed),
                Sign::Over => ("div", Level::Product, Level::Signed),
            };
            format!("{} {sign} {}", part(left, own), part(right, above))
        }
        Math::Power(base, exponent) => {
            let base = raised_base(base, in_fraction);
            format!("{base}^{}", quoted(&exponent.to_string()))
        }
        Math::Root(inner) => format!("sqrt({})", part(inner, Level::Whole)),
        Math::Size(inner) => format!("abs({})", part(inner, Level::Whole)),
        Math::InUnit(inner, unit) if unit.is_empty() => format!("({})", part(inner, Level::Whole)),
        Math::InUnit(inner, unit) => {
            format!("({}) {}", part(inner, Level::Whole), quoted(unit))
        }
        Math::Compare(comparison, left, right) => {
            let (left, right) = (part(left, Level::Sum), part(right, Level::Sum));
            format!("{left} {} {right}", compared(*comparison))
        }
        Math::Extreme { least, parts } => {
            let word = quoted(&format!("the {} of", extreme_word(*least, parts.len())));
            let mut told: Vec<String> = parts.iter().map(|inner| part(inner, Level::Sum)).collect();
            let last = told.pop().unwrap_or_default();
            let between = quoted(",");
            format!(
                "{word} {} {} {last}",
                told.join(&format!("{between} ")),
                quoted("and")
            )
        }
        Math::Rounded(inner, how) => {
            format!("{}{}", part(inner, Level::Sum), quoted(&format!(", {how}")))
        }
        Math::Logic(logic, left, right) => {
            let (own, above) = sides(*logic);
            let word = quoted(logic.text());
            format!("{} {word} {}", part(left, own), part(right, above))
        }
        Math::Not(inner) => format!("{} {}", quoted("not"), part(inner, Level::Atom)),
        Math::Branch { test, yes, no } => format!(
            "{} {} {}{} {}",
            part(yes, Level::Sum),
            quoted("if"),
            part(test, Level::Either),
            quoted(", otherwise"),
            part(no, Level::Whole)
        ),
        Math::Since { test, taken } => format!(
            "{} {}{} {}",
            quoted("since"),
            part(test, Level::Either),
            quoted(","),
            part(taken, Level::Whole)
        ),
        Math::Where { row, test } => format!(
            "{} {}",
            quoted(&format!("{row} with")),
            part(test, Level::Either)
        ),
    }
}

/// What stands under an exponent: all but a bare figure, a word, a root in brackets.
fn raised_base(base: &Math, in_fraction: bool) -> String {
    let inner = formula(base, Level::Whole, in_fraction);
    match base {
        Math::InUnit(..) | Math::Root(_) | Math::Size(_) => inner,
        Math::Text(_) if level(base) == Level::Atom => inner,
        _ => format!("({inner})"),
    }
}

const fn compared(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::Less => "<",
        Comparison::AtMost => "<=",
        Comparison::More => ">",
        Comparison::AtLeast => ">=",
        Comparison::Is => "\"is\"",
        Comparison::IsNot => "\"is not\"",
    }
}

/// A text in quotes: nothing in it is read as a formula.
fn quoted(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for sign in text.chars() {
        match sign {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            sign if sign.is_control() => out.push(' '),
            sign => out.push(sign),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quoted_text_ends_where_it_ends() {
        assert_eq!(quoted("6\" #pipe\\"), "\"6\\\" #pipe\\\\\"");
    }
}
