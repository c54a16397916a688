//! The two limits between which a relief valve's setting has to lie, and the
//! pressure that it guards against. The choice of a valve is the installer's.

use uom::si::f64::{Length, Pressure, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::curve::{Curve, Point, ThreePoints};
use crate::head;
use crate::ports::{LENGTH, PRESSURE, SPEED_FLOW, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{FOOT, PSI};

const CUT_OUT: Bounds = Bounds {
    what: "cut-out",
    unit: "psi",
    min: 0.0,
    max: 1_000.0,
};
const MARGIN: Bounds = Bounds {
    what: "margin over cut-out",
    ..CUT_OUT
};
const TANK: Bounds = Bounds {
    what: "rating of the tank",
    unit: "psi",
    min: 0.0,
    max: 10_000.0,
};
const PIPING: Bounds = Bounds {
    what: "rating of the piping",
    ..TANK
};
const SHUT_OFF: Bounds = Bounds {
    what: "shut-off head",
    unit: "ft",
    min: 0.0,
    max: 10_000.0,
};
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
const SETTING: Bounds = Bounds {
    what: "setting of the valve",
    ..CUT_OUT
};
const RISE: Bounds = Bounds {
    what: "rise",
    unit: "ft",
    min: -5_000.0,
    max: 10_000.0,
};

/// A switch's cut-out, and how far over it a valve is kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Floor {
    /// Where the pump stops.
    pub cut_out: Pressure,
    /// How far over it the lowest setting is.
    pub margin: Pressure,
}

/// The lowest sound setting of a relief valve.
///
/// # Formula
/// ```text
/// s = o + m
///
/// s  lowest setting   o  cut-out   m  margin   all gauge, one unit
/// ```
///
/// # Valid for
/// A well tank on a pressure switch. Nearer to cut-out a valve weeps each time
/// the pump stops.
///
/// # Source
/// Common practice, no source. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the pressure outside its span.
///
/// # Example
/// No outside figure is needed for a sum: 60 psi and a margin of 10 psi are
/// 70 psi.
/// ```
/// use pumpwright_calc::relief::{Floor, lowest_setting};
/// use uom::si::f64::Pressure;
/// use uom::si::pressure::psi;
///
/// let floor = Floor {
///     cut_out: Pressure::new::<psi>(60.0),
///     margin: Pressure::new::<psi>(10.0),
/// };
/// assert_eq!(format!("{:.1}", lowest_setting(floor)?.get::<psi>()), "70.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn lowest_setting(floor: Floor) -> Result<Pressure, Refusal> {
    CUT_OUT.check(PSI.read(floor.cut_out))?;
    MARGIN.check(PSI.read(floor.margin))?;
    Ok(floor.cut_out + floor.margin)
}

/// Pressure ratings of the parts that a relief valve guards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ratings {
    /// Of the tank, from its label.
    pub tank: Pressure,
    /// Of the weakest pipe or fitting, at the temperature of its water.
    pub piping: Pressure,
}

/// The highest sound setting of a relief valve: the weakest part's rating.
///
/// # Formula
/// ```text
/// c = the smaller of t and p
///
/// c  ceiling   t  rating of the tank   p  rating of the piping   all one unit
/// ```
///
/// # Valid for
/// Ratings at the temperature of the water. The rating is the ceiling, not the
/// target.
///
/// # Source
/// Setting not over the tank's rating: Chicago plumbing code 18-29-606.5.10. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the rating outside its span.
///
/// # Example
/// No outside figure is needed for a comparison: a tank rated 100 psi on piping
/// rated 160 psi makes 100 psi the ceiling.
/// ```
/// use pumpwright_calc::relief::{Ratings, ceiling};
/// use uom::si::f64::Pressure;
/// use uom::si::pressure::psi;
///
/// let ratings = Ratings {
///     tank: Pressure::new::<psi>(100.0),
///     piping: Pressure::new::<psi>(160.0),
/// };
/// assert_eq!(format!("{:.1}", ceiling(ratings)?.get::<psi>()), "100.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn ceiling(ratings: Ratings) -> Result<Pressure, Refusal> {
    TANK.check(PSI.read(ratings.tank))?;
    PIPING.check(PSI.read(ratings.piping))?;
    Ok(if ratings.piping < ratings.tank {
        ratings.piping
    } else {
        ratings.tank
    })
}

