//! Ohms of a motor's windings, at the motor and through its cable; resistances in a row
//! and side by side.

use uom::si::f64::ElectricalResistance;

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{MEGOHMS, OHMS, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{MEGOHM, OHM};

const FIRST: Bounds = Bounds::of("first resistance", "ohm", 0.000_001, 1e13);
const SECOND: Bounds = Bounds::of("second resistance", "ohm", 0.000_001, 1e13);
const MAIN: Bounds = Bounds::of("main winding", "ohm", 0.0, 1e6);
const START: Bounds = Bounds::of("start winding", "ohm", 0.0, 1e6);
const READING: Bounds = Bounds::of("reading", "ohm", 0.0, 1e6);
const CABLE: Bounds = Bounds::of("resistance of the cable's pair", "ohm", 0.0, 1e6);
const WHOLE: Bounds = Bounds::of(
    "reading of motor and cable together",
    "megohm",
    0.000_1,
    1e6,
);
const LEAD: Bounds = Bounds::of("reading of the cable alone", "megohm", 0.000_1, 1e6);

/// Two resistances in a row.
///
/// # Formula
/// ```text
/// r = a + b
/// ```
///
/// # Valid for
/// One current through both.
///
/// # Source
/// Kirchhoff's laws (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the resistance outside its span.
///
/// # Example
/// No outside figure is needed for a sum: 12 and 18 ohm are 30 ohm.
/// ```
/// use pumpwright_calc::winding::in_series;
/// use uom::si::{electrical_resistance::ohm, f64::ElectricalResistance};
///
/// let ohms = ElectricalResistance::new::<ohm>;
/// assert_eq!(in_series(ohms(12.0), ohms(18.0))?.get::<ohm>(), 30.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn in_series(
    first: ElectricalResistance,
    second: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    FIRST.check(OHM.read(first))?;
    SECOND.check(OHM.read(second))?;
    Ok(first + second)
}

/// Two resistances side by side.
///
/// # Formula
/// ```text
/// r = 1 / (1/a + 1/b)
/// ```
///
/// # Valid for
/// One voltage across both: windings in parallel, or two leaks to ground.
///
/// # Source
/// Kirchhoff's laws (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the resistance outside its span.
///
/// # Example
/// By the other rule, product over sum: 12 and 18 ohm are 216 / 30 = 7.2 ohm.
/// ```
/// use pumpwright_calc::winding::in_parallel;
/// use uom::si::{electrical_resistance::ohm, f64::ElectricalResistance};
///
/// let ohms = ElectricalResistance::new::<ohm>;
/// assert_eq!(format!("{:.3}", in_parallel(ohms(12.0), ohms(18.0))?.get::<ohm>()), "7.200");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn in_parallel(
    first: ElectricalResistance,
    second: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    FIRST.check(OHM.read(first))?;
    SECOND.check(OHM.read(second))?;
    Ok(OHM.of(1.0 / (1.0 / OHM.read(first) + 1.0 / OHM.read(second))))
}

/// Reading between the ends of the two windings of a three-lead motor.
///
/// # Formula
/// ```text
/// r = m + s
///
/// r  reading   m  main winding   s  start winding
/// ```
///
/// # Valid for
/// A motor whose windings meet in one lead. The highest of the three pairs is this one.
///
/// # Source
/// A submersible-motor application manual, winding pairs. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the winding outside its span.
///
/// # Example
/// No outside figure is needed for a sum: 2.2 and 8.4 ohm read 10.6 ohm end to end.
/// ```
/// use pumpwright_calc::winding::end_to_end;
/// use uom::si::{electrical_resistance::ohm, f64::ElectricalResistance};
///
/// let ohms = ElectricalResistance::new::<ohm>;
/// assert_eq!(format!("{:.2}", end_to_end(ohms(2.2), ohms(8.4))?.get::<ohm>()), "10.60");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn end_to_end(
    main: ElectricalResistance,
    start: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    MAIN.check(OHM.read(main))?;
    START.check(OHM.read(start))?;
    Ok(main + start)
}

