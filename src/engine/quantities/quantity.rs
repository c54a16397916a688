//! A value with its dimension, and the two systems of units. No unit is known
//! here: values are in coherent SI.

use std::fmt;
use std::str::FromStr;

use pumpwright_calc::dimension::Dimension;
use thiserror::Error;

/// A value in coherent SI units, with its dimension.
///
/// Counts, percent and ppm are plain numbers: 5 % is 0.05.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity {
    /// The value in the coherent SI unit; a temperature in kelvin.
    pub si: f64,
    /// Its dimension.
    pub dimension: Dimension,
}

impl Quantity {
    /// A value in coherent SI units.
    pub const fn new(si: f64, dimension: Dimension) -> Self {
        Self { si, dimension }
    }

    /// A plain number.
    pub const fn plain(number: f64) -> Self {
        Self::new(number, Dimension::NONE)
    }

    /// Whether the value is a figure at all: neither infinite nor undefined.
    pub const fn is_finite(self) -> bool {
        self.si.is_finite()
    }

    /// Whether it is a plain number.
    pub fn is_plain(self) -> bool {
        self.dimension == Dimension::NONE
    }

    /// Whether two quantities are the same but for the noise of arithmetic:
    /// same dimension, and values within 1e-9 of the larger.
    pub fn is_about(self, other: Self) -> bool {
        let larger = self.si.abs().max(other.si.abs());
        self.dimension == other.dimension && (self.si - other.si).abs() <= 1e-9 * larger
    }
}

/// A system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum System {
    /// Feet, psi, US gallons.
    Us,
    /// Meters, kilopascals, liters.
    Si,
}

impl System {
    /// Both systems, in the order in which lessons write them.
    pub const BOTH: [Self; 2] = [Self::Us, Self::Si];

    /// The two letters that stand for it in a problem code.
    pub const fn letters(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Si => "si",
        }
    }
}

impl fmt::Display for System {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.letters())
    }
}

/// Letters that name no system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("unit system not known; write us or si")]
pub struct UnknownSystem;

impl FromStr for System {
    type Err = UnknownSystem;

    fn from_str(text: &str) -> Result<Self, UnknownSystem> {
        Self::BOTH
            .into_iter()
            .find(|system| system.letters().eq_ignore_ascii_case(text))
            .ok_or(UnknownSystem)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_system_reads_its_own_letters() {
        for system in System::BOTH {
            assert_eq!(system.to_string().parse(), Ok(system));
        }
        assert_eq!("SI".parse(), Ok(System::Si));
        assert_eq!("metric".parse::<System>(), Err(UnknownSystem));
    }

    #[test]
    fn noise_is_forgiven_and_dimension_is_not() {
        assert!(Quantity::plain(0.1 + 0.2).is_about(Quantity::plain(0.3)));
        assert!(!Quantity::plain(0.3).is_about(Quantity::plain(0.300_001)));
        assert!(!Quantity::plain(1.0).is_about(Quantity::new(1.0, Dimension::LENGTH)));
        assert!(!Quantity::plain(f64::NAN).is_finite());
    }
}
