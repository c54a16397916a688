//! Friction of water in a straight pipe. Fittings are not here.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{BORE, LENGTH, PIPE_FLOW, PLAIN, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{
    CUBIC_FOOT_PER_SECOND, CUBIC_METER_PER_SECOND, FOOT, GALLON_PER_MINUTE, INCH, METER,
};

/// In feet and cubic feet a second.
const COEFFICIENT: f64 = 4.727;
/// In feet, gallons a minute and inches.
const US_COEFFICIENT: f64 = 10.46;
/// In meters and cubic meters a second.
const SI_COEFFICIENT: f64 = 10.67;
/// The first of these in coherent units, unrounded.
const COHERENT_COEFFICIENT: f64 = 10.666_829_488_930_054;
/// Per foot, in gallons a minute and inches: 0.2083 for 100 ft.
const OLDER_COEFFICIENT: f64 = 0.002_083;
const OLDER_BORE_EXPONENT: f64 = 4.8655;
pub(crate) const FLOW_EXPONENT: f64 = 1.852;
const BORE_EXPONENT: f64 = 4.871;

const RUN: Bounds = Bounds {
    what: "pipe length",
    unit: "ft",
    min: 0.0,
    max: 100_000.0,
};
const BORE_SPAN: Bounds = Bounds {
    what: "inside diameter",
    unit: "in",
    min: 0.1,
    max: 100.0,
};
const FLOW: Bounds = Bounds {
    what: "flow",
    unit: "gpm",
    min: 0.0,
    max: 100_000.0,
};
const SMOOTHNESS: Bounds = Bounds {
    what: "Hazen-Williams C",
    unit: "",
    min: 40.0,
    max: 160.0,
};

/// A straight pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    /// Length along the pipe.
    pub length: Length,
    /// Inside diameter.
    pub bore: Length,
    /// Hazen-Williams C: higher is smoother.
    pub c: f64,
}

impl Pipe {
    /// Refuses what is out of its span.
    pub(crate) fn checked(self, flow: VolumeRate) -> Result<(), Refusal> {
        RUN.check(FOOT.read(self.length))?;
        BORE_SPAN.check(INCH.read(self.bore))?;
        FLOW.check(GALLON_PER_MINUTE.read(flow))?;
        SMOOTHNESS.check(self.c)?;
        Ok(())
    }

    /// Meters lost at a cubic meter a second, the pipe already looked at.
    pub(crate) fn resistance(self) -> f64 {
        let bore_term = libm::pow(METER.read(self.bore), BORE_EXPONENT);
        let smoothness = libm::pow(self.c, FLOW_EXPONENT);
        COHERENT_COEFFICIENT * METER.read(self.length) / (smoothness * bore_term)
    }
}

/// Friction head of water in a straight pipe, by Hazen-Williams.
///
/// # Formula
/// ```text
/// h =  4.727 · L · (Q / C)^1.852 / d^4.871   ft, ft³/s, ft     (physical)
/// h = 10.46  · L · (Q / C)^1.852 / d^4.871   ft, gpm, in       (trade, feet and gpm)
/// h = 10.67  · L · (Q / C)^1.852 / d^4.871   m, m³/s, m        (trade, metric)
///
/// h  friction head   L  pipe length   Q  flow   d  inside diameter
/// ```
/// The last two are the first in other units, the factor rounded to four
/// figures. Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Water in turbulent flow, pipe full; no other liquid. Laminar flow is not
/// detected here. Fittings are not included. New plastic pipe: C 140 to 150;
/// old iron pipe, crusted, 40 to 80 (from memory).
///
/// # Source
/// U.S. EPA, *EPANET 2.2 User Manual*, chapter 3, tables "Pipe Headloss
/// Formulas for Full Flow" and "Roughness Coefficients for New Pipe". The
/// accepted spans of L, d, Q and C are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its accepted span.
///
/// # Example
/// 100 ft of 1 in Schedule 40 plastic, C 150, at 10 gpm. The printed table of
/// 77 Ill. Adm. Code 906, Appendix A, Exhibit I says 5.50 ft.
/// ```
/// use pumpwright_calc::friction::{Pipe, hazen_williams};
/// use pumpwright_calc::registry::Basis;
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::{foot, inch}, volume_rate::gallon_per_minute};
///
/// let pipe = Pipe {
///     length: Length::new::<foot>(100.0),
///     bore: Length::new::<inch>(1.049),
///     c: 150.0,
/// };
/// let flow = VolumeRate::new::<gallon_per_minute>(10.0);
/// let head = hazen_williams(pipe, flow, Basis::Physical)?;
/// assert_eq!(format!("{:.2}", head.get::<foot>()), "5.50");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn hazen_williams(pipe: Pipe, flow: VolumeRate, basis: Basis) -> Result<Length, Refusal> {
    pipe.checked(flow)?;
    let (coefficient, long, wide, through) = match basis {
        Basis::UsTrade => (US_COEFFICIENT, FOOT, INCH, GALLON_PER_MINUTE),
        Basis::SiTrade => (SI_COEFFICIENT, METER, METER, CUBIC_METER_PER_SECOND),
        Basis::Physical => (COEFFICIENT, FOOT, FOOT, CUBIC_FOOT_PER_SECOND),
    };
    let flow_term = libm::pow(through.read(flow) / pipe.c, FLOW_EXPONENT);
    let bore_term = libm::pow(wide.read(pipe.bore), BORE_EXPONENT);
    Ok(long.of(coefficient * long.read(pipe.length) * flow_term / bore_term))
}

