//! The tables that may be open beside a paper, as the sentence at its head says it: a file
//! for answering on screen has that sentence and nothing else of the plan.

use std::fmt;

const ALL: &str = "All tables may be open.";
const NONE: &str = "No table may be open.";
const THESE: &str = "Tables that may be open: ";

/// The tables that may be open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Allowed {
    /// Every table of the book.
    All,
    /// Those of these names, in which blanks stand for `_`.
    These(Vec<String>),
}

impl Allowed {
    /// Those that a plan names; none: all of them.
    pub fn of(tables: Option<&[String]>) -> Self {
        tables.map_or(Self::All, |tables| {
            Self::These(tables.iter().map(|name| name.replace('_', " ")).collect())
        })
    }

    /// Reads the sentence; none where it is another.
    pub fn read(sentence: &str) -> Option<Self> {
        match sentence {
            ALL => Some(Self::All),
            NONE => Some(Self::These(Vec::new())),
            _ => {
                let names = sentence.strip_prefix(THESE)?.strip_suffix('.')?;
                Some(Self::These(names.split(", ").map(str::to_owned).collect()))
            }
        }
    }

    /// Whether the table of this name may be open.
    pub fn allows(&self, table: &str) -> bool {
        match self {
            Self::All => true,
            Self::These(names) => names.contains(&table.replace('_', " ")),
        }
    }
}

impl fmt::Display for Allowed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::All => f.write_str(ALL),
            Self::These(names) if names.is_empty() => f.write_str(NONE),
            Self::These(names) => write!(f, "{THESE}{}.", names.join(", ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sentence_reads_back() {
        let these = ["copper".to_owned(), "relief_valves".to_owned()];
        for (tables, sentence) in [
            (None, ALL),
            (Some(&[][..]), NONE),
            (
                Some(&these[..]),
                "Tables that may be open: copper, relief valves.",
            ),
        ] {
            let allowed = Allowed::of(tables);
            assert_eq!(allowed.to_string(), sentence);
            assert_eq!(Allowed::read(sentence), Some(allowed));
        }
        assert_eq!(Allowed::read("Bring your own."), None);
    }

    #[test]
    fn only_what_is_named_may_be_open() {
        let these = Allowed::of(Some(&["relief_valves".to_owned()]));
        assert!(these.allows("relief_valves") && !these.allows("copper"));
        assert!(Allowed::All.allows("copper"));
        assert!(!Allowed::of(Some(&[])).allows("copper"));
    }
}
