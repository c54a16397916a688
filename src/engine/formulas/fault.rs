//! What is wrong with a formula as written, and where. No file and no line:
//! whoever holds the file adds them.

use std::fmt;
use std::ops::Range;

/// A formula that is written wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The bytes of the formula that the message is about.
    pub span: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What could stand there instead; empty where a list helps nobody.
    pub has: Vec<String>,
    /// What to write.
    pub remedy: Option<String>,
}

impl Fault {
    /// A fault with a message alone.
    pub(super) fn new(span: &Range<usize>, message: impl Into<String>) -> Self {
        Self {
            span: span.clone(),
            message: message.into(),
            has: Vec::new(),
            remedy: None,
        }
    }

    /// The same with what to write.
    pub(super) fn remedy(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = Some(remedy.into());
        self
    }

    /// The same with what there is, and the nearest of it to `wanted` as remedy.
    pub(super) fn has<S: AsRef<str>>(
        mut self,
        there: impl IntoIterator<Item = S>,
        wanted: &str,
    ) -> Self {
        self.has = there
            .into_iter()
            .map(|one| one.as_ref().to_owned())
            .collect();
        if let Some(near) = nearest(wanted, self.has.iter().map(String::as_str)) {
            self.remedy = Some(format!("write \"{near}\""));
        }
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)?;
        if !self.has.is_empty() {
            write!(f, "; it has: {}", self.has.join(", "))?;
        }
        match &self.remedy {
            Some(remedy) => write!(f, "; remedy: {remedy}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Fault {}

/// How alike two words must be before one is offered for the other: one slip in
/// three letters still counts. Common practice, no source.
const ALIKE: f64 = 0.6;

/// The word most like the wanted one, if any is like it.
pub(super) fn nearest<'a>(
    wanted: &str,
    there: impl IntoIterator<Item = &'a str>,
) -> Option<&'a str> {
    there
        .into_iter()
        .map(|word| (strsim::normalized_damerau_levenshtein(wanted, word), word))
        .filter(|(alike, _)| *alike >= ALIKE)
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, word)| word)
}
