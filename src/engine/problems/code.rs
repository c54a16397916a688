//! The problem code: the short text that draws exactly the same problem again.
//!
//! `cable-drop.2us.K7QF3M5.9TZ4C`: family; level and system; seed with a check
//! letter; revision. House rules that are off their default follow, each behind
//! a `+`. Letters and digits leave out I, L, O and U.

use std::fmt;
use std::str::FromStr;

use thiserror::Error;

use crate::quantities::System;

/// How many draws a family has: the seeds that six letters can write.
pub const DRAWS: u32 = 1 << 30;

const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
pub(crate) const SEED_LETTERS: usize = 6;
pub(crate) const REVISION_LETTERS: usize = 5;

/// Check sums are taken modulo the greatest prime that one letter can write.
const CHECK: u32 = 31;

/// The longest code that is read.
pub(crate) const LONGEST: usize = 400;

/// A problem code, taken apart.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Code {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// The system of units.
    pub system: System,
    /// The seed, below [`DRAWS`].
    pub seed: u32,
    /// The revision of the family.
    pub revision: u32,
    /// House rules off their default, name and value, in the order of their names.
    pub rules: Vec<(String, String)>,
}

/// Why a text is no problem code.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CodeFault {
    /// The parts are not there.
    #[error("this is no problem code; one looks like cable-drop.2us.K7QF3M5.9TZ4C")]
    Shape,
    /// The parts of a paper's code are not there.
    #[error("this is no code of a paper; one looks like licensing.us.K7QF3M5.9TZ4C")]
    Paper,
    /// A level that there is not.
    #[error("the problem code has the level \"{0}\"; a level is 1, 2 or 3")]
    Level(String),
    /// A system that there is not.
    #[error("the code has the units \"{0}\"; they are us or si")]
    Units(String),
    /// A letter that codes do not use, or the wrong number of them.
    #[error("the code has \"{0}\", which is not {1} letters or digits of a code")]
    Letters(String, usize),
    /// The check letter does not fit.
    #[error(
        "the code has a slip in \"{0}\": its last letter does not fit the others; read it once more"
    )]
    Check(String),
}

impl Code {
    /// Family, level and system, with the house rules off their default: what it is
    /// about, and nothing that draws it again.
    pub fn face(&self) -> String {
        let mut text = format!("{}.{}{}", self.family, self.level, self.system);
        let rules = self
            .rules
            .iter()
            .flat_map(|(name, value)| ["+", name, "=", value]);
        text.extend(rules);
        text
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits = digits(self.seed, SEED_LETTERS);
        let check = check(&digits);
        write!(f, "{}.{}{}.", self.family, self.level, self.system)?;
        write_letters(f, &digits)?;
        write_letters(f, &[check])?;
        f.write_str(".")?;
        write_letters(f, &self::digits(self.revision, REVISION_LETTERS))?;
        for (name, value) in &self.rules {
            write!(f, "+{name}={value}")?;
        }
        Ok(())
    }
}

impl FromStr for Code {
    type Err = CodeFault;

    fn from_str(text: &str) -> Result<Self, CodeFault> {
        let text = text.trim();
        if text.len() > LONGEST {
            return Err(CodeFault::Shape);
        }
        let mut parts = text.split('+');
        let head = parts.next().unwrap_or_default();
        let rules = parts
            .map(rule)
            .collect::<Option<Vec<_>>>()
            .ok_or(CodeFault::Shape)?;
        let [family, face, seed, revision] = head.split('.').collect::<Vec<_>>()[..] else {
            return Err(CodeFault::Shape);
        };
        let named = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if family.is_empty() || !family.chars().all(named) {
            return Err(CodeFault::Shape);
        }
        let (level, system) = read_face(face)?;
        let letters = read_letters(seed, SEED_LETTERS + 1)?;
        let (seed_digits, last) = letters.split_at(SEED_LETTERS);
        if last != [check(seed_digits)] {
            return Err(CodeFault::Check(seed.to_owned()));
        }
        let revision = number(&read_letters(revision, REVISION_LETTERS)?);
        let seed = number(seed_digits);
        Ok(Self {
            family: family.to_owned(),
            level,
            system,
            seed,
            revision,
            rules,
        })
    }
}

