//! Would it be a pass? The expected share of right answers in an exam at a moment,
//! its interval, the chance to pass, and whether there is evidence enough to say so.

use super::blueprint::Blueprint;
use super::constants::{BLUEPRINT_NEEDED, MODEL_ERROR, NOT_TAUGHT, PROBE_STEPS_NEEDED};
use super::curriculum::Curriculum;
use super::record::Record;
use super::response::Moment;
use crate::statistics::{EIGHTY, normal_below};

/// What a forecast rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evidence {
    /// First tries at steps of probes.
    pub probe_steps: u32,
    /// The share of the blueprint whose families were met.
    pub met: f64,
}

impl Evidence {
    /// The evidence that a record has for a blueprint.
    pub fn of(record: &Record, blueprint: &Blueprint) -> Self {
        let families = record.state.families.iter().zip(blueprint.weights());
        let met = families.filter(|(strength, _)| strength.last.is_some());
        Self {
            probe_steps: record.probe_steps,
            met: met
                .map(|(_, weight)| weight)
                .fold(0.0, |sum, weight| sum + weight),
        }
    }

    /// Probe steps that are missing.
    pub const fn steps_missing(&self) -> u32 {
        PROBE_STEPS_NEEDED.saturating_sub(self.probe_steps)
    }

    /// The share of the blueprint that is missing.
    pub fn blueprint_missing(&self) -> f64 {
        (BLUEPRINT_NEEDED - self.met).max(0.0)
    }

    /// Whether it is enough for a forecast to be shown.
    pub fn is_enough(&self) -> bool {
        self.steps_missing() == 0 && self.met >= BLUEPRINT_NEEDED
    }
}

/// A forecast of an exam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forecast {
    /// The expected share of right answers.
    pub score: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// The ends of the interval in which the share lies with 80 %.
    pub between: (f64, f64),
    /// The chance to pass.
    pub pass: f64,
}

/// The forecast of an exam at a moment, if nothing is practised until then.
///
/// ```text
/// P_k  chance of a right step of skill k then     π_f = Π P_k over the skills of f
/// m = Σ w_f (π_f + (1 − π_f) c)                    G_k = ∂m/∂μ_k
/// Var = Σ G_k² v_k + (Σ G_k)² V_θ + (Σ G_k g_k)² V_η + m (1 − m) / J + 0.07²
/// Pr(pass) = Φ((m − cut + 1/(2J)) / √Var)
///
/// w_f  weight in the blueprint      J  questions     cut  pass mark
/// c    chance of a right guess, over all questions
/// ```
/// First-order spread of the beliefs, the draw of the questions, and the model's own
/// error. An exam further off than the longest gap seen is a projection: under
/// another kind of forgetting than the model's it may be far off.
pub fn forecast(
    curriculum: &Curriculum,
    record: &Record,
    blueprint: &Blueprint,
    then: Moment,
) -> Forecast {
    let state = &record.state;
    let count = curriculum.families().len();
    let predicted: Vec<_> = (0..count)
        .map(|family| state.success_at(family, 0.0, then))
        .collect();
    let chance = |skill: usize| predicted[skill].map_or(NOT_TAUGHT, |step| step.chance);
    let mut score = 0.0;
    let mut leaning = vec![0.0; count];
    for (facts, weight) in curriculum.families().iter().zip(blueprint.weights()) {
        let item: f64 = facts.skills.iter().map(|skill| chance(*skill)).product();
        score += weight * (item + (1.0 - item) * blueprint.guess);
        for skill in &facts.skills {
            leaning[*skill] += weight * item * (1.0 - blueprint.guess);
        }
    }
    let (mut own, mut together, mut paced) = (0.0, 0.0, 0.0);
    for (skill, step) in predicted.iter().enumerate() {
        let Some(step) = step else { continue };
        let carried = state.carried(skill, then);
        let gradient = leaning[skill] * step.slope() / step.chance;
        own += gradient * gradient * carried.belief.variance;
        together += gradient;
        paced += gradient * carried.slope;
    }
    let questions = f64::from(blueprint.questions);
    let variance = own
        + together * together * state.ability.variance
        + paced * paced * state.pace.variance
        + score * (1.0 - score) / questions
        + MODEL_ERROR * MODEL_ERROR;
    let deviation = variance.sqrt();
    let half = EIGHTY * deviation;
    Forecast {
        score,
        deviation,
        between: ((score - half).max(0.0), (score + half).min(1.0)),
        pass: normal_below((score - blueprint.pass + 0.5 / questions) / deviation),
    }
}
