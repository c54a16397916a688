//! Aquifer tests by Cooper and Jacob's straight line, which stands for Theis late
//! or near. The formula it stands for is in `aquifer`.

use std::f64::consts::{LN_10, PI};

use uom::si::f64::{Length, Time, VolumeRate};

use crate::aquifer::{AWAY, Aquifer, CARRIED, FALL, FLOW, PUMPED, Pumped, theis_u};
use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{FlowPerLength, Measured};
use crate::ports::{AQUIFER_FLOW, DAYS, LENGTH, PLAIN, TRANSMISSIVITY, port};
use crate::registry::{Basis, Function, Law};
use crate::units::{DAY, FOOT, GALLON_PER_MINUTE, GPD_PER_FOOT};

/// Above this the straight line is refused: there it is 2 percent off.
const U_MOST: f64 = 0.05;
/// e to the minus Euler's constant, times four: 2.2459.
const INTERCEPT: f64 = 2.245_838;
/// Feet from gallons a minute over gallons a day and foot, for a log cycle.
const US_CYCLE: f64 = 264.0;
/// From gallons a day and foot, days and feet squared.
const US_INTERCEPT: f64 = 0.3;

const CYCLE: Bounds = Bounds::of("drawdown in a log cycle", "ft", 0.000_1, 10_000.0);
const START: Bounds = Bounds::of("time of no drawdown", "d", 1e-9, 1e5);

/// Drawdown at a place by Cooper and Jacob.
///
/// # Formula
/// ```text
/// s = (264 · Q / T) · log10(0.3 · T · t / (r² · S))           ft, gpm, gpd/ft, d   (trade)
/// s = 2.303 · Q / (4 · π · T) · log10(2.246 · T · t / (r² · S))   any one system   (else)
///
/// s  drawdown   Q  flow   T  transmissivity   t  time   r  distance   S  storage
/// ```
///
/// # Valid for
/// u below 0.01: within 0.3 percent of Theis. To 0.05, where it is 2 percent off,
/// it is still given; beyond, refused.
///
/// # Source
/// H. H. Cooper and C. E. Jacob, *Transactions of the American Geophysical Union* 27
/// (1946) 526 (from memory); the constants 264 and 0.3 as the trade prints them.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span;
/// [`Refusal::Conflict`] where u is above 0.05.
///
/// # Example
/// Theis with scipy 1.17.1's exp1 gives 3.673 ft for 20 gpm, 5000 gpd a foot, 0.0002,
/// at 50 ft after a day; the straight line 3.672.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped};
/// use pumpwright_calc::{dimension::Measured, jacob::drawdown, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(5_000.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 0.000_2 };
/// let well = Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(20.0),
///     distance: Length::new::<foot>(50.0),
///     time: Time::new::<day>(1.0),
/// };
/// let fall = drawdown(aquifer, well, Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", fall.get::<foot>()), "3.67");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown(aquifer: Aquifer, well: Pumped, basis: Basis) -> Result<Length, Refusal> {
    if theis_u(aquifer, well, Basis::Physical)? > U_MOST {
        return Err(Refusal::Conflict(
            "u is above 0.05: too far out or too early for the straight line; take Theis",
        ));
    }
    Ok(match basis {
        Basis::UsTrade => {
            let (carried, away) = (
                GPD_PER_FOOT.read(aquifer.transmissivity),
                FOOT.read(well.distance),
            );
            let inside =
                US_INTERCEPT * carried * DAY.read(well.time) / (away * away * aquifer.storage);
            let cycle = US_CYCLE * GALLON_PER_MINUTE.read(well.flow) / carried;
            FOOT.of(cycle * libm::log10(inside))
        }
        Basis::SiTrade | Basis::Physical => {
            let (carried, away) = (aquifer.transmissivity.si(), well.distance.si());
            let inside = INTERCEPT * carried * well.time.si() / (away * away * aquifer.storage);
            Length::from_si(well.flow.si() / (4.0 * PI * carried) * libm::log(inside))
        }
    })
}

