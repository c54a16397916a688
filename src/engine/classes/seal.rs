//! The secret of a class and what is drawn from it: HMAC-SHA-256 (RFC 2104, FIPS 198-1,
//! both from memory) of plan, paper and item under the class key. Without the key no
//! paper tells which draw it is.

use std::fmt;

use hmac::{Hmac, KeyInit, Mac};
use sha2::Sha256;

use crate::problems::random::hex;

/// As the text of a key begins.
const BEGINS: &str = "pumpwright class key 1";

/// What the sealed numbers are for; another use would say another word.
const USE: &str = "pumpwright paper 1";

/// The key of a class.
#[derive(Clone, PartialEq, Eq)]
pub struct ClassKey([u8; 32]);

/// A key is never printed by accident.
impl fmt::Debug for ClassKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("ClassKey(..)")
    }
}

/// What a secret is wanted for: each use has its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sealed {
    /// The numbers of a place of the paper, at this attempt.
    Numbers {
        /// The place, from zero.
        place: usize,
        /// The attempt, from zero.
        attempt: u32,
    },
    /// Which family of a lesson stands at a place, at this attempt.
    Family {
        /// The place, from zero.
        place: usize,
        /// The attempt, from zero.
        attempt: u32,
    },
    /// The order of the items.
    Order,
}

impl ClassKey {
    /// A key of these bytes, which must come from the system's own randomness.
    pub const fn of(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Reads the text of a key; none where it is none.
    pub fn read(text: &str) -> Option<Self> {
        let hex = text.strip_prefix(BEGINS)?.trim();
        if hex.len() != 64 || !hex.is_ascii() {
            return None;
        }
        let mut bytes = [0; 32];
        for (at, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(hex.get(2 * at..2 * at + 2)?, 16).ok()?;
        }
        Some(Self(bytes))
    }

    /// The text in which it is kept.
    pub fn text(&self) -> String {
        format!("{BEGINS}\n{}\n", hex(&self.0))
    }

    /// The secret of a use for a paper: `paper` is the roster's id, or the version.
    pub fn secret(&self, plan: &str, paper: &str, of: Sealed) -> [u8; 32] {
        let (use_, place, attempt) = match of {
            Sealed::Numbers { place, attempt } => ("numbers", place, attempt),
            Sealed::Family { place, attempt } => ("family", place, attempt),
            Sealed::Order => ("order", 0, 0),
        };
        let (place, attempt) = (place.to_string(), attempt.to_string());
        // A key of any length is taken, so this branch is never needed.
        let Ok(mut mac) = Hmac::<Sha256>::new_from_slice(&self.0) else {
            return [0; 32];
        };
        // Each part behind its length, so that no two run together.
        for part in [USE, plan, paper, use_, &place, &attempt] {
            mac.update(&(part.len() as u64).to_be_bytes());
            mac.update(part.as_bytes());
        }
        mac.finalize().into_bytes().into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIRST: Sealed = Sealed::Numbers {
        place: 0,
        attempt: 0,
    };

    #[test]
    fn a_key_reads_back_and_does_not_print() {
        let key = ClassKey::of(std::array::from_fn(|at| at as u8));
        assert_eq!(ClassKey::read(&key.text()), Some(key.clone()));
        assert_eq!(format!("{key:?}"), "ClassKey(..)");
        assert_eq!(ClassKey::read("pumpwright class key 1\nabc"), None);
        assert_eq!(ClassKey::read(""), None);
    }

    /// Worked a second way with Python's hmac module: the parts each behind its length
    /// in eight bytes, the key the bytes 0 to 31.
    #[test]
    fn the_secret_is_the_keyed_hash_that_is_promised() {
        let key = ClassKey::of(std::array::from_fn(|at| at as u8));
        let secret = key.secret("week-6", "019", FIRST);
        let hex: Vec<String> = secret.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hex.concat(), SECOND_WAY);
    }

    const SECOND_WAY: &str = "0f952bc29ceec6f3679d6f3cf3f8e22ed5bc1511b2811418972fadfecf21a5ee";

    #[test]
    fn every_use_has_its_own_secret() {
        let key = ClassKey::of([7; 32]);
        let all = [
            key.secret("a", "1", FIRST),
            key.secret("a1", "", FIRST),
            key.secret("a", "2", FIRST),
            key.secret("a", "1", Sealed::Order),
            key.secret(
                "a",
                "1",
                Sealed::Family {
                    place: 0,
                    attempt: 0,
                },
            ),
            key.secret(
                "a",
                "1",
                Sealed::Numbers {
                    place: 1,
                    attempt: 0,
                },
            ),
            ClassKey::of([8; 32]).secret("a", "1", FIRST),
        ];
        let different: std::collections::BTreeSet<_> = all.iter().collect();
        assert_eq!(different.len(), all.len());
    }
}
