//! Properties of water itself.

use uom::si::f64::{MassDensity, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{DENSITY, TEMPERATURE, port};
use crate::registry::{Function, Law};
use crate::units::KILOGRAM_PER_CUBIC_METER;

const WARMTH: Bounds = Bounds {
    what: "temperature of the water",
    unit: "degC",
    min: -0.001,
    max: 100.001,
};

/// Kell's polynomial, from the constant upward.
const ABOVE: [f64; 6] = [
    999.839_52,
    16.945_176,
    -7.987_040_1e-3,
    -46.170_461e-6,
    105.563_02e-9,
    -280.542_53e-12,
];
/// Kell's divisor, the part that goes with the temperature.
const BELOW: f64 = 16.879_850e-3;

/// Density of water at atmospheric pressure.
///
/// # Formula
/// ```text
///     999.83952 + 16.945176 t - 7.9870401e-3 t² - 46.170461e-6 t³ + 105.56302e-9 t⁴ - 280.54253e-12 t⁵
/// ρ = ------------------------------------------------------------------------------------------------
///                                        1 + 16.879850e-3 t
///
/// ρ  density   kg/m³     t  temperature   °C
/// ```
///
/// # Valid for
/// Fresh water free of air, 0 to 100 °C, at one atmosphere. Dissolved salts make
/// it heavier.
///
/// # Source
/// G. S. Kell, *Journal of Chemical and Engineering Data* 20 (1975) 97, equation
/// 16 (from memory); within 2 parts in 100,000 of IAPWS-IF97 from 5 to 60 °C.
///
/// # Errors
/// [`Refusal::OutOfRange`] below freezing or above boiling.
///
/// # Example
/// Crittenden and others, *Water Treatment: Principles and Design*, third
/// edition, appendix C: 998.2 kg/m³ at 20 °C.
/// ```
/// use pumpwright_calc::water::density;
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::{mass_density::kilogram_per_cubic_meter, thermodynamic_temperature::degree_celsius};
///
/// let water = density(ThermodynamicTemperature::new::<degree_celsius>(20.0))?;
/// assert_eq!(format!("{:.1}", water.get::<kilogram_per_cubic_meter>()), "998.2");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn density(temperature: ThermodynamicTemperature) -> Result<MassDensity, Refusal> {
    let celsius = WARMTH.check(temperature.get::<degree_celsius>())?;
    let above = ABOVE
        .iter()
        .rev()
        .fold(0.0, |sum, term| sum * celsius + term);
    Ok(KILOGRAM_PER_CUBIC_METER.of(above / (1.0 + BELOW * celsius)))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "water.density",
    title: "density of fresh water",
    inputs: &[port(
        "temperature",
        "t",
        "temperature of the water",
        TEMPERATURE,
    )],
    gives: port("density", "w", "density of the water", DENSITY),
    law: Law::Named("by Kell's formula for water free of air"),
    valid: "Fresh water at one atmosphere, from freezing to boiling.",
    source: "G. S. Kell, Journal of Chemical and Engineering Data 20 (1975) 97, equation 16 \
        (from memory)",
    caution: None,
    edition: 1,
    call: call!(_, (temperature: ThermodynamicTemperature) => density(temperature)),
}];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn at(celsius: f64) -> Result<f64, Refusal> {
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(celsius);
        density(temperature).map(|water| KILOGRAM_PER_CUBIC_METER.read(water))
    }

    /// Pounds in a cubic foot at 140 degF, 61.38, and kilograms in a cubic meter
    /// at 212 degF, 958.35: a printed density table and IAPWS-95.
    #[test]
    fn hot_water_is_as_printed() {
        assert_eq!(format!("{:.2}", at(60.0).unwrap() / 16.018_463_4), "61.38");
        assert!((at(100.0).unwrap() - 958.35).abs() < 0.05);
    }

    #[test]
    fn water_is_heaviest_near_four_degrees() {
        assert!(at(4.0).unwrap() > at(0.0).unwrap());
        assert!(at(4.0).unwrap() > at(8.0).unwrap());
    }

    #[test]
    fn ice_and_steam_are_refused() {
        for celsius in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 101.0] {
            assert!(at(celsius).is_err());
        }
        assert!(at(0.0).is_ok() && at(100.0).is_ok());
    }

    proptest! {
        #[test]
        fn above_four_degrees_warmer_is_lighter(celsius in 4.0..99.0_f64) {
            prop_assert!(at(celsius + 0.5).unwrap() < at(celsius).unwrap());
        }
    }
}
