//! Gauge and absolute pressure. The air outside has one figure for each basis.

use uom::si::f64::Pressure;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{PRESSURE, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{KILOPASCAL, PSI};

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
/// matters, give the true figure to a function that takes an atmosphere.
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
pub const FUNCTIONS: &[Function] = &[Function {
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
}];

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