/// Ohms to expect at the well head.
///
/// # Formula
/// ```text
/// r = m + c
///
/// r  reading   m  winding   c  the cable's pair
/// ```
///
/// # Valid for
/// Cable and motor at the temperatures of their tables.
///
/// # Source
/// A submersible-motor application manual. The accepted spans are our own choice; no
/// source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a sum: 2.2 ohm through 1.1 ohm of cable read 3.3.
/// ```
/// use pumpwright_calc::winding::at_well_head;
/// use uom::si::{electrical_resistance::ohm, f64::ElectricalResistance};
///
/// let ohms = ElectricalResistance::new::<ohm>;
/// assert_eq!(format!("{:.2}", at_well_head(ohms(2.2), ohms(1.1))?.get::<ohm>()), "3.30");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn at_well_head(
    winding: ElectricalResistance,
    cable: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    MAIN.check(OHM.read(winding))?;
    CABLE.check(OHM.read(cable))?;
    Ok(winding + cable)
}

/// Winding of a motor from a reading through its cable.
///
/// # Formula
/// ```text
/// m = r - c
///
/// m  winding   r  reading   c  the cable's pair
/// ```
///
/// # Valid for
/// Both conductors of the cable counted, at the cable's own temperature.
///
/// # Source
/// A submersible-motor application manual: the reading less the cable's resistance. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where the cable has more than was read.
///
/// # Example
/// No outside figure is needed for a difference: 3.3 ohm read through 1.1 leave 2.2.
/// ```
/// use pumpwright_calc::winding::from_reading;
/// use uom::si::{electrical_resistance::ohm, f64::ElectricalResistance};
///
/// let ohms = ElectricalResistance::new::<ohm>;
/// assert_eq!(format!("{:.2}", from_reading(ohms(3.3), ohms(1.1))?.get::<ohm>()), "2.20");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn from_reading(
    reading: ElectricalResistance,
    cable: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    READING.check(OHM.read(reading))?;
    CABLE.check(OHM.read(cable))?;
    if cable > reading {
        return Err(Refusal::Conflict(
            "the cable alone has more than was read; look at the size, the length or the reading",
        ));
    }
    Ok(reading - cable)
}

/// Insulation of a motor alone, from readings with and of its cable.
///
/// # Formula
/// ```text
/// m = 1 / (1/t - 1/c)
///
/// m  motor alone   t  motor and cable together   c  cable alone
/// ```
///
/// # Valid for
/// Leaks side by side, read by the same tester at the same time.
///
/// # Source
/// Kirchhoff's laws (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the reading outside its span; [`Refusal::Conflict`]
/// where the cable alone reads no more than both.
///
/// # Example
/// By the rule for two side by side, turned round: 2 megohm with 3 megohm of cable leave
/// 6 megohm.
/// ```
/// use pumpwright_calc::winding::motor_alone;
/// use uom::si::{electrical_resistance::megaohm, f64::ElectricalResistance};
///
/// let megohms = ElectricalResistance::new::<megaohm>;
/// let motor = motor_alone(megohms(2.0), megohms(3.0))?;
/// assert_eq!(format!("{:.2}", motor.get::<megaohm>()), "6.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn motor_alone(
    together: ElectricalResistance,
    cable: ElectricalResistance,
) -> Result<ElectricalResistance, Refusal> {
    let whole = WHOLE.check(MEGOHM.read(together))?;
    let lead = LEAD.check(MEGOHM.read(cable))?;
    if lead <= whole {
        return Err(Refusal::Conflict(
            "the cable alone reads no more than both together; nothing is left for the motor",
        ));
    }
    Ok(MEGOHM.of(1.0 / (1.0 / whole - 1.0 / lead)))
}

