//! How long a pump runs and how often it starts. The tank that makes it so is in
//! `tank_size`, the water that a tank delivers in `tank`.

use uom::si::f64::{Frequency, Time, Volume, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{MINUTES, SPEED_FLOW, STARTS, VOLUME, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{GALLON, GALLON_PER_MINUTE, HOUR};

const DELIVERED: Bounds = Bounds::of("drawdown", "gal", 0.001, 100_000.0);
pub(crate) const FLOW: Bounds = Bounds::of("flow of the pump", "gpm", 0.001, 100_000.0);
const DRAWN: Bounds = Bounds::of("water drawn", "gpm", 0.001, 100_000.0);

/// Time that a pump runs with nothing drawn.
///
/// # Formula
/// ```text
/// t = w / q
///
/// t  run time   w  drawdown of the tank   q  flow of the pump
/// ```
///
/// # Valid for
/// No tap open. With taps open the pump runs longer.
///
/// # Source
/// Definition; The Driller, tank drawdown column, works it so. The accepted spans are
/// our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// The Driller: a 10 gpm pump needs 10 gal of drawdown to run a minute.
/// ```
/// use pumpwright_calc::cycle::run_time;
/// use uom::si::f64::{Volume, VolumeRate};
/// use uom::si::{time::minute, volume::gallon, volume_rate::gallon_per_minute};
///
/// let flow = VolumeRate::new::<gallon_per_minute>(10.0);
/// let time = run_time(Volume::new::<gallon>(10.0), flow)?;
/// assert_eq!(format!("{:.3}", time.get::<minute>()), "1.000");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn run_time(drawdown: Volume, flow: VolumeRate) -> Result<Time, Refusal> {
    DELIVERED.check(GALLON.read(drawdown))?;
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    Ok(drawdown / flow)
}

/// Water drawn while a pump fills and rests by turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Water that the tank delivers between cut-out and cut-in.
    pub drawdown: Volume,
    /// Steady draw.
    pub draw: VolumeRate,
    /// Flow of the pump.
    pub flow: VolumeRate,
}

/// Time from one start of a pump to the next, at a steady draw.
///
/// # Formula
/// ```text
/// c = w / d + w / (q - d)
///
/// c  cycle   w  drawdown of the tank   d  water drawn   q  flow of the pump
/// ```
///
/// # Valid for
/// A draw less than the pump gives: else the pump does not stop.
///
/// # Source
/// Mass balance: the tank empties at d and fills at q - d. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where the draw is not less than the flow.
///
/// # Example
/// No outside figure is needed for a mass balance: 12 gal, 5 gpm drawn and 10 gpm
/// pumped take 2.4 min to empty and 2.4 to fill.
/// ```
/// use pumpwright_calc::cycle::{Drawn, cycle_time};
/// use uom::si::f64::{Volume, VolumeRate};
/// use uom::si::{time::minute, volume::gallon, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let drawn = Drawn { drawdown: Volume::new::<gallon>(12.0), draw: gpm(5.0), flow: gpm(10.0) };
/// assert_eq!(format!("{:.2}", cycle_time(drawn)?.get::<minute>()), "4.80");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn cycle_time(drawn: Drawn) -> Result<Time, Refusal> {
    DELIVERED.check(GALLON.read(drawn.drawdown))?;
    DRAWN.check(GALLON_PER_MINUTE.read(drawn.draw))?;
    FLOW.check(GALLON_PER_MINUTE.read(drawn.flow))?;
    if drawn.draw >= drawn.flow {
        return Err(Refusal::Conflict(
            "the draw is not less than the pump gives; it does not stop",
        ));
    }
    Ok(drawn.drawdown / drawn.draw + drawn.drawdown / (drawn.flow - drawn.draw))
}

