//! Volts lost in the cable to a motor. Two sizes in a row are in `mixed_cable`; which
//! conductor carries how much current safely is in `ampacity`.

use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Ratio};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{Measured, ResistancePerLength};
use crate::ports::{CONDUCTOR_OHMS, CURRENT, LENGTH, OHMS, PAIR_OHMS, PERCENT, VOLTS, port};
use crate::registry::{Function, Law, Pair};
use crate::units::{AMPERE, FOOT, OHM_PER_KILOFOOT, VOLT};

/// Conductors that carry the current one after the other: out and back.
const OUT_AND_BACK: f64 = 2.0;

pub(crate) const RUN: Bounds = Bounds {
    what: "run",
    unit: "ft",
    min: 0.0,
    max: 100_000.0,
};
/// Where a run divides, none at all has no answer.
pub(crate) const SOME_RUN: Bounds = Bounds { min: 0.1, ..RUN };
const AMPS: Bounds = Bounds {
    what: "current",
    unit: "A",
    min: 0.0,
    max: 10_000.0,
};
const SOME_AMPS: Bounds = Bounds { min: 0.001, ..AMPS };
const LOST: Bounds = Bounds {
    what: "volts lost",
    unit: "V",
    min: 0.0,
    max: 100_000.0,
};
const SUPPLY: Bounds = Bounds {
    what: "supply",
    unit: "V",
    min: 1.0,
    max: 100_000.0,
};
const CONDUCTOR: Bounds = Bounds {
    what: "resistance of one conductor",
    unit: "ohm/kft",
    min: 0.0,
    max: 10_000.0,
};
const SOME_CONDUCTOR: Bounds = Bounds {
    min: 0.000_01,
    ..CONDUCTOR
};
const BOTH: Bounds = Bounds {
    what: "resistance of the pair",
    ..CONDUCTOR
};

/// Ohms of a whole loop, from the pair's resistance per length.
///
/// # Formula
/// ```text
/// R = r · L / 100
///
/// R  loop   ohm     r  pair of conductors   ohm/100 ft or ohm/100 m     L  run   ft or m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// One-way run; r already counts both conductors, at the temperature of the
/// table that it comes from.
///
/// # Source
/// Resistance in proportion to length. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// NEC chapter 9, table 8: 1.98 ohm per 1000 ft of one stranded 12 AWG conductor
/// at 75 °C, so 0.396 ohm per 100 ft of pair; 250 ft make 0.99 ohm.
/// ```
/// use pumpwright_calc::cable::loop_ohms;
/// use uom::si::f64::{ElectricalResistance, Length};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let one = ElectricalResistance::new::<ohm>(1.98) / Length::new::<foot>(1000.0);
/// let ohms = loop_ohms(one + one, Length::new::<foot>(250.0))?;
/// assert_eq!(format!("{:.2}", ohms.get::<ohm>()), "0.99");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn loop_ohms(pair: ResistancePerLength, run: Length) -> Result<ElectricalResistance, Refusal> {
    BOTH.check(OHM_PER_KILOFOOT.read(pair))?;
    RUN.check(FOOT.read(run))?;
    Ok(ElectricalResistance::from_si(pair.si() * run.si()))
}

/// What a motor draws through a cable, and the volts that may be lost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowance {
    /// Volts that may be lost.
    pub volts: ElectricPotential,
    /// Current drawn.
    pub amps: ElectricCurrent,
    /// One-way length.
    pub run: Length,
}

