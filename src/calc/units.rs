//! Sizes of the units in which the laws are written. uom's own factors for psi
//! and the gallon have seven digits; these are the exact definitions, so that a
//! law shown and the function computed agree to the last place.

use std::marker::PhantomData;

use uom::si::f64::{
    Area, Capacitance, DynamicViscosity, ElectricCurrent, ElectricPotential, ElectricalResistance,
    Energy, Frequency, KinematicViscosity, Length, LinearMassDensity, Mass, MassDensity, Power,
    Pressure, TemperatureCoefficient, TemperatureInterval, Time, Velocity, Volume, VolumeRate,
};

use crate::dimension::{FlowPerLength, Measured, ResistancePerLength};

/// A unit of one kind of quantity.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Unit<Q> {
    size: f64,
    of: PhantomData<fn() -> Q>,
}

impl<Q: Measured> Unit<Q> {
    const fn new(size: f64) -> Self {
        Self {
            size,
            of: PhantomData,
        }
    }

    /// The figure of a quantity in this unit.
    pub(crate) fn read(self, quantity: Q) -> f64 {
        quantity.si() / self.size
    }

    /// The quantity that has this figure in this unit.
    pub(crate) fn of(self, figure: f64) -> Q {
        Q::from_si(figure * self.size)
    }
}

// International foot and pound: U.S. Federal Register 24 FR 5348 (1959). U.S.
// gallon, 231 cubic inches: NIST Handbook 44, appendix C. Both from memory.
pub(crate) const FOOT_M: f64 = 0.3048;
const INCH_M: f64 = 0.0254;
const POUND_KG: f64 = 0.453_592_37;
const GALLON_M3: f64 = 0.003_785_411_784;
const DAY_S: f64 = 86_400.0;
const CUBIC_FOOT_M3: f64 = 0.028_316_846_592;
/// Standard acceleration of gravity, m/s²: exact by the third General
/// Conference on Weights and Measures (1901), from memory.
pub(crate) const STANDARD_GRAVITY: f64 = 9.806_65;

