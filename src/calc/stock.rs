//! The next size that is made: pipe, relief valve, motor. The sums that ask for one are
//! in their own subjects.

use uom::si::f64::{Length, Power, Pressure, Velocity, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::friction::{Pipe, hazen_williams};
use crate::motor::Rated;
use crate::ports::{LENGTH, POWER, PRESSURE, SPEED, SPEED_FLOW, WIDTH, port, word};
use crate::registry::{Basis, Function, Law};
use crate::tables::look_up_word;
use crate::units::{FOOT, FOOT_PER_SECOND, HORSEPOWER, INCH, PSI};
use crate::velocity::{Stream, in_pipe};

const BORES: &str = include_str!("tables/pipe_bores.csv");
/// Settings at which relief valves are made, psi.
const SETTINGS: [f64; 4] = [75.0, 100.0, 125.0, 150.0];
/// Motors that the trade has for small wells, with their horsepower.
const MOTORS: [(f64, Rated); 10] = [
    (1.0 / 3.0, Rated::Third),
    (0.5, Rated::Half),
    (0.75, Rated::ThreeQuarters),
    (1.0, Rated::One),
    (1.5, Rated::OneAndHalf),
    (2.0, Rated::Two),
    (3.0, Rated::Three),
    (5.0, Rated::Five),
    (7.5, Rated::SevenAndHalf),
    (10.0, Rated::Ten),
];
/// Hazen-Williams C of plastic pipe.
const PLASTIC: f64 = 150.0;
/// What changing units leaves behind must not take the next size.
const DUST: f64 = 1e-9;

const FRICTION: Bounds = Bounds::of("friction allowed", "ft", 0.0, 10_000.0);
const SPEED_MOST: Bounds = Bounds::of("speed allowed", "ft/s", 0.1, 100.0);
const FLOOR: Bounds = Bounds::of("lowest setting", "psi", 0.0, 1_000.0);
const SHAFT: Bounds = Bounds::of("power", "hp", 0.0, 1_000.0);

/// Kinds of pipe whose bores the table has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Made {
    /// Polyethylene of ASTM D2239.
    Pe,
    /// Steel, schedule 40.
    Steel,
    /// PVC, schedule 40, by its average bore.
    Pvc,
}
words!(Made, "a kind of pipe", {
    Pe = "PE by inside diameter",
    Steel = "schedule 40 steel",
    Pvc = "PVC schedule 40 average",
});

/// Nominal sizes of service pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Nominal {
    /// 3/4 in.
    ThreeQuarters,
    /// 1 in.
    One,
    /// 1-1/4 in.
    OneAndQuarter,
    /// 1-1/2 in.
    OneAndHalf,
    /// 2 in.
    Two,
}
words!(Nominal, "a nominal size like \"1-1/4 in\"", {
    ThreeQuarters = "3/4 in",
    One = "1 in",
    OneAndQuarter = "1-1/4 in",
    OneAndHalf = "1-1/2 in",
    Two = "2 in",
});

const SIZES: [Nominal; 5] = [
    Nominal::ThreeQuarters,
    Nominal::One,
    Nominal::OneAndQuarter,
    Nominal::OneAndHalf,
    Nominal::Two,
];

/// Inside diameter of pipe of a nominal size.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Pipe as made today. PVC's average bore is a little under its least: the walls run
/// above their least.
///
/// # Source
/// International Residential Code 2018, appendix A, table A.2.2 (steel); a maker's pipe data
/// (PVC); ASTM D2239 (PE, from memory).
///
/// # Errors
/// [`Refusal::Conflict`] where the table has no such cell.
///
/// # Example
/// International Residential Code 2018, table A.2.2: 1-1/4 in has 1.380 in.
/// ```
/// use pumpwright_calc::stock::{Made, Nominal, bore};
/// use uom::si::length::inch;
///
/// let inside = bore(Made::Steel, Nominal::OneAndQuarter)?;
/// assert_eq!(format!("{:.3}", inside.get::<inch>()), "1.380");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn bore(made: Made, nominal: Nominal) -> Result<Length, Refusal> {
    let inches = look_up_word(BORES, nominal.word(), made.word());
    inches
        .map(|inches| INCH.of(inches))
        .ok_or(Refusal::Conflict(
            "the table has no bore for this pipe and size",
        ))
}

/// What a line of plastic pipe may cost in head and speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Flow through it.
    pub flow: VolumeRate,
    /// Length along it.
    pub length: Length,
    /// The most friction.
    pub friction: Length,
    /// The most speed.
    pub speed: Velocity,
}

