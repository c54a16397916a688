//! What each kind of scene takes, one list a kind.

use super::{SceneKind, ScenePort, Takes};
use crate::quantities::Dimension;

const LENGTH: Takes = Takes::Quantity(Dimension::LENGTH);
const PRESSURE: Takes = Takes::Quantity(Dimension::PRESSURE);
const VOLUME: Takes = Takes::Quantity(Dimension::VOLUME);
const FLOW: Takes = Takes::Quantity(Dimension::FLOW);
const TIME: Takes = Takes::Quantity(Dimension::TIME);
const MASS: Takes = Takes::Quantity(Dimension::MASS);
const CURRENT: Takes = Takes::Quantity(Dimension::CURRENT);
const VOLTAGE: Takes = Takes::Quantity(Dimension::VOLTAGE);
const RESISTANCE: Takes = Takes::Quantity(Dimension::RESISTANCE);

/// A port that may stay open.
const fn may(name: &'static str, label: &'static str, takes: Takes) -> ScenePort {
    ScenePort {
        name,
        label,
        takes,
        needed: false,
    }
}

/// A port that must be bound.
const fn must(name: &'static str, label: &'static str, takes: Takes) -> ScenePort {
    ScenePort {
        name,
        label,
        takes,
        needed: true,
    }
}

const WELL_SECTION: &[ScenePort] = &[
    may("casing", "casing", Takes::Text),
    may("stickup", "casing above ground", LENGTH),
    may("frost", "frost", LENGTH),
    may("pitless", "pitless", LENGTH),
    may("grout", "grout down to", LENGTH),
    may("static", "static level", LENGTH),
    may("pumping", "pumping level", LENGTH),
    may("line", "air line ends", LENGTH),
    may("setting", "pump setting", LENGTH),
    may("lowest", "lowest it may hang", LENGTH),
    may("screen", "screen from", LENGTH),
    may("depth", "depth", LENGTH),
    may("drawdown", "drawdown", LENGTH),
    may("cover", "water over pump", LENGTH),
    may("column", "water column", LENGTH),
    may("flow", "flow", FLOW),
];

const SETBACK_PLAN: &[ScenePort] = &[
    must("required", "required", LENGTH),
    may("source", "source", Takes::Text),
    may("east", "east leg", LENGTH),
    may("north", "north leg", LENGTH),
    may("wide", "width", LENGTH),
    may("long", "length", LENGTH),
    may("tape", "tape along the bank", LENGTH),
    may("rise", "rise of the bank", LENGTH),
    may("distance", "found", LENGTH),
    may("margin", "margin", LENGTH),
];

const PUMP_CURVE: &[ScenePort] = &[
    must("shutoff", "head at no flow", LENGTH),
    must("rated_flow", "rated flow", FLOW),
    must("rated_head", "head at rated flow", LENGTH),
    may("stages", "stages", Takes::Text),
    may("static_head", "head before water moves", LENGTH),
    may("rated_loss", "friction at rated flow", LENGTH),
    may("flow", "flow", FLOW),
    may("head", "head", LENGTH),
    may("cut_in", "at cut-in", LENGTH),
    may("cut_out", "at cut-out", LENGTH),
    may("zone_from", "best zone from", FLOW),
    may("zone_to", "best zone to", FLOW),
];

const HEAD_LADDER: &[ScenePort] = &[
    must("lift", "lift", LENGTH),
    may("rise", "rise", LENGTH),
    may("pressure", "pressure as head", LENGTH),
    may("friction", "friction", LENGTH),
    may("friction_two", "friction, buried line", LENGTH),
    may("total", "total", LENGTH),
    may("gauge", "pressure", PRESSURE),
];

const PRESSURE_CYCLE: &[ScenePort] = &[
    may("cut_in", "cut-in", PRESSURE),
    may("cut_out", "cut-out", PRESSURE),
    may("relief", "relief valve", PRESSURE),
    may("charge", "air charge", PRESSURE),
    may("on", "pump on", TIME),
    may("off", "pump off", TIME),
    may("drawdown", "drawdown", VOLUME),
    may("flow", "flow of the pump", FLOW),
    may("draw", "drawn by the house", FLOW),
    may("low", "needle, low", PRESSURE),
    may("high", "needle, high", PRESSURE),
];

const TANK_STATES: &[ScenePort] = &[
    must("volume", "tank", VOLUME),
    must("charge", "charge", PRESSURE),
    must("cut_in", "cut-in", PRESSURE),
    must("cut_out", "cut-out", PRESSURE),
    may("drawdown", "drawdown", VOLUME),
];

const PRESSURE_SWITCH: &[ScenePort] = &[
    must("cut_in", "cut-in", PRESSURE),
    must("cut_out", "cut-out", PRESSURE),
    may("gauge", "gauge", PRESSURE),
    may("contacts", "contacts", Takes::Text),
    may("line", "L1 to L2, line", Takes::Text),
    may("load", "T1 to T2, load", Takes::Text),
    may("across", "across a contact", Takes::Text),
    may("raise", "raised by", PRESSURE),
    may("new_cut_in", "new cut-in", PRESSURE),
    may("new_cut_out", "new cut-out", PRESSURE),
];

