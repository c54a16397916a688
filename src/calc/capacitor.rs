//! Capacitors of single-phase motors: what they pass, and whether they are sound.

use std::f64::consts::PI;

use uom::si::f64::{
    Capacitance, ElectricCurrent, ElectricPotential, ElectricalResistance, Frequency, Ratio,
};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{CAPACITANCE, CURRENT, HERTZ as HERTZ_PORT, OHMS, PERCENT, VOLTS, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{AMPERE, HERTZ, MICROFARAD, OHM, VOLT};

/// A million over twice pi, as the trade rounds it.
const TRADE_FACTOR: f64 = 159_155.0;

const STORED: Bounds = Bounds::of("capacitance", "uF", 0.001, 1e6);
const SWINGS: Bounds = Bounds::of("frequency", "Hz", 1.0, 1_000.0);
const AMPS: Bounds = Bounds::of("current", "A", 0.0, 1_000.0);
const ACROSS: Bounds = Bounds::of("voltage", "V", 1.0, 10_000.0);
const MARKED: Bounds = Bounds::of("marked capacitance", "uF", 0.001, 1e6);
const FOUND: Bounds = Bounds::of("measured capacitance", "uF", 0.0, 1e6);

/// Reactance of a capacitor.
///
/// # Formula
/// ```text
/// x = 159,155 / (f · c)     ohm, Hz, µF   (trade)
/// x = 1 / (2 · π · f · c)   exactly       (physical)
///
/// x  reactance   f  frequency   c  capacitance
/// ```
///
/// # Valid for
/// Alternating current of one frequency.
///
/// # Source
/// Definition; a calculator page works 50 µF at 60 Hz. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That page: 50 µF at 60 Hz have 53.05 ohm.
/// ```
/// use pumpwright_calc::{capacitor::reactance, registry::Basis};
/// use uom::si::f64::{Capacitance, Frequency};
/// use uom::si::{capacitance::microfarad, electrical_resistance::ohm, frequency::hertz};
///
/// let stored = Capacitance::new::<microfarad>(50.0);
/// let ohms = reactance(stored, Frequency::new::<hertz>(60.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", ohms.get::<ohm>()), "53.05");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn reactance(
    capacitance: Capacitance,
    frequency: Frequency,
    basis: Basis,
) -> Result<ElectricalResistance, Refusal> {
    let stored = STORED.check(MICROFARAD.read(capacitance))?;
    let swings = SWINGS.check(HERTZ.read(frequency))?;
    Ok(OHM.of(factor(basis) / (swings * stored)))
}

fn factor(basis: Basis) -> f64 {
    match basis {
        Basis::UsTrade | Basis::SiTrade => TRADE_FACTOR,
        Basis::Physical => 1e6 / (2.0 * PI),
    }
}

/// Capacitance from the current that a capacitor takes.
///
/// # Formula
/// ```text
/// c = 159,155 · i / (f · v)     µF, A, Hz, V   (trade: at 60 Hz 2653 · i / v)
/// c = i / (2 · π · f · v)       exactly        (physical)
///
/// c  capacitance   i  current   f  frequency   v  voltage across it
/// ```
///
/// # Valid for
/// Readings on a running motor, taken by a licensed person; a capacitance meter on a
/// discharged capacitor is the safer way.
///
/// # Source
/// Definition; the trade's form for 60 Hz is printed as 2652 or 2650 (from memory). The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// By that form: 2652 · 1.753 / 310 is 15.0 µF.
/// ```
/// use pumpwright_calc::{capacitor::from_current, registry::Basis};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Frequency};
/// use uom::si::{capacitance::microfarad, electric_current::ampere};
/// use uom::si::{electric_potential::volt, frequency::hertz};
///
/// let (amps, volts) =
///     (ElectricCurrent::new::<ampere>(1.753), ElectricPotential::new::<volt>(310.0));
/// let found = from_current(amps, volts, Frequency::new::<hertz>(60.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", found.get::<microfarad>()), "15.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn from_current(
    amps: ElectricCurrent,
    volts: ElectricPotential,
    frequency: Frequency,
    basis: Basis,
) -> Result<Capacitance, Refusal> {
    let amps = AMPS.check(AMPERE.read(amps))?;
    let volts = ACROSS.check(VOLT.read(volts))?;
    let swings = SWINGS.check(HERTZ.read(frequency))?;
    Ok(MICROFARAD.of(factor(basis) * amps / (swings * volts)))
}

