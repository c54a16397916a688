//! The least tank for a run time, and for a number of starts. The water that a tank
//! delivers is in `tank`, how often a pump starts is in `cycle`.

use uom::si::f64::{Frequency, Pressure, Time, Volume, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::cycle::{FLOW, LASTS, PUMPS, drawdown_for_starts};
use crate::dimension::Measured;
use crate::ports::{PRESSURE, STARTS, VOLUME, port};
use crate::pressure::atmosphere;
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::tank::{Tank, drawdown_under};
use crate::units::{GALLON_PER_MINUTE, MINUTE};

const RUN: Bounds = Bounds::of("run time", "min", 0.0, 1_440.0);

/// How a tank is charged and between what its pump is switched, gauge pressures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charged {
    /// Air charge with no water in the tank.
    pub precharge: Pressure,
    /// Where the pump starts.
    pub cut_in: Pressure,
    /// Where the pump stops.
    pub cut_out: Pressure,
}

impl Charged {
    /// Share of a tank that is delivered between cut-out and cut-in; more than nothing.
    fn share(self, atmosphere: Pressure) -> Result<f64, Refusal> {
        let one = Tank {
            volume: Volume::from_si(1.0),
            precharge: self.precharge,
            cut_in: self.cut_in,
            cut_out: self.cut_out,
        };
        let share = drawdown_under(one, atmosphere)?.si();
        if share <= 0.0 {
            return Err(Refusal::Conflict(
                "cut-in and cut-out are the same; no tank delivers water between them",
            ));
        }
        Ok(share)
    }
}

/// Flow and time that a tank is to be made for, and the pressures it works between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Flow of the pump.
    pub flow: VolumeRate,
    /// Least time that it is to run.
    pub run_time: Time,
    /// Charge and switch.
    pub charging: Charged,
}

/// Least tank for a run time.
///
/// # Formula
/// ```text
/// V = q · t / ((c + a) · (1 / (i + a) - 1 / (o + a)))
///
/// V  tank volume   q  flow of the pump   t  run time   c  precharge   i  cut-in
/// o  cut-out       a  air outside: 14.7 psi, 101.3 kPa (trade); 101.325 kPa (physical)
/// ```
/// c, i and o are gauge pressures. Arguments carry their own units.
///
/// # Valid for
/// Nothing drawn while the tank fills. The next stock size up is the one to buy.
///
/// # Source
/// Boyle's law; one minute or more: The Driller; up to a horsepower one minute, above
/// that two: motor makers (from memory). The accepted spans are our own choice; no
/// source.
///
/// # Errors
/// As [`crate::tank::drawdown_under`]; [`Refusal::Conflict`] where the switch has no
/// span.
///
/// # Example
/// The Driller's 85 gal tank, 28 psi under a 30/50 switch, delivers 25.1 gal: it is the
/// least one for 25.1 gpm and a minute.
/// ```
/// use pumpwright_calc::{tank_size::{Charged, Wanted, for_run_time}, registry::Basis};
/// use uom::si::f64::{Pressure, Time, Volume, VolumeRate};
/// use uom::si::{pressure::psi, time::minute, volume::gallon};
/// use uom::si::volume_rate::gallon_per_minute;
///
/// let gauge = Pressure::new::<psi>;
/// let wanted = Wanted {
///     flow: VolumeRate::new::<gallon_per_minute>(25.1),
///     run_time: Time::new::<minute>(1.0),
///     charging: Charged { precharge: gauge(28.0), cut_in: gauge(30.0), cut_out: gauge(50.0) },
/// };
/// assert_eq!(format!("{:.0}", for_run_time(wanted, Basis::UsTrade)?.get::<gallon>()), "85");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn for_run_time(wanted: Wanted, basis: Basis) -> Result<Volume, Refusal> {
    for_run_time_under(wanted, atmosphere(basis))
}

