//! The random stream of a problem: a named generator read with our own few
//! sampling rules, so that a code draws the same on every machine for good.
//!
//! ChaCha12, its key a SHA-256 of what names the draw, its stream number the
//! attempt. Only whole 64-bit words are taken from it.

use chacha20::ChaCha12Rng;
use chacha20::rand_core::{Rng, SeedableRng};
use sha2::{Digest, Sha256};

/// Bytes as text, two digits each.
pub(crate) fn hex(bytes: &[u8]) -> String {
    const DIGITS: [char; 16] = [
        '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f',
    ];
    let halves = bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]);
    halves.map(|half| DIGITS[usize::from(half)]).collect()
}

/// The words of one attempt at a draw.
pub(crate) struct Stream(ChaCha12Rng);

/// What names a draw, hashed to a key.
#[derive(Clone, Copy)]
pub(crate) struct Key([u8; 32]);

impl Key {
    /// The key of a draw. The parts are set apart so that no two names run together.
    pub fn of(parts: &[&str]) -> Self {
        let mut hash = Sha256::new();
        hash.update(b"pumpwright draw 1");
        for part in parts {
            hash.update([0]);
            hash.update(part.as_bytes());
        }
        Self(hash.finalize().into())
    }

    /// The stream of an attempt.
    pub fn stream(self, attempt: u64) -> Stream {
        let mut generator = ChaCha12Rng::from_seed(self.0);
        generator.set_stream(attempt);
        Stream(generator)
    }
}

impl Stream {
    /// A whole number below `count`; nothing is below one or none.
    ///
    /// A word times the count, of which the upper half counts; words that would
    /// favor some numbers are passed over.
    pub fn below(&mut self, count: usize) -> usize {
        let count = count as u64;
        if count < 2 {
            return 0;
        }
        let favored = count.wrapping_neg() % count;
        loop {
            let wide = u128::from(self.0.next_u64()) * u128::from(count);
            if wide as u64 >= favored {
                return (wide >> 64) as usize;
            }
        }
    }

    /// A whole number from `least` to `most`.
    pub fn between(&mut self, least: usize, most: usize) -> usize {
        least + self.below(most.saturating_sub(least) + 1)
    }

    /// Brings a list into a drawn order, from its end to its front.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last + 1));
        }
    }

    /// `count` of the places below `of`, ascending.
    pub fn choose(&mut self, count: usize, of: usize) -> Vec<usize> {
        let mut places: Vec<usize> = (0..of).collect();
        self.shuffle(&mut places);
        places.truncate(count);
        places.sort_unstable();
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_is_fixed_for_good() {
        let mut stream = Key::of(&["tank-precharge", "1", "us", "7"]).stream(0);
        let words: Vec<usize> = (0..8).map(|_| stream.below(1000)).collect();
        assert_eq!(words, FIXED);
    }

    const FIXED: [usize; 8] = [854, 628, 373, 938, 59, 340, 346, 539];

    #[test]
    fn below_is_even_handed() {
        let mut stream = Key::of(&["even"]).stream(0);
        let mut counts = [0_u32; 7];
        for _ in 0..70_000 {
            counts[stream.below(7)] += 1;
        }
        assert!(
            counts.iter().all(|count| (9_500..10_500).contains(count)),
            "{counts:?}"
        );
    }

    #[test]
    fn parts_do_not_run_together() {
        let first = Key::of(&["ab", "c"]).stream(0).below(usize::MAX);
        let second = Key::of(&["a", "bc"]).stream(0).below(usize::MAX);
        assert_ne!(first, second);
    }
}