/// How far a capacitor is off its mark.
///
/// # Formula
/// ```text
/// d = 100 · (m - r) / r     in percent
///
/// d  deviation   m  measured   r  marked
/// ```
/// Less than zero when it has lost.
///
/// # Valid for
/// A discharged capacitor, leads off. How much is too much is its maker's to say; 10
/// percent is usual.
///
/// # Source
/// Definition; 10 percent: common practice, no source. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the capacitance outside its span.
///
/// # Example
/// No outside figure is needed for a share: 12 µF for a mark of 15 is 20 percent under.
/// ```
/// use pumpwright_calc::capacitor::deviation;
/// use uom::si::{capacitance::microfarad, f64::Capacitance, ratio::percent};
///
/// let stored = Capacitance::new::<microfarad>;
/// let off = deviation(stored(12.0), stored(15.0))?;
/// assert_eq!(format!("{:.1}", off.get::<percent>()), "-20.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn deviation(measured: Capacitance, marked: Capacitance) -> Result<Ratio, Refusal> {
    let found = FOUND.check(MICROFARAD.read(measured))?;
    let marked = MARKED.check(MICROFARAD.read(marked))?;
    Ok(Ratio::from_si((found - marked) / marked))
}

const SWINGS_PORT: Port = port("frequency", "f", "frequency", HERTZ_PORT);
const CHARGED: Option<&str> = Some(
    "A capacitor holds its charge with the power off: locked out, proved dead, discharged through a \
     resistor before it is touched. Readings on live parts are for a licensed person.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "capacitor.reactance",
        title: "reactance of a capacitor",
        inputs: &[
            port("capacitance", "c", "capacitance", CAPACITANCE),
            SWINGS_PORT,
        ],
        gives: port("reactance", "x", "reactance", OHMS),
        law: Law::Shown(Pair::both("159155 / (f * c)")),
        valid: "Alternating current of one frequency.",
        source: "definition; a calculator page works 50 uF at 60 Hz",
        caution: CHARGED,
        edition: 1,
        call: call!(basis, (capacitance: Capacitance, frequency: Frequency) =>
            reactance(capacitance, frequency, basis)),
    },
    Function {
        name: "capacitor.from_current",
        title: "capacitance from the current that a capacitor takes",
        inputs: &[
            port("amps", "i", "current", CURRENT),
            port("volts", "v", "voltage across it", VOLTS),
            SWINGS_PORT,
        ],
        gives: port("capacitance", "c", "capacitance", CAPACITANCE),
        law: Law::Shown(Pair::both("159155 * i / (f * v)")),
        valid: "Readings taken together on a steady supply.",
        source: "definition",
        caution: CHARGED,
        edition: 1,
        call: call!(basis, (
            amps: ElectricCurrent,
            volts: ElectricPotential,
            frequency: Frequency
        ) => from_current(amps, volts, frequency, basis)),
    },
    Function {
        name: "capacitor.deviation",
        title: "how far a capacitor is off its mark",
        inputs: &[
            port("measured", "m", "measured", CAPACITANCE),
            port("marked", "r", "marked", CAPACITANCE),
        ],
        gives: port("deviation", "d", "deviation", PERCENT),
        law: Law::Shown(Pair::both("100 * (m - r) / r")),
        valid: "A discharged capacitor, leads off.",
        source: "definition",
        caution: CHARGED,
        edition: 1,
        call: call!(_, (measured: Capacitance, marked: Capacitance) => deviation(measured, marked)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn odd_figures_are_refused() {
        let supply = HERTZ.of(60.0);
        assert!(reactance(MICROFARAD.of(0.0), supply, Basis::Physical).is_err());
        assert!(from_current(AMPERE.of(1.0), VOLT.of(0.0), supply, Basis::Physical).is_err());
        assert!(deviation(MICROFARAD.of(f64::NAN), MICROFARAD.of(15.0)).is_err());
    }

    proptest! {
        #[test]
        fn the_current_through_a_reactance_gives_the_capacitance_back(
            stored in 1.0..300.0_f64, volts in 50.0..400.0_f64, at in 0_usize..3,
        ) {
            let basis = [Basis::UsTrade, Basis::SiTrade, Basis::Physical][at];
            let supply = HERTZ.of(60.0);
            let ohms = reactance(MICROFARAD.of(stored), supply, basis).unwrap();
            let amps = AMPERE.of(volts / OHM.read(ohms));
            let back = from_current(amps, VOLT.of(volts), supply, basis).unwrap();
            prop_assert!((MICROFARAD.read(back) / stored - 1.0).abs() < 1e-12);
        }
    }
}