/// Least tank for a run time, under air of a known pressure.
///
/// # Formula
/// ```text
/// V = q · t / ((c + a) · (1 / (i + a) - 1 / (o + a)))
///
/// as in `for_run_time`, a the air outside, absolute
/// ```
///
/// # Valid for
/// As [`for_run_time`], away from sea level.
///
/// # Source
/// As [`for_run_time`].
///
/// # Errors
/// As [`for_run_time`].
///
/// # Example
/// The Driller's tank once more, with its own 14.7 psi of air: 85 gal.
/// ```
/// use pumpwright_calc::tank_size::{Charged, Wanted, for_run_time_under};
/// use uom::si::f64::{Pressure, Time, Volume, VolumeRate};
/// use uom::si::{pressure::psi, time::minute, volume::gallon};
/// use uom::si::volume_rate::gallon_per_minute;
///
/// let gauge = Pressure::new::<psi>;
/// let wanted = Wanted {
///     flow: VolumeRate::new::<gallon_per_minute>(25.1),
///     run_time: Time::new::<minute>(1.0),
///     charging: Charged { precharge: gauge(28.0), cut_in: gauge(30.0), cut_out: gauge(50.0) },
/// };
/// let least = for_run_time_under(wanted, gauge(14.7))?;
/// assert_eq!(format!("{:.0}", least.get::<gallon>()), "85");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn for_run_time_under(wanted: Wanted, atmosphere: Pressure) -> Result<Volume, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(wanted.flow))?;
    RUN.check(MINUTE.read(wanted.run_time))?;
    Ok(wanted.flow * wanted.run_time / wanted.charging.share(atmosphere)?)
}

/// Least tank that keeps a pump under a number of starts at any draw.
///
/// # Formula
/// ```text
/// V = 60 · q / (4 · n) / ((c + a) · (1 / (i + a) - 1 / (o + a)))
///
/// V  tank volume, gal or L   q  flow of the pump, gpm or L/min   n  starts an hour
/// c, i, o, a  as in `for_run_time`
/// ```
///
/// # Valid for
/// The worst draw, half the pump's flow.
///
/// # Source
/// [`crate::cycle::drawdown_for_starts`] with Boyle's law. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// As [`for_run_time`].
///
/// # Example
/// The Driller's 85 gal tank, 28 psi under a 30/50 switch, delivers 25.1 gal. A 10 gpm
/// pump then starts at most 60 x 10 / (4 x 25.1) = 5.976 times an hour.
/// ```
/// use pumpwright_calc::{tank_size::{Charged, for_starts}, registry::Basis};
/// use uom::si::f64::{Frequency, Pressure, VolumeRate};
/// use uom::si::{frequency::cycle_per_hour, pressure::psi, volume::gallon};
/// use uom::si::volume_rate::gallon_per_minute;
///
/// let gauge = Pressure::new::<psi>;
/// let charging = Charged { precharge: gauge(28.0), cut_in: gauge(30.0), cut_out: gauge(50.0) };
/// let flow = VolumeRate::new::<gallon_per_minute>(10.0);
/// let often = Frequency::new::<cycle_per_hour>(5.976);
/// let least = for_starts(flow, often, charging, Basis::UsTrade)?;
/// assert_eq!(format!("{:.0}", least.get::<gallon>()), "85");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn for_starts(
    flow: VolumeRate,
    starts: Frequency,
    charging: Charged,
    basis: Basis,
) -> Result<Volume, Refusal> {
    Ok(drawdown_for_starts(flow, starts)? / charging.share(atmosphere(basis))?)
}

