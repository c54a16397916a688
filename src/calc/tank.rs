//! Captive-air pressure tanks: charge, water held, water delivered.

use uom::si::f64::{Pressure, Ratio, Volume};
use uom::si::ratio::ratio;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{PERCENT, PLAIN, PRESSURE, VOLUME, port};
use crate::pressure::atmosphere;
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{GALLON, PSI};

const SIZE: Bounds = Bounds {
    what: "tank volume",
    unit: "gal",
    min: 0.0,
    max: 100_000.0,
};
const PRECHARGE: Bounds = Bounds {
    what: "precharge",
    unit: "psi",
    min: 0.0,
    max: 1_000.0,
};
const CUT_IN: Bounds = Bounds {
    what: "cut-in",
    ..PRECHARGE
};
const CUT_OUT: Bounds = Bounds {
    what: "cut-out",
    ..PRECHARGE
};
const MARGIN: Bounds = Bounds {
    what: "margin below cut-in",
    ..PRECHARGE
};
const AIR: Bounds = Bounds {
    what: "pressure of the air outside",
    unit: "psi",
    min: 5.0,
    max: 20.0,
};
const CHARGE: Bounds = Bounds {
    what: "absolute charge",
    unit: "psi",
    min: 0.1,
    max: 1_100.0,
};
const HELD: Bounds = Bounds {
    what: "absolute pressure",
    ..CHARGE
};

/// A tank and the gauge pressures at which it works.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    /// Whole volume, empty of water.
    pub volume: Volume,
    /// Air charge with no water in it, gauge.
    pub precharge: Pressure,
    /// Where the pump starts, gauge.
    pub cut_in: Pressure,
    /// Where the pump stops, gauge.
    pub cut_out: Pressure,
}

/// Water delivered between cut-out and cut-in, under the air of a basis.
///
/// # Formula
/// ```text
/// W = V · (c + a) · (1 / (i + a) - 1 / (o + a))
///
/// W  water delivered   V  tank volume   c  precharge   i  cut-in   o  cut-out
/// a  air outside: 14.7 psi, 101.3 kPa (trade); 101.325 kPa (physical)
/// ```
/// c, i and o are gauge pressures. Arguments carry their own units; the
/// conversion happens inside.
///
/// # Valid for
/// A sound bladder or diaphragm and air that keeps its temperature (Boyle's
/// law). For the convention that the charge equals cut-in, give cut-in as the
/// precharge. Elsewhere than at sea level use [`drawdown_under`].
///
/// # Source
/// Boyle's law with absolute pressures, as The Driller's tank drawdown column
/// works it. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span;
/// [`Refusal::Conflict`] unless precharge, cut-in and cut-out rise in that order.
///
/// # Example
/// The Driller, tank drawdown column, example 1: 85 gal, charged to 28 psi, on a
/// 30/50 switch, delivers 25.1 gal.
/// ```
/// use pumpwright_calc::{registry::Basis, tank::{Tank, drawdown}};
/// use uom::si::f64::{Pressure, Volume};
/// use uom::si::{pressure::psi, volume::gallon};
///
/// let tank = Tank {
///     volume: Volume::new::<gallon>(85.0),
///     precharge: Pressure::new::<psi>(28.0),
///     cut_in: Pressure::new::<psi>(30.0),
///     cut_out: Pressure::new::<psi>(50.0),
/// };
/// let water = drawdown(tank, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", water.get::<gallon>()), "25.1");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown(tank: Tank, basis: Basis) -> Result<Volume, Refusal> {
    drawdown_under(tank, atmosphere(basis))
}

