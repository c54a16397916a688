//! How evenly three phases share.

use uom::si::f64::{ElectricCurrent, ElectricPotential, Ratio};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{CURRENT, PERCENT, VOLTS, port};
use crate::registry::{Function, Law, Pair};
use crate::units::{AMPERE, VOLT};

const LEG: Bounds = Bounds::of("current of a leg", "A", 0.001, 10_000.0);
const LINE: Bounds = Bounds::of("voltage between two lines", "V", 1.0, 100_000.0);

fn share(three: [f64; 3]) -> Ratio {
    let mean = three.iter().sum::<f64>() / 3.0;
    let off = three.iter().map(|one| (one - mean).abs());
    Ratio::from_si(off.fold(0.0, f64::max) / mean)
}

/// Unbalance of the currents of three legs.
///
/// # Formula
/// ```text
/// u = 100 · (the greatest difference from the mean) / mean     in percent
/// ```
///
/// # Valid for
/// Currents read together under one load. Rolling the leads tells supply from motor.
/// Many manuals stop at 5 percent.
///
/// # Source
/// NEMA MG 1, the form for voltages (from memory), as motor manuals take it for
/// currents. The accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no current.
///
/// # Example
/// A motor manual's example (from memory): 51, 46 and 53 A have a mean of 50 and are 8
/// percent off.
/// ```
/// use pumpwright_calc::unbalance::currents;
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent, ratio::percent};
///
/// let legs = [51.0, 46.0, 53.0].map(ElectricCurrent::new::<ampere>);
/// assert_eq!(format!("{:.1}", currents(legs)?.get::<percent>()), "8.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn currents(legs: [ElectricCurrent; 3]) -> Result<Ratio, Refusal> {
    for leg in legs {
        LEG.check(AMPERE.read(leg))?;
    }
    Ok(share(legs.map(|leg| AMPERE.read(leg))))
}

/// Unbalance of the voltages of three lines.
///
/// # Formula
/// ```text
/// u = 100 · (the greatest difference from the mean) / mean     in percent
/// ```
///
/// # Valid for
/// Voltages between the lines, read together under load. One percent makes several
/// times as much unbalance of current.
///
/// # Source
/// NEMA MG 1 (from memory). The accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no voltage.
///
/// # Example
/// By hand: 230, 233 and 227 V have a mean of 230 and are 1.3 percent off.
/// ```
/// use pumpwright_calc::unbalance::voltages;
/// use uom::si::{electric_potential::volt, f64::ElectricPotential, ratio::percent};
///
/// let lines = [230.0, 233.0, 227.0].map(ElectricPotential::new::<volt>);
/// assert_eq!(format!("{:.1}", voltages(lines)?.get::<percent>()), "1.3");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn voltages(lines: [ElectricPotential; 3]) -> Result<Ratio, Refusal> {
    for line in lines {
        LINE.check(VOLT.read(line))?;
    }
    Ok(share(lines.map(|line| VOLT.read(line))))
}

const LAW: Law = Law::Shown(Pair::both(
    "100 * max(abs(a - (a + b + c) / 3), abs(b - (a + b + c) / 3), abs(c - (a + b + c) / 3)) / \
     ((a + b + c) / 3)",
));
const NEMA: &str = "NEMA MG 1 (from memory)";
const LIVE: Option<&str> = Some(
    "Readings on live parts are for a licensed person; the motor's manual says how much unbalance it \
     bears.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "unbalance.currents",
        title: "unbalance of the currents of three legs",
        inputs: &[
            port("one", "a", "first leg", CURRENT),
            port("two", "b", "second leg", CURRENT),
            port("three", "c", "third leg", CURRENT),
        ],
        gives: port("unbalance", "u", "unbalance", PERCENT),
        law: LAW,
        valid: "Currents read together under one load.",
        source: NEMA,
        caution: LIVE,
        edition: 1,
        call: call!(_, (one: ElectricCurrent, two: ElectricCurrent, three: ElectricCurrent) =>
            currents([one, two, three])),
    },
    Function {
        name: "unbalance.voltages",
        title: "unbalance of the voltages of three lines",
        inputs: &[
            port("one", "a", "first pair of lines", VOLTS),
            port("two", "b", "second pair of lines", VOLTS),
            port("three", "c", "third pair of lines", VOLTS),
        ],
        gives: port("unbalance", "u", "unbalance", PERCENT),
        law: LAW,
        valid: "Voltages read together under load.",
        source: NEMA,
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            one: ElectricPotential,
            two: ElectricPotential,
            three: ElectricPotential
        ) => voltages([one, two, three])),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn of(legs: [f64; 3]) -> Result<f64, Refusal> {
        currents(legs.map(|amps| AMPERE.of(amps))).map(Measured::si)
    }

    #[test]
    fn a_dead_leg_is_refused_and_an_even_one_is_not_off() {
        assert!(of([10.0, 10.0, 0.0]).is_err());
        assert!(of([10.0, f64::NAN, 10.0]).is_err());
        assert_eq!(of([10.0, 10.0, 10.0]), Ok(0.0));
    }

    proptest! {
        #[test]
        fn order_and_size_do_not_count(a in 1.0..50.0_f64, b in 1.0..50.0_f64, c in 1.0..50.0_f64) {
            let here = of([a, b, c]).unwrap();
            prop_assert!((of([c, a, b]).unwrap() - here).abs() < 1e-12);
            prop_assert!((of([2.0 * a, 2.0 * b, 2.0 * c]).unwrap() - here).abs() < 1e-12);
        }
    }
}
