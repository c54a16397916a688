//! The code of a paper: the short text that draws exactly the same paper again.
//!
//! `licensing.us.K7QF3M5.9TZ4C`: exam; system; seed with a check letter; revision of the
//! blueprint and of every family that it may ask. House rules that are off their default
//! follow, each behind a `+`, as in the code of a problem.

use std::fmt;
use std::str::FromStr;

use crate::problems::CodeFault;
use crate::problems::code::{
    LONGEST, REVISION_LETTERS, SEED_LETTERS, check, digits, number, read_letters, rule,
    write_letters,
};
use crate::quantities::System;

/// The code of a paper, taken apart.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct PaperCode {
    /// The exam.
    pub exam: String,
    /// The system of units.
    pub system: System,
    /// The seed, below [`crate::problems::DRAWS`].
    pub seed: u32,
    /// The revision of the blueprint and its families.
    pub revision: u32,
    /// House rules off their default, name and value.
    pub rules: Vec<(String, String)>,
}

impl PaperCode {
    /// The revision as its letters.
    pub(super) fn revision_letters(&self) -> String {
        let text = Self {
            rules: Vec::new(),
            ..self.clone()
        }
        .to_string();
        text.rsplit('.').next().unwrap_or_default().to_owned()
    }
}

impl fmt::Display for PaperCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let seed = digits(self.seed, SEED_LETTERS);
        write!(f, "{}.{}.", self.exam, self.system)?;
        write_letters(f, &seed)?;
        write_letters(f, &[check(&seed)])?;
        f.write_str(".")?;
        write_letters(f, &digits(self.revision, REVISION_LETTERS))?;
        for (name, value) in &self.rules {
            write!(f, "+{name}={value}")?;
        }
        Ok(())
    }
}

impl FromStr for PaperCode {
    type Err = CodeFault;

    fn from_str(text: &str) -> Result<Self, CodeFault> {
        let text = text.trim();
        if text.len() > LONGEST {
            return Err(CodeFault::Paper);
        }
        let mut parts = text.split('+');
        let head = parts.next().unwrap_or_default();
        let rules: Option<Vec<_>> = parts.map(rule).collect();
        let rules = rules.ok_or(CodeFault::Paper)?;
        let [exam, units, seed, revision] = head.split('.').collect::<Vec<_>>()[..] else {
            return Err(CodeFault::Paper);
        };
        let named = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if exam.is_empty() || !exam.chars().all(named) {
            return Err(CodeFault::Paper);
        }
        let system = units
            .parse()
            .map_err(|_| CodeFault::Units(units.chars().take(20).collect()))?;
        let letters = read_letters(seed, SEED_LETTERS + 1)?;
        let (seed_digits, last) = letters.split_at(SEED_LETTERS);
        if last != [check(seed_digits)] {
            return Err(CodeFault::Check(seed.to_owned()));
        }
        let revision = number(&read_letters(revision, REVISION_LETTERS)?);
        Ok(Self {
            exam: exam.to_owned(),
            system,
            seed: number(seed_digits),
            revision,
            rules,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problems::DRAWS;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_code_reads_back(seed in 0..DRAWS, revision in 0_u32..1 << 25, si: bool) {
            let code = PaperCode {
                exam: "mid-course".into(),
                system: if si { System::Si } else { System::Us },
                seed,
                revision,
                rules: vec![("cable.max_drop".into(), "3%".into())],
            };
            prop_assert_eq!(code.to_string().parse::<PaperCode>(), Ok(code.clone()));
            prop_assert!(code.to_string().contains(&code.revision_letters()));
        }

        #[test]
        fn anything_else_is_refused_in_peace(text in "\\PC{0,60}|[a-z0-9.+=-]{0,60}") {
            let _ = text.parse::<PaperCode>();
        }
    }
}
