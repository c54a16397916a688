//! How one first try moves what is believed: correction, then growth.

use super::constants::{
    DRIFT, GROWTH, GROWTH_ERROR, GUESS, HALF_LIFE_GROWTH, LEAST_VARIANCE, LONGEST_HALF_LIFE,
    PACE_LIMIT, STRENGTH_VARIANCE, VARIANCE_CAP,
};
use super::maths::logistic;
use super::response::Moment;
use super::state::State;

/// One first try at a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observation {
    /// The place of the family whose skill it exercises.
    pub family: usize,
    /// How much harder than home, log-odds.
    pub offset: f64,
    /// Right and unaided.
    pub right: bool,
    /// From how many answers it was picked; none where it was written.
    pub options: Option<u8>,
    /// When.
    pub when: Moment,
}

impl Observation {
    /// The chance of a right answer without the skill.
    fn guess(&self) -> f64 {
        match self.options {
            Some(options) if options > 1 => 1.0 / f64::from(options),
            _ => GUESS,
        }
    }
}

impl State {
    /// Takes in a first try; gives the chance that was predicted for it.
    ///
    /// ```text
    /// K = b / (b² V + P (1 − P))       e = y − P
    /// μ += v K e       θ += V_θ K e       η += V_η g K e      (held to ±1.5)
    /// v −= v² b K  (not below v_min), then += q, at most 1.5 v_0
    /// V_θ −= V_θ² b K      V_η −= V_η² g² b K
    ///
    /// then μ += λ (1 − σ(z)) / 0.35, z as before the correction; and if this is the
    /// first step of a new day and right: one more day right, and where it is not the
    /// first day, h ← min(h (1 + β (1 − R)), 200)
    /// ```
    /// An extended Kalman step on one number seen, y, through P; growth shrinks as
    /// success nears its ceiling.
    pub fn observe(&mut self, seen: &Observation) -> f64 {
        let carried = self.carried(seen.family, seen.when);
        let prediction = self.predicted(&carried, seen.offset, seen.guess());
        let chance = prediction.chance;
        let without_guess = logistic(prediction.log_odds);
        let slope = prediction.slope_at(without_guess);
        let noise = chance * (1.0 - chance);
        let gain = slope / (slope * slope * prediction.variance + noise);
        let error = f64::from(u8::from(seen.right)) - chance;

        let ability = &mut self.ability;
        ability.mean += ability.variance * gain * error;
        ability.variance -= ability.variance * ability.variance * slope * gain;
        let pace = &mut self.pace;
        pace.mean += pace.variance * carried.slope * gain * error;
        pace.mean = pace.mean.clamp(-PACE_LIMIT, PACE_LIMIT);
        let turned = pace.variance * carried.slope;
        pace.variance -= turned * turned * slope * gain;

        let strength = &mut self.families[seen.family];
        let variance = carried.belief.variance;
        let growth = GROWTH * (1.0 - without_guess) / GROWTH_ERROR;
        strength.belief.mean = carried.belief.mean + variance * gain * error + growth;
        let surer = (variance - variance * variance * slope * gain).max(LEAST_VARIANCE) + DRIFT;
        strength.belief.variance = surer.min(STRENGTH_VARIANCE * VARIANCE_CAP);
        let new_day = strength.last.is_none_or(|last| seen.when.day > last.day);
        if new_day && seen.right {
            strength.days_right = strength.days_right.saturating_add(1);
            if strength.last.is_some() {
                let longer = strength.half_life * (1.0 + HALF_LIFE_GROWTH * (1.0 - carried.kept));
                strength.half_life = longer.min(LONGEST_HALF_LIFE);
            }
        }
        strength.last = Some(seen.when);
        chance
    }
}