/// The most that the pair of conductors may have, per length.
///
/// # Formula
/// ```text
/// r = 100 · V / (I · L)
///
/// r  pair of conductors   ohm/100 ft or ohm/100 m     V  volts that may be lost   V
/// I  current              A                           L  run                      ft or m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Single phase, one-way run. The current's own limit on the conductor is
/// another question.
///
/// # Source
/// Ohm's law. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// An electrician's training page loses 4.0 V in 100 ft of a two-wire circuit at
/// 4 A: 1.0 ohm per 100 ft of pair.
/// ```
/// use pumpwright_calc::cable::{Allowance, ohms_allowed};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let run = Length::new::<foot>(100.0);
/// let pair = ohms_allowed(Allowance {
///     volts: ElectricPotential::new::<volt>(4.0),
///     amps: ElectricCurrent::new::<ampere>(4.0),
///     run,
/// })?;
/// assert_eq!(format!("{:.1}", (pair * run).get::<ohm>()), "1.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn ohms_allowed(allowance: Allowance) -> Result<ResistancePerLength, Refusal> {
    LOST.check(VOLT.read(allowance.volts))?;
    SOME_AMPS.check(AMPERE.read(allowance.amps))?;
    SOME_RUN.check(FOOT.read(allowance.run))?;
    Ok(ResistancePerLength::from_si(
        allowance.volts.si() / (allowance.amps.si() * allowance.run.si()),
    ))
}

/// A current in a cable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Current drawn.
    pub amps: ElectricCurrent,
    /// Resistance of one conductor.
    pub conductor: ResistancePerLength,
    /// One-way length.
    pub run: Length,
}

impl Circuit {
    /// Volts lost in one conductor.
    fn one_way(self) -> Result<f64, Refusal> {
        AMPS.check(AMPERE.read(self.amps))?;
        CONDUCTOR.check(OHM_PER_KILOFOOT.read(self.conductor))?;
        RUN.check(FOOT.read(self.run))?;
        Ok(self.amps.si() * self.conductor.si() * self.run.si())
    }
}

/// Volts lost in a single-phase cable.
///
/// # Formula
/// ```text
/// V = 2 · I · r · L / 1000
///
/// V  volts lost   V     I  current   A     r  one conductor   ohm/1000 ft or ohm/km
/// L  run   ft or m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Single phase, one-way run, the current the same all the way. Reactance is
/// left out: it is small in the sizes of drop cable.
///
/// # Source
/// Ohm's law. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// An electrician's training page: a two-wire circuit of No. 16 copper, 4.99 ohm
/// per 1000 ft, loses 4.0 V at 4 A over 100 ft.
/// ```
/// use pumpwright_calc::cable::{Circuit, drop};
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let lost = drop(Circuit {
///     amps: ElectricCurrent::new::<ampere>(4.0),
///     conductor: ElectricalResistance::new::<ohm>(4.99) / Length::new::<foot>(1000.0),
///     run: Length::new::<foot>(100.0),
/// })?;
/// assert_eq!(format!("{:.1}", lost.get::<volt>()), "4.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop(circuit: Circuit) -> Result<ElectricPotential, Refusal> {
    circuit.one_way().map(|volts| VOLT.of(OUT_AND_BACK * volts))
}

/// Volts lost between the lines of a three-phase cable.
///
/// # Formula
/// ```text
/// V = √3 · I · r · L / 1000
///
/// V  volts lost   V     I  line current   A     r  one conductor   ohm/1000 ft or ohm/km
/// L  run   ft or m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Balanced three phase, one-way run. Reactance is left out.
///
/// # Source
/// Ohm's law and the geometry of three phases (from memory). The accepted spans
/// are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// NEC chapter 9, table 8: 0.778 ohm per 1000 ft of stranded 8 AWG at 75 °C. At
/// 15.2 A over 400 ft the trade's form 1.732 · K · I · L / cmil with K = 12.9
/// and 16,510 cmil gives 8.23 V; this gives 8.19 V.
/// ```
/// use pumpwright_calc::cable::{Circuit, drop_three_phase};
/// use uom::si::f64::{ElectricCurrent, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let lost = drop_three_phase(Circuit {
///     amps: ElectricCurrent::new::<ampere>(15.2),
///     conductor: ElectricalResistance::new::<ohm>(0.778) / Length::new::<foot>(1000.0),
///     run: Length::new::<foot>(400.0),
/// })?;
/// assert_eq!(format!("{:.2}", lost.get::<volt>()), "8.19");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop_three_phase(circuit: Circuit) -> Result<ElectricPotential, Refusal> {
    circuit
        .one_way()
        .map(|volts| VOLT.of(3.0_f64.sqrt() * volts))
}

