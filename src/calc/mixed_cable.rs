//! A cable of two sizes in a row, as from the house to the well and down it.

use uom::si::f64::{ElectricCurrent, ElectricPotential, Length, Ratio};

use crate::bounds::{Bounds, Refusal};
use crate::cable::{Circuit, LIVE, OHM, RUN, SOME_RUN, drop};
use crate::calling::call;
use crate::dimension::ResistancePerLength;
use crate::ports::{CONDUCTOR_OHMS, CURRENT, LENGTH, PLAIN, VOLTS, port};
use crate::registry::{Function, Law, Pair};
use crate::units::FOOT;

/// One size of cable and how long it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Resistance of one conductor.
    pub conductor: ResistancePerLength,
    /// One-way run.
    pub run: Length,
}

/// Volts lost in a single-phase cable of two sizes in a row.
///
/// # Formula
/// ```text
/// V = 2 · I · (r1 · L1 + r2 · L2) / 1000
///
/// V  volts lost     V     I  current   A
/// r1, r2  one conductor of each size   ohm/1000 ft or ohm/km     L1, L2  runs   ft or m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Single phase, one-way runs, one current through both. Reactance is left out.
///
/// # Source
/// Ohm's law. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// An electrician's training page: No. 16 copper, 4.99 ohm per 1000 ft, loses 4.0 V at 4 A
/// in 100 ft; the same cable in two pieces of 60 and 40 ft loses no more.
/// ```
/// use pumpwright_calc::mixed_cable::{Stretch, drop_of_two};
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let stretch = |feet| Stretch {
///     conductor: ElectricalResistance::new::<ohm>(4.99) / Length::new::<foot>(1000.0),
///     run: Length::new::<foot>(feet),
/// };
/// let lost = drop_of_two(ElectricCurrent::new::<ampere>(4.0), stretch(60.0), stretch(40.0))?;
/// assert_eq!(format!("{:.1}", lost.get::<volt>()), "4.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop_of_two(
    amps: ElectricCurrent,
    one: Stretch,
    other: Stretch,
) -> Result<ElectricPotential, Refusal> {
    let lost = |stretch: Stretch| {
        drop(Circuit {
            amps,
            conductor: stretch.conductor,
            run: stretch.run,
        })
    };
    Ok(lost(one)? + lost(other)?)
}

/// A piece of cable beside the longest that its size would be allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// As laid.
    pub run: Length,
    /// The longest for this size and motor, by one table.
    pub allowed: Length,
}

/// Share of the allowed drop that two sizes of cable in series use up.
///
/// # Formula
/// ```text
/// s = a / b + c / d
///
/// s  share used   a, c  the two runs   b, d  the longest allowed of each size
/// ```
/// At most 1 where the cable will do.
///
/// # Valid for
/// Both longest runs from one table, for one motor and one allowed drop.
///
/// # Source
/// A submersible-motor installation manual, example of mixed cable. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the length outside its span.
///
/// # Example
/// That manual, a 3 hp motor at 230 V: 160 ft of 10 AWG, allowed 300 ft, then
/// 310 ft of 6 AWG, allowed 750 ft, use 0.946.
/// ```
/// use pumpwright_calc::mixed_cable::{Piece, share_used};
/// use uom::si::f64::Length;
/// use uom::si::{length::foot, ratio::ratio};
///
/// let piece = |run, allowed| Piece {
///     run: Length::new::<foot>(run),
///     allowed: Length::new::<foot>(allowed),
/// };
/// let used = share_used(piece(160.0, 300.0), piece(310.0, 750.0))?;
/// assert_eq!(format!("{:.2}", used.get::<ratio>()), "0.95");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn share_used(first: Piece, second: Piece) -> Result<Ratio, Refusal> {
    for piece in [first, second] {
        RUN.check(FOOT.read(piece.run))?;
        LONGEST.check(FOOT.read(piece.allowed))?;
    }
    Ok(first.run / first.allowed + second.run / second.allowed)
}

