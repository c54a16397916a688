//! What a plumbing code or a maker's sheet lets a fitting count for, as a length of pipe.
//! Fittings by loss coefficient are in `fittings`.

use uom::si::f64::Length;

use crate::bounds::Refusal;
use crate::calling::{call, words};
use crate::ports::{LENGTH, port, word};
use crate::registry::{Function, Law};
use crate::stock::Nominal;
use crate::tables::look_up_word;
use crate::units::FOOT;

const ALLOWANCES: &str = include_str!("tables/fitting_allowances.csv");

/// Tables of allowances, which disagree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// Illinois plumbing code, wrought fittings: soldered copper type.
    Wrought,
    /// Illinois plumbing code, cast or threaded fittings.
    Cast,
    /// A maker's sheet of PVC fittings.
    Pvc,
}
words!(Sheet, "a table of allowances", {
    Wrought = "Illinois code wrought",
    Cast = "Illinois code cast",
    Pvc = "a maker's PVC sheet",
});

/// Fittings that the tables have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Turn {
    /// Elbow, 90 degrees.
    Elbow90,
    /// Elbow, 45 degrees.
    Elbow45,
    /// Tee, straight through.
    TeeRun,
    /// Tee, through the branch.
    TeeBranch,
}
words!(Turn, "a fitting that the tables have", {
    Elbow90 = "90 elbow",
    Elbow45 = "45 elbow",
    TeeRun = "tee straight through",
    TeeBranch = "tee through branch",
});

/// Length of pipe that a fitting counts for by a code's or a maker's table.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// The table named, 3/4 to 2 in. The two kinds of the code differ by a factor of two to
/// five, and its cast tee straight through stands higher at 1-1/4 than at 1-1/2 in, as
/// printed. By [`crate::fittings::equivalent_length`] there is one law for all sizes.
///
/// # Source
/// 77 Illinois Administrative Code 890, appendix A, table Q, read; a maker's PVC sheet,
/// read.
///
/// # Errors
/// [`Refusal::Conflict`] where the table has no such cell.
///
/// # Example
/// 77 Illinois Administrative Code 890, table Q: a cast elbow of 1-1/4 in counts for 5 ft,
/// a wrought one for 2.
/// ```
/// use pumpwright_calc::{allowance::{Sheet, Turn, length}, stock::Nominal};
/// use uom::si::length::foot;
///
/// let feet = |sheet| length(sheet, Turn::Elbow90, Nominal::OneAndQuarter)
///     .map(|length| format!("{:.1}", length.get::<foot>()));
/// assert_eq!(feet(Sheet::Cast)?, "5.0");
/// assert_eq!(feet(Sheet::Wrought)?, "2.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn length(sheet: Sheet, fitting: Turn, nominal: Nominal) -> Result<Length, Refusal> {
    let row = format!("{} {}", sheet.word(), fitting.word());
    let feet = look_up_word(ALLOWANCES, &row, nominal.word());
    feet.map(|feet| FOOT.of(feet)).ok_or(Refusal::Conflict(
        "the table has no allowance for this fitting and size",
    ))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "allowance.length",
    title: "length of pipe that a fitting counts for by a code or a maker",
    inputs: &[
        port("table", "s", "table of allowances", word(Sheet::WORDS)),
        port("fitting", "k", "fitting", word(Turn::WORDS)),
        port("nominal", "n", "nominal size", word(Nominal::WORDS)),
    ],
    gives: port("length", "l", "length", LENGTH),
    law: Law::Named("by the table named"),
    valid: "The table named; the code's two kinds differ by a factor of two to five.",
    source: "77 Illinois Administrative Code 890, appendix A, table Q; a maker's PVC sheet",
    caution: None,
    edition: 1,
    call: call!(_, (table: Sheet, fitting: Turn, nominal: Nominal) =>
        length(table, fitting, nominal)),
}];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calling::Argument;
    use crate::registry::Value;

    fn each<A: Argument>(words: &'static [&'static str]) -> impl Iterator<Item = A> {
        words.iter().filter_map(|word| A::take(Value::Word(word)))
    }

    #[test]
    fn every_cell_is_there_and_a_branch_costs_more_than_a_run() {
        for nominal in each::<Nominal>(Nominal::WORDS) {
            for sheet in each::<Sheet>(Sheet::WORDS) {
                let feet = |turn| FOOT.read(length(sheet, turn, nominal).unwrap());
                assert!(each::<Turn>(Turn::WORDS).all(|turn| feet(turn) > 0.0));
                assert!(feet(Turn::TeeBranch) > feet(Turn::TeeRun));
                assert!(feet(Turn::Elbow90) >= feet(Turn::Elbow45));
            }
        }
    }
}
