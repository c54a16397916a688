//! Currents of motors as the code prints them, and what conductors and breakers follow
//! from. Plate figures of a motor at hand are not here.

use uom::si::f64::ElectricCurrent;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::ports::{CURRENT, port, word};
use crate::registry::{Function, Law, Pair};
use crate::tables::look_up_word;
use crate::units::AMPERE;

const SINGLE_PHASE: &str = include_str!("tables/motor_single_phase_amps.csv");
const THREE_PHASE: &str = include_str!("tables/motor_three_phase_amps.csv");

/// Times the table's current that a conductor has to carry.
const CONDUCTOR_SHARE: f64 = 1.25;
/// Times the table's current that a breaker may have.
const BREAKER_SHARE: f64 = 2.5;
/// Standard ratings of breakers, amperes.
const STANDARD: [f64; 23] = [
    15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0,
    150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0,
];
/// A rating this near is that rating: dust from multiplying must not take the next.
const SNAP: f64 = 1e-9;

const FULL_LOAD: Bounds = Bounds::of("full-load current", "A", 0.0, 10_000.0);

/// Rated power of a motor, as the tables name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rated {
    /// 1/6 hp.
    Sixth,
    /// 1/4 hp.
    Quarter,
    /// 1/3 hp.
    Third,
    /// 1/2 hp.
    Half,
    /// 3/4 hp.
    ThreeQuarters,
    /// 1 hp.
    One,
    /// 1-1/2 hp.
    OneAndHalf,
    /// 2 hp.
    Two,
    /// 3 hp.
    Three,
    /// 5 hp.
    Five,
    /// 7-1/2 hp.
    SevenAndHalf,
    /// 10 hp.
    Ten,
    /// 15 hp.
    Fifteen,
    /// 20 hp.
    Twenty,
    /// 25 hp.
    TwentyFive,
    /// 30 hp.
    Thirty,
    /// 40 hp.
    Forty,
    /// 50 hp.
    Fifty,
    /// 60 hp.
    Sixty,
    /// 75 hp.
    SeventyFive,
    /// 100 hp.
    Hundred,
    /// 125 hp.
    HundredTwentyFive,
    /// 150 hp.
    HundredFifty,
    /// 200 hp.
    TwoHundred,
}
words!(Rated, "a motor's horsepower as the table names it, like \"1-1/2 hp\"", {
    Sixth = "1/6 hp",
    Quarter = "1/4 hp",
    Third = "1/3 hp",
    Half = "1/2 hp",
    ThreeQuarters = "3/4 hp",
    One = "1 hp",
    OneAndHalf = "1-1/2 hp",
    Two = "2 hp",
    Three = "3 hp",
    Five = "5 hp",
    SevenAndHalf = "7-1/2 hp",
    Ten = "10 hp",
    Fifteen = "15 hp",
    Twenty = "20 hp",
    TwentyFive = "25 hp",
    Thirty = "30 hp",
    Forty = "40 hp",
    Fifty = "50 hp",
    Sixty = "60 hp",
    SeventyFive = "75 hp",
    Hundred = "100 hp",
    HundredTwentyFive = "125 hp",
    HundredFifty = "150 hp",
    TwoHundred = "200 hp",
});

impl Rated {
    /// The row of a table that begins with the horsepower.
    pub(crate) fn row(self) -> &'static str {
        self.word().trim_end_matches(" hp")
    }
}

/// Voltages that the tables have columns for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rating {
    /// 115 V.
    V115,
    /// 200 V.
    V200,
    /// 208 V.
    V208,
    /// 230 V.
    V230,
    /// 460 V.
    V460,
    /// 575 V.
    V575,
}
words!(Rating, "a voltage that the table has, like \"230 V\"", {
    V115 = "115 V",
    V200 = "200 V",
    V208 = "208 V",
    V230 = "230 V",
    V460 = "460 V",
    V575 = "575 V",
});

fn full_load(table: &str, power: Rated, volts: Rating) -> Result<ElectricCurrent, Refusal> {
    let amps = look_up_word(table, power.row(), volts.word());
    amps.map(|amps| AMPERE.of(amps)).ok_or(Refusal::Conflict(
        "the code's table has no current for this power at this voltage",
    ))
}

