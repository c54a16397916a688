//! Crowding: time takes nothing away; every step on another skill does, and the less
//! the more often the skill came back. A month without practice changes nothing.
//!
//! ```text
//! z = −0.9 + a + x e^(−others/room)       P = g + (1 − s − g) σ(z − δ)
//! ```
//! Source of the form: interference as the cause of forgetting, McGeoch, Psychological
//! Review 39 (1932), from memory. The numbers are chosen; none of the model's
//! constants was fitted on it.

use crate::apprentice::{Apprentice, Generator, ground, level_offset, logistic};
use crate::luck::Luck;
use crate::world::World;

/// The kind.
pub struct Crowding;

struct Person<'w> {
    world: &'w World,
    ability: f64,
    easy: Vec<f64>,
    room: f64,
    steps: f64,
    traces: Vec<Trace>,
}

#[derive(Clone, Copy, Default)]
struct Trace {
    height: f64,
    room: f64,
    last: f64,
}

impl Generator for Crowding {
    fn name(&self) -> &'static str {
        "crowding"
    }

    fn about(&self) -> &'static str {
        "only other practice makes forget; time does not"
    }

    fn apprentice<'w>(
        &self,
        world: &'w World,
        cohort: u64,
        mut luck: Luck,
    ) -> Box<dyn Apprentice + 'w> {
        let shared = Luck::of(&[cohort, 0xC4]).normals(world.families(), 0.5);
        let own = luck.normals(world.families(), 0.5);
        Box::new(Person {
            world,
            ability: luck.normal(0.0, 0.6),
            easy: shared.iter().zip(own).map(|(all, own)| all + own).collect(),
            room: 260.0 * libm::exp(luck.normal(0.0, 0.4)),
            steps: 0.0,
            traces: vec![Trace::default(); world.families()],
        })
    }
}

impl Person<'_> {
    fn height(&self, skill: usize) -> f64 {
        let trace = self.traces[skill];
        if trace.room <= 0.0 {
            return 0.0;
        }
        trace.height * libm::exp(-(self.steps - trace.last) / trace.room)
    }

    fn learn(&mut self, skill: usize, gain: f64) {
        let height = self.height(skill);
        let trace = &mut self.traces[skill];
        let kept = if trace.height > 0.0 {
            height / trace.height
        } else {
            1.0
        };
        trace.room = trace.room.max(self.room) * (1.0 + 0.8 * (1.0 - kept));
        trace.height = height + gain * (1.0 - height / 4.0);
        trace.last = self.steps;
    }
}

impl Apprentice for Person<'_> {
    fn lesson(&mut self, family: usize, at: f64) {
        let ground = ground(self, self.world, family, at);
        self.learn(family, 0.7 + 1.0 * ground);
    }

    fn chance(&self, skill: usize, level: u8, _at: f64) -> f64 {
        let z = -0.9 + self.ability + self.easy[skill] + self.height(skill);
        0.07 + 0.89 * logistic(z - level_offset(level))
    }

    fn step(&mut self, skill: usize, _level: u8, right: bool, at: f64) {
        let ground = 0.4 + 0.6 * ground(self, self.world, skill, at);
        self.steps += 1.0;
        self.learn(skill, if right { 0.35 } else { 0.25 } * ground);
    }
}
