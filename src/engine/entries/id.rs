//! The id of an entry: ordered by time, unlike any other in the world.
//!
//! Layout of a version 7 UUID: 48 bits of milliseconds since 1970, then the version,
//! the variant and 74 random bits. Source: RFC 9562 (2024), section 5.7, from memory.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// The id of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Id(u128);

/// A text that is no id.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("\"{text}\" is no id of an entry: 32 hexadecimal digits in groups of 8-4-4-4-12 are")]
pub struct IdFault {
    /// The text, cut where it is long.
    pub text: String,
}

impl Id {
    /// The id of an entry made at this time, with this chance in it.
    ///
    /// `milliseconds` count since 1970 in UTC; what is before that, or beyond the
    /// 48 bits (year 10889), stands at the nearest end. 74 bits of `random` are used.
    pub fn new(milliseconds: i64, random: u128) -> Self {
        const LATEST: i64 = (1 << 48) - 1;
        let time = milliseconds.clamp(0, LATEST) as u128;
        let high = (random >> 62) & 0xfff;
        let low = random & ((1 << 62) - 1);
        Self(time << 80 | 0x7 << 76 | high << 64 | 0b10 << 62 | low)
    }

    /// The id of this number, as [`Id::number`] gave it.
    pub const fn of_number(number: u128) -> Self {
        Self(number)
    }

    /// As a number; greater means later.
    pub const fn number(self) -> u128 {
        self.0
    }

    /// When it was made, in milliseconds since 1970.
    pub const fn milliseconds(self) -> i64 {
        (self.0 >> 80) as i64
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hex = format!("{:032x}", self.0);
        let groups = [0..8, 8..12, 12..16, 16..20, 20..32].map(|group| &hex[group]);
        f.write_str(&groups.join("-"))
    }
}

impl FromStr for Id {
    type Err = IdFault;

    fn from_str(text: &str) -> Result<Self, IdFault> {
        let groups: Vec<&str> = text.trim().split('-').collect();
        let right = groups.iter().map(|group| group.len()).eq([8, 4, 4, 4, 12])
            && groups
                .iter()
                .all(|group| group.chars().all(|c| c.is_ascii_hexdigit()));
        let number = right.then(|| u128::from_str_radix(&groups.concat(), 16).ok());
        number.flatten().map(Self).ok_or_else(|| IdFault {
            text: text.chars().take(60).collect(),
        })
    }
}

impl TryFrom<String> for Id {
    type Error = IdFault;

    fn try_from(text: String) -> Result<Self, IdFault> {
        text.parse()
    }
}

impl From<Id> for String {
    fn from(id: Id) -> Self {
        id.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_layout_is_the_standard_one() {
        let id = Id::new(0x0192_0000_0001, u128::MAX);
        assert_eq!(id.to_string(), "01920000-0001-7fff-bfff-ffffffffffff");
        assert_eq!(id.milliseconds(), 0x0192_0000_0001);
        assert_eq!(Id::new(-5, 0).milliseconds(), 0);
    }

    proptest! {
        #[test]
        fn later_is_greater_and_text_comes_back(a in 0i64..1 << 48, b in 0i64..1 << 48, x: u128, y: u128) {
            let (one, other) = (Id::new(a, x), Id::new(b, y));
            if a != b {
                prop_assert_eq!(a < b, one < other);
                prop_assert_eq!(a < b, one.to_string() < other.to_string());
            }
            prop_assert_eq!(one.to_string().parse::<Id>(), Ok(one));
        }

        #[test]
        fn no_text_is_a_panic(text in "\\PC*") {
            let _ = text.parse::<Id>();
        }
    }
}
