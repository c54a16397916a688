//! Pressure and head of water: one is turned into the other.

use uom::si::f64::{Length, Pressure};
use uom::si::{
    length::{foot, meter},
    pressure::{kilopascal, psi},
};

use crate::bounds::{Bounds, Refusal};
use crate::dimension::{Dimension, Measured};
use crate::registry::{Basis, Function, Kind, Law, Pair, Port, Value, number};

/// Feet of water in one psi: common practice, no source.
const FEET_PER_PSI: f64 = 2.31;
/// Kilopascals in one metre of water: common practice, no source.
const KPA_PER_METRE: f64 = 9.81;
const PRESSURE_PSI: Bounds = Bounds {
    what: "pressure",
    unit: "psi",
    min: -14.7,
    max: 10_000.0,
};

/// Head of water that a pressure holds up.
pub fn from_pressure(pressure: Pressure, basis: Basis) -> Result<Length, Refusal> {
    PRESSURE_PSI.check(pressure.get::<psi>())?;
    Ok(match basis {
        Basis::UsTrade => Length::new::<foot>(FEET_PER_PSI * pressure.get::<psi>()),
        Basis::SiTrade | Basis::Physical => {
            Length::new::<meter>(pressure.get::<kilopascal>() / KPA_PER_METRE)
        }
    })
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "head.from_pressure",
    title: "head that a pressure holds up",
    inputs: &[Port {
        name: "pressure",
        letter: "p",
        label: "pressure",
        kind: Kind::Quantity(Dimension::PRESSURE),
        unit: Pair {
            us: "psi",
            si: "kPa",
        },
    }],
    gives: Port {
        name: "head",
        letter: "h",
        label: "head",
        kind: Kind::Quantity(Dimension::LENGTH),
        unit: Pair { us: "ft", si: "m" },
    },
    law: Law::Shown(Pair {
        us: "2.31 * p",
        si: "p / 9.81",
    }),
    valid: "Fresh cold water.",
    source: "common practice, no source",
    caution: None,
    edition: 1,
    call: |basis, arguments| {
        let pressure = Pressure::from_si(number(arguments, 0)?);
        from_pressure(pressure, basis).map(|head| Value::Number(head.si()))
    },
}];
