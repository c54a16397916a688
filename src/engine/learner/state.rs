//! What is believed about a person, carried to a moment, and the chance of a right
//! step that follows from it.

use std::f64::consts::LN_2;

use super::constants::{
    ABILITY_VARIANCE, FIRST_HALF_LIFE, FIRST_STRENGTH, FLOOR_STRENGTH, GUESS, NOT_TAUGHT,
    PACE_VARIANCE, SLIP, STRENGTH_VARIANCE,
};
use super::maths::{averaged_logistic, logistic};
use super::response::Moment;

/// A normal belief.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Belief {
    /// Its mean.
    pub mean: f64,
    /// Its variance.
    pub variance: f64,
}

/// What is believed about one family, as of the last try at it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Strength, log-odds of a right step at home level for a person of mean ability.
    pub belief: Belief,
    /// Half-life, days.
    pub half_life: f64,
    /// The last try; none before the first.
    pub last: Option<Moment>,
    /// Days that began with a right step.
    pub days_right: u32,
}

/// What is believed about a person.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Ability θ, log-odds.
    pub ability: Belief,
    /// Forgetting pace η: half-lives are multiplied by e^η.
    pub pace: Belief,
    /// Each family at its place.
    pub families: Vec<Strength>,
}

/// A family's strength at a later moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// Strength by then.
    pub belief: Belief,
    /// The share R that is kept of what stood above the floor, above 0 up to 1.
    pub kept: f64,
    /// How strength changes with the pace, ∂μ/∂η.
    pub slope: f64,
}

/// A predicted step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// The chance P that it is right.
    pub chance: f64,
    /// Log-odds z at the means.
    pub log_odds: f64,
    /// Variance V of z.
    pub variance: f64,
    /// The guess c that was taken.
    pub guess: f64,
}

impl State {
    /// What is believed of a person of whom nothing is known.
    pub fn new(families: usize) -> Self {
        let strength = Strength {
            belief: Belief {
                mean: FIRST_STRENGTH,
                variance: STRENGTH_VARIANCE,
            },
            half_life: FIRST_HALF_LIFE,
            last: None,
            days_right: 0,
        };
        Self {
            ability: Belief {
                mean: 0.0,
                variance: ABILITY_VARIANCE,
            },
            pace: Belief {
                mean: 0.0,
                variance: PACE_VARIANCE,
            },
            families: vec![strength; families],
        }
    }

    /// A family's strength at a moment.
    ///
    /// ```text
    /// R = 2^(−Δ / (h e^η))
    /// μ ← μ_f + (μ − μ_f) R       v ← v_0 + (v − v_0) R²
    /// g = (μ − μ_f) R ln2 · Δ / (h e^η)
    ///
    /// Δ  days since the last try     h  half-life     η  forgetting pace
    /// ```
    /// The form: exponential fading of strength, certainty going back to what it was
    /// at first. Source of the form: our own choice; the constants say theirs.
    /// Example: μ 1.6, h 25, η 0, 25 days on: −0.4 + 2.0 · ½ = 0.6.
    pub fn carried(&self, family: usize, now: Moment) -> Carried {
        let strength = &self.families[family];
        let days = strength.last.map_or(0.0, |last| now.days_since(last));
        // At the moment of the last try nothing is lost; most steps of a sheet are there.
        let (lives, kept) = if days == 0.0 {
            (0.0, 1.0)
        } else {
            let lives = days / (strength.half_life * libm::exp(self.pace.mean));
            (lives, libm::exp2(-lives))
        };
        let above = (strength.belief.mean - FLOOR_STRENGTH) * kept;
        let spread = strength.belief.variance - STRENGTH_VARIANCE;
        Carried {
            belief: Belief {
                mean: FLOOR_STRENGTH + above,
                variance: STRENGTH_VARIANCE + spread * kept * kept,
            },
            kept,
            slope: above * LN_2 * lives,
        }
    }

    /// The chance of a right step on a family's skill at a level so much harder than
    /// home, with what is not known of ability, strength and pace taken in.
    ///
    /// ```text
    /// z = θ + μ − δ          V = v + V_θ + g² V_η
    /// P = c + (1 − s − c) σ(z / √(1 + πV/8))
    /// ```
    /// Range: above c, below 1 − s. Example: at the start, home level: z 0.62,
    /// V 0.8036, P 0.6377.
    pub fn predict(&self, family: usize, offset: f64, guess: f64, now: Moment) -> Prediction {
        self.predicted(&self.carried(family, now), offset, guess)
    }

    /// The same of a strength that was carried already.
    pub(super) fn predicted(&self, carried: &Carried, offset: f64, guess: f64) -> Prediction {
        let pace = carried.slope * carried.slope * self.pace.variance;
        let variance = carried.belief.variance + self.ability.variance + pace;
        prediction(
            self.ability.mean + carried.belief.mean - offset,
            variance,
            guess,
        )
    }

    /// The chance of a right step at home level by which families are picked and
    /// shown: without the pace's variance, and low for a family not met yet.
    pub fn success(&self, family: usize, now: Moment) -> f64 {
        self.success_at(family, 0.0, now)
            .map_or(NOT_TAUGHT, |prediction| prediction.chance)
    }

    /// The same at another level; none for a family not met yet.
    pub fn success_at(&self, family: usize, offset: f64, now: Moment) -> Option<Prediction> {
        self.families[family].last?;
        Some(self.fresh(family, offset, now))
    }

    /// The same for a family as it will be once it is taught, where it is not yet.
    pub fn fresh(&self, family: usize, offset: f64, now: Moment) -> Prediction {
        let carried = self.carried(family, now);
        let variance = carried.belief.variance + self.ability.variance;
        prediction(
            self.ability.mean + carried.belief.mean - offset,
            variance,
            GUESS,
        )
    }
}

/// P of a z with this mean and variance.
fn prediction(log_odds: f64, variance: f64, guess: f64) -> Prediction {
    let chance = guess + (1.0 - SLIP - guess) * averaged_logistic(log_odds, variance);
    Prediction {
        chance,
        log_odds,
        variance,
        guess,
    }
}

impl Prediction {
    /// How P changes with z at its mean.
    ///
    /// ```text
    /// b = (1 − s − c) σ(z) (1 − σ(z))
    /// ```
    pub fn slope(&self) -> f64 {
        self.slope_at(logistic(self.log_odds))
    }

    /// The same where σ(z) is known.
    pub(super) fn slope_at(&self, s: f64) -> f64 {
        (1.0 - SLIP - self.guess) * s * (1.0 - s)
    }
}
