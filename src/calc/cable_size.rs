//! The smallest AWG conductor that will do: by volts lost, and by what it may carry. Metric
//! ones are in `drop_cable`, the tables of what they carry in `ampacity`.

use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};

use crate::ampacity::{self, AWG, COLUMN, Column, TABLE_310_16};
use crate::bounds::{Bounds, Refusal};
use crate::cable::{Allowance, ohms_allowed};
use crate::calling::call;
use crate::conductor::{Construction, table_ohms};
use crate::dimension::{Measured, ResistancePerLength};
use crate::motor::PLATE;
use crate::ports::{CURRENT, LENGTH, VOLTS, port};
use crate::registry::{Function, Law, Port};
use crate::units::AMPERE;

/// Sizes of drop and branch cable, smallest first; 0 is 1/0, -3 is 4/0.
const SIZES: [f64; 13] = [
    14.0, 12.0, 10.0, 8.0, 6.0, 4.0, 3.0, 2.0, 1.0, 0.0, -1.0, -2.0, -3.0,
];
/// What changing units leaves behind must not take the next size.
const DUST: f64 = 1e-9;

const CARRIED: Bounds = Bounds::of("current to be carried", "A", 0.0, 10_000.0);

/// Smallest AWG size that loses no more than the volts allowed.
///
/// # Formula
/// ```text
/// the first of 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3 (1/0 to 4/0) whose ohms by the
/// code's table, out and back, are at most V / I
///
/// V  volts that may be lost   I  current
/// ```
///
/// # Valid for
/// Single phase, stranded copper at 75 °C. What the size may carry is another question:
/// see [`smallest_for_amps`], and take the larger.
///
/// # Source
/// Ohm's law with NFPA 70 (National Electrical Code), chapter 9, table 8. Printed length
/// tables differ from it by up to about 13 percent. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// As [`crate::cable::ohms_allowed`]; [`Refusal::Conflict`] where no size will do.
///
/// # Example
/// By the table's 0.778 and 1.24 ohm per 1000 ft: 8 A over 600 ft lose 7.5 V in 8 AWG and
/// 11.9 V in 10 AWG, so 11.5 V ask for 8.
/// ```
/// use pumpwright_calc::{cable::Allowance, cable_size::smallest_for_drop};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt, length::foot};
///
/// let awg = smallest_for_drop(Allowance {
///     volts: ElectricPotential::new::<volt>(11.5),
///     amps: ElectricCurrent::new::<ampere>(8.0),
///     run: Length::new::<foot>(600.0),
/// })?;
/// assert_eq!(awg, 8.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_for_drop(allowance: Allowance) -> Result<f64, Refusal> {
    smallest_of(ohms_allowed(allowance)? / 2.0)
}

/// The first size of which one conductor has at most so many ohms a length.
fn smallest_of(most: ResistancePerLength) -> Result<f64, Refusal> {
    let will_do = |awg: &&f64| {
        table_ohms(**awg, Construction::Stranded)
            .is_ok_and(|ohms| ohms.si() <= most.si() * (1.0 + DUST))
    };
    SIZES.iter().find(will_do).copied().ok_or(Refusal::Conflict(
        "no size to 4/0 loses as little; a higher voltage or a shorter run is needed",
    ))
}

/// Smallest AWG size of a three-phase cable that loses no more than the volts allowed.
///
/// # Formula
/// ```text
/// the first size, as in `smallest_for_drop`, of which one conductor has at most
/// V / (sqrt(3) · I · L)
///
/// V  volts that may be lost between the lines   I  line current   L  run
/// ```
///
/// # Valid for
/// Balanced three phase, stranded copper at 75 °C; reactance left out. What the size may
/// carry is another question.
///
/// # Source
/// As [`smallest_for_drop`], with the geometry of three phases (from memory).
///
/// # Errors
/// As [`smallest_for_drop`].
///
/// # Example
/// By the table's 1.24 ohm per 1000 ft: 15.2 A lose 13.1 V between the lines in 400 ft of
/// 10 AWG and 8.19 V in 8 AWG, 0.778 ohm, so 8.2 V ask for 8.
/// ```
/// use pumpwright_calc::{cable::Allowance, cable_size::smallest_for_drop_three_phase};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt, length::foot};
///
/// let awg = smallest_for_drop_three_phase(Allowance {
///     volts: ElectricPotential::new::<volt>(8.2),
///     amps: ElectricCurrent::new::<ampere>(15.2),
///     run: Length::new::<foot>(400.0),
/// })?;
/// assert_eq!(awg, 8.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_for_drop_three_phase(allowance: Allowance) -> Result<f64, Refusal> {
    smallest_of(ohms_allowed(allowance)? / libm::sqrt(3.0))
}