pub(crate) fn rule(text: &str) -> Option<(String, String)> {
    let (name, value) = text.split_once('=')?;
    (!name.is_empty() && !value.is_empty()).then(|| (name.to_owned(), value.to_owned()))
}

fn read_face(face: &str) -> Result<(u8, System), CodeFault> {
    let mut letters = face.chars();
    let level = letters.next().map(String::from).unwrap_or_default();
    let units = letters.as_str();
    let found = match level.as_str() {
        "1" => 1,
        "2" => 2,
        "3" => 3,
        _ => return Err(CodeFault::Level(level)),
    };
    let system = units
        .parse()
        .map_err(|_| CodeFault::Units(units.to_owned()))?;
    Ok((found, system))
}

/// The digits of a number in base 32, the highest first.
pub(crate) fn digits(number: u32, count: usize) -> Vec<u8> {
    (0..count)
        .rev()
        .map(|place| ((number >> (5 * place)) & 31) as u8)
        .collect()
}

pub(crate) fn number(digits: &[u8]) -> u32 {
    digits
        .iter()
        .fold(0, |sum, digit| (sum << 5) | u32::from(*digit))
}

/// The check letter: each digit times its place, so that two exchanged letters show.
pub(crate) fn check(digits: &[u8]) -> u8 {
    let sum: u32 = (1_u32..)
        .zip(digits)
        .map(|(place, digit)| place * u32::from(*digit))
        .sum();
    (sum % CHECK) as u8
}

pub(crate) fn write_letters(f: &mut fmt::Formatter<'_>, digits: &[u8]) -> fmt::Result {
    for digit in digits {
        let letter = LETTERS.get(usize::from(*digit)).copied().unwrap_or(b'0');
        write!(f, "{}", char::from(letter))?;
    }
    Ok(())
}

/// Reads letters as a person writes them: small ones too, and I, L, O for 1, 1, 0.
pub(crate) fn read_letters(text: &str, count: usize) -> Result<Vec<u8>, CodeFault> {
    let fault = || CodeFault::Letters(text.chars().take(20).collect(), count);
    let digits: Option<Vec<u8>> = text
        .chars()
        .map(|letter| {
            let letter = match letter.to_ascii_uppercase() {
                'I' | 'L' => '1',
                'O' => '0',
                other => other,
            };
            LETTERS
                .iter()
                .position(|known| char::from(*known) == letter)
                .map(|at| at as u8)
        })
        .collect();
    digits
        .filter(|digits| digits.len() == count)
        .ok_or_else(fault)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn code() -> Code {
        Code {
            family: "cable-drop".into(),
            level: 2,
            system: System::Us,
            seed: 123_456_789,
            revision: 987_654,
            rules: vec![("cable.max_drop".into(), "3%".into())],
        }
    }

    #[test]
    fn a_slip_of_one_letter_or_two_exchanged_is_named() {
        let text = code().to_string();
        let slipped = text.replacen(".2us.3", ".2us.4", 1);
        assert_ne!(text, slipped);
        assert!(matches!(slipped.parse::<Code>(), Err(CodeFault::Check(_))));
    }

    #[test]
    fn small_letters_and_look_alikes_are_read() {
        let text = code().to_string();
        let (head, tail) = text.split_once('+').unwrap();
        let small = format!(
            "{}+{tail}",
            head.to_lowercase().replace('1', "l").replace('0', "o")
        );
        let small = small.replacen("cabie", "cable", 1);
        assert_eq!(small.parse::<Code>(), Ok(code()));
    }

    proptest! {
        #[test]
        fn a_code_reads_back(seed in 0..DRAWS, revision in 0_u32..1 << 25, level in 1_u8..=3) {
            let code = Code { level, seed, revision, ..code() };
            prop_assert_eq!(code.to_string().parse::<Code>(), Ok(code));
        }

        #[test]
        fn anything_else_is_refused_in_peace(text in "\\PC{0,60}|[a-z0-9.+=-]{0,60}") {
            let _ = text.parse::<Code>();
        }
    }
}
