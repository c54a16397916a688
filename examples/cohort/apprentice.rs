//! What a simulated apprentice is: the one trait to implement for another kind.
//!
//! Write a file in `generators/`, implement [`Generator`] and [`Apprentice`], and add
//! it to the list in `generators/mod.rs`. Times are seconds; evenings are days apart,
//! the steps of an evening some 25 seconds.

use crate::luck::Luck;
use crate::world::World;

/// Seconds in a day.
pub const DAY: f64 = 86_400.0;

/// A kind of simulated apprentice.
pub trait Generator: Sync {
    /// Its name in the table.
    fn name(&self) -> &'static str;

    /// How it learns and forgets, in a line.
    fn about(&self) -> &'static str;

    /// One apprentice of a cohort. `cohort` names what the whole cohort has in common
    /// (how hard each family is); `luck` is this one's own, the same under every policy.
    fn apprentice<'w>(&self, world: &'w World, cohort: u64, luck: Luck)
    -> Box<dyn Apprentice + 'w>;
}

/// A simulated apprentice.
pub trait Apprentice {
    /// Reads the lesson of a family for the first time.
    fn lesson(&mut self, family: usize, at: f64);

    /// The true chance of a right step on a family's skill. Levels are 1, 2 and 3.
    fn chance(&self, skill: usize, level: u8, at: f64) -> f64;

    /// Has done a step, right or not, and seen how it is done.
    fn step(&mut self, skill: usize, level: u8, right: bool, at: f64);

    /// Whether it comes on this evening; numbers from 0.
    fn attends(&mut self, _evening: usize) -> bool {
        true
    }
}

/// What a level adds to the difficulty of a step, log-odds.
pub fn level_offset(level: u8) -> f64 {
    0.8 * (f64::from(level) - 2.0)
}

/// The logistic function.
pub fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-x.clamp(-30.0, 30.0)))
}

/// Its inverse.
pub fn log_odds(chance: f64) -> f64 {
    libm::log(chance / (1.0 - chance))
}

/// The mean chance on the prerequisites of a family; 1 where it has none.
pub fn ground(apprentice: &dyn Apprentice, world: &World, family: usize, at: f64) -> f64 {
    let needs = world.needs(family);
    if needs.is_empty() {
        return 1.0;
    }
    let sum: f64 = needs
        .iter()
        .map(|need| apprentice.chance(*need, 2, at))
        .sum();
    sum / needs.len() as f64
}