/// Full-load current of a single-phase motor by the code's table.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Sizing conductors and short-circuit protection. Overload protection goes by the
/// nameplate, and a submersible motor's plate often reads more than the table.
///
/// # Source
/// NFPA 70 (National Electrical Code), table 430.248, read in three public copies that
/// agree.
///
/// # Errors
/// [`Refusal::Conflict`] where the table has no such cell.
///
/// # Example
/// NEC table 430.248: 1 hp at 230 V draws 8.0 A.
/// ```
/// use pumpwright_calc::motor::{Rated, Rating, single_phase_amps};
/// use uom::si::electric_current::ampere;
///
/// let amps = single_phase_amps(Rated::One, Rating::V230)?;
/// assert_eq!(amps.get::<ampere>(), 8.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn single_phase_amps(power: Rated, volts: Rating) -> Result<ElectricCurrent, Refusal> {
    full_load(SINGLE_PHASE, power, volts)
}

/// Full-load current of a three-phase motor by the code's table.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// As [`single_phase_amps`].
///
/// # Source
/// NFPA 70 (National Electrical Code), table 430.250; 5 hp at 230 V and 10 hp at 460 V
/// read in public copies, the rest from memory.
///
/// # Errors
/// [`Refusal::Conflict`] where the table has no such cell.
///
/// # Example
/// NEC table 430.250: 5 hp at 230 V draws 15.2 A.
/// ```
/// use pumpwright_calc::motor::{Rated, Rating, three_phase_amps};
/// use uom::si::electric_current::ampere;
///
/// let amps = three_phase_amps(Rated::Five, Rating::V230)?;
/// assert_eq!(amps.get::<ampere>(), 15.2);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn three_phase_amps(power: Rated, volts: Rating) -> Result<ElectricCurrent, Refusal> {
    full_load(THREE_PHASE, power, volts)
}

/// Least ampacity of a conductor to one motor.
///
/// # Formula
/// ```text
/// a = 1.25 · i
///
/// a  ampacity   i  full-load current by the table
/// ```
///
/// # Valid for
/// One motor of continuous duty on the branch.
///
/// # Source
/// NFPA 70 (National Electrical Code), 430.22. The accepted span is our own choice; no
/// source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no current.
///
/// # Example
/// NEC 430.22: 125 percent of 8 A is 10 A.
/// ```
/// use pumpwright_calc::motor::ampacity;
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent};
///
/// let least = ampacity(ElectricCurrent::new::<ampere>(8.0))?;
/// assert_eq!(least.get::<ampere>(), 10.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn ampacity(full_load: ElectricCurrent) -> Result<ElectricCurrent, Refusal> {
    FULL_LOAD.check(AMPERE.read(full_load))?;
    Ok(full_load * CONDUCTOR_SHARE)
}

/// Inverse-time breaker for one motor: two and a half times the current, up to the next
/// standard rating.
///
/// # Formula
/// ```text
/// the next of 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175,
/// 200, 225, 250, 300, 350, 400 A from 2.5 · i up
///
/// i  full-load current by the table
/// ```
///
/// # Valid for
/// The greatest that the rule allows before its exceptions; smaller ones serve where
/// the motor starts on them.
///
/// # Source
/// NFPA 70 (National Electrical Code), 430.52 and 240.6 (from memory). The accepted span
/// is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no current; [`Refusal::Conflict`] past the
/// largest rating.
///
/// # Example
/// NEC 430.52 and 240.6 (from memory): 8 A makes 20 A, 12 A makes 30 A.
/// ```
/// use pumpwright_calc::motor::breaker;
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent};
///
/// let for_amps = |amps| breaker(ElectricCurrent::new::<ampere>(amps));
/// assert_eq!(for_amps(8.0)?.get::<ampere>(), 20.0);
/// assert_eq!(for_amps(12.0)?.get::<ampere>(), 30.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn breaker(full_load: ElectricCurrent) -> Result<ElectricCurrent, Refusal> {
    let least = BREAKER_SHARE * FULL_LOAD.check(AMPERE.read(full_load))?;
    let found = STANDARD
        .iter()
        .find(|rating| **rating >= least * (1.0 - SNAP));
    found
        .map(|rating| ElectricCurrent::from_si(*rating))
        .ok_or(Refusal::Conflict(
            "no standard breaker here is as large as two and a half times this current",
        ))
}