/// Transmissivity from the fall in one log cycle of time.
///
/// # Formula
/// ```text
/// T = 264 · Q / s                gpd/ft, gpm, ft    (trade, feet and gallons)
/// T = 2.303 · Q / (4 · π · s)    any one system     (else)
///
/// T  transmissivity   Q  flow   s  drawdown from one time to ten times it
/// ```
///
/// # Valid for
/// The straight part of the line, u below 0.01. Recovery read against t / t' has the
/// same formula.
///
/// # Source
/// Jacob's method as a lecture note prints it, 264 Q / s. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That form: 50 gpm and 2.6 ft are 5077 gpd a foot.
/// ```
/// use pumpwright_calc::{dimension::Measured, jacob::transmissivity, registry::Basis};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::length::foot;
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let flow = VolumeRate::new::<gallon_per_minute>(50.0);
/// let carried = transmissivity(flow, Length::new::<foot>(2.6), Basis::UsTrade)?;
/// let one = VolumeRate::new::<gallon_per_day>(1.0) / Length::new::<foot>(1.0);
/// assert_eq!(format!("{:.0}", carried.si() / one.si()), "5077");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn transmissivity(
    flow: VolumeRate,
    cycle: Length,
    basis: Basis,
) -> Result<FlowPerLength, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    CYCLE.check(FOOT.read(cycle))?;
    Ok(match basis {
        Basis::UsTrade => {
            GPD_PER_FOOT.of(US_CYCLE * GALLON_PER_MINUTE.read(flow) / FOOT.read(cycle))
        }
        Basis::SiTrade | Basis::Physical => {
            FlowPerLength::from_si(LN_10 * flow.si() / (4.0 * PI * cycle.si()))
        }
    })
}

/// Storage coefficient from where the straight line meets no drawdown.
///
/// # Formula
/// ```text
/// S = 0.3 · T · t / r²      gpd/ft, d, ft    (trade, feet and gallons)
/// S = 2.246 · T · t / r²    any one system   (else)
///
/// S  storage   T  transmissivity   t  time where the line meets no drawdown
/// r  distance to the well read
/// ```
///
/// # Valid for
/// An observation well; the pumped well's own losses spoil it.
///
/// # Source
/// H. H. Cooper and C. E. Jacob (1946), from memory; a state permit file's aquifer test
/// works it so. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That file, observation well 118: 0.02 ft² a minute, 42 min and 50 ft make 0.00076
/// (its own rounding; exactly 0.000755).
/// ```
/// use pumpwright_calc::{dimension::{FlowPerLength, Measured}, jacob::storage, registry::Basis};
/// use uom::si::f64::{Length, Time};
/// use uom::si::{length::foot, time::minute};
///
/// let carried = FlowPerLength::from_si(0.02 * 0.3048 * 0.3048 / 60.0);
/// let (time, away) = (Time::new::<minute>(42.0), Length::new::<foot>(50.0));
/// let stored = storage(carried, time, away, Basis::Physical)?;
/// assert_eq!(format!("{:.6}", stored), "0.000755");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn storage(
    transmissivity: FlowPerLength,
    time: Time,
    distance: Length,
    basis: Basis,
) -> Result<f64, Refusal> {
    CARRIED.check(GPD_PER_FOOT.read(transmissivity))?;
    START.check(DAY.read(time))?;
    AWAY.check(FOOT.read(distance))?;
    Ok(match basis {
        Basis::UsTrade => {
            let away = FOOT.read(distance);
            US_INTERCEPT * GPD_PER_FOOT.read(transmissivity) * DAY.read(time) / (away * away)
        }
        Basis::SiTrade | Basis::Physical => {
            let away = distance.si();
            INTERCEPT * transmissivity.si() * time.si() / (away * away)
        }
    })
}

