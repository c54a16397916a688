//! The tree as it is read aloud, every figure in words: "eight point five amperes times
//! two point three one". For whoever hears a paper in place of seeing it.

use crate::quantities::Unit;

use super::super::ast::{Comparison, Logic, Sign};
use super::math::Math;
use super::plain::{Level, extreme_word, level};

/// The words of a unit behind a figure, at most: "ohm per 100 ft" has four.
const UNIT_WORDS: usize = 5;

/// Beyond it a figure is read digit by digit.
const MOST_SPOKEN: u64 = 999_999_999_999;

/// The tree in words.
pub(super) fn spoken(math: &Math) -> String {
    said(math, Level::Whole)
}

fn said(math: &Math, place: Level) -> String {
    let own = words(math);
    if level(math) < place && !matches!(math, Math::Text(_)) {
        format!("open bracket {own} close bracket")
    } else {
        own
    }
}

fn words(math: &Math) -> String {
    match math {
        Math::Text(text) => read_out(text),
        Math::Negate(inner) => format!("minus {}", said(inner, Level::Power)),
        Math::Sum(sign, left, right) => {
            let (word, own, above) = match sign {
                Sign::Plus => ("plus", Level::Sum, Level::Product),
                Sign::Minus => ("minus", Level::Sum, Level::Product),
                Sign::Times => ("times", Level::Product, Level::Signed),
                Sign::Over => ("divided by", Level::Product, Level::Signed),
            };
            format!("{} {word} {}", said(left, own), said(right, above))
        }
        Math::Power(base, exponent) => {
            let base = said(base, Level::Power);
            if *exponent == 2.0 {
                format!("{base} squared")
            } else if *exponent == 3.0 {
                format!("{base} cubed")
            } else {
                format!("{base} to the power of {}", read_out(&exponent.to_string()))
            }
        }
        Math::Root(inner) => format!("the square root of {}", said(inner, Level::Atom)),
        Math::Size(inner) => format!("the size of {}", said(inner, Level::Power)),
        Math::Extreme { least, parts } => {
            let mut said: Vec<String> = parts.iter().map(|part| said(part, Level::Sum)).collect();
            let last = said.pop().unwrap_or_default();
            let word = extreme_word(*least, parts.len());
            format!("the {word} of {} and {last}", said.join(", "))
        }
        Math::Rounded(inner, how) => format!("{}, {}", said(inner, Level::Sum), read_out(how)),
        Math::InUnit(inner, unit) => {
            let unit = unit_aloud(unit, false).unwrap_or_else(|| unit.clone());
            format!("{} {unit}", said(inner, Level::Atom))
                .trim_end()
                .to_owned()
        }
        Math::Compare(comparison, left, right) => format!(
            "{} {} {}",
            said(left, Level::Sum),
            compared(*comparison),
            said(right, Level::Sum)
        ),
        Math::Logic(logic, left, right) => {
            let (own, above) = match logic {
                Logic::Or => (Level::Either, Level::Both),
                Logic::And => (Level::Both, Level::Compare),
            };
            let (left, right) = (said(left, own), said(right, above));
            format!("{left} {} {right}", logic.text())
        }
        Math::Not(inner) => format!("not {}", said(inner, Level::Atom)),
        Math::Branch { test, yes, no } => format!(
            "{} if {}, otherwise {}",
            said(yes, Level::Sum),
            said(test, Level::Either),
            spoken(no)
        ),
        Math::Since { test, taken } => {
            format!("since {}, {}", said(test, Level::Either), spoken(taken))
        }
        Math::Where { row, test } => {
            format!("{} with {}", read_out(row), said(test, Level::Either))
        }
    }
}

fn compared(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::Less => "is less than",
        Comparison::AtMost => "is at most",
        Comparison::More => "is more than",
        Comparison::AtLeast => "is at least",
        Comparison::Is => "is",
        Comparison::IsNot => "is not",
    }
}

/// A text with its figures in words and its units in full: "8.5 A" is "eight point
/// five amperes".
pub fn read_out(text: &str) -> String {
    let tokens: Vec<&str> = text.split_whitespace().collect();
    let mut out: Vec<String> = Vec::new();
    let mut rest = tokens.as_slice();
    while let Some((token, after)) = rest.split_first() {
        rest = after;
        let (bare, stop) = parted(token);
        let Some(figure) = figure_aloud(bare) else {
            out.push(sign_aloud(token).unwrap_or(token).to_owned());
            continue;
        };
        let one = bare == "1";
        match stop.is_empty().then(|| unit_at(rest, one)).flatten() {
            Some((unit, stop, taken)) => {
                out.push(format!("{figure} {unit}{stop}"));
                rest = rest.get(taken..).unwrap_or_default();
            }
            None => out.push(format!("{figure}{stop}")),
        }
    }
    out.join(" ")
}