pub(crate) const FOOT: Unit<Length> = Unit::new(FOOT_M);
pub(crate) const INCH: Unit<Length> = Unit::new(INCH_M);
pub(crate) const MIL: Unit<Length> = Unit::new(INCH_M / 1e3);
pub(crate) const METER: Unit<Length> = Unit::new(1.0);
pub(crate) const PSI: Unit<Pressure> = Unit::new(POUND_KG * STANDARD_GRAVITY / (INCH_M * INCH_M));
pub(crate) const KILOPASCAL: Unit<Pressure> = Unit::new(1e3);
pub(crate) const GALLON: Unit<Volume> = Unit::new(GALLON_M3);
pub(crate) const GALLON_PER_MINUTE: Unit<VolumeRate> = Unit::new(GALLON_M3 / 60.0);
pub(crate) const CUBIC_FOOT_PER_SECOND: Unit<VolumeRate> = Unit::new(CUBIC_FOOT_M3);
pub(crate) const CUBIC_METER_PER_SECOND: Unit<VolumeRate> = Unit::new(1.0);
pub(crate) const KILOGRAM_PER_CUBIC_METER: Unit<MassDensity> = Unit::new(1.0);
pub(crate) const SQUARE_MILLIMETER: Unit<Area> = Unit::new(1e-6);
pub(crate) const AMPERE: Unit<ElectricCurrent> = Unit::new(1.0);
pub(crate) const VOLT: Unit<ElectricPotential> = Unit::new(1.0);
pub(crate) const MEGOHM: Unit<ElectricalResistance> = Unit::new(1e6);
pub(crate) const OHM_PER_KILOFOOT: Unit<ResistancePerLength> = Unit::new(1.0 / (1e3 * FOOT_M));
pub(crate) const OHM: Unit<ElectricalResistance> = Unit::new(1.0);
pub(crate) const WATT: Unit<Power> = Unit::new(1.0);
pub(crate) const KILOWATT: Unit<Power> = Unit::new(1e3);
/// 550 foot-pounds of force a second.
pub(crate) const HORSEPOWER: Unit<Power> = Unit::new(550.0 * FOOT_M * POUND_KG * STANDARD_GRAVITY);
pub(crate) const KILOWATT_HOUR: Unit<Energy> = Unit::new(3.6e6);
pub(crate) const HERTZ: Unit<Frequency> = Unit::new(1.0);
pub(crate) const MICROFARAD: Unit<Capacitance> = Unit::new(1e-6);
pub(crate) const SECOND: Unit<Time> = Unit::new(1.0);
pub(crate) const MINUTE: Unit<Time> = Unit::new(60.0);
pub(crate) const HOUR: Unit<Time> = Unit::new(3_600.0);
pub(crate) const DAY: Unit<Time> = Unit::new(DAY_S);
pub(crate) const MILLIMETER: Unit<Length> = Unit::new(1e-3);
pub(crate) const POUND: Unit<Mass> = Unit::new(POUND_KG);
pub(crate) const OUNCE: Unit<Mass> = Unit::new(POUND_KG / 16.0);
pub(crate) const KILOGRAM: Unit<Mass> = Unit::new(1.0);
pub(crate) const GRAM: Unit<Mass> = Unit::new(1e-3);
pub(crate) const POUND_PER_FOOT: Unit<LinearMassDensity> = Unit::new(POUND_KG / FOOT_M);
pub(crate) const POUND_PER_CUBIC_FOOT: Unit<MassDensity> = Unit::new(POUND_KG / CUBIC_FOOT_M3);
pub(crate) const MILLIGRAM_PER_LITER: Unit<MassDensity> = Unit::new(1e-3);
pub(crate) const LITER: Unit<Volume> = Unit::new(1e-3);
#[cfg(test)]
pub(crate) const FLUID_OUNCE: Unit<Volume> = Unit::new(GALLON_M3 / 128.0);
pub(crate) const CUBIC_FOOT: Unit<Volume> = Unit::new(CUBIC_FOOT_M3);
pub(crate) const LITER_PER_MINUTE: Unit<VolumeRate> = Unit::new(1e-3 / 60.0);
pub(crate) const FOOT_PER_SECOND: Unit<Velocity> = Unit::new(FOOT_M);
pub(crate) const METER_PER_SECOND: Unit<Velocity> = Unit::new(1.0);
pub(crate) const PASCAL_SECOND: Unit<DynamicViscosity> = Unit::new(1.0);
pub(crate) const SQUARE_MILLIMETER_PER_SECOND: Unit<KinematicViscosity> = Unit::new(1e-6);
pub(crate) const GPM_PER_FOOT: Unit<FlowPerLength> = Unit::new(GALLON_M3 / 60.0 / FOOT_M);
pub(crate) const GPD_PER_FOOT: Unit<FlowPerLength> = Unit::new(GALLON_M3 / DAY_S / FOOT_M);
#[cfg(test)]
pub(crate) const SQUARE_METER_PER_DAY: Unit<FlowPerLength> = Unit::new(1.0 / DAY_S);
pub(crate) const FAHRENHEIT_DEGREE: Unit<TemperatureInterval> = Unit::new(5.0 / 9.0);
pub(crate) const INCH_PER_100_FOOT_PER_FAHRENHEIT: Unit<TemperatureCoefficient> =
    Unit::new(INCH_M / (100.0 * FOOT_M) * 9.0 / 5.0);
pub(crate) const OHM_PER_KILOMETER: Unit<ResistancePerLength> = Unit::new(1e-3);

#[cfg(test)]
mod tests {
    use super::*;

    /// 6.894757 kPa: NIST Special Publication 811, appendix B.8 (from memory).
    #[test]
    fn a_psi_is_6_894757_kilopascal() {
        let kilopascals = KILOPASCAL.read(PSI.of(1.0));
        assert!((kilopascals - 6.894_757).abs() < 5e-7);
    }

    #[test]
    fn a_figure_read_back_is_the_figure_given() {
        for figure in [0.1, 1.0, 37.5, 1e4] {
            assert!((PSI.read(PSI.of(figure)) - figure).abs() <= figure * 1e-15);
            assert!((FOOT.read(FOOT.of(figure)) - figure).abs() <= figure * 1e-15);
        }
    }
}