/// Friction head of water in a straight pipe, by Hazen-Williams in the older
/// American constants.
///
/// # Formula
/// ```text
/// h = 0.002083 · L · (100 / C)^1.852 · Q^1.852 / d^4.8655   ft, gpm, in
///
/// h  friction head   L  pipe length   Q  flow   d  inside diameter
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// As [`hazen_williams`], which follows EPANET and is the one to use here. This
/// form stands in older handbooks and tables: it reads 0.7 percent higher at
/// 1 in, 1.1 at 2 in, 1.9 at 8 in. It is here to check such tables, under its own
/// name.
///
/// # Source
/// Older handbooks of the trade, constants 0.2083 per 100 ft and 4.8655 (from
/// memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its accepted span.
///
/// # Example
/// MIL-HDBK-1164, appendix A, step 2: 500 gpm through 1000 ft of 8 in, C 100,
/// about 8.1 ft. This form says 8.38, EPANET's 8.22.
/// ```
/// use pumpwright_calc::friction::{Pipe, hazen_williams_older};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::{foot, inch}, volume_rate::gallon_per_minute};
///
/// let pipe = Pipe {
///     length: Length::new::<foot>(1000.0),
///     bore: Length::new::<inch>(8.0),
///     c: 100.0,
/// };
/// let head = hazen_williams_older(pipe, VolumeRate::new::<gallon_per_minute>(500.0))?;
/// assert!((head.get::<foot>() / 8.1 - 1.0).abs() < 0.04);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn hazen_williams_older(pipe: Pipe, flow: VolumeRate) -> Result<Length, Refusal> {
    pipe.checked(flow)?;
    let flow_term = libm::pow(100.0 / pipe.c * GALLON_PER_MINUTE.read(flow), FLOW_EXPONENT);
    let bore_term = libm::pow(INCH.read(pipe.bore), OLDER_BORE_EXPONENT);
    Ok(FOOT.of(OLDER_COEFFICIENT * FOOT.read(pipe.length) * flow_term / bore_term))
}