/// Smallest AWG size that may carry a current.
///
/// # Formula
/// ```text
/// the first of 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3 whose ampacity is at least the
/// current
/// ```
///
/// # Valid for
/// As [`ampacity::awg`]; the current already with its 125 percent for a motor.
///
/// # Source
/// As [`ampacity::awg`]. The accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no current; [`Refusal::Conflict`] where no size will
/// do.
///
/// # Example
/// NEC table 310.16: 35 A ask for 8 AWG at 60 °C and 10 AWG at 75.
/// ```
/// use pumpwright_calc::{ampacity::Column, cable_size::smallest_for_amps};
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent};
///
/// let amps = ElectricCurrent::new::<ampere>(35.0);
/// assert_eq!(smallest_for_amps(amps, Column::Sixty)?, 8.0);
/// assert_eq!(smallest_for_amps(amps, Column::SeventyFive)?, 10.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_for_amps(amps: ElectricCurrent, column: Column) -> Result<f64, Refusal> {
    let least = CARRIED.check(AMPERE.read(amps))?;
    let will_do = |awg: &&f64| {
        ampacity::awg(**awg, column).is_ok_and(|most| AMPERE.read(most) >= least * (1.0 - DUST))
    };
    SIZES.iter().find(will_do).copied().ok_or(Refusal::Conflict(
        "no size to 4/0 may carry as much by this table",
    ))
}

const FEW_OHMS: [Port; 3] = [
    port("volts", "v", "volts that may be lost", VOLTS),
    port("amps", "i", "current", CURRENT),
    port("run", "l", "run", LENGTH),
];

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "cable_size.smallest_for_drop",
        title: "smallest AWG size for the volts allowed",
        inputs: &FEW_OHMS,
        gives: AWG,
        law: Law::Named("the first size whose ohms out and back are few enough"),
        valid: "Single phase, stranded copper at 75 degC; 1/0 is 0, 2/0 is -1, 4/0 is -3.",
        source: "Ohm's law with NFPA 70 (National Electrical Code), chapter 9, table 8",
        caution: PLATE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, amps: ElectricCurrent, run: Length) =>
            smallest_for_drop(Allowance { volts, amps, run })),
    },
    Function {
        name: "cable_size.smallest_for_drop_three_phase",
        title: "smallest AWG size of a three-phase cable for the volts allowed",
        inputs: &FEW_OHMS,
        gives: AWG,
        law: Law::Named("the first size of which one conductor has few enough ohms"),
        valid: "Balanced three phase, stranded copper at 75 degC; 1/0 is 0, 2/0 is -1, 4/0 is -3.",
        source: "Ohm's law with NFPA 70 (National Electrical Code), chapter 9, table 8",
        caution: PLATE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, amps: ElectricCurrent, run: Length) =>
            smallest_for_drop_three_phase(Allowance { volts, amps, run })),
    },
    Function {
        name: "cable_size.smallest_for_amps",
        title: "smallest AWG size that may carry a current",
        inputs: &[port("amps", "i", "current to be carried", CURRENT), COLUMN],
        gives: AWG,
        law: Law::Named("the first size of NEC table 310.16 that may carry it"),
        valid: "Up to three current-carrying conductors, 30 degC around them.",
        source: TABLE_310_16,
        caution: PLATE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent, column: Column) => smallest_for_amps(amps, column)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cable::{Circuit, drop, drop_three_phase};
    use crate::units::{FOOT, VOLT};

    fn allowance(volts: f64, amps: f64, feet: f64) -> Allowance {
        Allowance {
            volts: VOLT.of(volts),
            amps: AMPERE.of(amps),
            run: FOOT.of(feet),
        }
    }

    #[test]
    fn what_no_size_will_do_is_refused() {
        assert!(smallest_for_drop(allowance(0.001, 100.0, 9_000.0)).is_err());
        assert!(smallest_for_amps(AMPERE.of(1e3), Column::Sixty).is_err());
        assert!(smallest_for_drop_three_phase(allowance(0.001, 100.0, 9_000.0)).is_err());
        assert!(smallest_for_amps(AMPERE.of(f64::NAN), Column::Sixty).is_err());
    }

    proptest! {
        #[test]
        fn the_size_found_loses_no_more_and_the_one_below_does(
            amps in 1.0..40.0_f64, feet in 20.0..900.0_f64, volts in 2.0..12.0_f64,
        ) {
            let found = smallest_for_drop(allowance(volts, amps, feet));
            prop_assume!(found.is_ok());
            let found = found.unwrap();
            let lost = |awg: f64| {
                let conductor = table_ohms(awg, Construction::Stranded).unwrap();
                VOLT.read(drop(Circuit { amps: AMPERE.of(amps), conductor, run: FOOT.of(feet) }).unwrap())
            };
            prop_assert!(lost(found) <= volts * (1.0 + 1e-8));
            let at = SIZES.iter().position(|awg| *awg == found).unwrap();
            if at > 0 {
                prop_assert!(lost(SIZES[at - 1]) > volts);
            }
        }

        #[test]
        fn three_phase_never_takes_a_larger_size_and_keeps_the_volts(
            amps in 1.0..60.0_f64, feet in 20.0..900.0_f64, volts in 2.0..12.0_f64,
        ) {
            let single = smallest_for_drop(allowance(volts, amps, feet));
            prop_assume!(single.is_ok());
            let found = smallest_for_drop_three_phase(allowance(volts, amps, feet)).unwrap();
            prop_assert!(found >= single.unwrap());
            let conductor = table_ohms(found, Construction::Stranded).unwrap();
            let circuit = Circuit { amps: AMPERE.of(amps), conductor, run: FOOT.of(feet) };
            prop_assert!(VOLT.read(drop_three_phase(circuit).unwrap()) <= volts * (1.0 + 1e-8));
        }
    }
}
