//! Gauge and absolute pressure. The air outside has one figure for each basis.

use uom::si::f64::{Length, Pressure};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LENGTH, PRESSURE, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{FOOT, KILOPASCAL, METER, PSI};

/// Standard air at the sea, kPa.
const SEA_KPA: f64 = 101.325;
/// Share of its warmth that air loses with each meter up: 6.5 K a km of 288.15 K.
const LAPSE: f64 = 0.006_5 / 288.15;
/// Weight of air over its gas constant and lapse: 9.80665 x 0.0289644 / (8.31432 x 0.0065).
const EXPONENT: f64 = 5.255_88;

const GAUGE: Bounds = Bounds {
    what: "gauge pressure",
    unit: "psi",
    min: -14.69,
    max: 10_000.0,
};

/// Pressure of the air at sea level, as a basis has it.
///
/// # Formula
/// ```text
/// 14.7 psi (trade, feet and psi)   101.3 kPa (trade, metric)   101.325 kPa (physical)
/// ```
///
/// # Valid for
/// Sea level. It falls by about half a psi each thousand feet; where that
/// matters, give the figure of [`atmosphere_at`] to a function that takes an
/// atmosphere.
///
/// # Source
/// Standard atmosphere 101.325 kPa: tenth General Conference on Weights and
/// Measures, 1954 (from memory). The trade's figures are that, rounded.
///
/// # Example
/// NIST Special Publication 811, appendix B.8 (from memory): one standard
/// atmosphere is 101.325 kPa.
/// ```
/// use pumpwright_calc::{pressure::atmosphere, registry::Basis};
/// use uom::si::pressure::kilopascal;
///
/// assert_eq!(atmosphere(Basis::Physical).get::<kilopascal>(), 101.325);
/// ```
pub fn atmosphere(basis: Basis) -> Pressure {
    match basis {
        Basis::UsTrade => PSI.of(14.7),
        Basis::SiTrade => KILOPASCAL.of(101.3),
        Basis::Physical => KILOPASCAL.of(101.325),
    }
}

/// Pressure of the air outside at a height above the sea, by the standard atmosphere.
///
/// # Formula
/// ```text
/// p = 101.325 · (1 - 0.0065 · z / 288.15)^5.25588     kPa, m
///
/// p  pressure of the air   z  height above the sea
/// ```
///
/// # Valid for
/// Standard air, 2,000 ft below the sea to 30,000 ft. Weather moves it by some 3 percent.
///
/// # Source
/// U.S. Standard Atmosphere, 1976, lowest layer (from memory). The accepted span is our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no height on land.
///
/// # Example
/// The tables of that document (from memory): 84.56 kPa, 12.26 psi, at 1500 m.
/// ```
/// use pumpwright_calc::pressure::atmosphere_at;
/// use uom::si::{f64::Length, length::meter, pressure::kilopascal};
///
/// let air = atmosphere_at(Length::new::<meter>(1_500.0))?;
/// assert_eq!(format!("{:.2}", air.get::<kilopascal>()), "84.56");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn atmosphere_at(altitude: Length) -> Result<Pressure, Refusal> {
    ALTITUDE.check(FOOT.read(altitude))?;
    let share = 1.0 - LAPSE * METER.read(altitude);
    Ok(KILOPASCAL.of(SEA_KPA * libm::pow(share, EXPONENT)))
}

const ALTITUDE: Bounds = Bounds::of("height above the sea", "ft", -2_000.0, 30_000.0);

/// Absolute pressure: what a gauge reads and the air outside together.
///
/// # Formula
/// ```text
/// a = g + 14.7      psi    (trade, feet and psi)
/// a = g + 101.3     kPa    (trade, metric)
/// a = g + 101.325   kPa    (physical)
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// A gauge that reads zero in open air at sea level.
///
/// # Source
/// Definition; the air's pressure as in [`atmosphere`]. The accepted span of g
/// is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] when the gauge pressure lies outside its span: none
/// is as low as an empty space.
///
/// # Example
/// The Driller, tank drawdown column, example 1: a precharge of 28 psi counts
/// as 42.7 psi.
/// ```
/// use pumpwright_calc::{pressure::absolute, registry::Basis};
/// use uom::si::f64::Pressure;
/// use uom::si::pressure::psi;
///
/// let charge = absolute(Pressure::new::<psi>(28.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", charge.get::<psi>()), "42.7");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn absolute(gauge: Pressure, basis: Basis) -> Result<Pressure, Refusal> {
    GAUGE.check(PSI.read(gauge))?;
    Ok(gauge + atmosphere(basis))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "pressure.absolute",
        title: "absolute pressure from a gauge reading",
        inputs: &[port("gauge", "g", "gauge pressure", PRESSURE)],
        gives: port("absolute", "a", "absolute pressure", PRESSURE),
        law: Law::Shown(Pair {
            us: "g + 14.7",
            si: "g + 101.3",
        }),
        valid: "A gauge that reads zero in open air at sea level.",
        source: "standard atmosphere 101.325 kPa (tenth General Conference on Weights and Measures, \
        1954, from memory), rounded as the trade does",
        caution: None,
        edition: 1,
        call: call!(basis, (gauge: Pressure) => absolute(gauge, basis)),
    },
    Function {
        name: "pressure.atmosphere_at",
        title: "pressure of the air outside at a height above the sea",
        inputs: &[port("altitude", "z", "height above the sea", LENGTH)],
        gives: port("atmosphere", "a", "pressure of the air", PRESSURE),
        law: Law::Named("by the standard atmosphere, 101.325 kPa at the sea"),
        valid: "Standard air, 2,000 ft below the sea to 30,000 ft; weather moves it by some 3 percent.",
        source: "U.S. Standard Atmosphere, 1976 (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (altitude: Length) => atmosphere_at(altitude)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn open_air_is_one_atmosphere() {
        for basis in [Basis::UsTrade, Basis::SiTrade, Basis::Physical] {
            assert_eq!(absolute(PSI.of(0.0), basis), Ok(atmosphere(basis)));
        }
    }

    /// U.S. Standard Atmosphere, 1976 (from memory): 89.874 kPa at 1000 m, 79.495 at 2000,
    /// 12.2 psi at 5000 ft.
    #[test]
    fn air_is_thinner_up_high() {
        for (meters, kilopascals) in [(0.0, 101.325), (1e3, 89.874), (2e3, 79.495), (5e3, 54.020)] {
            let air = KILOPASCAL.read(atmosphere_at(METER.of(meters)).unwrap());
            assert!((air / kilopascals - 1.0).abs() < 1e-4, "{meters}: {air}");
        }
        let air = PSI.read(atmosphere_at(FOOT.of(5e3)).unwrap());
        assert_eq!(format!("{air:.1}"), "12.2");
        assert!(atmosphere_at(FOOT.of(40_000.0)).is_err());
        assert!(atmosphere_at(FOOT.of(f64::NAN)).is_err());
    }

    #[test]
    fn less_than_an_empty_space_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -14.7] {
            assert!(absolute(PSI.of(figure), Basis::Physical).is_err());
        }
    }

    proptest! {
        #[test]
        fn the_result_is_above_nothing_and_grows(figure in -14.68..9_000.0_f64) {
            for basis in [Basis::UsTrade, Basis::SiTrade, Basis::Physical] {
                let at = |figure| absolute(PSI.of(figure), basis).unwrap();
                prop_assert!(at(figure) > PSI.of(0.0));
                prop_assert!(at(figure + 1.0) > at(figure));
            }
        }
    }
}