/// Volts lost beside the volts supplied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loss {
    /// Volts lost in the cable.
    pub volts: ElectricPotential,
    /// Volts at the service.
    pub supply: ElectricPotential,
}

/// Volts lost as a share of the supply.
///
/// # Formula
/// ```text
/// s = 100 · V / U   in percent
///
/// s  share lost   V  volts lost   U  supply
/// ```
///
/// # Valid for
/// The voltage that the motor is joined to: 230 V between the lines, not the
/// 115 V of one of them.
///
/// # Source
/// Definition. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the voltage outside its span.
///
/// # Example
/// An electrician's training page: 4.0 V lost of 24 V is 16.7 percent.
/// ```
/// use pumpwright_calc::cable::{Loss, drop_share};
/// use uom::si::f64::ElectricPotential;
/// use uom::si::{electric_potential::volt, ratio::percent};
///
/// let share = drop_share(Loss {
///     volts: ElectricPotential::new::<volt>(4.0),
///     supply: ElectricPotential::new::<volt>(24.0),
/// })?;
/// assert_eq!(format!("{:.1}", share.get::<percent>()), "16.7");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drop_share(loss: Loss) -> Result<Ratio, Refusal> {
    LOST.check(VOLT.read(loss.volts))?;
    SUPPLY.check(VOLT.read(loss.supply))?;
    Ok(loss.volts / loss.supply)
}

/// What a cable may lose, with the current and the conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Volts that may be lost.
    pub volts: ElectricPotential,
    /// Current drawn.
    pub amps: ElectricCurrent,
    /// Resistance of one conductor.
    pub conductor: ResistancePerLength,
}

/// The longest single-phase run that loses no more than the volts allowed.
///
/// # Formula
/// ```text
/// L = 1000 · V / (2 · I · r)
///
/// L  run   ft or m     V  volts that may be lost   V     I  current   A
/// r  one conductor   ohm/1000 ft or ohm/km
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Single phase, one-way run. Printed length tables differ from this by up to
/// about 13 percent either way; say which one is used.
///
/// # Source
/// Ohm's law. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// An electrician's training page, turned round: No. 16 copper, 4.99 ohm per
/// 1000 ft, loses 4.0 V at 4 A in 100 ft.
/// ```
/// use pumpwright_calc::cable::{Reach, longest_run};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt};
/// use uom::si::{electrical_resistance::ohm, length::foot};
///
/// let run = longest_run(Reach {
///     volts: ElectricPotential::new::<volt>(4.0),
///     amps: ElectricCurrent::new::<ampere>(4.0),
///     conductor: ElectricalResistance::new::<ohm>(4.99) / Length::new::<foot>(1000.0),
/// })?;
/// assert_eq!(format!("{:.0}", run.get::<foot>()), "100");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn longest_run(reach: Reach) -> Result<Length, Refusal> {
    LOST.check(VOLT.read(reach.volts))?;
    SOME_AMPS.check(AMPERE.read(reach.amps))?;
    SOME_CONDUCTOR.check(OHM_PER_KILOFOOT.read(reach.conductor))?;
    Ok(Length::from_si(
        reach.volts.si() / (OUT_AND_BACK * reach.amps.si() * reach.conductor.si()),
    ))
}

