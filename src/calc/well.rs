//! Water levels in a well. Depths are measured down from one mark, most often
//! the top of the casing.

use uom::si::f64::{Length, Pressure, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{FlowPerLength, Measured};
use crate::head;
use crate::ports::{LENGTH, PRESSURE, SPECIFIC_CAPACITY, SPEED_FLOW, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{FOOT, GALLON_PER_MINUTE, GPM_PER_FOOT, PSI};

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

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const FALL: Bounds = Bounds::of("drawdown", "ft", 0.001, 10_000.0);
const CAPACITY: Bounds = Bounds::of("specific capacity", "gpm/ft", 0.000_1, 1e6);
const LINE: Bounds = Bounds::of("length of the air line", "ft", 0.0, 10_000.0);
const BLOWN: Bounds = Bounds::of("pressure in the air line", "psi", 0.0, 5_000.0);

/// Depths to water below one mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// At rest; less than zero in a well that flows by itself.
    pub at_rest: Length,
    /// While pumping.
    pub pumping: Length,
}

/// Drawdown: how far the water falls while pumping.
///
/// # Formula
/// ```text
/// d = p - s
///
/// d  drawdown   p  pumping level   s  static level   all one unit
/// ```
///
/// # Valid for
/// Both levels measured from the same mark. The figure belongs to one flow and
/// one time of pumping.
///
/// # Source
/// Definition; Prairie Farm Rehabilitation Administration, *Specific Capacity*.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the level outside its span;
/// [`Refusal::Conflict`] when the water stands higher pumping than at rest.
///
/// # Example
/// A water-technology lecture (MTH 082, well drawdown problem): from 140 ft down
/// to 167 ft is a drawdown of 27 ft.
/// ```
/// use pumpwright_calc::well::{Levels, drawdown};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let levels = Levels {
///     at_rest: Length::new::<foot>(140.0),
///     pumping: Length::new::<foot>(167.0),
/// };
/// assert_eq!(format!("{:.0}", drawdown(levels)?.get::<foot>()), "27");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown(levels: Levels) -> Result<Length, Refusal> {
    STATIC_LEVEL.check(FOOT.read(levels.at_rest))?;
    PUMPING_LEVEL.check(FOOT.read(levels.pumping))?;
    if levels.pumping < levels.at_rest {
        return Err(Refusal::Conflict(
            "the pumping level is above the static level; pumping lowers the water",
        ));
    }
    Ok(levels.pumping - levels.at_rest)
}

/// Specific capacity: what a well gives for each length that its water falls.
///
/// # Formula
/// ```text
/// c = q / d
///
/// c  specific capacity   q  flow   d  drawdown
/// ```
///
/// # Valid for
/// The flow and the time of pumping at which the drawdown was read. It falls with
/// both.
///
/// # Source
/// Definition; an operators' glossary, entry "specific capacity". The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That glossary: 20 gpm for 40 ft of drawdown is 0.5 gpm a foot.
/// ```
/// use pumpwright_calc::{dimension::Measured, well::specific_capacity};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let (flow, fall) = (VolumeRate::new::<gallon_per_minute>(20.0), Length::new::<foot>(40.0));
/// let capacity = specific_capacity(flow, fall)?;
/// let one = VolumeRate::new::<gallon_per_minute>(1.0).si() / Length::new::<foot>(1.0).si();
/// assert_eq!(format!("{:.3}", capacity.si() / one), "0.500");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn specific_capacity(flow: VolumeRate, drawdown: Length) -> Result<FlowPerLength, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    FALL.check(FOOT.read(drawdown))?;
    Ok(FlowPerLength::from_si(flow.si() / drawdown.si()))
}