const IN_PIPE: &[Port] = &[
    port("length", "l", "pipe length", LENGTH),
    port("bore", "d", "inside diameter", BORE),
    port("flow", "q", "flow", PIPE_FLOW),
    port("c", "c", "Hazen-Williams C", PLAIN),
];

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "friction.hazen_williams",
        title: "friction head in a straight pipe",
        inputs: IN_PIPE,
        gives: port("head", "h", "friction head", LENGTH),
        law: Law::Shown(Pair {
            us: "10.46 * l * (q / c)^1.852 / d^4.871",
            si: "10.67 * l * (q / c)^1.852 / d^4.871",
        }),
        valid: "Water in turbulent flow in a full pipe. Fittings are not included.",
        source: "U.S. EPA, EPANET 2.2 User Manual, chapter 3, table \"Pipe Headloss Formulas for \
        Full Flow\"; its factor 4.727 in the lesson's units",
        caution: None,
        edition: 1,
        call: call!(basis, (length: Length, bore: Length, flow: VolumeRate, c: f64) =>
        hazen_williams(Pipe { length, bore, c }, flow, basis)),
    },
    Function {
        name: "friction.hazen_williams_older",
        title: "friction head by the older American constants, to check old tables",
        inputs: IN_PIPE,
        gives: port("head", "h", "friction head", LENGTH),
        law: Law::Named("by Hazen-Williams in the older constants, 0.2083 and 4.8655"),
        valid: "Water in turbulent flow in a full pipe; 0.7 to 2 percent above EPANET's constants.",
        source: "older handbooks of the trade (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (length: Length, bore: Length, flow: VolumeRate, c: f64) =>
        hazen_williams_older(Pipe { length, bore, c }, flow)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const EVERY: [Basis; 3] = [Basis::UsTrade, Basis::SiTrade, Basis::Physical];

    fn pipe(length: f64, bore: f64, c: f64) -> Pipe {
        Pipe {
            length: FOOT.of(length),
            bore: INCH.of(bore),
            c,
        }
    }

    fn feet(pipe: Pipe, gpm: f64, basis: Basis) -> f64 {
        FOOT.read(hazen_williams(pipe, GALLON_PER_MINUTE.of(gpm), basis).unwrap())
    }

    #[test]
    fn the_three_factors_are_one_law_rounded() {
        let exact = feet(pipe(320.0, 1.38, 140.0), 12.0, Basis::Physical);
        for basis in EVERY {
            let ours = feet(pipe(320.0, 1.38, 140.0), 12.0, basis);
            assert!((ours / exact - 1.0).abs() < 5e-4, "{basis:?}");
        }
    }

    #[test]
    fn the_coherent_factor_is_the_first_in_other_units() {
        let line = pipe(320.0, 1.38, 140.0);
        let flow = GALLON_PER_MINUTE.of(12.0);
        let by_resistance =
            line.resistance() * libm::pow(CUBIC_METER_PER_SECOND.read(flow), FLOW_EXPONENT);
        let ours = METER.read(hazen_williams(line, flow, Basis::Physical).unwrap());
        assert!((by_resistance / ours - 1.0).abs() < 1e-13);
    }

    /// An older handbook's 0.7 percent at 1 in and 1.9 at 8 in (from memory).
    #[test]
    fn the_older_constants_read_higher() {
        for (bore, gpm, over) in [(1.049, 10.0, 1.0073), (8.0, 500.0, 1.0186)] {
            let line = pipe(100.0, bore, 100.0);
            let older = hazen_williams_older(line, GALLON_PER_MINUTE.of(gpm)).unwrap();
            let ratio = FOOT.read(older) / feet(line, gpm, Basis::Physical);
            assert!((ratio / over - 1.0).abs() < 1e-3, "{ratio}");
        }
    }

    #[test]
    fn still_water_and_no_pipe_lose_nothing() {
        for basis in EVERY {
            assert_eq!(feet(pipe(100.0, 1.049, 150.0), 0.0, basis), 0.0);
            assert_eq!(feet(pipe(0.0, 1.049, 150.0), 10.0, basis), 0.0);
        }
    }

    #[test]
    fn what_is_out_of_its_span_is_named() {
        let flow = GALLON_PER_MINUTE.of(10.0);
        let refused = |pipe| {
            hazen_williams(pipe, flow, Basis::UsTrade)
                .unwrap_err()
                .to_string()
        };
        assert_eq!(
            refused(pipe(100.0, 1.0, 15.0)),
            "Hazen-Williams C is 15; it must be 40 to 160"
        );
        assert!(refused(pipe(100.0, 0.0, 150.0)).starts_with("inside diameter is 0 in;"));
        assert!(refused(pipe(-1.0, 1.0, 150.0)).starts_with("pipe length is -1 ft;"));
        assert!(refused(pipe(f64::NAN, 1.0, 150.0)).starts_with("pipe length is NaN ft;"));
        for gpm in [f64::NAN, f64::INFINITY, -5.0] {
            let flow = GALLON_PER_MINUTE.of(gpm);
            assert!(hazen_williams(pipe(1.0, 1.0, 150.0), flow, Basis::SiTrade).is_err());
        }
    }

    proptest! {
        #[test]
        fn more_flow_more_length_less_bore_lose_more(
            length in 1.0..5_000.0_f64, bore in 0.5..8.0_f64, gpm in 0.5..500.0_f64,
            c in 80.0..150.0_f64, at in 0_usize..3,
        ) {
            let basis = EVERY[at];
            let here = feet(pipe(length, bore, c), gpm, basis);
            prop_assert!(here.is_finite() && here > 0.0);
            prop_assert!(feet(pipe(length, bore, c), gpm * 1.01, basis) > here);
            prop_assert!(feet(pipe(length, bore * 1.01, c), gpm, basis) < here);
            prop_assert!(feet(pipe(length, bore, c * 1.01), gpm, basis) < here);
            let twice = feet(pipe(2.0 * length, bore, c), gpm, basis);
            prop_assert!((twice / here - 2.0).abs() < 1e-12);
        }
    }
}
