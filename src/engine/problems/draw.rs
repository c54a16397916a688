//! Asking for a problem, by what is wanted or by its code, and why there may be none.

use thiserror::Error;

use super::code::{Code, CodeFault, DRAWS};
use super::dealer::{Dealer, Seed};
use super::problem::Problem;
use super::settings::{SettingFault, Settings};
use crate::lessons::Library;
use crate::quantities::System;

/// How often a draw is tried.
pub const TRIES: u64 = 200;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Request<'a> {
    /// The family's id.
    pub family: &'a str,
    /// The level; none for the home level.
    pub level: Option<u8>,
    /// The system of units.
    pub system: System,
    /// Which draw, below [`DRAWS`].
    pub draw: u32,
    /// House rules off their default.
    pub settings: &'a Settings,
}

/// Why no problem is drawn.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DrawError {
    /// There is no such family.
    #[error("there is no family \"{name}\"{}", nearby(.near))]
    Family {
        /// The name given.
        name: String,
        /// The nearest names.
        near: Vec<String>,
    },
    /// The family does not have that level.
    #[error("{family} has no level {level}; it has {}", levels(.has))]
    Level {
        /// The family.
        family: String,
        /// The level asked for.
        level: u8,
        /// The levels that it has.
        has: Vec<u8>,
    },
    /// The draw's number is too high.
    #[error("there is no draw {0}; draws go from 0 to {last}", last = DRAWS - 1)]
    Draw(u32),
    /// The text is no problem code.
    #[error(transparent)]
    Code(#[from] CodeFault),
    /// A house rule in the code is not to be had.
    #[error(
        "the problem code cannot be drawn here: {0}; if a rules file set it, give that file by --rules"
    )]
    Setting(#[from] SettingFault),
    /// The family or its rules have changed since the code was made.
    #[error(
        "{family} has changed since this code was made: the code needs revision {wanted}, here is {here}; use the lessons and the rules file that it was made with, or draw a new one"
    )]
    Revision {
        /// The family.
        family: String,
        /// The revision in the code.
        wanted: String,
        /// The revision here.
        here: String,
    },
    /// The family does not go with a house rule.
    #[error("{0} is not drawn under this house rule")]
    Ruled(String),
    /// No try gave a problem.
    #[error("{family} gave no problem in {TRIES} tries; run pumpwright check on its file")]
    Tries {
        /// The family.
        family: String,
    },
}

fn nearby(names: &[String]) -> String {
    if names.is_empty() {
        String::new()
    } else {
        format!("; near it: {}", names.join(", "))
    }
}

fn levels(levels: &[u8]) -> String {
    let parts: Vec<String> = levels.iter().map(u8::to_string).collect();
    parts.join(", ")
}

/// Draws a problem.
pub fn draw(library: &Library, request: &Request<'_>) -> Result<Problem, DrawError> {
    let dealer = Dealer::new(library, request)?;
    if request.draw >= DRAWS {
        return Err(DrawError::Draw(request.draw));
    }
    dealer.deal(Seed::Open(scatter(request.draw)))
}

/// Draws a problem from a secret in place of the request's number: nothing that is
/// printed of it draws it again, and 2^256 secrets are too many to try.
pub fn draw_sealed(
    library: &Library,
    request: &Request<'_>,
    secret: &[u8; 32],
) -> Result<Problem, DrawError> {
    Dealer::new(library, request)?.deal(Seed::Sealed(secret))
}

/// Draws the problem of a code again.
pub fn again(library: &Library, code: &Code) -> Result<Problem, DrawError> {
    let mut settings = Settings::default();
    for (name, value) in &code.rules {
        settings.set(library, name, value)?;
    }
    let request = Request {
        family: &code.family,
        level: Some(code.level),
        system: code.system,
        draw: 0,
        settings: &settings,
    };
    let dealer = Dealer::new(library, &request)?;
    if dealer.variant.revision != code.revision {
        let shown = |revision| {
            let code = Code {
                revision,
                ..code.clone()
            };
            let text = Code {
                rules: Vec::new(),
                ..code
            }
            .to_string();
            text.rsplit('.').next().unwrap_or_default().to_owned()
        };
        return Err(DrawError::Revision {
            family: code.family.clone(),
            wanted: shown(code.revision),
            here: shown(dealer.variant.revision),
        });
    }
    dealer.deal(Seed::Open(code.seed))
}

/// Spreads the numbers of draws over the seeds, one to one, so that neighbors
/// have codes that do not look alike. Odd factor, so it can be undone; ours.
pub(crate) const fn scatter(draw: u32) -> u32 {
    (draw.wrapping_mul(0x2C5D_3A6B) ^ 0x1B87_4E25) & (DRAWS - 1)
}
