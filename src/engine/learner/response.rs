//! One response as the model reads it: which steps were tried, right or not, with
//! help or not. What was typed and how it was marked stays in the record of responses.

use std::sync::Arc;

use crate::marking::Verdict;

/// A point in time: seconds of one clock that goes on, and the day as the person
/// counted it there and then.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    /// Seconds since any fixed moment, the same for the whole history.
    pub seconds: i64,
    /// The local calendar day, counted from any fixed day.
    pub day: i32,
}

impl Moment {
    /// This many days later, by clock and calendar.
    #[must_use]
    pub fn later(self, days: i32) -> Self {
        Self {
            seconds: self.seconds.saturating_add(86_400 * i64::from(days)),
            day: self.day.saturating_add(days),
        }
    }

    /// Days from an earlier moment to this one; nothing where it is not earlier.
    pub fn days_since(self, earlier: Self) -> f64 {
        let seconds = self.seconds.saturating_sub(earlier.seconds).max(0);
        seconds as f64 / super::constants::DAY
    }
}

/// One step's first try. Thousands of them have few names between them, so they share these.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Try {
    /// The family whose skill the step exercises.
    pub skill: Arc<str>,
    /// Whether it was right.
    pub right: bool,
    /// Whether any help on this step was opened before.
    pub helped: bool,
    /// Seconds that it took, where known.
    pub seconds: Option<u32>,
    /// From how many answers it was picked; none where it was written.
    pub options: Option<u8>,
    /// The known mistake that was made.
    pub mistake: Option<Arc<str>>,
}

/// One problem handed in.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Response {
    /// When it was handed in.
    pub when: Moment,
    /// Its id, unlike any other in the world.
    pub id: u128,
    /// The code of the problem.
    pub problem: Arc<str>,
    /// The family of the problem.
    pub family: Arc<str>,
    /// The level.
    pub level: u8,
    /// Whether it was drawn as a probe: by the blueprint, at home level, without help.
    pub probe: bool,
    /// The steps that say something, in their order.
    pub tries: Vec<Try>,
}

/// What a verdict says about the skill of its step: right, wrong, or nothing.
///
/// Right as well are a figure that follows the learner's own and a line that a later
/// one bears out. Nothing is said by what cannot be read, and by a figure worked from
/// an unsafe one. All else is wrong.
pub const fn outcome(verdict: &Verdict) -> Option<bool> {
    match verdict {
        Verdict::Right | Verdict::Follows { .. } | Verdict::Carried { .. } => Some(true),
        Verdict::Unreadable | Verdict::NotFollowed { .. } => None,
        Verdict::UnitOfWrongKind
        | Verdict::UnitFactor
        | Verdict::RoundedWrongWay
        | Verdict::Mistake
        | Verdict::Unsafe
        | Verdict::PartRight
        | Verdict::LookHere
        | Verdict::NotWritten => Some(false),
    }
}