/// Smallest PE pipe that keeps friction and speed within their limits.
///
/// # Formula
/// ```text
/// the first of 3/4, 1, 1-1/4, 1-1/2, 2 in whose friction, by `friction::hazen_williams` at
/// C 150, and whose speed, by `velocity::in_pipe`, are within both limits
/// ```
///
/// # Valid for
/// PE of ASTM D2239, straight pipe.
///
/// # Source
/// As [`crate::friction::hazen_williams`] and [`bore`]. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal`] where an argument is out of its span or no size to 2 in will do.
///
/// # Example
/// 77 Ill. Adm. Code 906, appendix A, exhibit I: 10 gpm in 1 in lose 5.50 ft in 100 ft; so
/// 5.6 ft allow 1 in and 5.4 ft ask for 1-1/4 in.
/// ```
/// use pumpwright_calc::{registry::Basis, stock::{Line, Nominal, smallest_pe}};
/// use uom::si::f64::{Length, Velocity, VolumeRate};
/// use uom::si::{length::foot, velocity::foot_per_second, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let line = |friction| Line {
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     length: feet(100.0),
///     friction: feet(friction),
///     speed: Velocity::new::<foot_per_second>(5.0),
/// };
/// assert_eq!(smallest_pe(line(5.6), Basis::UsTrade)?, Nominal::One);
/// assert_eq!(smallest_pe(line(5.4), Basis::UsTrade)?, Nominal::OneAndQuarter);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_pe(line: Line, basis: Basis) -> Result<Nominal, Refusal> {
    let most = FRICTION.check(FOOT.read(line.friction))?;
    let fastest = SPEED_MOST.check(FOOT_PER_SECOND.read(line.speed))?;
    for nominal in SIZES {
        let bore = bore(Made::Pe, nominal)?;
        let pipe = Pipe {
            length: line.length,
            bore,
            c: PLASTIC,
        };
        let lost = FOOT.read(hazen_williams(pipe, line.flow, basis)?);
        let stream = Stream {
            flow: line.flow,
            bore,
        };
        let speed = FOOT_PER_SECOND.read(in_pipe(stream, basis)?);
        if lost <= most * (1.0 + DUST) && speed <= fastest * (1.0 + DUST) {
            return Ok(nominal);
        }
    }
    Err(Refusal::Conflict(
        "no size to 2 in keeps friction and speed within both limits",
    ))
}

/// The next relief valve that is made, from the lowest setting up.
///
/// # Formula
/// ```text
/// the first of 75, 100, 125, 150 psi that is at least the lowest setting
/// ```
///
/// # Valid for
/// A setting that is no higher than the weakest part's rating: see [`crate::relief::ceiling`].
///
/// # Source
/// Common practice, no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no pressure; [`Refusal::Conflict`] above 150 psi.
///
/// # Example
/// No outside figure is needed to look along a row: 80 psi ask for 100.
/// ```
/// use pumpwright_calc::stock::relief_setting;
/// use uom::si::{f64::Pressure, pressure::psi};
///
/// let setting = relief_setting(Pressure::new::<psi>(80.0))?;
/// assert_eq!(format!("{:.0}", setting.get::<psi>()), "100");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn relief_setting(lowest: Pressure) -> Result<Pressure, Refusal> {
    let lowest = FLOOR.check(PSI.read(lowest))?;
    let found = SETTINGS
        .iter()
        .find(|setting| **setting >= lowest * (1.0 - DUST));
    found
        .map(|setting| PSI.of(*setting))
        .ok_or(Refusal::Conflict(
            "no relief valve to 150 psi is set as high",
        ))
}

