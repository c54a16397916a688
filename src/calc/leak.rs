//! How fast water leaves a tank that nobody draws from, by its falling gauge.

use uom::si::f64::{Pressure, Time, Volume, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LEAKING, MINUTES, PRESSURE, VOLUME, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::tank::{Tank, drawdown};
use crate::units::MINUTE;

const WATCHED: Bounds = Bounds::of("time", "min", 0.01, 100_000.0);

/// Leak from a tank whose gauge falls.
///
/// # Formula
/// ```text
/// q = 60 · V · (c + a) · (1 / (l + a) - 1 / (f + a)) / t    gal/h, gal, psi, min
///
/// q  leak   V  tank volume   c  precharge   f  gauge at first   l  gauge at last
/// t  time   a  air outside: 14.7 psi, 101.3 kPa (trade); 101.325 kPa (physical)
/// ```
/// or L/h, L, kPa, min. Gauge pressures.
///
/// # Valid for
/// Pump off, house shut, a sound bladder, the gauge always above the precharge.
///
/// # Source
/// Boyle's law with absolute pressures, as The Driller's tank drawdown column works it
/// between other pressures. The accepted span is our own choice; no source.
///
/// # Errors
/// As [`crate::tank::drawdown`]; [`Refusal::OutOfRange`] for the time.
///
/// # Example
/// The Driller, example 1: 85 gal charged to 28 psi give 25.1 gal from 50 to 30 psi; in
/// 60 min that is 25.1 gal an hour.
/// ```
/// use pumpwright_calc::{leak::rate, registry::Basis, tank::Tank};
/// use uom::si::f64::{Pressure, Time, Volume};
/// use uom::si::{pressure::psi, time::minute, volume::gallon, volume_rate::gallon_per_minute};
///
/// let tank = Tank {
///     volume: Volume::new::<gallon>(85.0),
///     precharge: Pressure::new::<psi>(28.0),
///     cut_in: Pressure::new::<psi>(30.0),
///     cut_out: Pressure::new::<psi>(50.0),
/// };
/// let leak = rate(tank, Time::new::<minute>(60.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", 60.0 * leak.get::<gallon_per_minute>()), "25.1");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn rate(fallen: Tank, time: Time, basis: Basis) -> Result<VolumeRate, Refusal> {
    WATCHED.check(MINUTE.read(time))?;
    Ok(drawdown(fallen, basis)? / time)
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "leak.rate",
    title: "leak from a tank whose gauge falls",
    inputs: &[
        port("volume", "v", "tank volume", VOLUME),
        port("precharge", "c", "precharge", PRESSURE),
        port("gauge_end", "l", "gauge at last", PRESSURE),
        port("gauge_start", "f", "gauge at first", PRESSURE),
        port("time", "t", "time", MINUTES),
    ],
    gives: port("leak", "q", "leak", LEAKING),
    law: Law::Shown(Pair {
        us: "60 * v * (c + 14.7) * (1 / (l + 14.7) - 1 / (f + 14.7)) / t",
        si: "60 * v * (c + 101.3) * (1 / (l + 101.3) - 1 / (f + 101.3)) / t",
    }),
    valid: "Pump off, house shut; gauge pressures at sea level; a sound bladder.",
    source: "Boyle's law with absolute pressures",
    caution: None,
    edition: 1,
    call: call!(basis,
        (volume: Volume, precharge: Pressure, gauge_end: Pressure, gauge_start: Pressure, time: Time) =>
        rate(Tank { volume, precharge, cut_in: gauge_end, cut_out: gauge_start }, time, basis)),
}];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{GALLON, PSI};

    #[test]
    fn a_gauge_that_stands_leaks_nothing_and_one_that_rises_is_refused() {
        let tank = |last: f64| Tank {
            volume: GALLON.of(44.0),
            precharge: PSI.of(28.0),
            cut_in: PSI.of(last),
            cut_out: PSI.of(45.0),
        };
        let leak = |last, minutes| rate(tank(last), MINUTE.of(minutes), Basis::UsTrade);
        assert_eq!(leak(45.0, 15.0).map(|leak| leak.value), Ok(0.0));
        assert!(leak(46.0, 15.0).is_err());
        assert!(leak(40.0, 0.0).is_err());
        assert!(leak(40.0, 10.0).unwrap() > leak(40.0, 20.0).unwrap());
    }
}
