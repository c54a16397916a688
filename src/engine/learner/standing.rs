//! Where a person stands in a family: the stage, how sure that is, when a refresher
//! is due, how much support the next problem gives.

use super::constants::{
    DUE, GUESS, HOLDING_CHANCE, HOLDING_DAYS, HOLDING_SUCCESS, PART_BELOW, SLIP, WORKED_BELOW,
};
use super::maths::logistic;
use super::record::Record;
use super::response::Moment;
use super::state::State;
use crate::statistics::{EIGHTY, normal_below};

/// How far ahead a refresher is looked for, days. Our own choice.
const HORIZON: i32 = 3650;

/// What can be said of a family.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// No problem of it was tried.
    NotMet,
    /// Tried, and not holding yet.
    Building,
    /// Surely enough above the mark, and right on two days.
    Holding,
    /// It held, and does no longer.
    Slipping,
}

/// How much of the next problem is worked for the person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Support {
    /// A worked example, then the last steps.
    Worked,
    /// The first half is given.
    Part,
    /// Nothing is given.
    Bare,
}

impl Support {
    /// The support for a predicted success. The bounds are our own choice; that help
    /// fades as skill grows follows Renkl, Atkinson, Maier and Staley, Journal of
    /// Experimental Education 70 (2002).
    pub fn at(success: f64) -> Self {
        if success < WORKED_BELOW {
            Self::Worked
        } else if success < PART_BELOW {
            Self::Part
        } else {
            Self::Bare
        }
    }
}

/// Where a person stands in a family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The stage.
    pub stage: Stage,
    /// The chance of a right step at home level, now.
    pub success: f64,
    /// The ends of the interval in which that chance lies with 80 %.
    pub between: (f64, f64),
    /// How sure it is that the chance is at least the holding mark.
    pub sure: f64,
    /// Days from now until a refresher is due: nothing where it is due, none where it
    /// was not met or is not due in ten years.
    pub due_in: Option<i32>,
    /// The support that the next problem gives.
    pub support: Support,
}

/// Where a person stands in a family at a moment.
pub fn standing(record: &Record, family: usize, now: Moment) -> Standing {
    let state = &record.state;
    let success = state.success(family, now);
    let own = &record.families[family];
    let met = state.families[family].last.is_some();
    let stage = if !met {
        Stage::NotMet
    } else if is_holding(state, family, now) {
        Stage::Holding
    } else if own.held {
        Stage::Slipping
    } else {
        Stage::Building
    };
    Standing {
        stage,
        success,
        between: interval(state, family, now),
        sure: sureness(state, family, now),
        due_in: if met {
            due_in(state, family, now)
        } else {
            None
        },
        support: Support::at(success),
    }
}

/// How sure it is that a step at home level is right with a chance of at least 0.80.
///
/// ```text
/// z* = ln((0.80 − c) / (1 − s − 0.80))
/// sure = Φ((θ + μ − z*) / √(v + V_θ))
/// ```
/// Range 0 to 1. z* is 1.4271, so that θ + μ = z* is 0.5 sure.
pub fn sureness(state: &State, family: usize, now: Moment) -> f64 {
    normal_below(above_mark(state, family, now))
}

/// How many deviations the strength stands above z*.
fn above_mark(state: &State, family: usize, now: Moment) -> f64 {
    let belief = state.carried(family, now).belief;
    let odds = (HOLDING_SUCCESS - GUESS) / (1.0 - SLIP - HOLDING_SUCCESS);
    let above = state.ability.mean + belief.mean - libm::log(odds);
    above / (belief.variance + state.ability.variance).sqrt()
}

/// Whether it holds: sure enough, and right on two days.
pub fn is_holding(state: &State, family: usize, now: Moment) -> bool {
    if state.families[family].days_right < HOLDING_DAYS {
        return false;
    }
    let above = above_mark(state, family, now);
    // Below the mark it is not even half sure, which is found out without Φ.
    above > 0.0 && normal_below(above) >= HOLDING_CHANCE
}

/// The interval in which the chance of a right step at home level lies with 80 %.
///
/// ```text
/// c + (1 − s − c) σ(θ + μ ± 1.28 √(v + V_θ))
/// ```
fn interval(state: &State, family: usize, now: Moment) -> (f64, f64) {
    let belief = state.carried(family, now).belief;
    let middle = state.ability.mean + belief.mean;
    let half = EIGHTY * (belief.variance + state.ability.variance).sqrt();
    let chance = |z: f64| GUESS + (1.0 - SLIP - GUESS) * logistic(z);
    (chance(middle - half), chance(middle + half))
}

/// Days until the predicted success is down to the mark at which a refresher is due,
/// found by halving: success only falls while nothing is tried.
fn due_in(state: &State, family: usize, now: Moment) -> Option<i32> {
    let is_due = |days: i32| state.success(family, now.later(days)) <= DUE;
    if !is_due(HORIZON) {
        return None;
    }
    if is_due(0) {
        return Some(0);
    }
    let (mut before, mut due) = (0, HORIZON);
    while due - before > 1 {
        let middle = before + (due - before) / 2;
        if is_due(middle) {
            due = middle;
        } else {
            before = middle;
        }
    }
    Some(due)
}