/// Pumping level to expect at a flow.
///
/// # Formula
/// ```text
/// p = s + q / c
///
/// p  pumping level   s  static level   q  flow   c  specific capacity
/// ```
///
/// # Valid for
/// A flow and a time near those at which the specific capacity was found.
///
/// # Source
/// Definition; Prairie Farm Rehabilitation Administration, *Specific Capacity*.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// An operators' glossary, turned round: 20 gpm at 0.5 gpm a foot draw the water
/// down 40 ft, from 60 ft to 100 ft.
/// ```
/// use pumpwright_calc::well::{pumping_level, specific_capacity};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let (flow, feet) = (VolumeRate::new::<gallon_per_minute>(20.0), Length::new::<foot>);
/// let level = pumping_level(feet(60.0), flow, specific_capacity(flow, feet(40.0))?)?;
/// assert_eq!(format!("{:.1}", level.get::<foot>()), "100.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn pumping_level(
    static_level: Length,
    flow: VolumeRate,
    capacity: FlowPerLength,
) -> Result<Length, Refusal> {
    STATIC_LEVEL.check(FOOT.read(static_level))?;
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    CAPACITY.check(GPM_PER_FOOT.read(capacity))?;
    Ok(Length::from_si(
        static_level.si() + flow.si() / capacity.si(),
    ))
}

/// Depth to water by air line.
///
/// # Formula
/// ```text
/// d = l - 2.31 · p      ft, psi   (trade, feet and psi)
/// d = l - p / 9.81      m, kPa    (trade, metric)
/// d = l - p / 9.80665   m, kPa    (physical)
///
/// d  depth to water   l  length of the line   p  pressure that holds steady
/// ```
///
/// # Valid for
/// A tight line of known length, pumped until the gauge rises no further.
///
/// # Source
/// Hydrostatics; factors as in [`head::from_pressure`]. The method is common
/// practice, no source. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span;
/// [`Refusal::Conflict`] when the line would be under water past its top.
///
/// # Example
/// *Mathematics and Statistics for the Environment*, example 2.57: 40 psi are
/// 92.4 ft, so a line of 200 ft finds water at 107.6 ft.
/// ```
/// use pumpwright_calc::{registry::Basis, well::air_line_level};
/// use uom::si::f64::{Length, Pressure};
/// use uom::si::{length::foot, pressure::psi};
///
/// let (line, held) = (Length::new::<foot>(200.0), Pressure::new::<psi>(40.0));
/// let depth = air_line_level(line, held, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", depth.get::<foot>()), "107.6");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn air_line_level(line: Length, held: Pressure, basis: Basis) -> Result<Length, Refusal> {
    LINE.check(FOOT.read(line))?;
    BLOWN.check(PSI.read(held))?;
    let submerged = head::from_pressure(held, basis)?;
    if submerged > line {
        return Err(Refusal::Conflict(
            "the pressure asks for more water over the line's end than the line is long",
        ));
    }
    Ok(line - submerged)
}