pub(crate) const PLATE: Option<&str> = Some(
    "Training figure; the nameplate and the local code decide, and a licensed person signs for it. \
     Work on circuits that are off, locked out and proved dead.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "motor.single_phase_amps",
        title: "full-load current of a single-phase motor by the code's table",
        inputs: &[
            port("power", "p", "rated power", word(Rated::WORDS)),
            port("volts", "v", "rated voltage", word(Rating::WORDS)),
        ],
        gives: port("amps", "i", "full-load current", CURRENT),
        law: Law::Named("by NEC table 430.248"),
        valid: "Sizing conductors and short-circuit protection; overloads go by the nameplate.",
        source: "NFPA 70 (National Electrical Code), table 430.248",
        caution: PLATE,
        edition: 1,
        call: call!(_, (power: Rated, volts: Rating) => single_phase_amps(power, volts)),
    },
    Function {
        name: "motor.three_phase_amps",
        title: "full-load current of a three-phase motor by the code's table",
        inputs: &[
            port("power", "p", "rated power", word(Rated::WORDS)),
            port("volts", "v", "rated voltage", word(Rating::WORDS)),
        ],
        gives: port("amps", "i", "full-load current", CURRENT),
        law: Law::Named("by NEC table 430.250"),
        valid: "Sizing conductors and short-circuit protection; overloads go by the nameplate.",
        source: "NFPA 70 (National Electrical Code), table 430.250 (mostly from memory)",
        caution: PLATE,
        edition: 1,
        call: call!(_, (power: Rated, volts: Rating) => three_phase_amps(power, volts)),
    },
    Function {
        name: "motor.ampacity",
        title: "least ampacity of a conductor to one motor",
        inputs: &[port("amps", "i", "full-load current by the table", CURRENT)],
        gives: port("ampacity", "a", "least ampacity", CURRENT),
        law: Law::Shown(Pair::both("1.25 * i")),
        valid: "One motor of continuous duty on the branch.",
        source: "NFPA 70 (National Electrical Code), 430.22",
        caution: PLATE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent) => ampacity(amps)),
    },
    Function {
        name: "motor.breaker",
        title: "largest inverse-time breaker for one motor",
        inputs: &[port("amps", "i", "full-load current by the table", CURRENT)],
        gives: port("breaker", "b", "breaker", CURRENT),
        law: Law::Named("two and a half times the current, up to the next standard rating"),
        valid: "The most that the rule allows before its exceptions.",
        source: BREAKERS,
        caution: PLATE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent) => breaker(amps)),
    },
];

const BREAKERS: &str = "NFPA 70 (National Electrical Code), 430.52 and 240.6 (from memory)";

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// NEC table 430.248, three public copies: twice the current at half the voltage.
    #[test]
    fn at_115_volts_the_current_is_twice_that_at_230() {
        for power in [Rated::Half, Rated::ThreeQuarters, Rated::One, Rated::Five] {
            let at = |volts| AMPERE.read(single_phase_amps(power, volts).unwrap());
            assert!((at(Rating::V115) / at(Rating::V230) - 2.0).abs() < 1e-9);
        }
    }

    #[test]
    fn every_cell_of_the_tables_is_reached_by_its_words() {
        let (mut single, mut three) = (0, 0);
        for power in ALL {
            for volts in [
                Rating::V115,
                Rating::V200,
                Rating::V208,
                Rating::V230,
                Rating::V460,
                Rating::V575,
            ] {
                single += usize::from(single_phase_amps(power, volts).is_ok());
                three += usize::from(three_phase_amps(power, volts).is_ok());
            }
        }
        assert_eq!((single, three), (48, 95));
        assert!(single_phase_amps(Rated::One, Rating::V460).is_err());
    }

    const ALL: [Rated; 21] = [
        Rated::Sixth,
        Rated::Quarter,
        Rated::Third,
        Rated::Half,
        Rated::ThreeQuarters,
        Rated::One,
        Rated::OneAndHalf,
        Rated::Two,
        Rated::Three,
        Rated::Five,
        Rated::SevenAndHalf,
        Rated::Ten,
        Rated::Fifteen,
        Rated::Twenty,
        Rated::TwentyFive,
        Rated::Thirty,
        Rated::Forty,
        Rated::Fifty,
        Rated::Sixty,
        Rated::SeventyFive,
        Rated::Hundred,
    ];

    #[test]
    fn past_the_largest_breaker_is_refused() {
        assert!(breaker(AMPERE.of(161.0)).is_err());
        assert!(breaker(AMPERE.of(f64::NAN)).is_err());
        assert!(ampacity(AMPERE.of(-1.0)).is_err());
        assert_eq!(breaker(AMPERE.of(0.0)), Ok(AMPERE.of(15.0)));
    }

    proptest! {
        #[test]
        fn a_breaker_is_the_next_up(amps in 0.1..160.0_f64) {
            let rating = AMPERE.read(breaker(AMPERE.of(amps)).unwrap());
            prop_assert!(rating >= 2.5 * amps * (1.0 - 1e-8));
            let below = STANDARD.iter().rev().find(|other| **other < rating);
            prop_assert!(below.is_none_or(|other| *other < 2.5 * amps));
        }
    }
}
