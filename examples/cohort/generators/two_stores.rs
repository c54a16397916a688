//! Two stores: a quick one that learns much and loses it within days, and a slow one
//! that learns little and keeps it for months. Both learn from what was not foreseen,
//! so that practice after a gap does more. Three evenings out of ten are missed.
//!
//! ```text
//! z = −1 + a + quick + slow       P = g + (1 − s − g) σ(z − δ)
//! quick ← quick 2^(−days/1.5) + 1.1 (1 − P)      slow ← slow 2^(−days/h) + 0.4 (1 − P)
//! ```
//! Source of the form: Smith, Ghazizadeh and Shadmehr, PLoS Biology 4 (2006), from
//! memory. The numbers are chosen; none of the model's constants was fitted on it.

use crate::apprentice::{Apprentice, DAY, Generator, ground, level_offset, logistic};
use crate::luck::Luck;
use crate::world::World;

/// The kind.
pub struct TwoStores;

struct Person<'w> {
    world: &'w World,
    luck: Luck,
    ability: f64,
    easy: Vec<f64>,
    half_life: f64,
    stores: Vec<Stores>,
}

#[derive(Clone, Copy, Default)]
struct Stores {
    quick: f64,
    slow: f64,
    last: f64,
}

impl Generator for TwoStores {
    fn name(&self) -> &'static str {
        "two-stores"
    }

    fn about(&self) -> &'static str {
        "a quick store and a slow one; three evenings in ten missed"
    }

    fn apprentice<'w>(
        &self,
        world: &'w World,
        cohort: u64,
        mut luck: Luck,
    ) -> Box<dyn Apprentice + 'w> {
        let shared = Luck::of(&[cohort, 0x25]).normals(world.families(), 0.5);
        let own = luck.normals(world.families(), 0.5);
        Box::new(Person {
            world,
            ability: luck.normal(0.0, 0.6),
            easy: shared.iter().zip(own).map(|(all, own)| all + own).collect(),
            half_life: 70.0 * libm::exp(luck.normal(0.0, 0.4)),
            stores: vec![Stores::default(); world.families()],
            luck,
        })
    }
}

impl Person<'_> {
    fn stores(&self, skill: usize, at: f64) -> Stores {
        let stores = self.stores[skill];
        let days = (at - stores.last).max(0.0) / DAY;
        Stores {
            quick: stores.quick * libm::exp2(-days / 1.5),
            slow: stores.slow * libm::exp2(-days / self.half_life),
            last: at,
        }
    }

    fn learn(&mut self, skill: usize, worth: f64, at: f64) {
        let missing = worth * (1.0 - self.chance(skill, 2, at));
        let mut stores = self.stores(skill, at);
        stores.quick += 1.1 * missing;
        stores.slow += 0.4 * missing;
        self.stores[skill] = stores;
    }
}

impl Apprentice for Person<'_> {
    fn lesson(&mut self, family: usize, at: f64) {
        let ground = ground(self, self.world, family, at);
        self.learn(family, 1.2 + 1.6 * ground, at);
    }

    fn chance(&self, skill: usize, level: u8, at: f64) -> f64 {
        let stores = self.stores(skill, at);
        let z = -1.0 + self.ability + self.easy[skill] + stores.quick + stores.slow;
        0.06 + 0.91 * logistic(z - level_offset(level))
    }

    fn step(&mut self, skill: usize, _level: u8, _right: bool, at: f64) {
        let ground = ground(self, self.world, skill, at);
        self.learn(skill, 0.4 + 0.8 * ground, at);
    }

    fn attends(&mut self, _evening: usize) -> bool {
        self.luck.happens(0.7)
    }
}