const STATIC: Port = port("static_level", "s", "static level", LENGTH);
const PFRA: &str = "definition; Prairie Farm Rehabilitation Administration, Specific Capacity";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "well.drawdown",
        title: "how far the water falls while pumping",
        inputs: &[STATIC, port("pumping_level", "p", "pumping level", LENGTH)],
        gives: port("drawdown", "d", "drawdown", LENGTH),
        law: Law::Shown(Pair::both("p - s")),
        valid: "Both levels measured from the same mark.",
        source: PFRA,
        caution: None,
        edition: 1,
        call: call!(_, (static_level: Length, pumping_level: Length) =>
        drawdown(Levels { at_rest: static_level, pumping: pumping_level })),
    },
    Function {
        name: "well.specific_capacity",
        title: "flow of a well for each length that its water falls",
        inputs: &[
            port("flow", "q", "flow", SPEED_FLOW),
            port("drawdown", "d", "drawdown", LENGTH),
        ],
        gives: port(
            "specific_capacity",
            "c",
            "specific capacity",
            SPECIFIC_CAPACITY,
        ),
        law: Law::Shown(Pair::both("q / d")),
        valid: "The flow and time of pumping at which the drawdown was read.",
        source: PFRA,
        caution: None,
        edition: 1,
        call: call!(_, (flow: VolumeRate, drawdown: Length) => specific_capacity(flow, drawdown)),
    },
    Function {
        name: "well.pumping_level",
        title: "pumping level to expect at a flow",
        inputs: &[
            STATIC,
            port("flow", "q", "flow", SPEED_FLOW),
            port(
                "specific_capacity",
                "c",
                "specific capacity",
                SPECIFIC_CAPACITY,
            ),
        ],
        gives: port("pumping_level", "p", "pumping level", LENGTH),
        law: Law::Shown(Pair::both("s + q / c")),
        valid: "A flow and time near those at which the specific capacity was found.",
        source: PFRA,
        caution: None,
        edition: 1,
        call: call!(_, (static_level: Length, flow: VolumeRate, specific_capacity: FlowPerLength) =>
        pumping_level(static_level, flow, specific_capacity)),
    },
    Function {
        name: "well.air_line_level",
        title: "depth to water by air line",
        inputs: &[
            port("line", "l", "length of the air line", LENGTH),
            port("pressure", "p", "pressure that holds steady", PRESSURE),
        ],
        gives: port("level", "d", "depth to water", LENGTH),
        law: Law::Shown(Pair {
            us: "l - 2.31 * p",
            si: "l - p / 9.81",
        }),
        valid: "A tight line of known length, pumped until the gauge rises no further.",
        source: "hydrostatics; the method is common practice, no source",
        caution: None,
        edition: 1,
        call: call!(basis, (line: Length, pressure: Pressure) =>
        air_line_level(line, pressure, basis)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn between(at_rest: f64, pumping: f64) -> Result<f64, Refusal> {
        let levels = Levels {
            at_rest: FOOT.of(at_rest),
            pumping: FOOT.of(pumping),
        };
        drawdown(levels).map(|fall| FOOT.read(fall))
    }

    #[test]
    fn a_level_that_stays_has_no_drawdown() {
        assert_eq!(between(62.0, 62.0), Ok(0.0));
    }

    #[test]
    fn a_line_shorter_than_its_water_and_a_well_without_fall_are_refused() {
        let (line, held) = (FOOT.of(50.0), PSI.of(40.0));
        assert!(air_line_level(line, held, Basis::UsTrade).is_err());
        assert!(specific_capacity(GALLON_PER_MINUTE.of(5.0), FOOT.of(0.0)).is_err());
    }

    #[test]
    fn a_flowing_well_is_drawn_down_from_above_ground() {
        assert!((between(-12.0, 30.0).unwrap() - 42.0).abs() < 1e-9);
    }

    #[test]
    fn water_that_rises_while_pumping_is_refused() {
        assert!(matches!(between(80.0, 60.0), Err(Refusal::Conflict(_))));
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e6] {
            assert!(between(figure, 100.0).is_err());
            assert!(between(10.0, figure).is_err());
        }
    }

    proptest! {
        #[test]
        fn capacity_and_level_turn_each_other_round(
            gpm in 1.0..50.0_f64, fall in 1.0..300.0_f64, rest in 0.0..300.0_f64,
        ) {
            let flow = GALLON_PER_MINUTE.of(gpm);
            let capacity = specific_capacity(flow, FOOT.of(fall)).unwrap();
            let level = pumping_level(FOOT.of(rest), flow, capacity).unwrap();
            prop_assert!((between(rest, FOOT.read(level)).unwrap() - fall).abs() < 1e-9);
        }

        #[test]
        fn a_lower_pumping_level_is_more_drawdown(rest in -50.0..500.0_f64, fall in 0.0..500.0_f64) {
            let here = between(rest, rest + fall).unwrap();
            prop_assert!((here - fall).abs() < 1e-9);
            prop_assert!(between(rest, rest + fall + 1.0).unwrap() > here);
        }
    }
}
