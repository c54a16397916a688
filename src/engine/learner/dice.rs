//! A stream of chance out of a seed, the same on every machine: which problem is a
//! probe, and of which family.

/// A stream of chance.
///
/// Source: Steele, Lea and Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014, the mixing known as SplitMix64, from memory.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dice(u64);

impl Dice {
    /// The stream of a seed.
    pub const fn of(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub const fn word(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from 0 to below 1, of 53 bits.
    pub fn share(&mut self) -> f64 {
        (self.word() >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// A place in a list of weights, drawn by them; none where all are zero.
    pub fn place(&mut self, weights: &[f64]) -> Option<usize> {
        let all: f64 = weights.iter().sum();
        if all <= 0.0 {
            return None;
        }
        let mut left = self.share() * all;
        let last = weights.iter().rposition(|weight| *weight > 0.0);
        weights
            .iter()
            .position(|weight| {
                left -= weight;
                left < 0.0
            })
            .or(last)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_is_fixed_for_good() {
        let mut dice = Dice::of(1_234_567);
        assert_eq!(dice.word(), 6_457_827_717_110_365_317);
        assert_eq!(dice.word(), 3_203_168_211_198_807_973);
    }

    #[test]
    fn a_weight_of_nothing_is_never_drawn() {
        let mut dice = Dice::of(3);
        let mut counts = [0; 4];
        for _ in 0..30_000 {
            counts[dice.place(&[0.0, 1.0, 2.0, 0.0]).unwrap()] += 1;
        }
        assert_eq!((counts[0], counts[3]), (0, 0));
        assert!((9_500..10_500).contains(&counts[1]), "{counts:?}");
        assert_eq!(dice.place(&[0.0, 0.0]), None);
    }
}