/// The next motor that is made, from the power at the shaft up.
///
/// # Formula
/// ```text
/// the first of 1/3, 1/2, 3/4, 1, 1-1/2, 2, 3, 5, 7-1/2, 10 hp that is at least the power
/// ```
///
/// # Valid for
/// Power at the pump's shaft. A motor may run over its rating to its service factor; that
/// is its plate's to say and not counted on here.
///
/// # Source
/// Common practice, no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no power; [`Refusal::Conflict`] above 10 hp.
///
/// # Example
/// No outside figure is needed to look along a row: 1.06 hp ask for 1-1/2 hp.
/// ```
/// use pumpwright_calc::{motor::Rated, stock::motor};
/// use uom::si::{f64::Power, power::horsepower};
///
/// assert_eq!(motor(Power::new::<horsepower>(1.06))?, Rated::OneAndHalf);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn motor(shaft: Power) -> Result<Rated, Refusal> {
    let least = SHAFT.check(HORSEPOWER.read(shaft))?;
    let found = MOTORS
        .iter()
        .find(|(rating, _)| *rating >= least * (1.0 - DUST));
    found
        .map(|(_, motor)| *motor)
        .ok_or(Refusal::Conflict("no motor here is as large as this power"))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "stock.bore",
        title: "inside diameter of pipe of a nominal size",
        inputs: &[
            port("pipe", "p", "kind of pipe", word(Made::WORDS)),
            port("nominal", "n", "nominal size", word(Nominal::WORDS)),
        ],
        gives: port("bore", "d", "inside diameter", WIDTH),
        law: Law::Named("by the table of bores"),
        valid: "Pipe as made today.",
        source: "International Residential Code 2018, table A.2.2; a maker's pipe data; ASTM D2239 \
            (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (pipe: Made, nominal: Nominal) => bore(pipe, nominal)),
    },
    Function {
        name: "stock.smallest_pe",
        title: "smallest PE pipe within limits of friction and speed",
        inputs: &[
            port("flow", "q", "flow", SPEED_FLOW),
            port("length", "l", "pipe length", LENGTH),
            port("friction", "f", "friction allowed", LENGTH),
            port("speed", "v", "speed allowed", SPEED),
        ],
        gives: port("nominal", "n", "nominal size", word(Nominal::WORDS)),
        law: Law::Named("the first size within both limits"),
        valid: "PE by inside diameter, C 150, straight pipe.",
        source: "U.S. EPA, EPANET 2.2 User Manual, chapter 3; ASTM D2239 (from memory)",
        caution: None,
        edition: 1,
        call: call!(basis, (flow: VolumeRate, length: Length, friction: Length, speed: Velocity) =>
            smallest_pe(Line { flow, length, friction, speed }, basis)),
    },
    Function {
        name: "stock.relief_setting",
        title: "next relief valve from the lowest setting up",
        inputs: &[port("lowest", "s", "lowest setting", PRESSURE)],
        gives: port("setting", "p", "setting of the valve", PRESSURE),
        law: Law::Named("the first of 75, 100, 125 and 150 psi that is high enough"),
        valid: "No higher than the weakest part's rating.",
        source: "common practice, no source",
        caution: Some(
            "The valve has to pass the pump's whole flow, and nothing may stand between it and the \
             tank. The rating of the weakest part is the ceiling.",
        ),
        edition: 1,
        call: call!(_, (lowest: Pressure) => relief_setting(lowest)),
    },
    Function {
        name: "stock.motor",
        title: "next motor from the power at the shaft up",
        inputs: &[port("power", "p", "power at the shaft", POWER)],
        gives: port("motor", "m", "motor", word(Rated::WORDS)),
        law: Law::Named("the first motor that is large enough"),
        valid: "1/3 to 10 hp; the service factor is not counted on.",
        source: "common practice, no source",
        caution: crate::motor::PLATE,
        edition: 1,
        call: call!(_, (power: Power) => motor(power)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn what_no_stock_size_will_do_is_refused() {
        assert!(relief_setting(PSI.of(151.0)).is_err());
        assert!(motor(HORSEPOWER.of(10.1)).is_err());
        assert!(motor(HORSEPOWER.of(f64::NAN)).is_err());
        assert_eq!(relief_setting(PSI.of(75.0)), Ok(PSI.of(75.0)));
        assert_eq!(motor(HORSEPOWER.of(1.0)), Ok(Rated::One));
    }

    #[test]
    fn every_bore_is_reached_by_its_words_and_grows_with_the_size() {
        for made in [Made::Pe, Made::Steel, Made::Pvc] {
            let bores: Vec<Length> = SIZES
                .iter()
                .map(|size| bore(made, *size).unwrap())
                .collect();
            assert!(bores.windows(2).all(|pair| pair[0] < pair[1]));
        }
    }

    proptest! {
        #[test]
        fn tighter_limits_never_take_smaller_pipe(gpm in 3.0..25.0_f64, feet in 50.0..600.0_f64,
            most in 2.0..40.0_f64) {
            let line = |friction| Line {
                flow: crate::units::GALLON_PER_MINUTE.of(gpm),
                length: FOOT.of(feet),
                friction: FOOT.of(friction),
                speed: FOOT_PER_SECOND.of(5.0),
            };
            let found = smallest_pe(line(most), Basis::Physical);
            prop_assume!(found.is_ok());
            if let Ok(tighter) = smallest_pe(line(most * 0.8), Basis::Physical) {
                prop_assert!(tighter >= found.unwrap());
            }
        }
    }
}
