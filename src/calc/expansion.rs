//! Water that a heater pushes out, and the tank that takes it in.

use uom::si::f64::{MassDensity, Pressure, ThermodynamicTemperature, Volume};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{DENSITY, PRESSURE, TEMPERATURE, VOLUME, port};
use crate::pressure::atmosphere;
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{GALLON, KILOGRAM_PER_CUBIC_METER, PSI};
use crate::water;

const HEATER: Bounds = Bounds::of("volume of the heater", "gal", 0.0, 100_000.0);
const COLD: Bounds = Bounds::of("density of the cold water", "kg/m3", 800.0, 1_300.0);
const HOT: Bounds = Bounds::of("density of the hot water", "kg/m3", 800.0, 1_300.0);
const TAKEN: Bounds = Bounds::of("water to be taken in", "gal", 0.0, 100_000.0);
const CHARGE: Bounds = Bounds::of("precharge", "psi", 0.0, 1_000.0);
const LIMIT: Bounds = Bounds::of("highest pressure", "psi", 0.1, 1_000.0);
const AIR: Bounds = Bounds::of("pressure of the air outside", "psi", 5.0, 20.0);

/// Water pushed out by heating, from the densities.
///
/// # Formula
/// ```text
/// e = V · (c / h - 1)
///
/// e  pushed out   V  volume of the heater   c  density cold   h  density hot
/// ```
///
/// # Valid for
/// The whole heater warmed from one to the other; the heater's own growth, a twentieth
/// of the water's, is left out on the safe side.
///
/// # Source
/// Mass balance. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where the hot water is the heavier.
///
/// # Example
/// A printed density table: 62.41 lb/ft³ at 50 °F, 61.38 at 140 °F; an article on sizing
/// has roughly 0.84 gal for 50 gal.
/// ```
/// use pumpwright_calc::expansion::growth;
/// use uom::si::f64::{MassDensity, Volume};
/// use uom::si::{mass_density::pound_per_cubic_foot, volume::gallon};
///
/// let density = MassDensity::new::<pound_per_cubic_foot>;
/// let out = growth(Volume::new::<gallon>(50.0), density(62.41), density(61.38))?;
/// assert_eq!(format!("{:.2}", out.get::<gallon>()), "0.84");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn growth(heater: Volume, cold: MassDensity, hot: MassDensity) -> Result<Volume, Refusal> {
    HEATER.check(GALLON.read(heater))?;
    COLD.check(KILOGRAM_PER_CUBIC_METER.read(cold))?;
    HOT.check(KILOGRAM_PER_CUBIC_METER.read(hot))?;
    if hot > cold {
        return Err(Refusal::Conflict(
            "the hot water is heavier than the cold; nothing is pushed out",
        ));
    }
    Ok(heater * (cold.si() / hot.si() - 1.0))
}

/// Water pushed out by heating, from the temperatures.
///
/// # Formula
/// ```text
/// e = V · (ρ(cold) / ρ(hot) - 1)     ρ by `water::density`
/// ```
///
/// # Valid for
/// As [`growth`], from above 4 °C.
///
/// # Source
/// Mass balance; densities as in [`water::density`].
///
/// # Errors
/// As [`growth`] and [`water::density`].
///
/// # Example
/// An article on sizing: 50 gal from 50 to 140 °F push out roughly 0.84 gal.
/// ```
/// use pumpwright_calc::expansion::growth_between;
/// use uom::si::f64::{ThermodynamicTemperature, Volume};
/// use uom::si::{thermodynamic_temperature::degree_fahrenheit, volume::gallon};
///
/// let warmth = ThermodynamicTemperature::new::<degree_fahrenheit>;
/// let out = growth_between(Volume::new::<gallon>(50.0), warmth(50.0), warmth(140.0))?;
/// assert_eq!(format!("{:.2}", out.get::<gallon>()), "0.84");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn growth_between(
    heater: Volume,
    cold: ThermodynamicTemperature,
    hot: ThermodynamicTemperature,
) -> Result<Volume, Refusal> {
    growth(heater, water::density(cold)?, water::density(hot)?)
}