/// A pump with nothing flowing, and how high above the water its tank stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeadHead {
    /// Head that the pump makes with nothing flowing.
    pub shut_off_head: Length,
    /// Static level: with nothing flowing the well has recovered.
    pub static_level: Length,
    /// From the well head up to the tank; less than zero when the tank is lower.
    pub rise: Length,
}

/// Pressure at the tank if the pump never stopped and no water were drawn.
///
/// # Formula
/// ```text
/// p = (h - s - z) / 2.31      psi, ft   (trade, feet and psi)
/// p = 9.81 · (h - s - z)      kPa, m    (trade, metric)
/// p = 9.80665 · (h - s - z)   kPa, m    (physical)
///
/// h  shut-off head   s  static level   z  rise to the tank
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// A calculation, never an action: no pump is run against a closed system to
/// find it. Static level, since with nothing flowing there is no drawdown.
///
/// # Source
/// Hydrostatics; factors as in [`head::to_pressure`]. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span, or the head that
/// is left where the pump does not reach the tank.
///
/// # Example
/// MIL-HDBK-1164, appendix A, has 80.9 ft from 35 psi. Turned round: 174.9 ft at
/// shut-off over 90 ft to the water and 4 ft up to the tank leaves 80.9 ft, or
/// 35.0 psi.
/// ```
/// use pumpwright_calc::{registry::Basis, relief::{DeadHead, shut_off_pressure}};
/// use uom::si::f64::Length;
/// use uom::si::{length::foot, pressure::psi};
///
/// let dead_head = DeadHead {
///     shut_off_head: Length::new::<foot>(174.9),
///     static_level: Length::new::<foot>(90.0),
///     rise: Length::new::<foot>(4.0),
/// };
/// let pressure = shut_off_pressure(dead_head, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", pressure.get::<psi>()), "35.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn shut_off_pressure(dead_head: DeadHead, basis: Basis) -> Result<Pressure, Refusal> {
    SHUT_OFF.check(FOOT.read(dead_head.shut_off_head))?;
    STATIC_LEVEL.check(FOOT.read(dead_head.static_level))?;
    RISE.check(FOOT.read(dead_head.rise))?;
    head::to_pressure(
        dead_head.shut_off_head - dead_head.static_level - dead_head.rise,
        basis,
    )
}

const LAST_GUARD: Option<&str> = Some(
    "A relief valve is the last guard against a burst tank. It must pass the pump's whole flow at \
     its setting, discharge where it hurts nobody, and never be plugged, valved off or set over \
     the weakest part's rating. The tank's instructions and the local code decide.",
);

/// Where a relief valve opens, and how high the pump lifts there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Depth to water while pumping.
    pub pumping_level: Length,
    /// From the well head up to the tank; less than zero when the tank is lower.
    pub rise: Length,
    /// Pressure at which the valve opens.
    pub setting: Pressure,
}