/// Water delivered between cut-out and cut-in, under air of a known pressure.
///
/// # Formula
/// ```text
/// W = V · (c + a) · (1 / (i + a) - 1 / (o + a))
///
/// W  water delivered   V  tank volume   a  air outside, absolute
/// c  precharge         i  cut-in        o  cut-out
/// ```
/// c, i and o are gauge pressures. Arguments carry their own units; the
/// conversion happens inside.
///
/// # Valid for
/// A sound bladder or diaphragm and air that keeps its temperature (Boyle's law).
///
/// # Source
/// Boyle's law with absolute pressures, as The Driller's tank drawdown column
/// works it. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span;
/// [`Refusal::Conflict`] unless precharge, cut-in and cut-out rise in that order.
///
/// # Example
/// The Driller, tank drawdown column, example 1, with its own 14.7 psi of air:
/// 85 gal, charged to 28 psi, on a 30/50 switch, delivers 25.1 gal.
/// ```
/// use pumpwright_calc::tank::{Tank, drawdown_under};
/// use uom::si::f64::{Pressure, Volume};
/// use uom::si::{pressure::psi, volume::gallon};
///
/// let tank = Tank {
///     volume: Volume::new::<gallon>(85.0),
///     precharge: Pressure::new::<psi>(28.0),
///     cut_in: Pressure::new::<psi>(30.0),
///     cut_out: Pressure::new::<psi>(50.0),
/// };
/// let water = drawdown_under(tank, Pressure::new::<psi>(14.7))?;
/// assert_eq!(format!("{:.1}", water.get::<gallon>()), "25.1");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown_under(tank: Tank, atmosphere: Pressure) -> Result<Volume, Refusal> {
    SIZE.check(GALLON.read(tank.volume))?;
    PRECHARGE.check(PSI.read(tank.precharge))?;
    CUT_IN.check(PSI.read(tank.cut_in))?;
    CUT_OUT.check(PSI.read(tank.cut_out))?;
    let air = AIR.check(PSI.read(atmosphere))?;
    if tank.cut_in > tank.cut_out {
        return Err(Refusal::Conflict("cut-in is above cut-out"));
    }
    if tank.precharge > tank.cut_in {
        return Err(Refusal::Conflict(
            "the precharge is above cut-in; the tank is empty before the pump starts",
        ));
    }
    let absolute = |gauge| PSI.read(gauge) + air;
    let factor =
        absolute(tank.precharge) * (1.0 / absolute(tank.cut_in) - 1.0 / absolute(tank.cut_out));
    Ok(tank.volume * factor)
}

/// Two absolute pressures of one body of air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// With no water in the tank, absolute.
    pub charge: Pressure,
    /// As it stands, absolute.
    pub pressure: Pressure,
}

/// Share of a tank's volume that is water.
///
/// # Formula
/// ```text
/// w = 1 - c / p
///
/// w  share   c  absolute charge, empty of water   p  absolute pressure
/// ```
///
/// # Valid for
/// A sound bladder or diaphragm and air that keeps its temperature (Boyle's
/// law). Gauge pressures give a wrong share: make them absolute first.
///
/// # Source
/// Boyle's law with absolute pressures. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the pressure outside its span;
/// [`Refusal::Conflict`] when the charge is above the pressure: such a tank
/// holds no water.
///
/// # Example
/// The Driller, tank drawdown column, example 1: charged to 42.7 psi absolute,
/// 85 gal at 64.7 less what is left at 44.7 is 25.1 gal.
/// ```
/// use pumpwright_calc::tank::{Air, water_share};
/// use uom::si::f64::Pressure;
/// use uom::si::{pressure::psi, ratio::ratio};
///
/// let share = |pressure| {
///     let charge = Pressure::new::<psi>(42.7);
///     water_share(Air { charge, pressure: Pressure::new::<psi>(pressure) })
/// };
/// let delivered = 85.0 * (share(64.7)? - share(44.7)?).get::<ratio>();
/// assert_eq!(format!("{delivered:.1}"), "25.1");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn water_share(air: Air) -> Result<Ratio, Refusal> {
    let charge = CHARGE.check(PSI.read(air.charge))?;
    let pressure = HELD.check(PSI.read(air.pressure))?;
    if air.charge > air.pressure {
        return Err(Refusal::Conflict(
            "the charge is above the pressure; the tank holds no water",
        ));
    }
    Ok(Ratio::new::<ratio>(1.0 - charge / pressure))
}