/// Starts of a pump in a time, at a steady draw.
///
/// # Formula
/// ```text
/// n = 60 / (w / d + w / (q - d))   starts/h, gal, gpm   or   starts/h, L, L/min
///
/// n  starts   w  drawdown of the tank   d  water drawn   q  flow of the pump
/// ```
///
/// # Valid for
/// As [`cycle_time`].
///
/// # Source
/// As [`cycle_time`]. Limits: under 300 a day to 1 hp in a trade column, fewer for
/// larger motors; the motor's maker decides.
///
/// # Errors
/// As [`cycle_time`].
///
/// # Example
/// No outside figure is needed for a mass balance: a cycle of 4.8 min is 12.5 starts an
/// hour.
/// ```
/// use pumpwright_calc::cycle::{Drawn, starts};
/// use uom::si::f64::{Volume, VolumeRate};
/// use uom::si::{frequency::cycle_per_hour, volume::gallon, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let drawn = Drawn { drawdown: Volume::new::<gallon>(12.0), draw: gpm(5.0), flow: gpm(10.0) };
/// assert_eq!(format!("{:.2}", starts(drawn)?.get::<cycle_per_hour>()), "12.50");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn starts(drawn: Drawn) -> Result<Frequency, Refusal> {
    Ok(Frequency::from_si(1.0 / cycle_time(drawn)?.si()))
}

/// The shortest cycle that any steady draw makes.
///
/// # Formula
/// ```text
/// c = 4 · w / q
///
/// c  shortest cycle   w  drawdown of the tank   q  flow of the pump
/// ```
/// at a draw of half the flow.
///
/// # Valid for
/// A steady draw of any size.
///
/// # Source
/// Mass balance, least of [`cycle_time`] over the draw. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a mass balance: 12 gal at 10 gpm, 4.8 min.
/// ```
/// use pumpwright_calc::cycle::shortest;
/// use uom::si::f64::{Volume, VolumeRate};
/// use uom::si::{time::minute, volume::gallon, volume_rate::gallon_per_minute};
///
/// let flow = VolumeRate::new::<gallon_per_minute>(10.0);
/// let time = shortest(Volume::new::<gallon>(12.0), flow)?;
/// assert_eq!(format!("{:.2}", time.get::<minute>()), "4.80");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn shortest(drawdown: Volume, flow: VolumeRate) -> Result<Time, Refusal> {
    Ok(run_time(drawdown, flow)? * 4.0)
}

/// Drawdown that keeps a pump under a number of starts at any draw.
///
/// # Formula
/// ```text
/// w = 60 · q / (4 · n)     gal, gpm, starts/h   or   L, L/min, starts/h
///
/// w  drawdown   q  flow of the pump   n  starts
/// ```
///
/// # Valid for
/// The worst draw, half the pump's flow.
///
/// # Source
/// [`shortest`], turned round. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a mass balance: 10 gpm and 12.5 starts an hour want
/// 12 gal.
/// ```
/// use pumpwright_calc::cycle::drawdown_for_starts;
/// use uom::si::f64::{Frequency, VolumeRate};
/// use uom::si::{frequency::cycle_per_hour, volume::gallon, volume_rate::gallon_per_minute};
///
/// let flow = VolumeRate::new::<gallon_per_minute>(10.0);
/// let water = drawdown_for_starts(flow, Frequency::new::<cycle_per_hour>(12.5))?;
/// assert_eq!(format!("{:.2}", water.get::<gallon>()), "12.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown_for_starts(flow: VolumeRate, starts: Frequency) -> Result<Volume, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    OFTEN.check(starts.si() * HOUR.of(1.0).si())?;
    Ok(Volume::from_si(flow.si() / (4.0 * starts.si())))
}

pub(crate) const OFTEN: Bounds = Bounds::of("starts in an hour", "", 0.01, 1_000.0);

