//! Distances between a well and what could foul it. Which distance is required
//! is law where the well stands, and not here.

use uom::si::f64::Length;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LENGTH, port};
use crate::registry::{Function, Law, Pair};
use crate::units::{FOOT, METER};

const EAST: Bounds = Bounds {
    what: "distance east or west",
    unit: "ft",
    min: -100_000.0,
    max: 100_000.0,
};
const NORTH: Bounds = Bounds {
    what: "distance north or south",
    ..EAST
};
const APART: Bounds = Bounds {
    what: "distance",
    unit: "ft",
    min: 0.0,
    max: 200_000.0,
};
const TAPE: Bounds = Bounds {
    what: "tape along the slope",
    ..APART
};
const HEIGHT: Bounds = Bounds {
    what: "difference in height",
    ..APART
};
const REQUIRED: Bounds = Bounds {
    what: "required distance",
    ..APART
};

/// The two level legs from the well to a point, at right angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Legs {
    /// East, or west where less than zero.
    pub east: Length,
    /// North, or south where less than zero.
    pub north: Length,
}

/// Level distance from two legs at right angles.
///
/// # Formula
/// ```text
/// d = √(x² + y²)
///
/// d  distance   x  east   y  north   all one unit
/// ```
///
/// # Valid for
/// Level legs to the nearest edge of the source, never to its middle. A tape
/// along a slope reads long.
///
/// # Source
/// Geometry (Pythagoras). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the leg outside its span.
///
/// # Example
/// The 3-4-5 triangle of Euclid's *Elements*, I.47: 60 ft and 80 ft make 100 ft.
/// ```
/// use pumpwright_calc::siting::{Legs, distance};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let legs = Legs {
///     east: Length::new::<foot>(60.0),
///     north: Length::new::<foot>(80.0),
/// };
/// assert_eq!(format!("{:.1}", distance(legs)?.get::<foot>()), "100.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn distance(legs: Legs) -> Result<Length, Refusal> {
    EAST.check(FOOT.read(legs.east))?;
    NORTH.check(FOOT.read(legs.north))?;
    let (east, north) = (METER.read(legs.east), METER.read(legs.north));
    Ok(METER.of((east * east + north * north).sqrt()))
}

/// A tape along a slope, and how far its ends differ in height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// As measured along the ground.
    pub tape: Length,
    /// Difference in height.
    pub rise: Length,
}

/// Level distance from a tape along a slope.
///
/// # Formula
/// ```text
/// d = √(t² - z²)
///
/// d  level distance   t  tape along the slope   z  difference in height   all one unit
/// ```
///
/// # Valid for
/// A tape drawn straight. Round a distance down, never up: a setback is measured level.
///
/// # Source
/// Geometry (Pythagoras); measured level: Minnesota Rules 4725.4450. The accepted spans are
/// our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the length outside its span; [`Refusal::Conflict`] where
/// the height is more than the tape.
///
/// # Example
/// The 3-4-5 triangle of Euclid's *Elements*, I.47: 100 ft of tape over 60 ft of height are
/// 80 ft.
/// ```
/// use pumpwright_calc::siting::{Slope, level_distance};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let slope = Slope {
///     tape: Length::new::<foot>(100.0),
///     rise: Length::new::<foot>(60.0),
/// };
/// assert_eq!(format!("{:.1}", level_distance(slope)?.get::<foot>()), "80.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn level_distance(slope: Slope) -> Result<Length, Refusal> {
    TAPE.check(FOOT.read(slope.tape))?;
    HEIGHT.check(FOOT.read(slope.rise))?;
    let (tape, rise) = (METER.read(slope.tape), METER.read(slope.rise));
    if rise > tape {
        return Err(Refusal::Conflict("the height is more than the tape"));
    }
    Ok(METER.of((tape * tape - rise * rise).sqrt()))
}

/// A distance as it stands and as a rule wants it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setback {
    /// As measured, to the nearest edge.
    pub distance: Length,
    /// As the sheet in force requires.
    pub required: Length,
}

/// Margin over a required distance; less than zero when it falls short.
///
/// # Formula
/// ```text
/// m = d - r
///
/// m  margin   d  distance   r  required distance   all one unit
/// ```
///
/// # Valid for
/// One row of one sheet. Never round a margin in your own favor.
///
/// # Source
/// Definition. The requirement comes from the sheet in force where the well
/// stands. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the distance outside its span.
///
/// # Example
/// Washington Administrative Code 173-160-171 asks 100 ft to a drainfield: a
/// well at 92 ft is 8 ft short.
/// ```
/// use pumpwright_calc::siting::{Setback, margin};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let setback = Setback {
///     distance: Length::new::<foot>(92.0),
///     required: Length::new::<foot>(100.0),
/// };
/// assert_eq!(format!("{:.1}", margin(setback)?.get::<foot>()), "-8.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn margin(setback: Setback) -> Result<Length, Refusal> {
    APART.check(FOOT.read(setback.distance))?;
    REQUIRED.check(FOOT.read(setback.required))?;
    Ok(setback.distance - setback.required)
}