const WIRING_PATH: &[ScenePort] = &[
    may("supply", "supply", Takes::Text),
    may("breaker", "breaker", Takes::Text),
    may("line", "before the switch", Takes::Text),
    may("out", "behind the switch", Takes::Text),
    may("contacts", "contacts", Takes::Text),
    may("box", "at the control box", Takes::Text),
    may("cable", "cable", Takes::Text),
    must("motor", "motor", Takes::Text),
    may("amps", "amps", Takes::Text),
    may("ground", "to ground", Takes::Text),
];

const WINDING_TRIANGLE: &[ScenePort] = &[
    may("main", "main, Y to B", RESISTANCE),
    may("start", "start, Y to R", RESISTANCE),
    may("cable", "cable, down and back", RESISTANCE),
    must("first", "Y to B", RESISTANCE),
    may("second", "Y to R", RESISTANCE),
    may("third", "R to B", RESISTANCE),
    may("corner_one", "first corner", Takes::Text),
    may("corner_two", "second corner", Takes::Text),
    may("corner_three", "third corner", Takes::Text),
];

const LEAD_TO_GROUND: &[ScenePort] = &[
    must("reading", "reading", RESISTANCE),
    may("place", "place", Takes::Text),
    may(
        "bands",
        "bands",
        Takes::Rows(&["place", "least", "verdict"]),
    ),
    may("cable", "cable alone", RESISTANCE),
    may("motor", "motor alone", RESISTANCE),
];

const CABLE_RUN: &[ScenePort] = &[
    must("supply", "supply", VOLTAGE),
    must("drop", "in the well", LENGTH),
    may("buried", "in the trench", LENGTH),
    may("wire", "cable", Takes::Text),
    may("trench_wire", "cable in the trench", Takes::Text),
    may("motor", "motor", Takes::Text),
    may("amps", "amps", CURRENT),
    may("run", "run", LENGTH),
    may("loop", "loop", RESISTANCE),
    may("lost", "volts lost", VOLTAGE),
    may("trench_lost", "lost in the trench", VOLTAGE),
    may("at_motor", "volts at the motor", VOLTAGE),
];

const CHLORINE_COLUMN: &[ScenePort] = &[
    must("depth", "depth", LENGTH),
    must("static", "static level", LENGTH),
    may("casing", "casing, inside", Takes::Text),
    may("column", "water column", LENGTH),
    may("in_well", "in the well", VOLUME),
    may("piping", "tank and piping", VOLUME),
    may("all", "all the water", VOLUME),
    may("dose", "dose", Takes::Text),
    may("measure", "bleach", VOLUME),
    may("time", "contact time", TIME),
];

const HOOK_STRING: &[ScenePort] = &[
    must("wet_end", "pump and motor", MASS),
    may("setting", "pump setting", LENGTH),
    may("pipe", "drop pipe", Takes::Text),
    may("cable", "drop cable", Takes::Text),
    may("pipe_load", "pipe", MASS),
    may("water_load", "water in it", MASS),
    may("cable_load", "cable", MASS),
    may("string_load", "full string", MASS),
    may("load", "on the hook", MASS),
];

const PITLESS_SECTION: &[ScenePort] = &[
    must("frost", "frost", LENGTH),
    may("above", "above the ground", LENGTH),
    may("margin", "margin below frost", LENGTH),
    may("burial", "depth of the line", LENGTH),
    may("hole", "top to hole", LENGTH),
    may("casing", "casing", Takes::Text),
];

const HOLD_TEST: &[ScenePort] = &[
    must("began", "gauge at first", PRESSURE),
    may("shut", "at last, valve shut", PRESSURE),
    may("open", "at last, valve open", PRESSURE),
    may("time", "time between", TIME),
    may("lost", "water lost", VOLUME),
    may("leak", "leak", FLOW),
];

/// What a kind takes, in the order in which it is listed.
pub(super) const fn ports(kind: SceneKind) -> &'static [ScenePort] {
    match kind {
        SceneKind::WellSection => WELL_SECTION,
        SceneKind::SetbackPlan => SETBACK_PLAN,
        SceneKind::PumpCurve => PUMP_CURVE,
        SceneKind::HeadLadder => HEAD_LADDER,
        SceneKind::PressureCycle => PRESSURE_CYCLE,
        SceneKind::TankStates => TANK_STATES,
        SceneKind::PressureSwitch => PRESSURE_SWITCH,
        SceneKind::WiringPath => WIRING_PATH,
        SceneKind::WindingTriangle => WINDING_TRIANGLE,
        SceneKind::LeadToGround => LEAD_TO_GROUND,
        SceneKind::CableRun => CABLE_RUN,
        SceneKind::ChlorineColumn => CHLORINE_COLUMN,
        SceneKind::HookString => HOOK_STRING,
        SceneKind::PitlessSection => PITLESS_SECTION,
        SceneKind::HoldTest => HOLD_TEST,
    }
}
