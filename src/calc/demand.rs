//! How much water is wanted, and how much a tap gives.

use uom::si::f64::{Time, Volume, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{DAY_FLOW, HOURS, PEOPLE, SECONDS, SPEED_FLOW, VOLUME, port};
use crate::registry::{Function, Law, Pair};
use crate::units::{DAY, GALLON, GALLON_PER_MINUTE, HOUR, SECOND};

const DAILY: Bounds = Bounds::of("water used in a day", "gpm", 0.0, 1e6);
const PEOPLE_SPAN: Bounds = Bounds::of("people", "", 0.0, 100_000.0);
const PEAK: Bounds = Bounds::of("peak period", "h", 0.01, 24.0);
const FILLED: Bounds = Bounds::of("volume", "gal", 0.0, 1e6);
const FILLING: Bounds = Bounds::of("time", "s", 0.01, 1e6);

/// Water that a household uses in a day.
///
/// # Formula
/// ```text
/// d = n · e
///
/// d  water in a day   n  people   e  water in a day for each
/// ```
///
/// # Valid for
/// The figure for each that the plan names: 50 to 100 gal in planning tables, 50 to
/// 60 in indoor metering of late (from memory).
///
/// # Source
/// Penn State Extension, *Water System Planning: Estimating Water Needs*. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That sheet: 200 to 400 gal a day for four.
/// ```
/// use pumpwright_calc::demand::daily;
/// use uom::si::{f64::VolumeRate, volume_rate::gallon_per_day};
///
/// let day = daily(4.0, VolumeRate::new::<gallon_per_day>(100.0))?;
/// assert_eq!(format!("{:.0}", day.get::<gallon_per_day>()), "400");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn daily(people: f64, each: VolumeRate) -> Result<VolumeRate, Refusal> {
    let people = PEOPLE_SPAN.check(people)?;
    DAILY.check(GALLON_PER_MINUTE.read(each))?;
    Ok(each * people)
}

/// Flow that a peak period asks for when it takes the whole day's water.
///
/// # Formula
/// ```text
/// q = d / (60 · t)     gpm, gal a day, h     or     L/min, L a day, h
///
/// q  flow   d  water in a day   t  peak period
/// ```
///
/// # Valid for
/// Planning by the two-hour rule or another that the plan names. Others count
/// fixtures.
///
/// # Source
/// Penn State Extension, *Water System Planning: Estimating Water Needs*: a whole
/// day's use within two hours. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That sheet: 400 gal in 2 hours is 3.3 gpm.
/// ```
/// use pumpwright_calc::demand::peak_flow;
/// use uom::si::f64::{Time, VolumeRate};
/// use uom::si::{time::hour, volume_rate::{gallon_per_day, gallon_per_minute}};
///
/// let day = VolumeRate::new::<gallon_per_day>(400.0);
/// let flow = peak_flow(day, Time::new::<hour>(2.0))?;
/// assert_eq!(format!("{:.1}", flow.get::<gallon_per_minute>()), "3.3");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn peak_flow(daily: VolumeRate, period: Time) -> Result<VolumeRate, Refusal> {
    DAILY.check(GALLON_PER_MINUTE.read(daily))?;
    PEAK.check(HOUR.read(period))?;
    Ok(VolumeRate::from_si(
        daily.si() * DAY.of(1.0).si() / period.si(),
    ))
}

/// Flow by pail and watch.
///
/// # Formula
/// ```text
/// q = 60 · v / t     gpm, gal, s     or     L/min, L, s
///
/// q  flow   v  volume   t  time
/// ```
///
/// # Valid for
/// A pail of known volume, filled to the mark by a steady stream.
///
/// # Source
/// Definition; the test is common practice, no source. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a quotient: 5 gal in 30 s are 10 gpm.
/// ```
/// use pumpwright_calc::demand::pail_flow;
/// use uom::si::f64::{Time, Volume};
/// use uom::si::{time::second, volume::gallon, volume_rate::gallon_per_minute};
///
/// let flow = pail_flow(Volume::new::<gallon>(5.0), Time::new::<second>(30.0))?;
/// assert_eq!(format!("{:.2}", flow.get::<gallon_per_minute>()), "10.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn pail_flow(volume: Volume, time: Time) -> Result<VolumeRate, Refusal> {
    FILLED.check(GALLON.read(volume))?;
    FILLING.check(SECOND.read(time))?;
    Ok(volume / time)
}

const PLANNING: &str = "Penn State Extension, Water System Planning: Estimating Water Needs";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "demand.daily",
        title: "water that a household uses in a day",
        inputs: &[
            port("people", "n", "people", PEOPLE),
            port("each", "e", "water in a day for each", DAY_FLOW),
        ],
        gives: port("daily", "d", "water in a day", DAY_FLOW),
        law: Law::Shown(Pair::both("n * e")),
        valid: "The figure for each that the plan names.",
        source: PLANNING,
        caution: None,
        edition: 1,
        call: call!(_, (people: f64, each: VolumeRate) => daily(people, each)),
    },
    Function {
        name: "demand.peak_flow",
        title: "flow that a peak period asks for",
        inputs: &[
            port("daily", "d", "water in a day", DAY_FLOW),
            port("period", "t", "peak period", HOURS),
        ],
        gives: port("flow", "q", "flow", SPEED_FLOW),
        law: Law::Shown(Pair::both("d / (60 * t)")),
        valid: "The whole day's water drawn within the period.",
        source: PLANNING,
        caution: None,
        edition: 1,
        call: call!(_, (daily: VolumeRate, period: Time) => peak_flow(daily, period)),
    },
    Function {
        name: "demand.pail_flow",
        title: "flow by pail and watch",
        inputs: &[
            port("volume", "v", "volume", VOLUME),
            port("time", "t", "time to fill", SECONDS),
        ],
        gives: port("flow", "q", "flow", SPEED_FLOW),
        law: Law::Shown(Pair::both("60 * v / t")),
        valid: "A steady stream into a pail of known volume.",
        source: "definition; the test is common practice, no source",
        caution: None,
        edition: 1,
        call: call!(_, (volume: Volume, time: Time) => pail_flow(volume, time)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn no_time_and_no_people_are_told_apart() {
        assert!(pail_flow(GALLON.of(5.0), SECOND.of(0.0)).is_err());
        assert!(peak_flow(GALLON_PER_MINUTE.of(1.0), HOUR.of(0.0)).is_err());
        assert_eq!(
            daily(0.0, GALLON_PER_MINUTE.of(1.0)).map(Measured::si),
            Ok(0.0)
        );
        assert!(daily(f64::NAN, GALLON_PER_MINUTE.of(1.0)).is_err());
    }

    proptest! {
        #[test]
        fn a_peak_of_a_whole_day_is_the_days_mean(gpm in 0.01..10.0_f64) {
            let mean = GALLON_PER_MINUTE.of(gpm);
            let peak = peak_flow(mean, HOUR.of(24.0)).unwrap();
            prop_assert!((peak.si() / mean.si() - 1.0).abs() < 1e-12);
        }
    }
}
