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