const PAIR_PORT: Port = port("cable", "c", "the cable's pair", OHMS);
const MANUAL: &str = "a submersible-motor application manual";
const KIRCHHOFF: &str = "Kirchhoff's laws (from memory)";
const DEAD: Option<&str> = Some(
    "Power off, locked out and proved dead, leads off, capacitors discharged before an ohmmeter \
     touches a lead.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "winding.in_series",
        title: "two resistances in a row",
        inputs: &[
            port("one", "a", "first resistance", OHMS),
            port("other", "b", "second resistance", OHMS),
        ],
        gives: port("ohms", "r", "resistance", OHMS),
        law: Law::Shown(Pair::both("a + b")),
        valid: "One current through both.",
        source: KIRCHHOFF,
        caution: None,
        edition: 1,
        call: call!(_, (one: ElectricalResistance, other: ElectricalResistance) =>
            in_series(one, other)),
    },
    Function {
        name: "winding.in_parallel",
        title: "two resistances side by side",
        inputs: &[
            port("one", "a", "first resistance", OHMS),
            port("other", "b", "second resistance", OHMS),
        ],
        gives: port("ohms", "r", "resistance", OHMS),
        law: Law::Shown(Pair::both("1 / (1 / a + 1 / b)")),
        valid: "One voltage across both.",
        source: KIRCHHOFF,
        caution: None,
        edition: 1,
        call: call!(_, (one: ElectricalResistance, other: ElectricalResistance) =>
            in_parallel(one, other)),
    },
    Function {
        name: "winding.end_to_end",
        title: "reading between the ends of a three-lead motor's windings",
        inputs: &[
            port("main", "m", "main winding", OHMS),
            port("start", "s", "start winding", OHMS),
        ],
        gives: port("reading", "r", "reading", OHMS),
        law: Law::Shown(Pair::both("m + s")),
        valid: "Windings that meet in one lead; the highest of the three pairs.",
        source: MANUAL,
        caution: DEAD,
        edition: 1,
        call: call!(_, (main: ElectricalResistance, start: ElectricalResistance) =>
            end_to_end(main, start)),
    },
    Function {
        name: "winding.at_well_head",
        title: "ohms to expect at the well head",
        inputs: &[port("winding", "m", "winding", OHMS), PAIR_PORT],
        gives: port("reading", "r", "reading", OHMS),
        law: Law::Shown(Pair::both("m + c")),
        valid: "Cable and motor at the temperatures of their tables.",
        source: MANUAL,
        caution: DEAD,
        edition: 1,
        call: call!(_, (winding: ElectricalResistance, cable: ElectricalResistance) =>
            at_well_head(winding, cable)),
    },
    Function {
        name: "winding.from_reading",
        title: "winding of a motor from a reading through its cable",
        inputs: &[port("reading", "r", "reading", OHMS), PAIR_PORT],
        gives: port("winding", "m", "winding", OHMS),
        law: Law::Shown(Pair::both("r - c")),
        valid: "Both conductors of the cable counted, at the cable's own temperature.",
        source: MANUAL,
        caution: DEAD,
        edition: 1,
        call: call!(_, (reading: ElectricalResistance, cable: ElectricalResistance) =>
            from_reading(reading, cable)),
    },
    Function {
        name: "winding.motor_alone",
        title: "insulation of a motor alone, from readings with and of its cable",
        inputs: &[
            port("together", "t", "motor and cable together", MEGOHMS),
            port("cable", "c", "cable alone", MEGOHMS),
        ],
        gives: port("motor", "m", "motor alone", MEGOHMS),
        law: Law::Shown(Pair::both("1 / (1 / t - 1 / c)")),
        valid: "Leaks side by side, read by the same tester.",
        source: KIRCHHOFF,
        caution: DEAD,
        edition: 1,
        call: call!(_, (together: ElectricalResistance, cable: ElectricalResistance) =>
            motor_alone(together, cable)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn readings_that_cannot_be_are_refused() {
        assert!(from_reading(OHM.of(1.0), OHM.of(1.1)).is_err());
        assert!(motor_alone(MEGOHM.of(3.0), MEGOHM.of(3.0)).is_err());
        assert!(in_parallel(OHM.of(0.0), OHM.of(3.0)).is_err());
        assert!(end_to_end(OHM.of(f64::NAN), OHM.of(3.0)).is_err());
    }

    proptest! {
        #[test]
        fn what_the_cable_hides_comes_back(motor in 0.1..50.0_f64, cable in 0.1..50.0_f64) {
            let both = in_parallel(MEGOHM.of(motor), MEGOHM.of(cable)).unwrap();
            let alone = MEGOHM.read(motor_alone(both, MEGOHM.of(cable)).unwrap());
            prop_assert!((alone / motor - 1.0).abs() < 1e-9);
            let reading = at_well_head(OHM.of(motor), OHM.of(cable)).unwrap();
            let winding = OHM.read(from_reading(reading, OHM.of(cable)).unwrap());
            prop_assert!((winding / motor - 1.0).abs() < 1e-9);
        }

        #[test]
        fn side_by_side_is_less_than_either(one in 0.1..1e5_f64, other in 0.1..1e5_f64) {
            let both = OHM.read(in_parallel(OHM.of(one), OHM.of(other)).unwrap());
            prop_assert!(both < one.min(other));
        }
    }
}
