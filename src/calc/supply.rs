//! What the choice of voltage does to current and to the heat lost in a cable.

use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance, Power};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{CURRENT, OHMS, PLAIN, VOLTS, WATTS, port};
use crate::registry::{Function, Law, Pair};
use crate::units::{AMPERE, OHM, VOLT, WATT};

const TAKEN: Bounds = Bounds::of("power", "W", 0.0, 1e7);
const AT: Bounds = Bounds::of("voltage", "V", 1.0, 100_000.0);
const LOW: Bounds = Bounds::of("first voltage", "V", 1.0, 100_000.0);
const HIGH: Bounds = Bounds::of("second voltage", "V", 1.0, 100_000.0);
const FACTOR: Bounds = Bounds::of("power factor", "", 0.05, 1.0);
const AMPS: Bounds = Bounds::of("current", "A", 0.0, 10_000.0);
const LOOP: Bounds = Bounds::of("resistance of the loop", "ohm", 0.0, 1e6);

/// Current that a power takes.
///
/// # Formula
/// ```text
/// i = P / (v · f)
///
/// i  current   P  power taken in   v  voltage   f  power factor
/// ```
///
/// # Valid for
/// Single phase; the power at the motor's leads, not at its shaft.
///
/// # Source
/// Definition of the power factor. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a quotient: 1150 W at 230 V are 5 A.
/// ```
/// use pumpwright_calc::supply::current;
/// use uom::si::f64::{ElectricPotential, Power};
/// use uom::si::{electric_current::ampere, electric_potential::volt, power::watt};
///
/// let power = Power::new::<watt>(1150.0);
/// let amps = current(power, ElectricPotential::new::<volt>(230.0), 1.0)?;
/// assert_eq!(amps.get::<ampere>(), 5.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn current(
    power: Power,
    volts: ElectricPotential,
    power_factor: f64,
) -> Result<ElectricCurrent, Refusal> {
    TAKEN.check(WATT.read(power))?;
    AT.check(VOLT.read(volts))?;
    let factor = FACTOR.check(power_factor)?;
    Ok(ElectricCurrent::from_si(power.si() / (volts.si() * factor)))
}

/// Power lost as heat in a cable.
///
/// # Formula
/// ```text
/// p = i² · r
///
/// p  power lost   i  current   r  resistance of the loop, out and back
/// ```
///
/// # Valid for
/// A steady current.
///
/// # Source
/// J. P. Joule (1841), from memory. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a product: 5 A in 1.2 ohm lose 30 W.
/// ```
/// use pumpwright_calc::supply::loss;
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance};
/// use uom::si::{electric_current::ampere, electrical_resistance::ohm, power::watt};
///
/// let cable = ElectricalResistance::new::<ohm>(1.2);
/// let lost = loss(ElectricCurrent::new::<ampere>(5.0), cable)?;
/// assert_eq!(format!("{:.2}", lost.get::<watt>()), "30.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn loss(amps: ElectricCurrent, cable: ElectricalResistance) -> Result<Power, Refusal> {
    AMPS.check(AMPERE.read(amps))?;
    LOOP.check(OHM.read(cable))?;
    Ok(Power::from_si(amps.si() * amps.si() * cable.si()))
}

/// How many times the loss at a second voltage a first one has, for the same power.
///
/// # Formula
/// ```text
/// r = (w / v)²
///
/// r  loss at the first over loss at the second   v  first voltage   w  second voltage
/// ```
///
/// # Valid for
/// The same power and the same cable.
///
/// # Source
/// Joule's law with the current of the same power. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the voltage outside its span.
///
/// # Example
/// No outside figure is needed for a square: 120 V lose four times what 240 V do.
/// ```
/// use pumpwright_calc::supply::loss_ratio;
/// use uom::si::{electric_potential::volt, f64::ElectricPotential};
///
/// let volts = ElectricPotential::new::<volt>;
/// assert_eq!(loss_ratio(volts(120.0), volts(240.0))?, 4.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn loss_ratio(first: ElectricPotential, second: ElectricPotential) -> Result<f64, Refusal> {
    let share = HIGH.check(VOLT.read(second))? / LOW.check(VOLT.read(first))?;
    Ok(share * share)
}

const LIVE: Option<&str> = Some(
    "Which voltage a motor takes is on its nameplate; wiring is for a licensed person, on circuits \
     that are off, locked out and proved dead.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "supply.current",
        title: "current that a power takes",
        inputs: &[
            port("power", "p", "power taken in", WATTS),
            port("volts", "v", "voltage", VOLTS),
            port("power_factor", "f", "power factor", PLAIN),
        ],
        gives: port("amps", "i", "current", CURRENT),
        law: Law::Shown(Pair::both("p / (v * f)")),
        valid: "Single phase; power at the motor's leads.",
        source: "definition of the power factor",
        caution: LIVE,
        edition: 1,
        call: call!(_, (power: Power, volts: ElectricPotential, power_factor: f64) =>
            current(power, volts, power_factor)),
    },
    Function {
        name: "supply.loss",
        title: "power lost as heat in a cable",
        inputs: &[
            port("amps", "i", "current", CURRENT),
            port("cable", "r", "resistance of the loop", OHMS),
        ],
        gives: port("power", "p", "power lost", WATTS),
        law: Law::Shown(Pair::both("i^2 * r")),
        valid: "A steady current.",
        source: "Joule's law (from memory)",
        caution: LIVE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent, cable: ElectricalResistance) => loss(amps, cable)),
    },
    Function {
        name: "supply.loss_ratio",
        title: "loss at one voltage over loss at another",
        inputs: &[
            port("volts", "v", "first voltage", VOLTS),
            port("other_volts", "w", "second voltage", VOLTS),
        ],
        gives: port(
            "ratio",
            "r",
            "loss at the first over loss at the second",
            PLAIN,
        ),
        law: Law::Shown(Pair::both("(w / v)^2")),
        valid: "The same power in the same cable.",
        source: "Joule's law (from memory)",
        caution: LIVE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, other_volts: ElectricPotential) =>
            loss_ratio(volts, other_volts)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn odd_figures_are_refused() {
        assert!(current(WATT.of(1.0), VOLT.of(0.0), 1.0).is_err());
        assert!(current(WATT.of(1.0), VOLT.of(230.0), 1.1).is_err());
        assert!(loss(AMPERE.of(f64::NAN), OHM.of(1.0)).is_err());
    }

    proptest! {
        #[test]
        fn the_ratio_is_that_of_the_losses(watts in 10.0..5_000.0_f64, low in 20.0..120.0_f64,
            high in 120.0..480.0_f64, ohms in 0.1..5.0_f64) {
            let lost = |volts| {
                loss(current(WATT.of(watts), VOLT.of(volts), 0.8).unwrap(), OHM.of(ohms)).unwrap()
            };
            let ratio = loss_ratio(VOLT.of(low), VOLT.of(high)).unwrap();
            prop_assert!((lost(low).si() / lost(high).si() / ratio - 1.0).abs() < 1e-12);
        }
    }
}
