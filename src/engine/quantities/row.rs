//! The shape of a row in the unit tables, and finding one by what was written.
//! The rows themselves stand in `measures` and `nouns`.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use pumpwright_calc::dimension::Dimension;

use super::{measures, nouns};

/// How a unit behaves in print and in sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Printed by its symbol.
    Symbol,
    /// Printed by its symbol, but by its word before a noun: "6-inch".
    Sized,
    /// Printed as a noun with singular and plural.
    Noun,
    /// A point on a temperature scale.
    Point,
}

/// One unit: what it is worth and how it is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Row {
    /// As lessons write it.
    pub name: &'static str,
    /// As it is printed.
    pub symbol: &'static str,
    /// One of it, in words.
    pub one: &'static str,
    /// Several of it, in words.
    pub many: &'static str,
    /// The SI value of one is `times / over`; both are as exact as they can be.
    pub times: f64,
    /// See `times`.
    pub over: f64,
    /// Degrees to add before multiplying; zero but for temperature points.
    pub offset: f64,
    /// Its dimension.
    pub dimension: Dimension,
    /// How it behaves.
    pub kind: Kind,
    /// Other ways in which people write it.
    pub spellings: &'static [&'static str],
}

impl Row {
    /// A unit printed by its name, worth `times / over`.
    pub const fn new(name: &'static str, dimension: Dimension, times: f64, over: f64) -> Self {
        Self {
            name,
            symbol: name,
            one: name,
            many: name,
            times,
            over,
            offset: 0.0,
            dimension,
            kind: Kind::Symbol,
            spellings: &[],
        }
    }

    /// A counted thing: no dimension, singular and plural.
    pub const fn count(one: &'static str, many: &'static str) -> Self {
        Self::new(many, Dimension::NONE, 1.0, 1.0)
            .said(one, many)
            .of(Kind::Noun)
    }

    /// Its words.
    pub const fn said(self, one: &'static str, many: &'static str) -> Self {
        Self { one, many, ..self }
    }

    /// Its printed form, where that is not its name.
    pub const fn printed(self, symbol: &'static str) -> Self {
        Self { symbol, ..self }
    }

    /// Its behavior.
    pub const fn of(self, kind: Kind) -> Self {
        Self { kind, ..self }
    }

    /// A point on a scale whose zero lies `offset` degrees above absolute zero.
    pub const fn point(self, offset: f64) -> Self {
        Self {
            offset,
            kind: Kind::Point,
            ..self
        }
    }

    /// Other spellings.
    pub const fn also(self, spellings: &'static [&'static str]) -> Self {
        Self { spellings, ..self }
    }

    /// Everything that reads as this unit.
    pub fn written(&self) -> impl Iterator<Item = &'static str> + use<> {
        [self.name, self.symbol, self.one, self.many]
            .into_iter()
            .chain(self.spellings.iter().copied())
    }
}

/// Every row, in the order of the tables.
pub(super) fn all() -> impl Iterator<Item = &'static Row> {
    measures::ROWS.iter().chain(nouns::ROWS)
}

/// Symbols whose first letter means something else in the other case: milli and
/// mega, meter and mega, farad and degree, gram and gallon.
const CASE_MATTERS: &[&str] = &[
    "m", "mV", "mA", "mW", "MW", "MPa", "mL", "ml", "mbar", "Mohm", "mg", "F", "g",
];

/// Whether case matters for a row or whether any will do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Case {
    /// Lessons: as the table has it.
    Exact,
    /// People: any case, but where the first letter decides.
    Any,
}

/// The unit written so, or nothing.
pub(super) fn find(text: &str, case: Case) -> Option<&'static Row> {
    let exact = SPELLINGS.exact.get(text).copied();
    if exact.is_some() || case == Case::Exact {
        return exact;
    }
    let folded = SPELLINGS.folded.get(&text.to_ascii_lowercase());
    let mut folded = folded.into_iter().flatten();
    folded
        .find(|(own, _)| folds(own, text))
        .map(|(_, row)| *row)
}

/// Every spelling with its row: as it stands, and in small letters.
struct Spellings {
    exact: BTreeMap<&'static str, &'static Row>,
    folded: BTreeMap<String, Vec<(&'static str, &'static Row)>>,
}

/// Looked up at every figure that is read, so it is laid out once.
static SPELLINGS: LazyLock<Spellings> = LazyLock::new(|| {
    let mut laid = Spellings {
        exact: BTreeMap::new(),
        folded: BTreeMap::new(),
    };
    for row in all() {
        for spelling in row.written() {
            laid.exact.entry(spelling).or_insert(row);
            let folded = spelling.to_ascii_lowercase();
            laid.folded.entry(folded).or_default().push((spelling, row));
        }
    }
    laid
});

fn folds(spelling: &str, text: &str) -> bool {
    spelling.eq_ignore_ascii_case(text)
        && (!CASE_MATTERS.contains(&spelling) || spelling.chars().next() == text.chars().next())
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use super::*;

    #[test]
    fn no_spelling_belongs_to_two_units() {
        let mut owners: HashMap<String, &str> = HashMap::new();
        for row in all() {
            for spelling in row.written() {
                let key = if CASE_MATTERS.contains(&spelling) {
                    spelling.to_owned()
                } else {
                    spelling.to_ascii_lowercase()
                };
                let owner = owners.entry(key).or_insert(row.name);
                assert_eq!(*owner, row.name, "{spelling} is written in two rows");
            }
        }
        assert!(owners.len() > 300);
    }

    #[test]
    fn every_spelling_finds_its_own_row() {
        for row in all() {
            for spelling in row.written() {
                assert_eq!(find(spelling, Case::Exact), Some(row), "{spelling}");
                assert_eq!(find(spelling, Case::Any), Some(row), "{spelling}");
            }
        }
    }

    #[test]
    fn no_unit_uses_the_four_signs_that_ask() {
        for row in all() {
            for spelling in row.written() {
                assert!(!spelling.contains(['?', '!', '@', '&']), "{spelling}");
            }
        }
    }

    #[test]
    fn case_matters_between_milli_and_mega_only() {
        let name = |text| find(text, Case::Any).map(|row| row.name);
        assert_eq!(name("PSI"), Some("psi"));
        assert_eq!(name("Kpa"), Some("kPa"));
        assert_eq!(name("MPA"), Some("MPa"));
        assert_eq!(name("mpa"), None);
        assert_eq!(name("M"), None);
        assert_eq!(name("MV"), None);
        assert_eq!(name("mohm"), None);
        assert_eq!(name("METERS"), Some("m"));
        assert_eq!(name("l/MIN"), Some("L/min"));
        assert_eq!(find("PSI", Case::Exact), None);
    }
}
