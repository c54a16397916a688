//! What a type is called in a sentence, and what a unit of it looks like.

use crate::quantities::{Dimension, System};

use super::value::Type;

/// Dimension, what it is called, and a unit in each system.
const NAMED: &[(Dimension, &str, &str, &str)] = &[
    (Dimension::NONE, "a plain number", "", ""),
    (Dimension::LENGTH, "a length", "ft", "m"),
    (Dimension::AREA, "an area", "in2", "mm2"),
    (Dimension::VOLUME, "a volume", "gal", "L"),
    (Dimension::TIME, "a time", "min", "min"),
    (Dimension::MASS, "a mass", "lb", "kg"),
    (Dimension::FLOW, "a flow", "gpm", "L/min"),
    (Dimension::SPEED, "a speed", "ft/s", "m/s"),
    (Dimension::PRESSURE, "a pressure", "psi", "kPa"),
    (Dimension::POWER, "a power", "hp", "kW"),
    (Dimension::CURRENT, "an electric current", "A", "A"),
    (Dimension::VOLTAGE, "a voltage", "V", "V"),
    (Dimension::RESISTANCE, "a resistance", "ohm", "ohm"),
    (
        Dimension::RESISTANCE_PER_LENGTH,
        "a resistance for a length",
        "ohm/100ft",
        "ohm/100m",
    ),
    (
        Dimension::TEMPERATURE,
        "a temperature interval",
        "Fdeg",
        "Cdeg",
    ),
    (Dimension([1, 1, -2, 0, 0]), "a force", "lbf", "N"),
    (Dimension([2, 1, -2, 0, 0]), "an energy", "kWh", "kWh"),
    (Dimension([0, 0, -1, 0, 0]), "a frequency", "Hz", "Hz"),
    (Dimension([-3, 1, 0, 0, 0]), "a density", "lb/ft3", "kg/m3"),
    (Dimension([-2, -1, 4, 2, 0]), "a capacitance", "uF", "uF"),
];

/// What a type is called, with its article: "a length", "a row of copper".
pub fn kind(holds: &Type) -> String {
    match holds {
        Type::Quantity(dimension) => dimension_name(*dimension),
        Type::Temperature => "a temperature".to_owned(),
        Type::Truth => "a yes or no".to_owned(),
        Type::Word => "a word".to_owned(),
        Type::Row(table) => format!("a row of {table}"),
        Type::Rows(table) => format!("a set of rows of {table}"),
    }
}

fn dimension_name(dimension: Dimension) -> String {
    let named = NAMED.iter().find(|(known, ..)| *known == dimension);
    named.map_or_else(|| spelled(dimension), |(_, name, ..)| (*name).to_owned())
}

/// A dimension without a name of its own, by its exponents.
fn spelled(dimension: Dimension) -> String {
    let bases = ["length", "mass", "time", "current", "temperature"];
    let side = |sign: i32| {
        let parts = bases
            .iter()
            .zip(dimension.0)
            .filter_map(|(base, exponent)| match i32::from(exponent) * sign {
                1 => Some((*base).to_owned()),
                power if power > 1 => Some(format!("{base}^{power}")),
                _ => None,
            });
        parts.collect::<Vec<_>>().join(" · ")
    };
    match (side(1), side(-1)) {
        (over, under) if under.is_empty() => format!("a quantity of {over}"),
        (over, under) if over.is_empty() => format!("a quantity of 1 / {under}"),
        (over, under) => format!("a quantity of {over} / {under}"),
    }
}

/// A unit in which such a quantity is written, where one is customary.
pub(super) fn example_unit(dimension: Dimension, system: System) -> Option<&'static str> {
    let (.., us, si) = NAMED.iter().find(|(known, ..)| *known == dimension)?;
    let unit = match system {
        System::Us => us,
        System::Si => si,
    };
    (!unit.is_empty()).then_some(unit)
}