/// A switch's cut-in, and how far below it the charge goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charging {
    /// Where the pump starts, gauge.
    pub cut_in: Pressure,
    /// How far below cut-in.
    pub margin: Pressure,
}

/// Air charge for a tank, from the switch's cut-in.
///
/// # Formula
/// ```text
/// c = i - m
///
/// c  precharge   i  cut-in   m  margin   all gauge, one unit
/// ```
///
/// # Valid for
/// A bladder or diaphragm tank empty of water, power off, system drained.
///
/// # Source
/// Two psi below cut-in: a water-well association's sheet on tank acceptance;
/// the tank's own instructions decide. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the pressure outside its span;
/// [`Refusal::Conflict`] when the margin is greater than cut-in.
///
/// # Example
/// The Driller, tank drawdown column, example 1: a tank on a 30/50 switch is
/// charged to 28 psi.
/// ```
/// use pumpwright_calc::tank::{Charging, precharge};
/// use uom::si::f64::Pressure;
/// use uom::si::pressure::psi;
///
/// let charging = Charging {
///     cut_in: Pressure::new::<psi>(30.0),
///     margin: Pressure::new::<psi>(2.0),
/// };
/// assert_eq!(format!("{:.1}", precharge(charging)?.get::<psi>()), "28.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn precharge(charging: Charging) -> Result<Pressure, Refusal> {
    CUT_IN.check(PSI.read(charging.cut_in))?;
    MARGIN.check(PSI.read(charging.margin))?;
    if charging.margin > charging.cut_in {
        return Err(Refusal::Conflict(
            "the margin is greater than cut-in; no charge is left",
        ));
    }
    Ok(charging.cut_in - charging.margin)
}

/// Air charge for a tank behind a drive that holds one pressure.
///
/// # Formula
/// ```text
/// c = s · p / 100
///
/// c  precharge   s  set pressure   p  share, percent, often 70
/// ```
///
/// # Valid for
/// The share that the drive's manual states.
///
/// # Source
/// 70 percent: common practice, no source. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a share: 70 percent of 60 psi is 42 psi.
/// ```
/// use pumpwright_calc::tank::drive_precharge;
/// use uom::si::f64::{Pressure, Ratio};
/// use uom::si::{pressure::psi, ratio::percent};
///
/// let charge = drive_precharge(Pressure::new::<psi>(60.0), Ratio::new::<percent>(70.0))?;
/// assert_eq!(format!("{:.1}", charge.get::<psi>()), "42.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drive_precharge(set: Pressure, share: Ratio) -> Result<Pressure, Refusal> {
    SET.check(PSI.read(set))?;
    SHARE.check(100.0 * share.value)?;
    Ok(set * share)
}

const SET: Bounds = Bounds {
    what: "set pressure",
    ..PRECHARGE
};
const SHARE: Bounds = Bounds::of("share", "%", 0.0, 100.0);

