//! A line of the working as the template takes it: prose, and formulas with their words.

use pumpwright_engine::formulas::Piece;
use serde::Serialize;

/// A piece of a line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Part {
    /// Words.
    Prose {
        /// The words.
        text: String,
    },
    /// A formula, which the engine's printer made.
    Formula {
        /// As the typesetter reads it.
        math: String,
        /// Read aloud.
        said: String,
    },
}

/// A line.
pub type Parts = Vec<Part>;

/// The pieces of a line.
pub fn parts(pieces: Vec<Piece>) -> Parts {
    let part = |piece| match piece {
        Piece::Prose(text) => Part::Prose { text },
        Piece::Formula { typeset, spoken } => Part::Formula {
            math: typeset,
            said: spoken,
        },
    };
    pieces.into_iter().map(part).collect()
}
