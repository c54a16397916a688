//! A power law of practice and a power law of forgetting, in days since the last
//! encounter. Spacing gains nothing here.
//!
//! ```text
//! z = −0.75 + a + 1.05 ln(1 + 1.5 n) − d ln(1 + days)      P = g + (1 − s − g) σ(z − δ)
//! ```
//! Source of the form: Wixted and Carpenter, Psychological Science 18 (2007), from
//! memory. The numbers are chosen; none of the model's constants was fitted on it.

use crate::apprentice::{Apprentice, DAY, Generator, ground, level_offset, logistic};
use crate::luck::Luck;
use crate::world::World;

/// The kind.
pub struct PowerLaw;

struct Person<'w> {
    world: &'w World,
    ability: f64,
    easy: Vec<f64>,
    forgets: f64,
    practice: Vec<f64>,
    last: Vec<f64>,
}

impl Generator for PowerLaw {
    fn name(&self) -> &'static str {
        "power"
    }

    fn about(&self) -> &'static str {
        "power laws of practice and of forgetting; spacing gains nothing"
    }

    fn apprentice<'w>(
        &self,
        world: &'w World,
        cohort: u64,
        mut luck: Luck,
    ) -> Box<dyn Apprentice + 'w> {
        let shared = Luck::of(&[cohort, 0x90]).normals(world.families(), 0.5);
        let own = luck.normals(world.families(), 0.5);
        Box::new(Person {
            world,
            ability: luck.normal(0.0, 0.6),
            easy: shared.iter().zip(own).map(|(all, own)| all + own).collect(),
            forgets: 0.30 * libm::exp(luck.normal(0.0, 0.3)),
            practice: vec![0.0; world.families()],
            last: vec![0.0; world.families()],
        })
    }
}

impl Apprentice for Person<'_> {
    fn lesson(&mut self, family: usize, at: f64) {
        let ground = ground(self, self.world, family, at);
        self.practice[family] += 0.6 + 0.9 * ground;
        self.last[family] = at;
    }

    fn chance(&self, skill: usize, level: u8, at: f64) -> f64 {
        let days = (at - self.last[skill]).max(0.0) / DAY;
        let practice = 1.05 * libm::log1p(1.5 * self.practice[skill]);
        let forgotten = if self.practice[skill] > 0.0 {
            self.forgets * libm::log1p(days)
        } else {
            0.0
        };
        let z = -0.75 + self.ability + self.easy[skill] + practice - forgotten;
        0.04 + 0.93 * logistic(z - level_offset(level))
    }

    fn step(&mut self, skill: usize, _level: u8, right: bool, at: f64) {
        let ground = ground(self, self.world, skill, at);
        self.practice[skill] += if right { 0.8 } else { 0.5 } * (0.4 + 0.6 * ground);
        self.last[skill] = at;
    }
}