const LONGEST: Bounds = Bounds {
    what: "longest run allowed",
    ..SOME_RUN
};

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "mixed_cable.drop_of_two",
        title: "volts lost in a single-phase cable of two sizes in a row",
        inputs: &[
            port("amps", "i", "current", CURRENT),
            port(
                "conductor_one",
                "r",
                "resistance of one conductor of the first size",
                CONDUCTOR_OHMS,
            ),
            port("run_one", "l", "run of the first size", LENGTH),
            port(
                "conductor_two",
                "s",
                "resistance of one conductor of the second size",
                CONDUCTOR_OHMS,
            ),
            port("run_two", "m", "run of the second size", LENGTH),
        ],
        gives: port("volts", "v", "volts lost", VOLTS),
        law: Law::Shown(Pair::both("2 * i * (r * l + s * m) / 1000")),
        valid: "Single phase, one-way runs, one current through both. Reactance is left out.",
        source: OHM,
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            amps: ElectricCurrent,
            conductor_one: ResistancePerLength,
            run_one: Length,
            conductor_two: ResistancePerLength,
            run_two: Length
        ) => drop_of_two(
            amps,
            Stretch { conductor: conductor_one, run: run_one },
            Stretch { conductor: conductor_two, run: run_two },
        )),
    },
    Function {
        name: "mixed_cable.share_used",
        title: "share of the allowed drop that two sizes in series use",
        inputs: &[
            port("first_run", "a", "run of the first size", LENGTH),
            port(
                "first_allowed",
                "b",
                "longest run allowed of the first size",
                LENGTH,
            ),
            port("second_run", "c", "run of the second size", LENGTH),
            port(
                "second_allowed",
                "d",
                "longest run allowed of the second size",
                LENGTH,
            ),
        ],
        gives: port("share", "s", "share used", PLAIN),
        law: Law::Shown(Pair::both("a / b + c / d")),
        valid: "Both longest runs from one table, for one motor and one drop.",
        source: "a submersible-motor installation manual, example of mixed cable",
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            first_run: Length,
            first_allowed: Length,
            second_run: Length,
            second_allowed: Length
        ) => share_used(
            Piece { run: first_run, allowed: first_allowed },
            Piece { run: second_run, allowed: second_allowed },
        )),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cable::{Reach, longest_run};
    use crate::units::{AMPERE, OHM_PER_KILOFOOT, VOLT};

    fn stretch(ohms: f64, feet: f64) -> Stretch {
        Stretch {
            conductor: OHM_PER_KILOFOOT.of(ohms),
            run: FOOT.of(feet),
        }
    }

    #[test]
    fn odd_runs_are_refused() {
        for figure in [f64::NAN, f64::INFINITY, -1.0] {
            let piece = |run, allowed| Piece {
                run: FOOT.of(run),
                allowed: FOOT.of(allowed),
            };
            assert!(share_used(piece(figure, 300.0), piece(1.0, 300.0)).is_err());
            assert!(share_used(piece(1.0, 300.0), piece(1.0, figure)).is_err());
            let amps = AMPERE.of(8.0);
            assert!(drop_of_two(amps, stretch(1.24, figure), stretch(1.98, 1.0)).is_err());
            assert!(drop_of_two(amps, stretch(1.24, 1.0), stretch(figure, 1.0)).is_err());
        }
    }

    proptest! {
        /// The two ways of mixing agree: the share of the longest runs allowed is the share
        /// of the volts allowed.
        #[test]
        fn the_share_used_is_the_share_of_the_volts(
            amps in 2.0..30.0_f64, thick in 0.3..1.3_f64, thin in 1.3..3.2_f64,
            near in 10.0..400.0_f64, far in 10.0..400.0_f64, volts in 4.0..12.0_f64,
        ) {
            let (one, other) = (stretch(thick, near), stretch(thin, far));
            let lost = VOLT.read(drop_of_two(AMPERE.of(amps), one, other).unwrap());
            let piece = |stretch: Stretch| Piece {
                run: stretch.run,
                allowed: longest_run(Reach {
                    volts: VOLT.of(volts),
                    amps: AMPERE.of(amps),
                    conductor: stretch.conductor,
                })
                .unwrap(),
            };
            let share = share_used(piece(one), piece(other)).unwrap().value;
            prop_assert!((lost / volts / share - 1.0).abs() < 1e-12);
        }
    }
}
