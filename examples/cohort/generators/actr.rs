//! Activation traces: each encounter leaves a trace that fades by a power of its age,
//! the faster the more active the skill was then, which makes spacing pay.
//!
//! ```text
//! m = ln Σ b_j (age_j / 60)^−d_j        d_j = 0.2 e^m + α
//! P = g + (1 − s − g) σ((m − τ + a) / noise − δ)
//! ```
//! Source of the form: Pavlik and Anderson, Cognitive Science 29 (2005). Age runs at
//! full speed for an hour, then at 2.5 %. The numbers are chosen.

use crate::apprentice::{Apprentice, Generator, ground, level_offset, logistic};
use crate::luck::Luck;
use crate::world::World;

const TRACES: usize = 32;
const THRESHOLD: f64 = -1.25;
const NOISE: f64 = 0.55;
const GUESS: f64 = 0.08;

/// The kind.
pub struct ActivationTraces;

struct Person<'w> {
    world: &'w World,
    decay: f64,
    ability: f64,
    easy: Vec<f64>,
    slip: f64,
    speed: f64,
    traces: Vec<Vec<Trace>>,
}

#[derive(Clone, Copy)]
struct Trace {
    at: f64,
    decay: f64,
    weight: f64,
}

impl Generator for ActivationTraces {
    fn name(&self) -> &'static str {
        "actr"
    }

    fn about(&self) -> &'static str {
        "activation traces that fade by a power of age; spacing pays"
    }

    fn apprentice<'w>(
        &self,
        world: &'w World,
        cohort: u64,
        mut luck: Luck,
    ) -> Box<dyn Apprentice + 'w> {
        let shared = Luck::of(&[cohort, 0xAC]).normals(world.families(), 0.6);
        let own = luck.normals(world.families(), 0.6);
        Box::new(Person {
            world,
            decay: luck.normal(0.15, 0.03).clamp(0.06, 0.4),
            ability: luck.normal(0.0, 0.56),
            easy: shared.iter().zip(own).map(|(all, own)| all + own).collect(),
            slip: luck.normal(0.05, 0.02).clamp(0.01, 0.15),
            speed: libm::exp(luck.normal(0.0, 0.15)),
            traces: vec![Vec::new(); world.families()],
        })
    }
}

impl Person<'_> {
    fn activation(&self, skill: usize, at: f64) -> f64 {
        let strength = |trace: &Trace| {
            let lived = (at - trace.at).max(1.0);
            let soon = lived.min(3600.0);
            let age = soon + (lived - soon) * 0.025 + 1.0;
            trace.weight * libm::pow(age / 60.0, -trace.decay)
        };
        let sum: f64 = self.traces[skill].iter().map(strength).sum();
        libm::log(sum.max(1e-3))
    }

    fn leave(&mut self, skill: usize, weight: f64, at: f64) {
        let activation = self.activation(skill, at);
        let decay = (0.2 * libm::exp(activation.min(2.0)) + self.decay).clamp(0.05, 1.5);
        let traces = &mut self.traces[skill];
        if traces.len() == TRACES {
            traces.remove(0);
        }
        traces.push(Trace { at, decay, weight });
    }
}

impl Apprentice for Person<'_> {
    fn lesson(&mut self, family: usize, at: f64) {
        let ground = 0.3 + 0.7 * ground(self, self.world, family, at);
        self.leave(family, self.speed * 0.45 * ground, at);
    }

    fn chance(&self, skill: usize, level: u8, at: f64) -> f64 {
        let above = (self.activation(skill, at) - THRESHOLD) / NOISE;
        let z = above + self.ability + self.easy[skill] - level_offset(level);
        GUESS + (1.0 - self.slip - GUESS) * logistic(z)
    }

    fn step(&mut self, skill: usize, level: u8, right: bool, at: f64) {
        let ground = 0.3 + 0.7 * ground(self, self.world, skill, at);
        let worth = match (right, level) {
            (false, _) => 0.75,
            (true, 1) => 0.85,
            (true, 2) => 1.0,
            (true, _) => 1.15,
        };
        self.leave(skill, worth * ground * self.speed * 0.30, at);
    }
}
