//! Properties of water itself: how heavy it is, and how it resists being sheared.

use uom::si::f64::{DynamicViscosity, KinematicViscosity, MassDensity, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{DENSITY, KINEMATIC, TEMPERATURE, VISCOSITY, port};
use crate::registry::{Function, Law, Port};
use crate::units::{KILOGRAM_PER_CUBIC_METER, PASCAL_SECOND};

const WARMTH: Bounds = Bounds::of("temperature of the water", "degC", -0.001, 100.001);

/// Volume of a kilogram of water, m³, that the release counts in:
/// 461.51805 J/(kg K) · 10 K / 100,000 Pa.
const VOLUME: f64 = 461.518_05 * 10.0 / 100_000.0;
const CONSTANT: f64 = 1.937_631_57e-2;
/// Factor and power of 10 K / (593 K - T).
const FROM_ABOVE: [(f64, i32); 5] = [
    (6.744_584_46e3, 4),
    (-2.225_216_04e5, 5),
    (1.002_312_47e8, 7),
    (-1.635_521_18e9, 8),
    (8.322_996_58e9, 9),
];
/// Factor and power of 10 K / (T - 232 K).
const FROM_BELOW: [(f64, i32); 6] = [
    (5.785_452_92e-3, 1),
    (-1.531_956_65e-2, 2),
    (3.113_378_59e-2, 3),
    (-4.235_462_41e-2, 4),
    (3.387_135_07e-2, 5),
    (-1.199_467_61e-2, 6),
];
/// Factor, in micropascal seconds, and power of T / 300 K.
const SHEAR: [(f64, f64); 4] = [
    (280.68, -1.9),
    (511.45, -7.7),
    (61.131, -19.6),
    (0.459_03, -40.0),
];

/// Density of water at atmospheric pressure.
///
/// # Formula
/// ```text
/// 1/ρ = 0.0461518 · (a + Σ b · (10 / (593 - T))^n + Σ c · (10 / (T - 232))^m)
///
/// ρ  density   kg/m³     T  temperature   K
/// ```
/// with one constant a, five b and six c.
///
/// # Valid for
/// Fresh water free of air, 0 to 100 °C, at 0.1 MPa; one atmosphere is so near
/// that the sixth figure is the same. Dissolved salts make it heavier.
///
/// # Source
/// IAPWS SR6-08, *Revised Supplementary Release on Properties of Liquid Water at
/// 0.1 MPa* (coefficients from memory; they agree with IAPWS-IF97 at one
/// atmosphere to 2 parts in 100,000 from 5 to 60 °C).
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
    let kelvin = kelvin(temperature)?;
    let above = 10.0 / (593.0 - kelvin);
    let below = 10.0 / (kelvin - 232.0);
    let terms = |powers: &[(f64, i32)], base: f64| {
        let each = powers.iter();
        each.fold(0.0, |sum, (factor, power)| {
            sum + factor * libm::pow(base, f64::from(*power))
        })
    };
    let volume = VOLUME * (CONSTANT + terms(&FROM_ABOVE, above) + terms(&FROM_BELOW, below));
    Ok(KILOGRAM_PER_CUBIC_METER.of(1.0 / volume))
}

fn kelvin(temperature: ThermodynamicTemperature) -> Result<f64, Refusal> {
    WARMTH.check(temperature.get::<degree_celsius>())?;
    Ok(temperature.si())
}

/// Dynamic viscosity of water at atmospheric pressure.
///
/// # Formula
/// ```text
/// μ = (280.68 t^-1.9 + 511.45 t^-7.7 + 61.131 t^-19.6 + 0.45903 t^-40) / 1,000,000
///
/// μ  dynamic viscosity   Pa·s     t  temperature / 300 K
/// ```
///
/// # Valid for
/// Fresh liquid water, 0 to 100 °C, at 0.1 MPa; pressure hardly matters.
///
/// # Source
/// IAPWS SR6-08, *Revised Supplementary Release on Properties of Liquid Water at
/// 0.1 MPa* (from memory); within 1 part in 10,000 of IAPWS R12-08 from 5 to
/// 60 °C. Values of the International Critical Tables (1928), which some
/// handbooks still print, are up to 0.7 percent higher.
///
/// # Errors
/// [`Refusal::OutOfRange`] below freezing or above boiling.
///
/// # Example
/// Crittenden and others, *Water Treatment: Principles and Design*, third
/// edition, appendix C: 1.002 mPa·s at 20 °C.
/// ```
/// use pumpwright_calc::water::viscosity;
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::{dynamic_viscosity::millipascal_second, thermodynamic_temperature::degree_celsius};
///
/// let water = viscosity(ThermodynamicTemperature::new::<degree_celsius>(20.0))?;
/// assert_eq!(format!("{:.3}", water.get::<millipascal_second>()), "1.002");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn viscosity(temperature: ThermodynamicTemperature) -> Result<DynamicViscosity, Refusal> {
    let warmth = kelvin(temperature)? / 300.0;
    let each = SHEAR.iter();
    let micro = each.fold(0.0, |sum, (factor, power)| {
        sum + factor * libm::pow(warmth, *power)
    });
    Ok(PASCAL_SECOND.of(micro / 1e6))
}

