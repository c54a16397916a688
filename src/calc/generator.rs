//! Least size of a generator that starts a submersible motor.

use uom::si::f64::{Power, Ratio};

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::motor::Rated;
use crate::ports::{KILOWATTS, PERCENT, port, word};
use crate::registry::{Function, Law, Pair};
use crate::tables::look_up_word;
use crate::units::KILOWATT;

const TABLE: &str = include_str!("tables/generator_kilowatts.csv");

const THREE_WIRE: Bounds = Bounds::of("rating for a three-wire motor", "kW", 0.0, 10_000.0);
const MORE: Bounds = Bounds::of("increase", "%", 0.0, 500.0);

/// How a generator keeps its voltage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Regulation {
    /// By a regulator of its own beside the machine.
    External,
    /// By the machine's own windings.
    Internal,
}
words!(Regulation, "\"externally regulated\" or \"internally regulated\"", {
    External = "externally regulated",
    Internal = "internally regulated",
});

/// Least generator for a three-wire or three-phase submersible motor.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Nothing else on the generator, continuous rating, 80 °C rise. A two-wire motor needs
/// more: see [`two_wire`]; another maker's chart has a column of its own, 2.5 kW for
/// 1/2 hp.
///
/// # Source
/// A submersible-motor manual, table of generators: 1/2, 1 and 1-1/2 hp read, the rest
/// from memory.
///
/// # Errors
/// [`Refusal::Conflict`] where the table has no such row.
///
/// # Example
/// That table: 1 hp wants 4 kW of an externally regulated generator.
/// ```
/// use pumpwright_calc::generator::{Regulation, three_wire};
/// use pumpwright_calc::motor::Rated;
/// use uom::si::power::kilowatt;
///
/// let least = three_wire(Rated::One, Regulation::External)?;
/// assert_eq!(least.get::<kilowatt>(), 4.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn three_wire(power: Rated, regulation: Regulation) -> Result<Power, Refusal> {
    let kilowatts = look_up_word(TABLE, power.row(), regulation.word());
    kilowatts
        .map(|kilowatts| KILOWATT.of(kilowatts))
        .ok_or(Refusal::Conflict(
            "the table has no generator for this power",
        ))
}

/// Least generator for a two-wire split-phase motor.
///
/// # Formula
/// ```text
/// k = K · (1 + m / 100)
///
/// k  rating   K  rating for the three-wire motor   m  increase, percent, often 50
/// ```
///
/// # Valid for
/// The increase that the motor's manual states.
///
/// # Source
/// A submersible-motor engineering manual: split-phase two-wire motors want 50 percent
/// more. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That manual: 50 percent more than 2 kW is 3 kW.
/// ```
/// use pumpwright_calc::generator::two_wire;
/// use uom::si::f64::{Power, Ratio};
/// use uom::si::{power::kilowatt, ratio::percent};
///
/// let least = two_wire(Power::new::<kilowatt>(2.0), Ratio::new::<percent>(50.0))?;
/// assert_eq!(format!("{:.2}", least.get::<kilowatt>()), "3.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn two_wire(three_wire: Power, increase: Ratio) -> Result<Power, Refusal> {
    THREE_WIRE.check(KILOWATT.read(three_wire))?;
    MORE.check(100.0 * increase.si())?;
    Ok(three_wire * (1.0 + increase.si()))
}

const BACKFEED: Option<&str> = Some(
    "Training figure; the motor's manual and the local code decide. A generator on a house's wires \
     without a transfer switch kills linemen. Never run one indoors.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "generator.three_wire",
        title: "least generator for a three-wire motor",
        inputs: &[
            port("power", "p", "rated power", word(Rated::WORDS)),
            port(
                "regulation",
                "r",
                "how the generator keeps its voltage",
                word(Regulation::WORDS),
            ),
        ],
        gives: port("rating", "k", "rating of the generator", KILOWATTS),
        law: Law::Named("by the motor maker's table of generators"),
        valid: "Nothing else on the generator.",
        source: "a submersible-motor manual, table of generators (partly from memory)",
        caution: BACKFEED,
        edition: 1,
        call: call!(_, (power: Rated, regulation: Regulation) => three_wire(power, regulation)),
    },
    Function {
        name: "generator.two_wire",
        title: "least generator for a two-wire split-phase motor",
        inputs: &[
            port(
                "three_wire",
                "g",
                "rating for the three-wire motor",
                KILOWATTS,
            ),
            port("increase", "m", "increase", PERCENT),
        ],
        gives: port("rating", "k", "rating of the generator", KILOWATTS),
        law: Law::Shown(Pair::both("g * (1 + m / 100)")),
        valid: "The increase that the motor's manual states.",
        source: "a submersible-motor engineering manual: 50 percent more",
        caution: BACKFEED,
        edition: 1,
        call: call!(_, (three_wire: Power, increase: Ratio) => two_wire(three_wire, increase)),
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_power_that_the_table_lacks_is_refused() {
        assert!(three_wire(Rated::Quarter, Regulation::Internal).is_err());
        assert!(two_wire(KILOWATT.of(f64::NAN), Ratio::from_si(0.5)).is_err());
        assert!(two_wire(KILOWATT.of(2.0), Ratio::from_si(-0.1)).is_err());
    }

    #[test]
    fn an_internally_regulated_generator_may_be_smaller() {
        for power in [
            Rated::Third,
            Rated::Half,
            Rated::Two,
            Rated::Ten,
            Rated::Hundred,
        ] {
            let least = |regulation| three_wire(power, regulation).unwrap();
            assert!(least(Regulation::Internal) < least(Regulation::External));
        }
    }
}