const CHARGED: [Port; 3] = [
    port("precharge", "c", "precharge", PRESSURE),
    port("cut_in", "i", "cut-in", PRESSURE),
    port("cut_out", "o", "cut-out", PRESSURE),
];
const TANK: Port = port("volume", "v", "tank volume", VOLUME);
const AIR: Port = port("atmosphere", "a", "pressure of the air outside", PRESSURE);
const BOYLE: &str = "Boyle's law with absolute pressures";
const STORED_ENERGY: Option<&str> = Some(
    "Compressed air is stored energy: never charge past the pressure on the tank's label. How \
     long and how often a motor may start is its maker's to say.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "tank_size.for_run_time",
        title: "least tank for a run time",
        inputs: &[PUMPS, LASTS, CHARGED[0], CHARGED[1], CHARGED[2]],
        gives: TANK,
        law: Law::Shown(Pair {
            us: "q * t / ((c + 14.7) * (1 / (i + 14.7) - 1 / (o + 14.7)))",
            si: "q * t / ((c + 101.3) * (1 / (i + 101.3) - 1 / (o + 101.3)))",
        }),
        valid: "Gauge pressures at sea level; nothing drawn while the tank fills.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            run_time: Time,
            precharge: Pressure,
            cut_in: Pressure,
            cut_out: Pressure
        ) => for_run_time(
            Wanted { flow, run_time, charging: Charged { precharge, cut_in, cut_out } }, basis)),
    },
    Function {
        name: "tank_size.for_run_time_under",
        title: "least tank for a run time, away from sea level",
        inputs: &[PUMPS, LASTS, CHARGED[0], CHARGED[1], CHARGED[2], AIR],
        gives: TANK,
        law: Law::Shown(Pair::both(
            "q * t / ((c + a) * (1 / (i + a) - 1 / (o + a)))",
        )),
        valid: "Gauge pressures; nothing drawn while the tank fills.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(_, (
            flow: VolumeRate,
            run_time: Time,
            precharge: Pressure,
            cut_in: Pressure,
            cut_out: Pressure,
            atmosphere: Pressure
        ) => for_run_time_under(
            Wanted { flow, run_time, charging: Charged { precharge, cut_in, cut_out } }, atmosphere)),
    },
    Function {
        name: "tank_size.for_starts",
        title: "least tank that keeps a pump under a number of starts",
        inputs: &[
            PUMPS,
            port("starts", "n", "starts in an hour", STARTS),
            CHARGED[0],
            CHARGED[1],
            CHARGED[2],
        ],
        gives: TANK,
        law: Law::Shown(Pair {
            us: "60 * q / (4 * n) / ((c + 14.7) * (1 / (i + 14.7) - 1 / (o + 14.7)))",
            si: "60 * q / (4 * n) / ((c + 101.3) * (1 / (i + 101.3) - 1 / (o + 101.3)))",
        }),
        valid: "Gauge pressures at sea level; any steady draw, the worst is half the pump's flow.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            starts: Frequency,
            precharge: Pressure,
            cut_in: Pressure,
            cut_out: Pressure
        ) => for_starts(flow, starts, Charged { precharge, cut_in, cut_out }, basis)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cycle::{run_time, shortest};
    use crate::tank::drawdown;
    use crate::units::PSI;

    fn charging(cut_in: f64, span: f64) -> Charged {
        Charged {
            precharge: PSI.of(cut_in - 2.0),
            cut_in: PSI.of(cut_in),
            cut_out: PSI.of(cut_in + span),
        }
    }

    fn wanted(gpm: f64, minutes: f64, charging: Charged) -> Wanted {
        Wanted {
            flow: GALLON_PER_MINUTE.of(gpm),
            run_time: MINUTE.of(minutes),
            charging,
        }
    }

    fn water(volume: Volume, charging: Charged) -> Volume {
        let found = Tank {
            volume,
            precharge: charging.precharge,
            cut_in: charging.cut_in,
            cut_out: charging.cut_out,
        };
        drawdown(found, Basis::UsTrade).unwrap()
    }

    #[test]
    fn a_switch_without_span_and_odd_figures_are_refused() {
        let none = charging(30.0, 0.0);
        assert!(for_run_time(wanted(10.0, 1.0, none), Basis::UsTrade).is_err());
        let often = Frequency::from_si(0.003);
        let flow = GALLON_PER_MINUTE.of(10.0);
        assert!(for_starts(flow, often, none, Basis::UsTrade).is_err());
        let sound = charging(30.0, 20.0);
        assert!(for_run_time(wanted(f64::NAN, 1.0, sound), Basis::UsTrade).is_err());
        let never = Frequency::from_si(0.0);
        assert!(for_starts(flow, never, sound, Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn the_tank_found_runs_as_long_as_was_wanted(
            gpm in 3.0..30.0_f64, minutes in 0.5..4.0_f64, cut_in in 20.0..60.0_f64,
        ) {
            let wanted = wanted(gpm, minutes, charging(cut_in, 20.0));
            let found = for_run_time(wanted, Basis::UsTrade).unwrap();
            let runs = run_time(water(found, wanted.charging), wanted.flow).unwrap();
            prop_assert!((MINUTE.read(runs) / minutes - 1.0).abs() < 1e-12);
        }

        #[test]
        fn the_tank_found_starts_no_more_often(
            gpm in 3.0..30.0_f64, starts in 2.0..30.0_f64, cut_in in 20.0..60.0_f64,
        ) {
            let (flow, charging) = (GALLON_PER_MINUTE.of(gpm), charging(cut_in, 20.0));
            let often = Frequency::from_si(starts / 3_600.0);
            let found = for_starts(flow, often, charging, Basis::UsTrade).unwrap();
            let least = shortest(water(found, charging), flow).unwrap();
            prop_assert!((least.si() * often.si() - 1.0).abs() < 1e-12);
        }
    }
}