const LAW_OF_THE_PLACE: Option<&str> = Some(
    "Distances are law where the well stands: the sheet in force there and the authority that \
     keeps it decide.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "siting.distance",
        title: "level distance from two legs",
        inputs: &[
            port("east", "x", "distance east", LENGTH),
            port("north", "y", "distance north", LENGTH),
        ],
        gives: port("distance", "d", "distance", LENGTH),
        law: Law::Shown(Pair::both("sqrt(x^2 + y^2)")),
        valid: "Level legs at right angles, to the nearest edge of the source.",
        source: "geometry (Pythagoras)",
        caution: LAW_OF_THE_PLACE,
        edition: 1,
        call: call!(_, (east: Length, north: Length) => distance(Legs { east, north })),
    },
    Function {
        name: "siting.level_distance",
        title: "level distance from a tape along a slope",
        inputs: &[
            port("tape", "t", "tape along the slope", LENGTH),
            port("rise", "z", "difference in height", LENGTH),
        ],
        gives: port("distance", "d", "level distance", LENGTH),
        law: Law::Shown(Pair::both("sqrt(t^2 - z^2)")),
        valid: "A tape drawn straight.",
        source: "geometry (Pythagoras); measured level: Minnesota Rules 4725.4450",
        caution: LAW_OF_THE_PLACE,
        edition: 1,
        call: call!(_, (tape: Length, rise: Length) => level_distance(Slope { tape, rise })),
    },
    Function {
        name: "siting.margin",
        title: "margin over a required distance",
        inputs: &[
            port("distance", "d", "distance", LENGTH),
            port("required", "r", "required distance", LENGTH),
        ],
        gives: port("margin", "m", "margin", LENGTH),
        law: Law::Shown(Pair::both("d - r")),
        valid: "One row of one sheet; less than zero is short.",
        source: "definition",
        caution: LAW_OF_THE_PLACE,
        edition: 1,
        call: call!(_, (distance: Length, required: Length) =>
            margin(Setback { distance, required })),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn straight(east: f64, north: f64) -> Result<f64, Refusal> {
        let legs = Legs {
            east: FOOT.of(east),
            north: FOOT.of(north),
        };
        distance(legs).map(|apart| FOOT.read(apart))
    }

    fn over(distance: f64, required: f64) -> Result<f64, Refusal> {
        let setback = Setback {
            distance: FOOT.of(distance),
            required: FOOT.of(required),
        };
        margin(setback).map(|margin| FOOT.read(margin))
    }

    #[test]
    fn a_leg_alone_is_the_distance() {
        assert!((straight(0.0, 75.0).unwrap() - 75.0).abs() < 1e-12);
        assert!((straight(-75.0, 0.0).unwrap() - 75.0).abs() < 1e-12);
        assert_eq!(straight(0.0, 0.0), Ok(0.0));
    }

    #[test]
    fn a_level_tape_is_the_distance_and_a_cliff_is_refused() {
        let level = |tape, rise| {
            let slope = Slope {
                tape: FOOT.of(tape),
                rise: FOOT.of(rise),
            };
            level_distance(slope).map(|apart| FOOT.read(apart))
        };
        assert!((level(75.0, 0.0).unwrap() - 75.0).abs() < 1e-12);
        assert!(level(75.0, 75.1).is_err());
        assert!(level(f64::NAN, 1.0).is_err());
    }

    #[test]
    fn on_the_line_there_is_no_margin() {
        assert_eq!(over(100.0, 100.0), Ok(0.0));
        assert!(over(-1.0, 100.0).is_err());
        assert!(over(100.0, -1.0).is_err());
    }

    #[test]
    fn what_is_no_length_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(straight(figure, 10.0).is_err());
            assert!(straight(10.0, figure).is_err());
            assert!(over(figure, 100.0).is_err());
            assert!(over(100.0, figure).is_err());
        }
    }

    proptest! {
        #[test]
        fn straight_is_between_the_longer_leg_and_both_added(
            east in -500.0..500.0_f64, north in -500.0..500.0_f64,
        ) {
            let (apart, dust) = (straight(east, north).unwrap(), 1e-9);
            prop_assert!(apart + dust >= east.abs().max(north.abs()));
            prop_assert!(apart <= east.abs() + north.abs() + dust);
        }

        #[test]
        fn margin_and_requirement_make_the_distance(
            distance in 0.0..1_000.0_f64, required in 0.0..1_000.0_f64,
        ) {
            prop_assert!((over(distance, required).unwrap() + required - distance).abs() < 1e-9);
        }
    }
}
