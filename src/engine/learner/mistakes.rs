//! Which known mistakes come back: a person's commonest, and the one whose contrast
//! is due.

use std::collections::BTreeMap;

use super::constants::MISTAKE_TWICE;
use super::curriculum::Curriculum;
use super::record::{FamilyRecord, Record};

/// A mistake that was made more than once lately.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repeated {
    /// The place of the family.
    pub family: usize,
    /// The mistake's name.
    pub mistake: String,
    /// In how many of the last problems of the family it was made.
    pub times: usize,
    /// Out of how many.
    pub of: usize,
}

impl FamilyRecord {
    /// The mistake whose contrast is due: made in two of the last five problems, the
    /// more often and then the later one first.
    pub fn contrast_due(&self) -> Option<&str> {
        let last = self.mistakes.back()?;
        let repeated = counted(self).into_iter();
        let due = repeated.filter(|(_, times)| *times >= MISTAKE_TWICE);
        let worst =
            due.max_by_key(|(name, times)| (*times, last.iter().any(|made| &**made == *name)));
        worst.map(|(name, _)| name)
    }
}

/// In how many of the last problems each mistake was made.
fn counted(record: &FamilyRecord) -> BTreeMap<&str, usize> {
    let mut counts = BTreeMap::new();
    for made in &record.mistakes {
        let distinct: std::collections::BTreeSet<&str> = made.iter().map(|name| &**name).collect();
        for name in distinct {
            *counts.entry(name).or_insert(0) += 1;
        }
    }
    counts
}

/// The mistakes made more than once lately, the commonest first, families in the
/// order of the curriculum.
pub fn commonest(curriculum: &Curriculum, record: &Record) -> Vec<Repeated> {
    let mut found = Vec::new();
    for (family, own) in record
        .families
        .iter()
        .enumerate()
        .take(curriculum.families().len())
    {
        for (mistake, times) in counted(own) {
            if times >= MISTAKE_TWICE {
                found.push(Repeated {
                    family,
                    mistake: mistake.to_owned(),
                    times,
                    of: own.mistakes.len(),
                });
            }
        }
    }
    found.sort_by_key(|repeated| std::cmp::Reverse(repeated.times));
    found
}
