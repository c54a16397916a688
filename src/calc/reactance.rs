//! Volts lost in a cable whose reactance counts. Without it, see `cable`.

use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{Measured, ResistancePerLength};
use crate::ports::{CONDUCTOR_OHMS, CURRENT, LENGTH, PLAIN, VOLTS, port};
use crate::registry::{Function, Law, Port};
use crate::units::{AMPERE, FOOT, OHM_PER_KILOFOOT};

const AMPS: Bounds = Bounds::of("current", "A", 0.0, 10_000.0);
const RESISTS: Bounds = Bounds::of("resistance of one conductor", "ohm/kft", 0.0, 10_000.0);
const REACTS: Bounds = Bounds::of("reactance of one conductor", "ohm/kft", 0.0, 10_000.0);
const RUN: Bounds = Bounds::of("run", "ft", 0.0, 100_000.0);
const FACTOR: Bounds = Bounds::of("power factor", "", 0.0, 1.0);

/// An alternating current in a cable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Current drawn.
    pub amps: ElectricCurrent,
    /// Resistance of one conductor.
    pub resistance: ResistancePerLength,
    /// Reactance of one conductor.
    pub reactance: ResistancePerLength,
    /// One-way length.
    pub run: Length,
    /// Power factor of the load.
    pub power_factor: f64,
}

impl Circuit {
    /// Volts lost in one conductor.
    fn one_way(self) -> Result<f64, Refusal> {
        AMPS.check(AMPERE.read(self.amps))?;
        RESISTS.check(OHM_PER_KILOFOOT.read(self.resistance))?;
        REACTS.check(OHM_PER_KILOFOOT.read(self.reactance))?;
        RUN.check(FOOT.read(self.run))?;
        let in_step = FACTOR.check(self.power_factor)?;
        let across = (1.0 - in_step * in_step).sqrt();
        let ohms = self.resistance.si() * in_step + self.reactance.si() * across;
        Ok(self.amps.si() * self.run.si() * ohms)
    }
}

/// Volts lost in a single-phase cable, with reactance.
///
/// # Formula
/// ```text
/// V = 2 · I · L · (R · f + X · √(1 - f²))
///
/// V  volts lost   I  current   L  run   R, X  of one conductor   f  power factor
/// ```
///
/// # Valid for
/// A load of lagging current. The difference of two voltages nearly in step: good to a
/// fraction of a volt.
///
/// # Source
/// NFPA 70 (National Electrical Code), chapter 9, table 9, note 2, effective impedance
/// (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// At a power factor of one, an electrician's training page: 4.99 ohm per 1000 ft, 4 A
/// and 100 ft lose 4.0 V whatever the reactance.
/// ```
/// use pumpwright_calc::reactance::{Circuit, drop};
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let per_kft = |ohms| {
///     ElectricalResistance::new::<ohm>(ohms) / Length::new::<foot>(1000.0)
/// };
/// let lost = drop(Circuit {
///     amps: ElectricCurrent::new::<ampere>(4.0),
///     resistance: per_kft(4.99),
///     reactance: per_kft(0.06),
///     run: Length::new::<foot>(100.0),
///     power_factor: 1.0,
/// })?;
/// assert_eq!(format!("{:.1}", lost.get::<volt>()), "4.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop(circuit: Circuit) -> Result<ElectricPotential, Refusal> {
    Ok(ElectricPotential::from_si(2.0 * circuit.one_way()?))
}

/// Volts lost between the lines of a three-phase cable, with reactance.
///
/// # Formula
/// ```text
/// V = √3 · I · L · (R · f + X · √(1 - f²))     letters as in `drop`
/// ```
///
/// # Valid for
/// A balanced load of lagging current.
///
/// # Source
/// As [`drop`].
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// At a power factor of one it is [`crate::cable::drop_three_phase`]: 8.19 V for 15.2 A,
/// 0.778 ohm per 1000 ft (NEC chapter 9, table 8) and 400 ft.
/// ```
/// use pumpwright_calc::reactance::{Circuit, drop_three_phase};
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let per_kft = |ohms| {
///     ElectricalResistance::new::<ohm>(ohms) / Length::new::<foot>(1000.0)
/// };
/// let lost = drop_three_phase(Circuit {
///     amps: ElectricCurrent::new::<ampere>(15.2),
///     resistance: per_kft(0.778),
///     reactance: per_kft(0.052),
///     run: Length::new::<foot>(400.0),
///     power_factor: 1.0,
/// })?;
/// assert_eq!(format!("{:.2}", lost.get::<volt>()), "8.19");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop_three_phase(circuit: Circuit) -> Result<ElectricPotential, Refusal> {
    Ok(ElectricPotential::from_si(
        3.0_f64.sqrt() * circuit.one_way()?,
    ))
}