/// Kinematic viscosity of water at atmospheric pressure.
///
/// # Formula
/// ```text
/// ν = μ / ρ
///
/// ν  kinematic viscosity   m²/s     μ  dynamic viscosity, by `viscosity`   Pa·s
/// ρ  density, by `density`   kg/m³
/// ```
///
/// # Valid for
/// Fresh liquid water, 0 to 100 °C, near one atmosphere.
///
/// # Source
/// Definition; density and viscosity as in [`density`] and [`viscosity`].
///
/// # Errors
/// [`Refusal::OutOfRange`] below freezing or above boiling.
///
/// # Example
/// IAPWS-95 and the IAPWS viscosity of 2008, computed: 1.1221 mm²/s at 60 °F.
/// ```
/// use pumpwright_calc::water::kinematic_viscosity;
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::kinematic_viscosity::square_millimeter_per_second;
/// use uom::si::thermodynamic_temperature::degree_fahrenheit;
///
/// let water = kinematic_viscosity(ThermodynamicTemperature::new::<degree_fahrenheit>(60.0))?;
/// let figure = water.get::<square_millimeter_per_second>();
/// assert_eq!(format!("{figure:.3}"), "1.122");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn kinematic_viscosity(
    temperature: ThermodynamicTemperature,
) -> Result<KinematicViscosity, Refusal> {
    let (viscosity, density) = (viscosity(temperature)?, density(temperature)?);
    Ok(KinematicViscosity::from_si(viscosity.si() / density.si()))
}

const AT: &[Port] = &[port(
    "temperature",
    "t",
    "temperature of the water",
    TEMPERATURE,
)];
const RELEASE: &str = "IAPWS SR6-08, Revised Supplementary Release on Properties of Liquid Water at \
    0.1 MPa (coefficients from memory; checked against IAPWS-IF97 and IAPWS R12-08)";
const LIQUID: &str = "Fresh water near one atmosphere, from freezing to boiling.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "water.density",
        title: "density of fresh water",
        inputs: AT,
        gives: port("density", "w", "density of the water", DENSITY),
        law: Law::Named("by the international formula for water at atmospheric pressure"),
        valid: LIQUID,
        source: RELEASE,
        caution: None,
        edition: 2,
        call: call!(_, (temperature: ThermodynamicTemperature) => density(temperature)),
    },
    Function {
        name: "water.viscosity",
        title: "dynamic viscosity of fresh water",
        inputs: AT,
        gives: port("viscosity", "u", "dynamic viscosity", VISCOSITY),
        law: Law::Named("by the international formula for water at atmospheric pressure"),
        valid: LIQUID,
        source: RELEASE,
        caution: None,
        edition: 1,
        call: call!(_, (temperature: ThermodynamicTemperature) => viscosity(temperature)),
    },
    Function {
        name: "water.kinematic_viscosity",
        title: "kinematic viscosity of fresh water",
        inputs: AT,
        gives: port("viscosity", "v", "kinematic viscosity", KINEMATIC),
        law: Law::Named("dynamic viscosity over density, both by the international formulas"),
        valid: LIQUID,
        source: RELEASE,
        caution: None,
        edition: 1,
        call: call!(_, (temperature: ThermodynamicTemperature) =>
            kinematic_viscosity(temperature)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn warm(celsius: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(celsius)
    }

    fn at(celsius: f64) -> Result<f64, Refusal> {
        density(warm(celsius)).map(|water| KILOGRAM_PER_CUBIC_METER.read(water))
    }

    /// IAPWS-95 at 25 degC: 997.047 kg/m³; IAPWS R12-08: 0.890 mPa s (both from memory).
    #[test]
    fn the_usual_values_at_25_degrees_come_out() {
        assert!((at(25.0).unwrap() - 997.047).abs() < 5e-4);
        let shear = PASCAL_SECOND.read(viscosity(warm(25.0)).unwrap());
        assert!((shear - 0.890e-3).abs() < 5e-7);
    }

    /// Pounds in a cubic foot at 140 degF, 61.38, and kilograms in a cubic meter
    /// at 212 degF, 958.35: a printed density table and IAPWS-95.
    #[test]
    fn hot_water_is_as_printed() {
        assert_eq!(format!("{:.2}", at(60.0).unwrap() / 16.018_463_4), "61.38");
        assert!((at(100.0).unwrap() - 958.35).abs() < 0.01);
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
            assert!(viscosity(warm(celsius)).is_err());
        }
        assert!(at(0.0).is_ok() && at(100.0).is_ok());
    }

    proptest! {
        #[test]
        fn above_four_degrees_warmer_is_lighter_and_thinner(celsius in 4.0..99.0_f64) {
            prop_assert!(at(celsius + 0.5).unwrap() < at(celsius).unwrap());
            prop_assert!(viscosity(warm(celsius + 0.5)).unwrap() < viscosity(warm(celsius)).unwrap());
        }
    }
}
