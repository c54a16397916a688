//! The commands: each takes what was asked for and prints. No command decides
//! anything about the trade; the engine and the formulas do.

pub mod answer;
pub mod assign;
pub mod board;
pub mod calc;
pub mod check;
pub mod class;
pub mod completions;
pub mod drawing;
pub mod exam;
pub mod export;
pub mod figure;
#[cfg(feature = "pdf")]
pub mod handout;
pub mod json;
pub mod leaver;
pub mod lessons;
pub mod logbook;
pub mod make_up;
pub mod mark;
pub mod paper;
pub mod paper_of;
pub mod plan;
pub mod practice;
pub mod problem;
pub mod report;
pub mod shapes;
pub mod sheet;
pub mod sit;
pub mod try_plan;
mod whose;
pub mod words;

use crate::failure::{Failure, shown};

/// The two halves of `NAME=VALUE`.
///
/// # Errors
/// When there is no `=` in it.
pub fn pair<'a>(typed: &'a str, form: &str) -> Result<(&'a str, &'a str), Failure> {
    let halves = typed
        .split_once('=')
        .map(|(name, value)| (name.trim(), value));
    halves.ok_or_else(|| {
        Failure::Input(format!(
            "\"{}\" has no \"=\"; write it as {form}",
            shown(typed)
        ))
    })
}
