//! The measures in which the laws take and give their quantities, by system,
//! and a short way to write a port.

use crate::dimension::Dimension;
use crate::registry::{Kind, Pair, Port};

/// A kind of thing with the units in which a law has it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measure {
    kind: Kind,
    unit: Pair,
}

const fn quantity(dimension: Dimension, us: &'static str, si: &'static str) -> Measure {
    Measure {
        kind: Kind::Quantity(dimension),
        unit: Pair { us, si },
    }
}

/// One of these words.
pub(crate) const fn word(words: &'static [&'static str]) -> Measure {
    Measure {
        kind: Kind::Word(words),
        unit: Pair::both(""),
    }
}

pub(crate) const PLAIN: Measure = quantity(Dimension::NONE, "", "");
pub(crate) const PERCENT: Measure = quantity(Dimension::NONE, "%", "%");
pub(crate) const STAGES: Measure = quantity(Dimension::NONE, "stages", "stages");
pub(crate) const LENGTH: Measure = quantity(Dimension::LENGTH, "ft", "m");
pub(crate) const BORE: Measure = quantity(Dimension::LENGTH, "in", "m");
pub(crate) const PRESSURE: Measure = quantity(Dimension::PRESSURE, "psi", "kPa");
pub(crate) const DENSITY: Measure = quantity(Dimension::DENSITY, "lb/ft3", "kg/m3");
pub(crate) const VOLUME: Measure = quantity(Dimension::VOLUME, "gal", "L");
pub(crate) const PIPE_FLOW: Measure = quantity(Dimension::FLOW, "gpm", "m3/s");
pub(crate) const SPEED_FLOW: Measure = quantity(Dimension::FLOW, "gpm", "L/min");
pub(crate) const DAY_FLOW: Measure = quantity(Dimension::FLOW, "gpd", "L/d");
pub(crate) const SPEED: Measure = quantity(Dimension::SPEED, "ft/s", "m/s");
pub(crate) const WIDTH: Measure = quantity(Dimension::LENGTH, "in", "mm");
pub(crate) const VISCOSITY: Measure = quantity(Dimension::DYNAMIC_VISCOSITY, "Pa*s", "Pa*s");
pub(crate) const KINEMATIC: Measure = quantity(Dimension::AREA_RATE, "mm2/s", "mm2/s");
pub(crate) const SPECIFIC_CAPACITY: Measure = quantity(Dimension::AREA_RATE, "gpm/ft", "L/min/m");
pub(crate) const TRANSMISSIVITY: Measure = quantity(Dimension::AREA_RATE, "gpd/ft", "m2/d");
pub(crate) const AQUIFER_FLOW: Measure = quantity(Dimension::FLOW, "gpm", "m3/d");
pub(crate) const DAYS: Measure = quantity(Dimension::TIME, "d", "d");
pub(crate) const HOURS: Measure = quantity(Dimension::TIME, "h", "h");
pub(crate) const MINUTES: Measure = quantity(Dimension::TIME, "min", "min");
pub(crate) const SECONDS: Measure = quantity(Dimension::TIME, "s", "s");
pub(crate) const POWER: Measure = quantity(Dimension::POWER, "hp", "kW");
pub(crate) const WATTS: Measure = quantity(Dimension::POWER, "W", "W");
pub(crate) const KILOWATTS: Measure = quantity(Dimension::POWER, "kW", "kW");
pub(crate) const ENERGY: Measure = quantity(Dimension::ENERGY, "kWh", "kWh");
pub(crate) const TURNING: Measure = quantity(Dimension::FREQUENCY, "rpm", "rpm");
pub(crate) const HERTZ: Measure = quantity(Dimension::FREQUENCY, "Hz", "Hz");
pub(crate) const PEOPLE: Measure = quantity(Dimension::NONE, "people", "people");
pub(crate) const LEAKING: Measure = quantity(Dimension::FLOW, "gph", "L/h");
pub(crate) const FORCE: Measure = quantity(Dimension::FORCE, "lbf", "N");
pub(crate) const RESISTIVITY: Measure =
    quantity(Dimension::RESISTIVITY, "ohm*cmil/ft", "ohm*mm2/m");
pub(crate) const PER_DEGREE: Measure = quantity(Dimension::PER_DEGREE, "%/Fdeg", "%/Cdeg");
pub(crate) const STARTS: Measure = quantity(Dimension::FREQUENCY, "starts/h", "starts/h");
pub(crate) const MASS: Measure = quantity(Dimension::MASS, "lb", "kg");
pub(crate) const POWDER: Measure = quantity(Dimension::MASS, "oz", "g");
pub(crate) const BLEACH: Measure = quantity(Dimension::VOLUME, "floz", "mL");
pub(crate) const DOSE: Measure = quantity(Dimension::DENSITY, "mg/L", "mg/L");
pub(crate) const SOLUTION: Measure = quantity(Dimension::DENSITY, "g/mL", "g/mL");
pub(crate) const BODY: Measure = quantity(Dimension::VOLUME, "ft3", "m3");
pub(crate) const PIPE_WEIGHT: Measure = quantity(Dimension::MASS_PER_LENGTH, "lb/ft", "kg/m");
pub(crate) const BORE_VOLUME: Measure = quantity(Dimension::AREA, "gal/ft", "L/m");
pub(crate) const DEGREES: Measure = quantity(Dimension::TEMPERATURE, "Fdeg", "Cdeg");
pub(crate) const GROWTH: Measure = quantity(Dimension::PER_DEGREE, "in/100ft/Fdeg", "mm/m/Cdeg");
pub(crate) const STIFFNESS: Measure = quantity(Dimension::PRESSURE, "psi", "MPa");
pub(crate) const CAPACITANCE: Measure = quantity(Dimension::CAPACITANCE, "uF", "uF");
pub(crate) const PLACES: Measure = quantity(Dimension::NONE, "places", "places");
pub(crate) const JOINTS: Measure = quantity(Dimension::NONE, "joints", "joints");
pub(crate) const VALVES: Measure = quantity(Dimension::NONE, "valves", "valves");
pub(crate) const CURRENT: Measure = quantity(Dimension::CURRENT, "A", "A");
pub(crate) const VOLTS: Measure = quantity(Dimension::VOLTAGE, "V", "V");
pub(crate) const OHMS: Measure = quantity(Dimension::RESISTANCE, "ohm", "ohm");
pub(crate) const MEGOHMS: Measure = quantity(Dimension::RESISTANCE, "megohm", "megohm");
pub(crate) const PAIR_OHMS: Measure =
    quantity(Dimension::RESISTANCE_PER_LENGTH, "ohm/100ft", "ohm/100m");
pub(crate) const CONDUCTOR_OHMS: Measure =
    quantity(Dimension::RESISTANCE_PER_LENGTH, "ohm/kft", "ohm/km");
pub(crate) const CONDUCTOR_AREA: Measure = quantity(Dimension::AREA, "cmil", "mm2");
pub(crate) const TEMPERATURE: Measure = Measure {
    kind: Kind::Temperature,
    unit: Pair {
        us: "degF",
        si: "degC",
    },
};

/// A port: its name, its letter in the law, what it is, and its measure.
pub(crate) const fn port(
    name: &'static str,
    letter: &'static str,
    label: &'static str,
    measure: Measure,
) -> Port {
    Port {
        name,
        letter,
        label,
        kind: measure.kind,
        unit: measure.unit,
    }
}