/// Flow that a relief valve has to pass at its setting.
///
/// # Formula
/// ```text
/// the pump's flow at the head l + z + 2.31 · s     ft, psi (trade); as in `head`
///
/// l  pumping level   z  rise to the tank   s  setting
/// ```
///
/// # Valid for
/// A pump that runs on against the open valve. Friction is left out: the safe side.
///
/// # Source
/// Hydrostatics and the pump's curve; that a valve passes the whole flow of the pump is
/// common practice, no source. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where the pump does not reach the setting.
///
/// # Example
/// By hand on the straight line between 8 gpm at 255 ft and 12 gpm at 200 ft: 45 ft,
/// 5 ft and 75 psi ask for 223.25 ft, so 10.3 gpm.
/// ```
/// use pumpwright_calc::curve::{Curve, Point};
/// use pumpwright_calc::{registry::Basis, relief::{Opening, flow_to_pass}};
/// use uom::si::f64::{Length, Pressure, VolumeRate};
/// use uom::si::{length::foot, pressure::psi, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let points = [(8.0, 255.0), (12.0, 200.0)].map(|(flow, head)| {
///     Point { flow: VolumeRate::new::<gallon_per_minute>(flow), head: feet(head) }
/// });
/// let opening = Opening {
///     pumping_level: feet(45.0),
///     rise: feet(5.0),
///     setting: Pressure::new::<psi>(75.0),
/// };
/// let flow = flow_to_pass(&Curve::through(&points)?, opening, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", flow.get::<gallon_per_minute>()), "10.3");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow_to_pass(curve: &Curve, opening: Opening, basis: Basis) -> Result<VolumeRate, Refusal> {
    PUMPING_LEVEL.check(FOOT.read(opening.pumping_level))?;
    RISE.check(FOOT.read(opening.rise))?;
    SETTING.check(PSI.read(opening.setting))?;
    let lift = opening.pumping_level + opening.rise;
    curve.flow_at(lift + head::from_pressure(opening.setting, basis)?)
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "relief.lowest_setting",
        title: "lowest sound setting of a relief valve",
        inputs: &[
            port("cut_out", "o", "cut-out", PRESSURE),
            port("margin", "m", "margin over cut-out", PRESSURE),
        ],
        gives: port("setting", "s", "lowest setting", PRESSURE),
        law: Law::Shown(Pair::both("o + m")),
        valid: "A well tank on a pressure switch.",
        source: "common practice, no source",
        caution: LAST_GUARD,
        edition: 1,
        call: call!(_, (cut_out: Pressure, margin: Pressure) =>
            lowest_setting(Floor { cut_out, margin })),
    },
    Function {
        name: "relief.ceiling",
        title: "highest sound setting of a relief valve",
        inputs: &[
            port("tank", "t", "rating of the tank", PRESSURE),
            port("piping", "p", "rating of the piping", PRESSURE),
        ],
        gives: port("ceiling", "c", "ceiling", PRESSURE),
        law: Law::Shown(Pair::both("min(t, p)")),
        valid: "Ratings at the temperature of the water.",
        source: "Chicago plumbing code 18-29-606.5.10 (not over the tank's rating)",
        caution: LAST_GUARD,
        edition: 1,
        call: call!(_, (tank: Pressure, piping: Pressure) => ceiling(Ratings { tank, piping })),
    },
    Function {
        name: "relief.shut_off_pressure",
        title: "pressure at the tank with the pump at shut-off",
        inputs: &[
            port("shut_off_head", "h", "shut-off head", LENGTH),
            port("static_level", "s", "static level", LENGTH),
            port("rise", "z", "rise from the well head to the tank", LENGTH),
        ],
        gives: port("pressure", "p", "pressure at shut-off", PRESSURE),
        law: Law::Shown(Pair {
            us: "(h - s - z) / 2.31",
            si: "9.81 * (h - s - z)",
        }),
        valid: "A calculation, never an action. Nothing flows, so the static level counts.",
        source: "hydrostatics; 2.31 ft a psi: MIL-HDBK-1164, appendix A; 9.81 kPa a meter: common \
            practice, no source",
        caution: LAST_GUARD,
        edition: 1,
        call: call!(basis, (shut_off_head: Length, static_level: Length, rise: Length) =>
            shut_off_pressure(DeadHead { shut_off_head, static_level, rise }, basis)),
    },
    Function {
        name: "relief.flow_to_pass",
        title: "flow that a relief valve has to pass at its setting",
        inputs: &[
            port("shut_off_head", "s", "head of the pump at no flow", LENGTH),
            port("flow_one", "a", "flow of the first point", SPEED_FLOW),
            port("head_one", "b", "head of the first point", LENGTH),
            port("flow_two", "c", "flow of the second point", SPEED_FLOW),
            port("head_two", "d", "head of the second point", LENGTH),
            port("pumping_level", "l", "pumping level", LENGTH),
            port("rise", "z", "rise from the well head to the tank", LENGTH),
            port("setting", "p", "setting of the valve", PRESSURE),
        ],
        gives: port("flow", "q", "flow to pass", SPEED_FLOW),
        law: Law::Named("the pump's flow at the head of lift and setting together"),
        valid: "A pump that runs on against the open valve; friction left out.",
        source: "hydrostatics and the pump's curve; common practice, no source",
        caution: LAST_GUARD,
        edition: 1,
        call: call!(basis, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            pumping_level: Length,
            rise: Length,
            setting: Pressure
        ) => flow_to_pass(
            &ThreePoints {
                shut_off: shut_off_head,
                middle: Point { flow: flow_one, head: head_one },
                end: Point { flow: flow_two, head: head_two },
            }.curve()?,
            Opening { pumping_level, rise, setting },
            basis,
        )),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn dead_head(shut_off: f64, level: f64, rise: f64) -> Result<f64, Refusal> {
        let dead_head = DeadHead {
            shut_off_head: FOOT.of(shut_off),
            static_level: FOOT.of(level),
            rise: FOOT.of(rise),
        };
        shut_off_pressure(dead_head, Basis::UsTrade).map(|pressure| PSI.read(pressure))
    }

    fn floor(cut_out: f64, margin: f64) -> Result<f64, Refusal> {
        let floor = Floor {
            cut_out: PSI.of(cut_out),
            margin: PSI.of(margin),
        };
        lowest_setting(floor).map(|setting| PSI.read(setting))
    }

    fn weakest(tank: f64, piping: f64) -> Result<f64, Refusal> {
        let ratings = Ratings {
            tank: PSI.of(tank),
            piping: PSI.of(piping),
        };
        ceiling(ratings).map(|ceiling| PSI.read(ceiling))
    }

    #[test]
    fn a_rise_of_the_tank_takes_pressure_off() {
        assert!(dead_head(410.0, 90.0, 4.0).unwrap() < dead_head(410.0, 90.0, 0.0).unwrap());
        assert!(dead_head(410.0, 90.0, -4.0).unwrap() > dead_head(410.0, 90.0, 0.0).unwrap());
    }

    #[test]
    fn a_pump_that_does_not_reach_the_tank_is_refused() {
        assert!(dead_head(100.0, 250.0, 0.0).is_err());
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(dead_head(figure, 90.0, 4.0).is_err());
            assert!(dead_head(410.0, figure, 4.0).is_err());
            assert!(dead_head(410.0, 90.0, figure).is_err());
            assert!(floor(figure, 10.0).is_err());
            assert!(floor(60.0, figure).is_err());
            assert!(weakest(figure, 100.0).is_err());
            assert!(weakest(100.0, figure).is_err());
        }
        assert!(floor(-1.0, 10.0).is_err());
        assert!(floor(60.0, -1.0).is_err());
        assert!(weakest(-1.0, 100.0).is_err());
    }

    proptest! {
        #[test]
        fn the_ceiling_is_over_neither_rating(tank in 0.0..500.0_f64, piping in 0.0..500.0_f64) {
            let ceiling = weakest(tank, piping).unwrap();
            prop_assert!(ceiling <= tank + 1e-9 && ceiling <= piping + 1e-9);
            prop_assert_eq!(weakest(tank, piping), weakest(piping, tank));
        }

        #[test]
        fn the_floor_is_never_below_cut_out(cut_out in 0.0..200.0_f64, margin in 0.0..50.0_f64) {
            prop_assert!(floor(cut_out, margin).unwrap() >= cut_out - 1e-9);
        }
    }
}
