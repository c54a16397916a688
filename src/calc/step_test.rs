//! Drawdown that grows faster than the flow: part in proportion, in the aquifer, part with
//! its square, in the well. Both come from two steps of a test. Levels are in `well`.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{FlowPerLength, Measured, WellLoss};
use crate::ports::{LENGTH, SPEED_FLOW, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, GALLON_PER_MINUTE};

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const STEP_FLOW: Bounds = Bounds::of("flow of a step", "gpm", 0.001, 100_000.0);
const STEP_FALL: Bounds = Bounds::of("drawdown of a step", "ft", 0.001, 10_000.0);
/// A well loss less than nothing by no more than this share is dust.
const DUST: f64 = 1e-9;

/// A step of a test: a flow held until the water stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Flow.
    pub flow: VolumeRate,
    /// Drawdown from the static level.
    pub drawdown: Length,
}

/// What two steps say of a well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// Flow for each length of the part in proportion; nothing where all goes with the square.
    pub capacity: Option<FlowPerLength>,
    /// The part that goes with the square of the flow.
    pub well_loss: WellLoss,
}

impl Step {
    fn per_flow(self) -> Result<f64, Refusal> {
        STEP_FLOW.check(GALLON_PER_MINUTE.read(self.flow))?;
        STEP_FALL.check(FOOT.read(self.drawdown))?;
        Ok(self.drawdown.si() / self.flow.si())
    }
}

/// The two parts of the drawdown, in coherent SI: B of s = B q + C q², and C.
fn split(one: Step, two: Step) -> Result<(f64, f64), Refusal> {
    let (first, second) = (one.per_flow()?, two.per_flow()?);
    if two.flow <= one.flow {
        return Err(Refusal::Conflict(
            "the second step needs more flow than the first",
        ));
    }
    let loss = (second - first) / (two.flow.si() - one.flow.si());
    let loss = if loss < 0.0 && second >= first * (1.0 - DUST) {
        0.0
    } else {
        loss
    };
    let in_proportion = first - loss * one.flow.si();
    if loss < 0.0 {
        return Err(Refusal::Conflict(
            "the second step draws down less for its flow than the first; the well clears, or a \
             level was read too early",
        ));
    }
    if in_proportion < 0.0 {
        return Err(Refusal::Conflict(
            "the drawdown grows faster than the square of the flow; no such law fits the steps",
        ));
    }
    Ok((in_proportion, loss))
}

/// Drawdown at a flow, from two steps of a test.
///
/// # Formula
/// ```text
/// s = B · q + C · q²     C = (s2/q2 - s1/q1) / (q2 - q1)     B = s1/q1 - C · q1
///
/// s  drawdown   q  flow   q1, s1 and q2, s2  the steps
/// ```
///
/// # Valid for
/// Steps of equal length, the water nearly standing at each. Far past the second step it is
/// a guess.
///
/// # Source
/// C. E. Jacob, *Transactions of the American Society of Civil Engineers* 112 (1947) 1047
/// (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`] where
/// the steps do not grow or no such law fits them.
///
/// # Example
/// No outside figure is needed to put two steps into the law: 10 ft at 10 gpm and 24 ft at
/// 20 gpm are 0.8 ft a gpm and 0.02 ft a gpm squared, so 15 gpm draw down 16.5 ft.
/// ```
/// use pumpwright_calc::step_test::{Step, drawdown};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let step = |flow, fall| Step { flow: gpm(flow), drawdown: Length::new::<foot>(fall) };
/// let fall = drawdown(step(10.0, 10.0), step(20.0, 24.0), gpm(15.0))?;
/// assert_eq!(format!("{:.2}", fall.get::<foot>()), "16.50");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown(one: Step, two: Step, flow: VolumeRate) -> Result<Length, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    let (in_proportion, loss) = split(one, two)?;
    Ok(Length::from_si(
        flow.si() * (in_proportion + loss * flow.si()),
    ))
}

/// Part of the drawdown at a flow that is lost in the well itself.
///
/// # Formula
/// ```text
/// w = C · q²     C as in `drawdown`
/// ```
///
/// # Valid for
/// As [`drawdown`]. It grows as a screen clogs; compare like tests.
///
/// # Source
/// As [`drawdown`].
///
/// # Errors
/// As [`drawdown`].
///
/// # Example
/// The steps of [`drawdown`]: of the 16.5 ft at 15 gpm the well loses 4.5.
/// ```
/// use pumpwright_calc::step_test::{Step, well_loss};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let step = |flow, fall| Step { flow: gpm(flow), drawdown: Length::new::<foot>(fall) };
/// let lost = well_loss(step(10.0, 10.0), step(20.0, 24.0), gpm(15.0))?;
/// assert_eq!(format!("{:.2}", lost.get::<foot>()), "4.50");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn well_loss(one: Step, two: Step, flow: VolumeRate) -> Result<Length, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    let (_, loss) = split(one, two)?;
    Ok(Length::from_si(loss * flow.si() * flow.si()))
}

