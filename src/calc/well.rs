//! Water levels in a well. Depths are measured down from one mark, most often
//! the top of the casing.

use uom::si::f64::Length;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LENGTH, port};
use crate::registry::{Function, Law, Pair};
use crate::units::FOOT;

const STATIC_LEVEL: Bounds = Bounds {
    what: "static level",
    unit: "ft",
    min: -500.0,
    max: 10_000.0,
};
const PUMPING_LEVEL: Bounds = Bounds {
    what: "pumping level",
    ..STATIC_LEVEL
};

/// Depths to water below one mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// At rest; less than zero in a well that flows by itself.
    pub at_rest: Length,
    /// While pumping.
    pub pumping: Length,
}

/// Drawdown: how far the water falls while pumping.
///
/// # Formula
/// ```text
/// d = p - s
///
/// d  drawdown   p  pumping level   s  static level   all one unit
/// ```
///
/// # Valid for
/// Both levels measured from the same mark. The figure belongs to one flow and
/// one time of pumping.
///
/// # Source
/// Definition; Prairie Farm Rehabilitation Administration, *Specific Capacity*.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the level outside its span;
/// [`Refusal::Conflict`] when the water stands higher pumping than at rest.
///
/// # Example
/// A water-technology lecture (MTH 082, well drawdown problem): from 140 ft down
/// to 167 ft is a drawdown of 27 ft.
/// ```
/// use pumpwright_calc::well::{Levels, drawdown};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let levels = Levels {
///     at_rest: Length::new::<foot>(140.0),
///     pumping: Length::new::<foot>(167.0),
/// };
/// assert_eq!(format!("{:.0}", drawdown(levels)?.get::<foot>()), "27");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown(levels: Levels) -> Result<Length, Refusal> {
    STATIC_LEVEL.check(FOOT.read(levels.at_rest))?;
    PUMPING_LEVEL.check(FOOT.read(levels.pumping))?;
    if levels.pumping < levels.at_rest {
        return Err(Refusal::Conflict(
            "the pumping level is above the static level; pumping lowers the water",
        ));
    }
    Ok(levels.pumping - levels.at_rest)
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "well.drawdown",
    title: "how far the water falls while pumping",
    inputs: &[
        port("static_level", "s", "static level", LENGTH),
        port("pumping_level", "p", "pumping level", LENGTH),
    ],
    gives: port("drawdown", "d", "drawdown", LENGTH),
    law: Law::Shown(Pair::both("p - s")),
    valid: "Both levels measured from the same mark.",
    source: "definition; Prairie Farm Rehabilitation Administration, Specific Capacity",
    caution: None,
    edition: 1,
    call: call!(_, (static_level: Length, pumping_level: Length) =>
        drawdown(Levels { at_rest: static_level, pumping: pumping_level })),
}];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn between(at_rest: f64, pumping: f64) -> Result<f64, Refusal> {
        let levels = Levels {
            at_rest: FOOT.of(at_rest),
            pumping: FOOT.of(pumping),
        };
        drawdown(levels).map(|fall| FOOT.read(fall))
    }

    #[test]
    fn a_level_that_stays_has_no_drawdown() {
        assert_eq!(between(62.0, 62.0), Ok(0.0));
    }

    #[test]
    fn a_flowing_well_is_drawn_down_from_above_ground() {
        assert!((between(-12.0, 30.0).unwrap() - 42.0).abs() < 1e-9);
    }

    #[test]
    fn water_that_rises_while_pumping_is_refused() {
        assert!(matches!(between(80.0, 60.0), Err(Refusal::Conflict(_))));
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e6] {
            assert!(between(figure, 100.0).is_err());
            assert!(between(10.0, figure).is_err());
        }
    }

    proptest! {
        #[test]
        fn a_lower_pumping_level_is_more_drawdown(rest in -50.0..500.0_f64, fall in 0.0..500.0_f64) {
            let here = between(rest, rest + fall).unwrap();
            prop_assert!((here - fall).abs() < 1e-9);
            prop_assert!(between(rest, rest + fall + 1.0).unwrap() > here);
        }
    }
}
