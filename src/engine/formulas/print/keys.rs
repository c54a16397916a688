//! The keys to press on a plain calculator, for a formula with a power or a root, and
//! the same formula read aloud. A plain calculator works each key as it comes, so
//! what must be known first is worked first and noted on paper.

use super::super::ast::Sign;
use super::math::Math;
use super::plain::plain;

/// The keys, a line each, and what the display then shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Keys {
    /// The lines; all but the last end with a figure to be noted.
    pub lines: Vec<String>,
    /// What stands in the display at the end.
    pub shows: f64,
}

/// What the last key of a chain was, so that the next one does not change it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ends {
    /// One figure.
    Figure,
    /// A sum or a difference: a key for times would take its last part alone.
    Sum,
    /// A product or a quotient, or a key that shows its result by itself.
    Closed,
    /// A power, which shows its result when the next key comes.
    Power,
}

struct Chain {
    keys: String,
    value: f64,
    ends: Ends,
}

/// The keys of a formula over figures, if it has a power or a root and can be pressed.
pub(super) fn keys(math: &Math) -> Option<Keys> {
    if !has_power(math) {
        return None;
    }
    let mut desk = Desk::default();
    let chain = desk.press(math)?;
    let mut lines = desk.noted;
    lines.push(closed(&chain));
    chain.value.is_finite().then_some(Keys {
        lines,
        shows: chain.value,
    })
}

/// The formula as it is read aloud, if it has a power or a root.
pub(super) fn aloud(math: &Math) -> Option<String> {
    has_power(math).then(|| said(math, true))
}

/// Whether a power or a root stands in it.
fn has_power(math: &Math) -> bool {
    match math {
        Math::Power(..) | Math::Root(_) => true,
        Math::Negate(inner)
        | Math::Size(inner)
        | Math::InUnit(inner, _)
        | Math::Rounded(inner, _)
        | Math::Since { taken: inner, .. } => has_power(inner),
        Math::Sum(_, left, right) => has_power(left) || has_power(right),
        _ => false,
    }
}

/// A calculator and the paper beside it.
#[derive(Default)]
struct Desk {
    noted: Vec<String>,
}

impl Desk {
    fn press(&mut self, math: &Math) -> Option<Chain> {
        match math {
            Math::Text(text) => figure(text),
            Math::InUnit(inner, _) | Math::Rounded(inner, _) => self.press(inner),
            Math::Since { taken, .. } => self.press(taken),
            Math::Sum(sign, left, right) => self.sum(*sign, left, right),
            Math::Power(base, exponent) => self.power(base, *exponent),
            Math::Root(inner) => {
                let inner = self.press(inner)?;
                Some(Chain {
                    keys: format!("{} √", shut(&inner)),
                    value: inner.value.sqrt(),
                    ends: Ends::Closed,
                })
            }
            _ => None,
        }
    }

    fn sum(&mut self, sign: Sign, left: &Math, right: &Math) -> Option<Chain> {
        let (mut left, mut right) = (self.press(left)?, self.press(right)?);
        if right.ends != Ends::Figure {
            let turns = matches!(sign, Sign::Plus | Sign::Times);
            if turns && left.ends == Ends::Figure {
                std::mem::swap(&mut left, &mut right);
            } else {
                right = self.note(&right);
            }
        }
        let (a, b) = (left.value, right.value);
        let (key, value, ends) = match sign {
            Sign::Plus => ("+", a + b, Ends::Sum),
            Sign::Minus => ("−", a - b, Ends::Sum),
            Sign::Times => ("×", a * b, Ends::Closed),
            Sign::Over => ("÷", a / b, Ends::Closed),
        };
        // A calculator that knows which sign comes first would else work another sum.
        let left = match (left.ends, sign) {
            (Ends::Sum, Sign::Times | Sign::Over) => closed(&left),
            _ => left.keys,
        };
        Some(Chain {
            keys: format!("{left} {key} {}", right.keys),
            value,
            ends,
        })
    }

    fn power(&mut self, base: &Math, exponent: f64) -> Option<Chain> {
        let mut base = self.press(base)?;
        let value = libm::pow(base.value, exponent);
        let times = [2, 3].into_iter().find(|n| f64::from(*n) == exponent);
        if let Some(times) = times {
            if base.ends != Ends::Figure {
                base = self.note(&base);
            }
            return Some(Chain {
                keys: vec![base.keys.as_str(); times as usize].join(" × "),
                value,
                ends: Ends::Closed,
            });
        }
        if exponent <= 0.0 {
            return None;
        }
        Some(Chain {
            keys: format!("{} y^x {exponent}", shut(&base)),
            value,
            ends: Ends::Power,
        })
    }

    /// Works a chain first; its result goes on paper under a letter.
    fn note(&mut self, chain: &Chain) -> Chain {
        let letter = u8::try_from(self.noted.len()).map_or('z', |at| char::from(b'A' + at.min(25)));
        self.noted.push(format!("{}, note {letter}", closed(chain)));
        Chain {
            keys: letter.to_string(),
            value: chain.value,
            ends: Ends::Figure,
        }
    }
}

/// A chain with the key that shows its result.
fn closed(chain: &Chain) -> String {
    if chain.keys.ends_with('√') {
        chain.keys.clone()
    } else {
        format!("{} =", chain.keys)
    }
}

/// A chain before a key that takes what the display shows.
fn shut(chain: &Chain) -> String {
    match chain.ends {
        Ends::Figure => chain.keys.clone(),
        Ends::Sum | Ends::Closed | Ends::Power => closed(chain),
    }
}

/// A figure as it is pressed; a share as a decimal.
fn figure(text: &str) -> Option<Chain> {
    let (figure, unit) = text.split_once(' ').unwrap_or((text, ""));
    let mut value: f64 = figure.replace(',', "").parse().ok()?;
    let mut keys = figure.replace(',', "");
    if unit == "%" {
        value /= 100.0;
        keys = crate::quantities::print::shortest(value);
    }
    (value >= 0.0).then_some(Chain {
        keys,
        value,
        ends: Ends::Figure,
    })
}

/// The words of a part; a sum inside another stands in brackets, unless it is the
/// beginning of a sum that goes on alike.
fn said(math: &Math, bare: bool) -> String {
    match math {
        Math::Sum(sign, left, right) => {
            let word = match sign {
                Sign::Plus => "plus",
                Sign::Minus => "minus",
                Sign::Times => "times",
                Sign::Over => "divided by",
            };
            let goes_on = matches!(&**left, Math::Sum(first, ..) if adds(*first) == adds(*sign));
            let own = format!("{} {word} {}", said(left, goes_on), said(right, false));
            if bare { own } else { format!("({own})") }
        }
        Math::Power(base, 2.0) => format!("{} squared", said(base, false)),
        Math::Power(base, 3.0) => format!("{} cubed", said(base, false)),
        Math::Power(base, exponent) => {
            format!("{} to the power of {exponent}", said(base, false))
        }
        Math::Root(inner) => format!("the square root of {}", said(inner, false)),
        Math::InUnit(inner, _) | Math::Since { taken: inner, .. } => said(inner, bare),
        Math::Rounded(inner, how) => format!("{}, {how}", said(inner, bare)),
        other => plain(other),
    }
}

const fn adds(sign: Sign) -> bool {
    matches!(sign, Sign::Plus | Sign::Minus)
}
