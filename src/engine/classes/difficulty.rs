//! How hard a paper is: the marks that somebody of mean ability, just taught, would earn
//! on it. It serves to draw papers that are alike, and foretells nobody's marks.
//!
//! What is taken: the learner model's chance of a right line for a person of whom nothing
//! is known, at the level of the problem; beside it what the problem itself tells, namely
//! how many known mistakes can be made at a line, and how long an order or a match is.
//! Lines are taken as apart, and follow-through as given.

use crate::learner::constants::{GUESS, LEVEL_STEP};
use crate::learner::{Moment, State};
use crate::problems::{Asks, Line, Problem};

/// How much harder each known mistake that can be made makes a line, log-odds. Our own
/// choice, no source: no marks have been measured.
const A_MISTAKE: f64 = 0.1;

/// How much harder each job or part beyond the first five makes an arrangement,
/// log-odds. Our own choice, no source.
const A_PART: f64 = 0.1;

/// As many jobs or parts as an arrangement of plain length has. Our own choice, no
/// source.
const PARTS: usize = 5;

/// The marks to be expected of a problem, out of those that it bears.
pub fn expected(problem: &Problem) -> f64 {
    let state = State::new(1);
    let home = i32::from(problem.family.home);
    let above = f64::from(i32::from(problem.code.level) - home) * LEVEL_STEP;
    let start = Moment { seconds: 0, day: 0 };
    let line = |line: &Line| {
        let guess = match &line.asks {
            Asks::Pick { offers, .. } => 1.0 / offers.len().max(1) as f64,
            _ => GUESS,
        };
        let mistakes = problem.mistakes.iter();
        let mistakes = mistakes.filter(|mistake| mistake.step == line.id).count();
        let parts = match &line.asks {
            Asks::Order { cards } => cards.len(),
            Asks::Match { parts, .. } => parts.len(),
            _ => PARTS,
        };
        let harder = A_MISTAKE * mistakes as f64 + A_PART * (parts as f64 - PARTS as f64);
        let right = state.predict(0, above + harder, guess, start);
        f64::from(line.marks) * right.chance
    };
    problem.asked().map(|(_, own)| line(own)).sum()
}

/// Between what the expected marks of some papers lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// The marks of a paper.
    pub of: u32,
}

impl Spread {
    /// The spread of some papers; none of none.
    pub fn of(expected: impl IntoIterator<Item = f64>, of: u32) -> Option<Self> {
        expected
            .into_iter()
            .fold(None, |spread: Option<Self>, own| {
                let (least, most) = spread.map_or((own, own), |known| (known.least, known.most));
                Some(Self {
                    least: least.min(own),
                    most: most.max(own),
                    of,
                })
            })
    }
}

impl std::fmt::Display for Spread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { least, most, of } = self;
        let (least, most) = (format!("{least:.1}"), format!("{most:.1}"));
        if least == most {
            write!(f, "expected marks of every paper: {least} of {of}")
        } else {
            write!(
                f,
                "expected marks of the papers lie between {least} and {most} of {of}"
            )
        }
    }
}
