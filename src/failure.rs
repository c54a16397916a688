//! Why a command ends early, and the number with which the program exits.

use std::io;

use thiserror::Error;

/// Why a command ends early.
#[derive(Debug, Error)]
pub enum Failure {
    /// A check ran to its end and found something; what it found is printed.
    #[error("something was found")]
    Found,
    /// What was asked for does not exist or cannot be read.
    #[error("{0}")]
    Input(String),
    /// A file, a folder or the terminal failed.
    #[error("{0}")]
    World(String),
    /// The reader of the output has closed it: not a fault.
    #[error("the output is closed")]
    Closed,
}

impl Failure {
    /// The sentence that is printed; none where everything is said.
    pub fn sentence(&self) -> Option<String> {
        match self {
            Self::Found | Self::Closed => None,
            Self::Input(sentence) | Self::World(sentence) => Some(sentence.clone()),
        }
    }

    /// The number that the program exits with.
    pub const fn exit_code(&self) -> u8 {
        match self {
            Self::Closed => 0,
            Self::Found => 1,
            Self::Input(_) => 2,
            Self::World(_) => 3,
        }
    }
}

/// Only writing the output gives a bare I/O error; every other place names its file.
impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        if error.kind() == io::ErrorKind::BrokenPipe {
            Self::Closed
        } else {
            Self::World(format!("the output cannot be written: {error}"))
        }
    }
}

impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Self {
        if error.is_io() {
            Self::from(io::Error::from(error))
        } else {
            Self::World(error.to_string())
        }
    }
}

/// A sentence about something unknown, with the nearest that exist.
pub fn unknown<N: AsRef<str>>(what: &str, given: &str, nearest: &[N]) -> Failure {
    let given = shown(given);
    Failure::Input(match nearest {
        [] => format!("there is no {what} \"{given}\""),
        nearest => {
            let names: Vec<_> = nearest.iter().map(AsRef::as_ref).collect();
            format!(
                "there is no {what} \"{given}\"; near it: {}",
                names.join(", ")
            )
        }
    })
}

/// The names nearest to a wrong one, nearest first, at most three.
pub fn nearest<'a>(wrong: &str, names: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
    /// Below this likeness, from 0 to 1, a name is no help.
    const ALIKE: f64 = 0.7;
    let wrong = wrong.to_lowercase();
    let mut scored: Vec<(f64, &str)> = names
        .map(|name| (strsim::jaro_winkler(&wrong, &name.to_lowercase()), name))
        .filter(|(score, _)| *score >= ALIKE)
        .collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(b.1)));
    scored.into_iter().take(3).map(|(_, name)| name).collect()
}

/// What a user typed, fit to stand in a sentence: one line, no control
/// characters, and short.
pub fn shown(given: &str) -> String {
    const LONGEST: usize = 60;
    let mut text: String = given
        .chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .take(LONGEST)
        .collect();
    if given.chars().count() > LONGEST {
        text.push_str("...");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_failure_has_its_number() {
        let world = Failure::World(String::new());
        let input = Failure::Input(String::new());
        let all = [Failure::Closed, Failure::Found, input, world];
        assert_eq!(all.map(|failure| failure.exit_code()), [0, 1, 2, 3]);
    }

    #[test]
    fn a_closed_pipe_is_no_fault_and_a_full_disk_is() {
        assert!(matches!(
            Failure::from(io::Error::from(io::ErrorKind::BrokenPipe)),
            Failure::Closed
        ));
        let full = Failure::from(io::Error::from(io::ErrorKind::StorageFull));
        assert_eq!(full.exit_code(), 3);
    }

    #[test]
    fn the_nearest_name_comes_first_and_a_far_one_not_at_all() {
        let names = ["cable-drop", "cable-size", "setback"];
        assert_eq!(
            nearest("cable-dorp", names.into_iter()),
            ["cable-drop", "cable-size"]
        );
        assert!(nearest("zzzz", names.into_iter()).is_empty());
    }

    #[test]
    fn what_was_typed_is_shown_short_and_without_control_characters() {
        assert_eq!(shown("a\x1b[2Jb"), "a\u{fffd}[2Jb");
        assert!(shown(&"x".repeat(10_000)).len() < 70);
    }
}