const STRAIGHT: &str = "H. H. Cooper and C. E. Jacob, Transactions of the American Geophysical Union 27 \
    (1946) 526 (from memory)";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "jacob.drawdown",
        title: "drawdown at a distance by the straight-line method",
        inputs: &PUMPED,
        gives: FALL,
        law: Law::Named("by Cooper and Jacob's straight line on a log scale of time"),
        valid: "u below 0.01 to 0.3 percent of Theis; refused above 0.05.",
        source: STRAIGHT,
        caution: None,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            transmissivity: FlowPerLength,
            storage: f64,
            distance: Length,
            time: Time
        ) => drawdown(
            Aquifer { transmissivity, storage },
            Pumped { flow, distance, time },
            basis,
        )),
    },
    Function {
        name: "jacob.transmissivity",
        title: "transmissivity from the fall in one log cycle",
        inputs: &[
            port("flow", "q", "flow", AQUIFER_FLOW),
            port("cycle", "s", "drawdown in one log cycle", LENGTH),
        ],
        gives: port("transmissivity", "t", "transmissivity", TRANSMISSIVITY),
        law: Law::Named("264 times flow over the fall, in gallons and feet"),
        valid: "The straight part of the line, u below 0.01.",
        source: STRAIGHT,
        caution: None,
        edition: 1,
        call: call!(basis, (flow: VolumeRate, cycle: Length) =>
            transmissivity(flow, cycle, basis)),
    },
    Function {
        name: "jacob.storage",
        title: "storage coefficient from where the line meets no drawdown",
        inputs: &[
            port("transmissivity", "t", "transmissivity", TRANSMISSIVITY),
            port("time", "d", "time where the line meets no drawdown", DAYS),
            port("distance", "r", "distance to the well read", LENGTH),
        ],
        gives: port("storage", "s", "storage coefficient", PLAIN),
        law: Law::Named(
            "0.3 times transmissivity and time over the square of the distance, in \
            gallons and feet",
        ),
        valid: "An observation well.",
        source: STRAIGHT,
        caution: None,
        edition: 1,
        call: call!(basis, (transmissivity: FlowPerLength, time: Time, distance: Length) =>
            storage(transmissivity, time, distance, basis)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::aquifer::theis_drawdown;

    fn well(distance: f64, days: f64) -> (Aquifer, Pumped) {
        let aquifer = Aquifer {
            transmissivity: GPD_PER_FOOT.of(5_000.0),
            storage: 0.000_2,
        };
        let pumped = Pumped {
            flow: GALLON_PER_MINUTE.of(20.0),
            distance: FOOT.of(distance),
            time: DAY.of(days),
        };
        (aquifer, pumped)
    }

    #[test]
    fn too_far_out_is_refused() {
        let (aquifer, far) = well(2_000.0, 0.1);
        let refusal = drawdown(aquifer, far, Basis::UsTrade).unwrap_err();
        assert!(refusal.to_string().contains("take Theis"));
    }

    proptest! {
        #[test]
        fn it_keeps_its_word_against_theis(distance in 1.0..400.0_f64, days in 0.5..30.0_f64) {
            let (aquifer, well) = well(distance, days);
            let u = theis_u(aquifer, well, Basis::Physical).unwrap();
            prop_assume!(u < U_MOST);
            let line = drawdown(aquifer, well, Basis::Physical).unwrap().si();
            let theis = theis_drawdown(aquifer, well, Basis::Physical).unwrap().si();
            let promised = if u < 0.01 { 0.003 } else { 0.02 };
            prop_assert!((line / theis - 1.0).abs() < promised, "{u} {line} {theis}");
        }

        #[test]
        fn the_line_gives_the_aquifer_back(days in 0.5..30.0_f64) {
            let (aquifer, now) = well(20.0, days);
            let (_, later) = well(20.0, 10.0 * days);
            for basis in [Basis::UsTrade, Basis::Physical] {
                let fall = |well| drawdown(aquifer, well, basis).unwrap();
                let cycle = fall(later) - fall(now);
                let found = transmissivity(now.flow, cycle, basis).unwrap();
                prop_assert!((found.si() / aquifer.transmissivity.si() - 1.0).abs() < 1e-9);
            }
        }
    }
}