/// The unit that begins here, the longest that is one.
fn unit_at<'a>(tokens: &[&'a str], one: bool) -> Option<(String, &'a str, usize)> {
    (1..=tokens.len().min(UNIT_WORDS)).rev().find_map(|count| {
        let words = tokens.get(..count)?.join(" ");
        let (_, stop) = parted(tokens.get(count - 1)?);
        let unit = unit_aloud(words.strip_suffix(stop)?, one)?;
        Some((unit, stop, count))
    })
}

/// A unit in full; none where the text is none.
fn unit_aloud(symbol: &str, one: bool) -> Option<String> {
    let unit = Unit::printed(symbol)?;
    match unit.before_noun().filter(|_| one) {
        Some(single) => Some(single.to_owned()),
        // "ohms per 100 feet" has a figure of its own.
        None => {
            let unit = unit.spoken();
            let words = unit.split(' ');
            let words = words.map(|word| figure_aloud(word).unwrap_or_else(|| word.to_owned()));
            Some(words.collect::<Vec<_>>().join(" "))
        }
    }
}

/// A word and the stop behind it.
fn parted(token: &str) -> (&str, &str) {
    let bare = token.trim_end_matches(['.', ',', ';', ':', ')']);
    token.split_at(bare.len())
}

fn sign_aloud(token: &str) -> Option<&'static str> {
    Some(match token {
        "+" => "plus",
        "−" => "minus",
        "×" => "times",
        "÷" => "divided by",
        "=" => "equals",
        "≤" => "at most",
        "≥" => "at least",
        "<" => "less than",
        ">" => "more than",
        _ => return None,
    })
}

/// A figure in words; none where the text is none.
fn figure_aloud(text: &str) -> Option<String> {
    let (sign, figure) = match text.strip_prefix(['−', '-']) {
        Some(figure) => ("minus ", figure),
        None => ("", text),
    };
    let (whole, places) = figure.split_once('.').unwrap_or((figure, ""));
    let digits = |text: &str| text.chars().all(|sign| sign.is_ascii_digit());
    let plain = whole.replace(',', "");
    if plain.is_empty() || !digits(&plain) || !digits(places) || figure.ends_with('.') {
        return None;
    }
    // A leading nought is no number but a name: 019 is read digit by digit.
    let value = plain.parse::<u64>().ok();
    let whole = match value.filter(|value| *value <= MOST_SPOKEN) {
        Some(value) if plain.len() == 1 || !plain.starts_with('0') => whole_number(value),
        _ => each_digit(&plain),
    };
    Some(if places.is_empty() {
        format!("{sign}{whole}")
    } else {
        format!("{sign}{whole} point {}", each_digit(places))
    })
}

fn each_digit(digits: &str) -> String {
    let words = digits
        .bytes()
        .filter_map(|digit| SMALL.get(usize::from(digit.saturating_sub(b'0'))));
    words.copied().collect::<Vec<_>>().join(" ")
}

const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];

const TENS: [&str; 10] = [
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];

const STEPS: [(u64, &str); 4] = [
    (1_000_000_000, "billion"),
    (1_000_000, "million"),
    (1000, "thousand"),
    (100, "hundred"),
];

/// A whole number in words.
fn whole_number(value: u64) -> String {
    let of = |list: &[&'static str], at: u64| list.get(at as usize).copied().unwrap_or_default();
    if value < 20 {
        return of(&SMALL, value).to_owned();
    }
    if value < 100 {
        let tens = of(&TENS, value / 10);
        return match value % 10 {
            0 => tens.to_owned(),
            ones => format!("{tens}-{}", of(&SMALL, ones)),
        };
    }
    let step = STEPS.into_iter().find(|(step, _)| value >= *step);
    let Some((step, name)) = step else {
        return String::new();
    };
    let front = format!("{} {name}", whole_number(value / step));
    match value % step {
        0 => front,
        rest => format!("{front} {}", whole_number(rest)),
    }
}

#[cfg(test)]
mod tests {
    use super::read_out;

    #[test]
    fn figures_and_units_are_read_in_full() {
        for (text, said) in [
            ("8.5 A", "eight point five amperes"),
            ("1 ft", "one foot"),
            ("1,250 ft", "one thousand two hundred fifty feet"),
            ("−0.05", "minus zero point zero five"),
            (
                "0.338 ohm per 100 ft",
                "zero point three three eight ohms per one hundred feet",
            ),
            ("5 %", "five per cent"),
            ("paper 019.", "paper zero one nine."),
            (
                "up to the next 5 psi",
                "up to the next five pounds per square inch",
            ),
            ("3 × 4", "three times four"),
            ("1.", "one."),
            (
                "AWG 14: 0.544, more",
                "AWG fourteen: zero point five four four, more",
            ),
            ("2,000,017", "two million seventeen"),
            ("", ""),
        ] {
            assert_eq!(read_out(text), said, "{text}");
        }
    }
}
