//! Chance for the simulation: reproducible from a few numbers that name the draw.

use pumpwright_engine::learner::Dice;

/// A stream of chance with the draws that apprentices are made of.
#[derive(Debug, Clone)]
pub struct Luck(Dice);

impl Luck {
    /// The stream that these numbers name.
    pub fn of(names: &[u64]) -> Self {
        let mix = |seed: u64, name: &u64| {
            Dice::of(seed ^ name.wrapping_mul(0xD6E8_FEB8_6659_FD93)).word()
        };
        Self(Dice::of(names.iter().fold(0x70_75_6D_70, mix)))
    }

    /// A number from 0 to below 1.
    pub fn share(&mut self) -> f64 {
        self.0.share()
    }

    /// Whether something of this chance happens.
    pub fn happens(&mut self, chance: f64) -> bool {
        self.share() < chance
    }

    /// A whole number below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// A place drawn by weights.
    pub fn place(&mut self, weights: &[f64]) -> usize {
        self.0.place(weights).unwrap_or(0)
    }

    /// A normal number, by Box and Muller's transform.
    pub fn normal(&mut self, mean: f64, deviation: f64) -> f64 {
        let radius = (-2.0 * libm::log(1.0 - self.share())).sqrt();
        mean + deviation * radius * libm::cos(std::f64::consts::TAU * self.share())
    }

    /// So many normal numbers of mean 0.
    pub fn normals(&mut self, count: usize, deviation: f64) -> Vec<f64> {
        (0..count).map(|_| self.normal(0.0, deviation)).collect()
    }
}