impl Parts {
    /// The two parts, as [`crate::operating`] takes them.
    ///
    /// # Errors
    /// As [`drawdown`].
    pub fn of(one: Step, two: Step) -> Result<Self, Refusal> {
        let (in_proportion, loss) = split(one, two)?;
        Ok(Self {
            capacity: (in_proportion > 0.0).then(|| FlowPerLength::from_si(1.0 / in_proportion)),
            well_loss: WellLoss::from_si(loss),
        })
    }
}

const STEPS: [Port; 5] = [
    port("flow_one", "a", "flow of the first step", SPEED_FLOW),
    port("drawdown_one", "b", "drawdown of the first step", LENGTH),
    port("flow_two", "c", "flow of the second step", SPEED_FLOW),
    port("drawdown_two", "d", "drawdown of the second step", LENGTH),
    port("flow", "q", "flow", SPEED_FLOW),
];
const JACOB: &str = "C. E. Jacob, Transactions of the American Society of Civil Engineers 112 \
    (1947) 1047 (from memory)";
const STANDING: &str =
    "Steps of equal length, the water nearly standing at each; past the second it is a guess.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "step_test.drawdown",
        title: "drawdown at a flow, from two steps of a test",
        inputs: &STEPS,
        gives: port("drawdown", "s", "drawdown", LENGTH),
        law: Law::Shown(Pair::both(
            "q * (b / a + (d / c - b / a) * (q - a) / (c - a))",
        )),
        valid: STANDING,
        source: JACOB,
        caution: None,
        edition: 1,
        call: call!(_, (
            flow_one: VolumeRate,
            drawdown_one: Length,
            flow_two: VolumeRate,
            drawdown_two: Length,
            flow: VolumeRate
        ) => drawdown(
            Step { flow: flow_one, drawdown: drawdown_one },
            Step { flow: flow_two, drawdown: drawdown_two },
            flow,
        )),
    },
    Function {
        name: "step_test.well_loss",
        title: "part of the drawdown at a flow that is lost in the well itself",
        inputs: &STEPS,
        gives: port("lost", "w", "lost in the well", LENGTH),
        law: Law::Shown(Pair::both("q^2 * (d / c - b / a) / (c - a)")),
        valid: STANDING,
        source: JACOB,
        caution: None,
        edition: 1,
        call: call!(_, (
            flow_one: VolumeRate,
            drawdown_one: Length,
            flow_two: VolumeRate,
            drawdown_two: Length,
            flow: VolumeRate
        ) => well_loss(
            Step { flow: flow_one, drawdown: drawdown_one },
            Step { flow: flow_two, drawdown: drawdown_two },
            flow,
        )),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn step(gpm: f64, feet: f64) -> Step {
        Step {
            flow: GALLON_PER_MINUTE.of(gpm),
            drawdown: FOOT.of(feet),
        }
    }

    fn feet(one: Step, two: Step, gpm: f64) -> f64 {
        FOOT.read(drawdown(one, two, GALLON_PER_MINUTE.of(gpm)).unwrap())
    }

    #[test]
    fn steps_that_fit_no_such_law_are_refused() {
        let flow = GALLON_PER_MINUTE.of(10.0);
        for (one, two) in [
            (step(10.0, 10.0), step(10.0, 12.0)),
            (step(10.0, 10.0), step(20.0, 15.0)),
            (step(10.0, 1.0), step(20.0, 9.0)),
            (step(0.0, 1.0), step(20.0, 9.0)),
            (step(10.0, f64::NAN), step(20.0, 9.0)),
        ] {
            assert!(drawdown(one, two, flow).is_err());
            assert!(well_loss(one, two, flow).is_err());
            assert!(Parts::of(one, two).is_err());
        }
        assert!(
            drawdown(
                step(10.0, 10.0),
                step(20.0, 24.0),
                GALLON_PER_MINUTE.of(-1.0)
            )
            .is_err()
        );
    }

    #[test]
    fn steps_in_proportion_lose_nothing_in_the_well() {
        let parts = Parts::of(step(10.0, 7.0), step(30.0, 21.0)).unwrap();
        assert!(parts.well_loss.si().abs() * 1e-6 < 1e-6);
        assert!((feet(step(10.0, 7.0), step(30.0, 21.0), 17.0) - 11.9).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn the_law_passes_through_both_steps_and_grows(
            b in 0.1..3.0_f64, c in 0.0..0.2_f64, low in 2.0..10.0_f64, more in 1.0..20.0_f64,
        ) {
            let fall = |gpm: f64| b * gpm + c * gpm * gpm;
            let high = low + more;
            let (one, two) = (step(low, fall(low)), step(high, fall(high)));
            for gpm in [0.0, low, high, 1.5 * high] {
                prop_assert!((feet(one, two, gpm) - fall(gpm)).abs() < 1e-6 * fall(gpm).max(1.0));
            }
            prop_assert!(feet(one, two, high + 1.0) > feet(one, two, high));
        }
    }
}