/// Water to be taken in and the gauge pressures between which it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acceptance {
    /// Water pushed out.
    pub water: Volume,
    /// Air charge of the empty tank, equal to the supply's pressure.
    pub precharge: Pressure,
    /// Highest pressure allowed.
    pub highest: Pressure,
}

/// Least expansion tank.
///
/// # Formula
/// ```text
/// V = e / (1 - (c + a) / (m + a))
///
/// V  tank volume   e  water pushed out   c  precharge   m  highest pressure
/// a  air outside: 14.7 psi, 101.3 kPa (trade); 101.325 kPa (physical)
/// ```
/// c and m are gauge pressures.
///
/// # Valid for
/// A charge equal to the cold supply's pressure. The next stock size up is the one to
/// buy. The growth of tank and pipe is left out on the safe side.
///
/// # Source
/// Boyle's law; a plumbing engineer's article on thermal expansion tanks, part 2 (2015).
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where the precharge is not below the highest pressure.
///
/// # Example
/// That article: 2 gal between 80 and 135 psi want 5.44 gal.
/// ```
/// use pumpwright_calc::{expansion::{Acceptance, tank}, registry::Basis};
/// use uom::si::f64::{Pressure, Volume};
/// use uom::si::{pressure::psi, volume::gallon};
///
/// let acceptance = Acceptance {
///     water: Volume::new::<gallon>(2.0),
///     precharge: Pressure::new::<psi>(80.0),
///     highest: Pressure::new::<psi>(135.0),
/// };
/// let tank = tank(acceptance, Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", tank.get::<gallon>()), "5.44");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn tank(acceptance: Acceptance, basis: Basis) -> Result<Volume, Refusal> {
    tank_under(acceptance, atmosphere(basis))
}

/// Least expansion tank, under air of a known pressure.
///
/// # Formula
/// ```text
/// V = e / (1 - (c + a) / (m + a))     as in `tank`, a the air outside, absolute
/// ```
///
/// # Valid for
/// As [`tank`], away from sea level.
///
/// # Source
/// As [`tank`].
///
/// # Errors
/// As [`tank`].
///
/// # Example
/// The article of [`tank`], with its own 14.7 psi of air: 5.44 gal.
/// ```
/// use pumpwright_calc::expansion::{Acceptance, tank_under};
/// use uom::si::f64::{Pressure, Volume};
/// use uom::si::{pressure::psi, volume::gallon};
///
/// let acceptance = Acceptance {
///     water: Volume::new::<gallon>(2.0),
///     precharge: Pressure::new::<psi>(80.0),
///     highest: Pressure::new::<psi>(135.0),
/// };
/// let tank = tank_under(acceptance, Pressure::new::<psi>(14.7))?;
/// assert_eq!(format!("{:.2}", tank.get::<gallon>()), "5.44");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn tank_under(acceptance: Acceptance, atmosphere: Pressure) -> Result<Volume, Refusal> {
    TAKEN.check(GALLON.read(acceptance.water))?;
    let charge = CHARGE.check(PSI.read(acceptance.precharge))?;
    let highest = LIMIT.check(PSI.read(acceptance.highest))?;
    let air = AIR.check(PSI.read(atmosphere))?;
    if charge >= highest {
        return Err(Refusal::Conflict(
            "the precharge is not below the highest pressure; the tank takes no water",
        ));
    }
    Ok(acceptance.water / (1.0 - (charge + air) / (highest + air)))
}

