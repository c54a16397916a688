//! Dimensions known at run time, and the bridge from uom's types, which know
//! them when compiling. No units here: values are in coherent SI.

use uom::si::{ISQ, Quantity, SI, Units};
use uom::typenum::{Integer, N1, N2, N3, N5, P1, P2, Z0};

/// Exponents of length, mass, time, current and temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Dimension(pub [i8; 5]);

impl Dimension {
    /// A plain number: a count, a share.
    pub const NONE: Self = Self([0, 0, 0, 0, 0]);
    /// Length.
    pub const LENGTH: Self = Self([1, 0, 0, 0, 0]);
    /// Area.
    pub const AREA: Self = Self([2, 0, 0, 0, 0]);
    /// Volume.
    pub const VOLUME: Self = Self([3, 0, 0, 0, 0]);
    /// Time.
    pub const TIME: Self = Self([0, 0, 1, 0, 0]);
    /// Mass.
    pub const MASS: Self = Self([0, 1, 0, 0, 0]);
    /// Volume in a time.
    pub const FLOW: Self = Self([3, 0, -1, 0, 0]);
    /// Speed.
    pub const SPEED: Self = Self([1, 0, -1, 0, 0]);
    /// Pressure.
    pub const PRESSURE: Self = Self([-1, 1, -2, 0, 0]);
    /// Mass in a volume.
    pub const DENSITY: Self = Self([-3, 1, 0, 0, 0]);
    /// Speed gained in a time.
    pub const ACCELERATION: Self = Self([1, 0, -2, 0, 0]);
    /// Force.
    pub const FORCE: Self = Self([1, 1, -2, 0, 0]);
    /// Energy.
    pub const ENERGY: Self = Self([2, 1, -2, 0, 0]);
    /// Turns or swings in a time.
    pub const FREQUENCY: Self = Self([0, 0, -1, 0, 0]);
    /// Mass of a length, as of pipe.
    pub const MASS_PER_LENGTH: Self = Self([-1, 1, 0, 0, 0]);
    /// Resistance of a liquid to being sheared.
    pub const DYNAMIC_VISCOSITY: Self = Self([-1, 1, -1, 0, 0]);
    /// Area in a time: viscosity over density, and a flow for each length.
    pub const AREA_RATE: Self = Self([2, 0, -1, 0, 0]);
    /// Resistance of a body of one length and one section.
    pub const RESISTIVITY: Self = Self([3, 1, -3, -2, 0]);
    /// Electrical capacitance.
    pub const CAPACITANCE: Self = Self([-2, -1, 4, 2, 0]);
    /// Share of a length gained for each degree.
    pub const PER_DEGREE: Self = Self([0, 0, 0, 0, -1]);
    /// Power.
    pub const POWER: Self = Self([2, 1, -3, 0, 0]);
    /// Electric current.
    pub const CURRENT: Self = Self([0, 0, 0, 1, 0]);
    /// Electric potential difference.
    pub const VOLTAGE: Self = Self([2, 1, -3, -1, 0]);
    /// Electrical resistance.
    pub const RESISTANCE: Self = Self([2, 1, -3, -2, 0]);
    /// Resistance of a length of conductor.
    pub const RESISTANCE_PER_LENGTH: Self = Self([1, 1, -3, -2, 0]);
    /// Temperature.
    pub const TEMPERATURE: Self = Self([0, 0, 0, 0, 1]);

    /// The dimension of a product, or nothing where an exponent leaves its range.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_add)
    }

    /// The dimension of a quotient, or nothing where an exponent leaves its range.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        self.combine(other, i8::checked_sub)
    }

    /// The dimension raised to a whole power.
    #[must_use]
    pub fn raised(self, power: i8) -> Option<Self> {
        self.combine(self, |own, _| own.checked_mul(power))
    }

    /// The dimension of a square root, where it has one.
    #[must_use]
    pub fn root(self) -> Option<Self> {
        self.combine(self, |own, _| (own % 2 == 0).then_some(own / 2))
    }

    fn combine(self, other: Self, with: impl Fn(i8, i8) -> Option<i8>) -> Option<Self> {
        let mut exponents = [0; 5];
        for (slot, (own, theirs)) in exponents.iter_mut().zip(self.0.into_iter().zip(other.0)) {
            *slot = with(own, theirs)?;
        }
        Some(Self(exponents))
    }
}

/// A uom quantity whose dimension is known when compiling.
pub trait Measured: Sized {
    /// Its dimension.
    const DIMENSION: Dimension;
    /// Its value in the coherent SI unit.
    fn si(self) -> f64;
    /// The quantity with this value in the coherent SI unit.
    fn from_si(value: f64) -> Self;
}

impl<D, U> Measured for Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: Units<f64> + ?Sized,
    D::L: Integer,
    D::M: Integer,
    D::T: Integer,
    D::I: Integer,
    D::Th: Integer,
{
    const DIMENSION: Dimension = Dimension([D::L::I8, D::M::I8, D::T::I8, D::I::I8, D::Th::I8]);

    fn si(self) -> f64 {
        self.value
    }

    fn from_si(value: f64) -> Self {
        Self {
            dimension: std::marker::PhantomData,
            units: std::marker::PhantomData,
            value,
        }
    }
}

/// A plain number: a count, a share, a Hazen-Williams C.
impl Measured for f64 {
    const DIMENSION: Dimension = Dimension::NONE;

    fn si(self) -> f64 {
        self
    }

    fn from_si(value: f64) -> Self {
        value
    }
}

/// Resistance of a length of conductor, ohm per meter. uom has no name for it;
/// dividing an `ElectricalResistance` by a `Length` gives this type.
pub type ResistancePerLength = Quantity<ISQ<P1, P1, N3, N2, Z0, Z0, Z0>, Coherent, f64>;

/// A flow for each length: specific capacity of a well, transmissivity of an
/// aquifer. uom has no name for it; dividing a `VolumeRate` by a `Length` gives
/// this type.
pub type FlowPerLength = Quantity<ISQ<P2, Z0, N1, Z0, Z0, Z0, Z0>, Coherent, f64>;

/// A length for each square of a flow: head lost in a well itself. uom has no name for it;
/// dividing a `Length` twice by a `VolumeRate` gives this type.
pub type WellLoss = Quantity<ISQ<N5, Z0, P2, Z0, Z0, Z0, Z0>, Coherent, f64>;

/// The unit system in which every quantity of this crate is held.
pub type Coherent = SI<f64>;

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::f64::{ElectricalResistance, MassDensity, Pressure};

    #[test]
    fn the_bridge_agrees_with_the_named_dimensions() {
        assert_eq!(Pressure::DIMENSION, Dimension::PRESSURE);
        assert_eq!(ElectricalResistance::DIMENSION, Dimension::RESISTANCE);
        assert_eq!(MassDensity::DIMENSION, Dimension::DENSITY);
        assert_eq!(
            ResistancePerLength::DIMENSION,
            Dimension::RESISTANCE_PER_LENGTH
        );
    }

    #[test]
    fn roots_exist_only_of_even_exponents() {
        assert_eq!(Dimension::AREA.root(), Some(Dimension::LENGTH));
        assert_eq!(Dimension::VOLUME.root(), None);
    }

    #[test]
    fn exponents_that_leave_their_range_give_nothing() {
        assert_eq!(
            Dimension([100, 0, 0, 0, 0]).times(Dimension([100, 0, 0, 0, 0])),
            None
        );
    }
}
