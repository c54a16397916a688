//! How many of a thing go along a string: ties, guards, arresters, check valves, joints.

use uom::si::f64::Length;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{JOINTS, LENGTH, PLACES, VALVES, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::FOOT;

/// A quotient this near a whole number is that number.
const SNAP: f64 = 1e-9;

const ALONG: Bounds = Bounds::of("length", "ft", 0.0, 100_000.0);
const APART: Bounds = Bounds::of("spacing", "ft", 0.01, 10_000.0);
const FIRST: Bounds = Bounds::of("place of the first", "ft", 0.0, 100_000.0);
const JOINT: Bounds = Bounds::of("length of a joint", "ft", 0.01, 1_000.0);
const SETTING: Bounds = Bounds::of("pump setting", "ft", 0.0, 100_000.0);

fn snapped(quotient: f64) -> f64 {
    let near = quotient.round();
    if (quotient - near).abs() <= SNAP * near.max(1.0) {
        near
    } else {
        quotient
    }
}

/// Places along a string.
///
/// # Formula
/// ```text
/// n = 1 + (l - f) / s, the quotient down to a whole number     none where f is past l
///
/// n  places   l  length   f  place of the first above the pump   s  spacing
/// ```
///
/// # Valid for
/// The fence-post question settled so: the first at f, then one every s, none past the
/// end. Where the spacing divides the rest exactly, the last is at the top; some counts
/// leave that one out.
///
/// # Source
/// Counting; spacings are common practice, no source, but New Hampshire We 702.04(h)
/// tapes cable every 5 to 20 ft. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Counted one by one: ties every 10 ft on 240 ft, the first at 10 ft, are 24.
/// ```
/// use pumpwright_calc::spacing::places;
/// use uom::si::{f64::Length, length::foot};
///
/// let feet = Length::new::<foot>;
/// assert_eq!(places(feet(240.0), feet(10.0), feet(10.0))?, 24.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn places(length: Length, spacing: Length, first: Length) -> Result<f64, Refusal> {
    let along = ALONG.check(FOOT.read(length))?;
    let apart = APART.check(FOOT.read(spacing))?;
    let first = FIRST.check(FOOT.read(first))?;
    let steps = snapped((along - first) / apart);
    Ok(if steps < 0.0 {
        0.0
    } else {
        1.0 + steps.floor()
    })
}

/// Joints of pipe in a string.
///
/// # Formula
/// ```text
/// n = l / j, up to a whole number
///
/// n  joints   l  length   j  length of a joint
/// ```
///
/// # Valid for
/// Whole joints; the last one is cut or left long.
///
/// # Source
/// Counting; 21 ft joints of galvanized pipe: a trade column. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That column's 21 ft: 273 ft are 13 joints.
/// ```
/// use pumpwright_calc::spacing::joints;
/// use uom::si::{f64::Length, length::foot};
///
/// assert_eq!(joints(Length::new::<foot>(273.0), Length::new::<foot>(21.0))?, 13.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn joints(length: Length, joint: Length) -> Result<f64, Refusal> {
    let along = ALONG.check(FOOT.read(length))?;
    Ok(snapped(along / JOINT.check(FOOT.read(joint))?).ceil())
}

/// Check valves in a drop pipe: one at the pump and one after each full interval.
///
/// # Formula
/// ```text
/// n = 1 + s / i, the quotient down to a whole number
///
/// n  valves   s  pump setting   i  interval
/// ```
///
/// # Valid for
/// A valve at the pump and then one after each full interval above it.
///
/// # Source
/// Every 200 ft: pump makers (from memory). New Hampshire We 702.05(a) wants at least
/// two; one motor maker says no more than recommended. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Counted one by one: a pump at 520 ft has one at itself, at 200 and at 400 ft above.
/// ```
/// use pumpwright_calc::spacing::check_valves;
/// use uom::si::{f64::Length, length::foot};
///
/// assert_eq!(check_valves(Length::new::<foot>(520.0), Length::new::<foot>(200.0))?, 3.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn check_valves(setting: Length, interval: Length) -> Result<f64, Refusal> {
    let deep = SETTING.check(FOOT.read(setting))?;
    Ok(1.0 + snapped(deep / APART.check(FOOT.read(interval))?).floor())
}

const LENGTH_PORT: Port = port("length", "l", "length of the string", LENGTH);
const MAKER: Option<&str> = Some("The pump's and the motor's manuals and the local code decide.");

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "spacing.places",
        title: "places along a string",
        inputs: &[
            LENGTH_PORT,
            port("spacing", "s", "spacing", LENGTH),
            port("first_at", "f", "place of the first above the pump", LENGTH),
        ],
        gives: port("places", "n", "places", PLACES),
        law: Law::Named("one at the first place and one after each full spacing above it"),
        valid: "The first where stated, then every spacing, none past the end.",
        source: "counting; spacings are common practice, no source",
        caution: MAKER,
        edition: 1,
        call: call!(_, (length: Length, spacing: Length, first_at: Length) =>
            places(length, spacing, first_at)),
    },
    Function {
        name: "spacing.joints",
        title: "joints of pipe in a string",
        inputs: &[LENGTH_PORT, port("joint", "j", "length of a joint", LENGTH)],
        gives: port("joints", "n", "joints", JOINTS),
        law: Law::Shown(Pair::both("up(l / j, 1)")),
        valid: "Whole joints.",
        source: "counting",
        caution: None,
        edition: 1,
        call: call!(_, (length: Length, joint: Length) => joints(length, joint)),
    },
    Function {
        name: "spacing.check_valves",
        title: "check valves in a drop pipe",
        inputs: &[
            port("setting", "s", "pump setting", LENGTH),
            port("interval", "i", "interval", LENGTH),
        ],
        gives: port("valves", "n", "check valves", VALVES),
        law: Law::Shown(Pair::both("1 + down(s / i, 1)")),
        valid: "One at the pump, then one after each full interval.",
        source: "every 200 ft: pump makers (from memory)",
        caution: MAKER,
        edition: 1,
        call: call!(_, (setting: Length, interval: Length) => check_valves(setting, interval)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn count(length: f64, spacing: f64, first: f64) -> Result<f64, Refusal> {
        places(FOOT.of(length), FOOT.of(spacing), FOOT.of(first))
    }

    #[test]
    fn the_first_place_may_be_past_the_end() {
        assert_eq!(count(5.0, 10.0, 10.0), Ok(0.0));
        assert_eq!(count(10.0, 10.0, 10.0), Ok(1.0));
        assert!(count(10.0, 0.0, 10.0).is_err());
        assert!(count(f64::NAN, 10.0, 10.0).is_err());
    }

    proptest! {
        #[test]
        fn counted_one_by_one_it_is_the_same(
            length in 0.0..900.0_f64, spacing in 1.0..100.0_f64, first in 0.0..50.0_f64,
        ) {
            let mut at = first;
            let mut counted = 0.0;
            while at <= length {
                counted += 1.0;
                at = first + counted * spacing;
            }
            let ours = count(length, spacing, first).unwrap();
            let edge = (length - first) / spacing;
            prop_assume!((edge - edge.round()).abs() > 1e-6);
            prop_assert_eq!(ours, counted);
        }
    }
}