pub(crate) const LIVE: Option<&str> = Some(
    "Volts lost say nothing about what a conductor carries safely: the electrical code in force, \
     the cable's own rating and a licensed person decide. Work on circuits that are off, locked \
     out and proved dead.",
);
pub(crate) const OHM: &str = "Ohm's law";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "cable.loop_ohms",
        title: "ohms of a whole loop",
        inputs: &[
            port("pair", "r", "resistance of the pair", PAIR_OHMS),
            port("run", "l", "run", LENGTH),
        ],
        gives: port("ohms", "o", "ohms in the loop", OHMS),
        law: Law::Shown(Pair::both("r * l / 100")),
        valid: "One-way run; the pair counts both conductors, at its table's temperature.",
        source: "resistance in proportion to length",
        caution: LIVE,
        edition: 1,
        call: call!(_, (pair: ResistancePerLength, run: Length) => loop_ohms(pair, run)),
    },
    Function {
        name: "cable.ohms_allowed",
        title: "most ohms that the pair may have, per length",
        inputs: &[
            port("volts", "v", "volts that may be lost", VOLTS),
            port("amps", "i", "current", CURRENT),
            port("run", "l", "run", LENGTH),
        ],
        gives: port("pair", "r", "resistance of the pair", PAIR_OHMS),
        law: Law::Shown(Pair::both("100 * v / (i * l)")),
        valid: "Single phase, one-way run.",
        source: OHM,
        caution: LIVE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, amps: ElectricCurrent, run: Length) =>
            ohms_allowed(Allowance { volts, amps, run })),
    },
    Function {
        name: "cable.drop",
        title: "volts lost in a single-phase cable",
        inputs: &[
            port("amps", "i", "current", CURRENT),
            port(
                "conductor",
                "r",
                "resistance of one conductor",
                CONDUCTOR_OHMS,
            ),
            port("run", "l", "run", LENGTH),
        ],
        gives: port("volts", "v", "volts lost", VOLTS),
        law: Law::Shown(Pair::both("2 * i * r * l / 1000")),
        valid: "Single phase, one-way run. Reactance is left out.",
        source: OHM,
        caution: LIVE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent, conductor: ResistancePerLength, run: Length) =>
            drop(Circuit { amps, conductor, run })),
    },
    Function {
        name: "cable.drop_three_phase",
        title: "volts lost between the lines of a three-phase cable",
        inputs: &[
            port("amps", "i", "line current", CURRENT),
            port(
                "conductor",
                "r",
                "resistance of one conductor",
                CONDUCTOR_OHMS,
            ),
            port("run", "l", "run", LENGTH),
        ],
        gives: port("volts", "v", "volts lost", VOLTS),
        law: Law::Shown(Pair::both("sqrt(3) * i * r * l / 1000")),
        valid: "Balanced three phase, one-way run. Reactance is left out.",
        source: "Ohm's law and the geometry of three phases (from memory)",
        caution: LIVE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent, conductor: ResistancePerLength, run: Length) =>
            drop_three_phase(Circuit { amps, conductor, run })),
    },
    Function {
        name: "cable.drop_share",
        title: "volts lost as a share of the supply",
        inputs: &[
            port("volts", "v", "volts lost", VOLTS),
            port("supply", "u", "supply", VOLTS),
        ],
        gives: port("share", "s", "share lost", PERCENT),
        law: Law::Shown(Pair::both("100 * v / u")),
        valid: "The voltage that the motor is joined to.",
        source: "definition",
        caution: LIVE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, supply: ElectricPotential) =>
            drop_share(Loss { volts, supply })),
    },
    Function {
        name: "cable.longest_run",
        title: "longest single-phase run for the volts allowed",
        inputs: &[
            port("volts", "v", "volts that may be lost", VOLTS),
            port("amps", "i", "current", CURRENT),
            port(
                "conductor",
                "r",
                "resistance of one conductor",
                CONDUCTOR_OHMS,
            ),
        ],
        gives: port("run", "l", "run", LENGTH),
        law: Law::Shown(Pair::both("1000 * v / (2 * i * r)")),
        valid: "Single phase, one-way run. Printed length tables differ by up to about 13 percent.",
        source: OHM,
        caution: LIVE,
        edition: 1,
        call: call!(_, (
            volts: ElectricPotential,
            amps: ElectricCurrent,
            conductor: ResistancePerLength
        ) => longest_run(Reach { volts, amps, conductor })),
    },
];

#[cfg(test)]
mod tests;