const STORED_ENERGY: Option<&str> = Some(
    "Compressed air is stored energy, and a drained tank still holds its charge: power off and \
     locked out, drain the system, and let the air out before a tank comes off. Never charge \
     past the pressure on the tank's label.",
);
const BOYLE: &str = "Boyle's law with absolute pressures, as The Driller's tank drawdown column \
    works it";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "tank.precharge",
        title: "air charge for a tank",
        inputs: &[
            port("cut_in", "i", "cut-in", PRESSURE),
            port("margin", "m", "margin below cut-in", PRESSURE),
        ],
        gives: port("precharge", "c", "precharge", PRESSURE),
        law: Law::Shown(Pair::both("i - m")),
        valid: "A bladder or diaphragm tank, empty of water.",
        source: "a water-well association's sheet on tank acceptance (two psi below cut-in); the \
            tank's own instructions decide",
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(_, (cut_in: Pressure, margin: Pressure) =>
            precharge(Charging { cut_in, margin })),
    },
    Function {
        name: "tank.drive_precharge",
        title: "air charge for a tank behind a drive",
        inputs: &[
            port("set", "s", "set pressure", PRESSURE),
            port("share", "p", "share", PERCENT),
        ],
        gives: port("precharge", "c", "precharge", PRESSURE),
        law: Law::Shown(Pair::both("s * p / 100")),
        valid: "The share that the drive's manual states, often 70 percent.",
        source: "common practice, no source",
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(_, (set: Pressure, share: Ratio) => drive_precharge(set, share)),
    },
    Function {
        name: "tank.water_share",
        title: "share of a tank that is water",
        inputs: &[
            port("charge", "c", "absolute charge", PRESSURE),
            port("pressure", "p", "absolute pressure", PRESSURE),
        ],
        gives: port("share", "w", "share that is water", PLAIN),
        law: Law::Shown(Pair::both("1 - c / p")),
        valid: "Absolute pressures; a sound bladder; air that keeps its temperature.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(_, (charge: Pressure, pressure: Pressure) =>
            water_share(Air { charge, pressure })),
    },
    Function {
        name: "tank.drawdown",
        title: "water delivered between cut-out and cut-in",
        inputs: &[
            port("volume", "v", "tank volume", VOLUME),
            port("precharge", "c", "precharge", PRESSURE),
            port("cut_in", "i", "cut-in", PRESSURE),
            port("cut_out", "o", "cut-out", PRESSURE),
        ],
        gives: port("water", "w", "water delivered", VOLUME),
        law: Law::Shown(Pair {
            us: "v * (c + 14.7) * (1 / (i + 14.7) - 1 / (o + 14.7))",
            si: "v * (c + 101.3) * (1 / (i + 101.3) - 1 / (o + 101.3))",
        }),
        valid: "Gauge pressures at sea level; a sound bladder; air that keeps its temperature.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(basis,
            (volume: Volume, precharge: Pressure, cut_in: Pressure, cut_out: Pressure) =>
            drawdown(Tank { volume, precharge, cut_in, cut_out }, basis)),
    },
    Function {
        name: "tank.drawdown_under",
        title: "water delivered between cut-out and cut-in, away from sea level",
        inputs: &[
            port("volume", "v", "tank volume", VOLUME),
            port("precharge", "c", "precharge", PRESSURE),
            port("cut_in", "i", "cut-in", PRESSURE),
            port("cut_out", "o", "cut-out", PRESSURE),
            port("atmosphere", "a", "pressure of the air outside", PRESSURE),
        ],
        gives: port("water", "w", "water delivered", VOLUME),
        law: Law::Shown(Pair::both("v * (c + a) * (1 / (i + a) - 1 / (o + a))")),
        valid: "Gauge pressures; a sound bladder; air that keeps its temperature.",
        source: BOYLE,
        caution: STORED_ENERGY,
        edition: 1,
        call: call!(_, (
            volume: Volume,
            precharge: Pressure,
            cut_in: Pressure,
            cut_out: Pressure,
            atmosphere: Pressure
        ) => drawdown_under(Tank { volume, precharge, cut_in, cut_out }, atmosphere)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::dimension::Measured;

    fn tank(volume: f64, precharge: f64, cut_in: f64, cut_out: f64) -> Tank {
        Tank {
            volume: GALLON.of(volume),
            precharge: PSI.of(precharge),
            cut_in: PSI.of(cut_in),
            cut_out: PSI.of(cut_out),
        }
    }

    fn gallons(tank: Tank) -> Result<f64, Refusal> {
        drawdown(tank, Basis::UsTrade).map(|water| GALLON.read(water))
    }

    fn share(charge: f64, pressure: f64) -> Result<f64, Refusal> {
        let air = Air {
            charge: PSI.of(charge),
            pressure: PSI.of(pressure),
        };
        water_share(air).map(Measured::si)
    }

    /// Factor 0.2953 on a 30/50 switch charged 2 psi below cut-in: Boyle's law
    /// with 14.696 psi, worked by hand.
    #[test]
    fn charge_at_cut_in_delivers_more_than_charge_below_it() {
        let below = gallons(tank(20.0, 28.0, 30.0, 50.0)).unwrap();
        let at = gallons(tank(20.0, 30.0, 30.0, 50.0)).unwrap();
        assert_eq!(format!("{:.4}", below / 20.0), "0.2953");
        assert_eq!(format!("{:.4}", at / 20.0), "0.3091");
    }

    #[test]
    fn thin_air_changes_the_delivery() {
        let high = drawdown_under(tank(20.0, 28.0, 30.0, 50.0), PSI.of(12.2)).unwrap();
        assert!(GALLON.read(high) > gallons(tank(20.0, 28.0, 30.0, 50.0)).unwrap());
    }

    #[test]
    fn a_switch_without_a_span_delivers_nothing() {
        assert_eq!(gallons(tank(20.0, 28.0, 40.0, 40.0)), Ok(0.0));
        assert_eq!(gallons(tank(0.0, 28.0, 30.0, 50.0)), Ok(0.0));
    }

    #[test]
    fn pressures_out_of_order_are_refused() {
        assert!(matches!(
            gallons(tank(20.0, 28.0, 50.0, 30.0)),
            Err(Refusal::Conflict(_))
        ));
        assert!(matches!(
            gallons(tank(20.0, 32.0, 30.0, 50.0)),
            Err(Refusal::Conflict(_))
        ));
        assert!(matches!(share(50.0, 40.0), Err(Refusal::Conflict(_))));
        let charging = Charging {
            cut_in: PSI.of(1.0),
            margin: PSI.of(2.0),
        };
        assert!(matches!(precharge(charging), Err(Refusal::Conflict(_))));
    }

    #[test]
    fn what_is_no_pressure_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0] {
            assert!(gallons(tank(figure, 28.0, 30.0, 50.0)).is_err());
            assert!(gallons(tank(20.0, figure, 30.0, 50.0)).is_err());
            assert!(gallons(tank(20.0, 28.0, figure, 50.0)).is_err());
            assert!(gallons(tank(20.0, 28.0, 30.0, figure)).is_err());
            let tank = tank(20.0, 28.0, 30.0, 50.0);
            assert!(drawdown_under(tank, PSI.of(figure)).is_err());
            assert!(share(figure, 50.0).is_err());
            assert!(share(20.0, figure).is_err());
        }
        assert!(share(0.0, 50.0).is_err());
    }

    #[test]
    fn a_margin_of_nothing_charges_to_cut_in() {
        let charging = Charging {
            cut_in: PSI.of(30.0),
            margin: PSI.of(0.0),
        };
        assert_eq!(precharge(charging), Ok(PSI.of(30.0)));
        assert_eq!(share(42.7, 42.7), Ok(0.0));
    }

    proptest! {
        #[test]
        fn two_shares_make_the_drawdown(
            charge in 10.0..60.0_f64, below in 0.0..10.0_f64, span in 1.0..40.0_f64,
        ) {
            let (low, high) = (charge + below, charge + below + span);
            let held = |pressure| share(charge + 14.7, pressure + 14.7).unwrap();
            let both = 20.0 * (held(high) - held(low));
            let whole = gallons(tank(20.0, charge, low, high)).unwrap();
            prop_assert!((both - whole).abs() < 1e-9);
            prop_assert!((0.0..20.0).contains(&whole));
        }

        #[test]
        fn a_wider_switch_delivers_more(charge in 10.0..60.0_f64, span in 1.0..40.0_f64) {
            let at = |span| gallons(tank(20.0, charge, charge + 2.0, charge + 2.0 + span)).unwrap();
            prop_assert!(at(span + 1.0) > at(span));
        }
    }
}