const CIRCUIT: [Port; 5] = [
    port("amps", "i", "current", CURRENT),
    port(
        "resistance",
        "r",
        "resistance of one conductor",
        CONDUCTOR_OHMS,
    ),
    port(
        "reactance",
        "x",
        "reactance of one conductor",
        CONDUCTOR_OHMS,
    ),
    port("run", "l", "run", LENGTH),
    port("power_factor", "f", "power factor", PLAIN),
];
const NOTE: &str = "NFPA 70 (National Electrical Code), chapter 9, table 9, note 2 (from memory)";
const LIVE: Option<&str> = Some(
    "Volts lost say nothing about what a conductor carries safely: the electrical code in force, \
     the cable's own rating and a licensed person decide.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "reactance.drop",
        title: "volts lost in a single-phase cable, with reactance",
        inputs: &CIRCUIT,
        gives: port("volts", "v", "volts lost", VOLTS),
        law: Law::Named("twice the current times the effective impedance of the run"),
        valid: "A load of lagging current; one-way run.",
        source: NOTE,
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            amps: ElectricCurrent,
            resistance: ResistancePerLength,
            reactance: ResistancePerLength,
            run: Length,
            power_factor: f64
        ) => drop(Circuit { amps, resistance, reactance, run, power_factor })),
    },
    Function {
        name: "reactance.drop_three_phase",
        title: "volts lost in a three-phase cable, with reactance",
        inputs: &CIRCUIT,
        gives: port("volts", "v", "volts lost", VOLTS),
        law: Law::Named(
            "the root of three times the current and the effective impedance of the run",
        ),
        valid: "A balanced load of lagging current; one-way run.",
        source: NOTE,
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            amps: ElectricCurrent,
            resistance: ResistancePerLength,
            reactance: ResistancePerLength,
            run: Length,
            power_factor: f64
        ) => drop_three_phase(Circuit { amps, resistance, reactance, run, power_factor })),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cable;

    fn circuit(amps: f64, resists: f64, reacts: f64, factor: f64) -> Circuit {
        Circuit {
            amps: AMPERE.of(amps),
            resistance: OHM_PER_KILOFOOT.of(resists),
            reactance: OHM_PER_KILOFOOT.of(reacts),
            run: FOOT.of(300.0),
            power_factor: factor,
        }
    }

    #[test]
    fn more_than_all_power_in_step_is_refused() {
        assert!(drop(circuit(5.0, 1.0, 0.05, 1.01)).is_err());
        assert!(drop(circuit(f64::NAN, 1.0, 0.05, 0.9)).is_err());
    }

    proptest! {
        #[test]
        fn in_step_it_is_the_plain_drop(amps in 0.1..60.0_f64, resists in 0.1..5.0_f64) {
            let plain = cable::Circuit {
                amps: AMPERE.of(amps),
                conductor: OHM_PER_KILOFOOT.of(resists),
                run: FOOT.of(300.0),
            };
            let ours = drop(circuit(amps, resists, 0.06, 1.0)).unwrap().si();
            prop_assert!((ours / cable::drop(plain).unwrap().si() - 1.0).abs() < 1e-12);
        }

        /// Small conductors lose less at a lagging load than the plain form says.
        #[test]
        fn it_never_passes_the_whole_impedance(factor in 0.0..1.0_f64, resists in 0.1..5.0_f64) {
            let ours = drop(circuit(8.0, resists, 0.06, factor)).unwrap().si();
            let whole = 2.0 * 8.0 * 0.3 * (resists * resists + 0.06 * 0.06).sqrt();
            prop_assert!(ours <= whole * (1.0 + 1e-12));
        }
    }
}