const DELIVERS: Port = port("drawdown", "w", "drawdown of the tank", VOLUME);
pub(crate) const PUMPS: Port = port("flow", "q", "flow of the pump", SPEED_FLOW);
const DRAWS: Port = port("draw", "d", "water drawn", SPEED_FLOW);
pub(crate) const LASTS: Port = port("run_time", "t", "run time", MINUTES);
const BALANCE: &str = "mass balance";
const MAKERS_TO_SAY: Option<&str> =
    Some("How long and how often a motor may start is its maker's to say.");

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "cycle.run_time",
        title: "time that a pump runs with nothing drawn",
        inputs: &[DELIVERS, PUMPS],
        gives: LASTS,
        law: Law::Shown(Pair::both("w / q")),
        valid: "No tap open.",
        source: BALANCE,
        caution: MAKERS_TO_SAY,
        edition: 1,
        call: call!(_, (drawdown: Volume, flow: VolumeRate) => run_time(drawdown, flow)),
    },
    Function {
        name: "cycle.cycle_time",
        title: "time from one start of a pump to the next",
        inputs: &[DELIVERS, DRAWS, PUMPS],
        gives: port("time", "t", "time from start to start", MINUTES),
        law: Law::Shown(Pair::both("w / d + w / (q - d)")),
        valid: "A steady draw less than the pump gives.",
        source: BALANCE,
        caution: MAKERS_TO_SAY,
        edition: 1,
        call: call!(_, (drawdown: Volume, draw: VolumeRate, flow: VolumeRate) =>
            cycle_time(Drawn { drawdown, draw, flow })),
    },
    Function {
        name: "cycle.starts",
        title: "starts of a pump in an hour",
        inputs: &[DELIVERS, DRAWS, PUMPS],
        gives: port("starts", "n", "starts in an hour", STARTS),
        law: Law::Shown(Pair::both("60 / (w / d + w / (q - d))")),
        valid: "A steady draw less than the pump gives.",
        source: BALANCE,
        caution: MAKERS_TO_SAY,
        edition: 1,
        call: call!(_, (drawdown: Volume, draw: VolumeRate, flow: VolumeRate) =>
            starts(Drawn { drawdown, draw, flow })),
    },
    Function {
        name: "cycle.shortest",
        title: "shortest time from start to start at any draw",
        inputs: &[DELIVERS, PUMPS],
        gives: port("time", "t", "time from start to start", MINUTES),
        law: Law::Shown(Pair::both("4 * w / q")),
        valid: "Any steady draw; the worst is half the pump's flow.",
        source: BALANCE,
        caution: MAKERS_TO_SAY,
        edition: 1,
        call: call!(_, (drawdown: Volume, flow: VolumeRate) => shortest(drawdown, flow)),
    },
    Function {
        name: "cycle.drawdown_for_starts",
        title: "drawdown that keeps a pump under a number of starts",
        inputs: &[PUMPS, port("starts", "n", "starts in an hour", STARTS)],
        gives: DELIVERS,
        law: Law::Shown(Pair::both("60 * q / (4 * n)")),
        valid: "Any steady draw; the worst is half the pump's flow.",
        source: BALANCE,
        caution: MAKERS_TO_SAY,
        edition: 1,
        call: call!(_, (flow: VolumeRate, starts: Frequency) => drawdown_for_starts(flow, starts)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_draw_too_great_is_refused() {
        let drawn = Drawn {
            drawdown: GALLON.of(12.0),
            draw: GALLON_PER_MINUTE.of(10.0),
            flow: GALLON_PER_MINUTE.of(10.0),
        };
        assert!(starts(drawn).is_err());
    }

    proptest! {
        #[test]
        fn no_draw_makes_a_shorter_cycle(share in 0.01..0.99_f64, gpm in 3.0..30.0_f64) {
            let flow = GALLON_PER_MINUTE.of(gpm);
            let drawn = Drawn { drawdown: GALLON.of(12.0), draw: flow * share, flow };
            let least = shortest(drawn.drawdown, flow).unwrap();
            prop_assert!(cycle_time(drawn).unwrap().si() >= least.si() * (1.0 - 1e-12));
            let often = Frequency::from_si(1.0 / least.si());
            let back = drawdown_for_starts(flow, often).unwrap();
            prop_assert!((GALLON.read(back) - 12.0).abs() < 1e-9);
        }
    }
}