const OUT: Port = port("water", "e", "water pushed out", VOLUME);
const HEATER_PORT: Port = port("volume", "v", "volume of the heater", VOLUME);
const TANK: Port = port("tank", "t", "tank volume", VOLUME);
const SCALD: Option<&str> = Some(
    "Hot water scalds and a shut-in heater bursts: the relief valve stays, whatever tank is added. \
     Where a closed system needs one, the plumbing code in force says.",
);
const ARTICLE: &str = "Boyle's law; a plumbing engineer's article on thermal expansion tanks, part 2 \
    (2015)";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "expansion.growth",
        title: "water pushed out by heating, from the densities",
        inputs: &[
            HEATER_PORT,
            port("cold", "c", "density of the cold water", DENSITY),
            port("hot", "h", "density of the hot water", DENSITY),
        ],
        gives: OUT,
        law: Law::Shown(Pair::both("v * (c / h - 1)")),
        valid: "The whole heater warmed; its own growth is left out.",
        source: "mass balance",
        caution: SCALD,
        edition: 1,
        call: call!(_, (volume: Volume, cold: MassDensity, hot: MassDensity) =>
            growth(volume, cold, hot)),
    },
    Function {
        name: "expansion.growth_between",
        title: "water pushed out by heating, from the temperatures",
        inputs: &[
            HEATER_PORT,
            port("cold", "c", "temperature of the cold water", TEMPERATURE),
            port("hot", "h", "temperature of the hot water", TEMPERATURE),
        ],
        gives: OUT,
        law: Law::Named("by the densities of the water cold and hot"),
        valid: "The whole heater warmed, from above 4 degC; its own growth is left out.",
        source: "mass balance; densities by IAPWS SR6-08 (from memory)",
        caution: SCALD,
        edition: 1,
        call: call!(_, (
            volume: Volume,
            cold: ThermodynamicTemperature,
            hot: ThermodynamicTemperature
        ) => growth_between(volume, cold, hot)),
    },
    Function {
        name: "expansion.tank",
        title: "least expansion tank",
        inputs: &[
            OUT,
            port("precharge", "c", "precharge", PRESSURE),
            port("highest", "m", "highest pressure", PRESSURE),
        ],
        gives: TANK,
        law: Law::Shown(Pair {
            us: "e / (1 - (c + 14.7) / (m + 14.7))",
            si: "e / (1 - (c + 101.3) / (m + 101.3))",
        }),
        valid: "Gauge pressures at sea level; a charge equal to the supply's pressure.",
        source: ARTICLE,
        caution: SCALD,
        edition: 1,
        call: call!(basis, (water: Volume, precharge: Pressure, highest: Pressure) =>
            tank(Acceptance { water, precharge, highest }, basis)),
    },
    Function {
        name: "expansion.tank_under",
        title: "least expansion tank, away from sea level",
        inputs: &[
            OUT,
            port("precharge", "c", "precharge", PRESSURE),
            port("highest", "m", "highest pressure", PRESSURE),
            port("atmosphere", "a", "pressure of the air outside", PRESSURE),
        ],
        gives: TANK,
        law: Law::Shown(Pair::both("e / (1 - (c + a) / (m + a))")),
        valid: "Gauge pressures; a charge equal to the supply's pressure.",
        source: ARTICLE,
        caution: SCALD,
        edition: 1,
        call: call!(_, (
            water: Volume,
            precharge: Pressure,
            highest: Pressure,
            atmosphere: Pressure
        ) => tank_under(Acceptance { water, precharge, highest }, atmosphere)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use uom::si::thermodynamic_temperature::degree_celsius;

    use super::*;

    fn warm(celsius: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(celsius)
    }

    #[test]
    fn cooling_and_a_full_charge_are_refused() {
        assert!(growth_between(GALLON.of(50.0), warm(60.0), warm(20.0)).is_err());
        assert!(growth_between(GALLON.of(f64::NAN), warm(10.0), warm(20.0)).is_err());
        let full = Acceptance {
            water: GALLON.of(1.0),
            precharge: PSI.of(150.0),
            highest: PSI.of(150.0),
        };
        assert!(tank(full, Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn hotter_pushes_out_more(hot in 20.0..90.0_f64) {
            let out = |hot| growth_between(GALLON.of(50.0), warm(10.0), warm(hot)).unwrap();
            prop_assert!(out(hot + 1.0) > out(hot));
        }

        /// At the highest pressure the charge's air holds what is left of the tank.
        #[test]
        fn the_air_of_the_tank_found_keeps_pressure_times_volume(
            charge in 20.0..80.0_f64, over in 5.0..90.0_f64, gallons in 0.1..5.0_f64,
        ) {
            let acceptance = Acceptance {
                water: GALLON.of(gallons),
                precharge: PSI.of(charge),
                highest: PSI.of(charge + over),
            };
            let whole = GALLON.read(tank(acceptance, Basis::UsTrade).unwrap());
            let left = (charge + over + 14.7) * (whole - gallons);
            prop_assert!((left / ((charge + 14.7) * whole) - 1.0).abs() < 1e-9);
        }
    }
}
