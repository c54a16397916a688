//! Choosing a pump: how many stages make a head, and from how deep one can suck.

use uom::si::f64::Length;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LENGTH, STAGES, port};
use crate::registry::{Function, Law, Pair};
use crate::units::FOOT;

/// A quotient this near a whole number is that number: 190 ft over 19 ft, both
/// held in meters, must not become eleven stages.
const SNAP: f64 = 1e-9;

const HEAD: Bounds = Bounds {
    what: "head",
    unit: "ft",
    min: 0.0,
    max: 25_000.0,
};
const STAGE_HEAD: Bounds = Bounds {
    what: "head of one stage",
    unit: "ft",
    min: 0.1,
    max: 2_000.0,
};

/// A head to be made, and what one stage makes of it at the flow wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stack {
    /// Total head to be made.
    pub head: Length,
    /// Head of one stage at the flow wanted.
    pub stage_head: Length,
}

/// Stages needed for a head, up to a whole one.
///
/// # Formula
/// ```text
/// n = H / s, up to the next whole number
///
/// n  stages   H  total head   s  head of one stage   both one unit
/// ```
/// A quotient within 1e-9 of a whole number is that number.
///
/// # Valid for
/// A stack of equal stages in series. The head of one stage is read from the
/// curve at the flow wanted, never at shut-off.
///
/// # Source
/// Common practice, no source: heads of stages in series add. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the head outside its span.
///
/// # Example
/// No outside figure is needed for a division: 192 ft over 19 ft is 10.1, so
/// eleven stages; 190 ft is ten.
/// ```
/// use pumpwright_calc::pump::{Stack, stages};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let need = |head| {
///     let stage_head = Length::new::<foot>(19.0);
///     stages(Stack { head: Length::new::<foot>(head), stage_head })
/// };
/// assert_eq!(need(192.0)?, 11.0);
/// assert_eq!(need(190.0)?, 10.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn stages(stack: Stack) -> Result<f64, Refusal> {
    let head = HEAD.check(FOOT.read(stack.head))?;
    let stage_head = STAGE_HEAD.check(FOOT.read(stack.stage_head))?;
    let quotient = head / stage_head;
    let nearest = quotient.round();
    let snaps = (quotient - nearest).abs() <= SNAP * nearest.max(1.0);
    Ok(if snaps { nearest } else { quotient.ceil() })
}

/// How deep a pump on the ground can suck water from.
///
/// # Formula
/// ```text
/// l = 25 - a / 1000 - f      ft   (feet)
/// l = 7.62 - a / 1000 - f    m    (metric, the same)
///
/// l  suction lift   a  height above the sea   f  friction in the suction pipe
/// ```
///
/// # Valid for
/// Cold water and a sound suction line, to 10,000 ft. The air itself would hold up 34 ft at
/// the sea; the rest is what a pump needs.
///
/// # Source
/// Common practice, no source. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span, or the lift where nothing
/// is left of it.
///
/// # Example
/// No outside figure is there for a rule of thumb: at 3,000 ft with 2 ft of friction, 20 ft.
/// ```
/// use pumpwright_calc::pump::suction_lift;
/// use uom::si::{f64::Length, length::foot};
///
/// let lift = suction_lift(Length::new::<foot>(3000.0), Length::new::<foot>(2.0))?;
/// assert_eq!(format!("{:.1}", lift.get::<foot>()), "20.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn suction_lift(altitude: Length, friction: Length) -> Result<Length, Refusal> {
    let altitude = ALTITUDE.check(FOOT.read(altitude))?;
    let friction = SUCTION_FRICTION.check(FOOT.read(friction))?;
    LIFT_LEFT
        .check(25.0 - altitude / 1000.0 - friction)
        .map(|lift| FOOT.of(lift))
}

const ALTITUDE: Bounds = Bounds::of("height above the sea", "ft", 0.0, 10_000.0);
const SUCTION_FRICTION: Bounds = Bounds::of("friction in the suction pipe", "ft", 0.0, 25.0);
const LIFT_LEFT: Bounds = Bounds::of("suction lift", "ft", 0.0, 25.0);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "pump.stages",
        title: "stages needed for a head",
        inputs: &[
            port("head", "h", "total head", LENGTH),
            port(
                "stage_head",
                "s",
                "head of one stage at the flow wanted",
                LENGTH,
            ),
        ],
        gives: port("stages", "n", "stages", STAGES),
        law: Law::Shown(Pair::both("up(h / s, 1)")),
        valid: "Equal stages in series, read from the curve at the flow wanted.",
        source: "common practice, no source",
        caution: None,
        edition: 1,
        call: call!(_, (head: Length, stage_head: Length) => stages(Stack { head, stage_head })),
    },
    Function {
        name: "pump.suction_lift",
        title: "how deep a pump on the ground can suck water from",
        inputs: &[
            port("altitude", "a", "height above the sea", LENGTH),
            port("friction", "f", "friction in the suction pipe", LENGTH),
        ],
        gives: port("lift", "l", "suction lift", LENGTH),
        law: Law::Shown(Pair {
            us: "25 - a / 1000 - f",
            si: "7.62 - a / 1000 - f",
        }),
        valid: "Cold water and a sound suction line.",
        source: "common practice, no source",
        caution: None,
        edition: 1,
        call: call!(_, (altitude: Length, friction: Length) => suction_lift(altitude, friction)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn need(head: f64, stage_head: f64) -> Result<f64, Refusal> {
        stages(Stack {
            head: FOOT.of(head),
            stage_head: FOOT.of(stage_head),
        })
    }

    #[test]
    fn no_head_needs_no_stage_and_a_little_needs_one() {
        assert_eq!(need(0.0, 19.0), Ok(0.0));
        assert_eq!(need(0.5, 19.0), Ok(1.0));
    }

    #[test]
    fn where_no_lift_is_left_it_is_refused() {
        assert!(suction_lift(FOOT.of(9_000.0), FOOT.of(17.0)).is_err());
        assert!(suction_lift(FOOT.of(f64::NAN), FOOT.of(1.0)).is_err());
    }

    #[test]
    fn a_stage_without_head_is_refused() {
        for stage_head in [0.0, -19.0, f64::NAN, f64::INFINITY] {
            assert!(need(190.0, stage_head).is_err());
        }
        for head in [-1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(need(head, 19.0).is_err());
        }
    }

    proptest! {
        #[test]
        fn whole_stacks_are_not_rounded_up(count in 1_u32..300, stage_head in 1.0..80.0_f64) {
            let count = f64::from(count);
            prop_assert_eq!(need(count * stage_head, stage_head), Ok(count));
        }

        #[test]
        fn the_stack_makes_the_head_and_one_less_does_not(
            head in 1.0..2_000.0_f64, stage_head in 5.0..80.0_f64,
        ) {
            let count = need(head, stage_head).unwrap();
            prop_assert!(count * stage_head >= head * (1.0 - 1e-8));
            prop_assert!((count - 1.0) * stage_head < head);
        }
    }
}
