//! The figures, one file a kind. Each turns readings into a sketch; a value that is
//! asked, or that is not there, is left out or drawn where it tells nothing.

mod cable_run;
mod chlorine_column;
mod head_ladder;
mod hold_test;
mod hook_string;
mod lead_to_ground;
mod pitless_section;
mod pressure_cycle;
mod pressure_switch;
mod pump_curve;
mod setback_plan;
mod shaft;
mod tank_states;
mod well_section;
mod winding_triangle;
mod wiring_path;

use super::readings::Readings;
use super::sketch::Sketch;
use crate::lessons::SceneKind;

/// What is said where nothing in a figure is to scale.
const NOT_TO_SCALE: &str = "not to scale";

/// Draws a figure of a kind.
pub(super) fn draw(kind: SceneKind, readings: &Readings<'_>, sketch: &mut Sketch) {
    let draw = match kind {
        SceneKind::WellSection => well_section::draw,
        SceneKind::SetbackPlan => setback_plan::draw,
        SceneKind::PumpCurve => pump_curve::draw,
        SceneKind::HeadLadder => head_ladder::draw,
        SceneKind::PressureCycle => pressure_cycle::draw,
        SceneKind::TankStates => tank_states::draw,
        SceneKind::PressureSwitch => pressure_switch::draw,
        SceneKind::WiringPath => wiring_path::draw,
        SceneKind::WindingTriangle => winding_triangle::draw,
        SceneKind::LeadToGround => lead_to_ground::draw,
        SceneKind::CableRun => cable_run::draw,
        SceneKind::ChlorineColumn => chlorine_column::draw,
        SceneKind::HookString => hook_string::draw,
        SceneKind::PitlessSection => pitless_section::draw,
        SceneKind::HoldTest => hold_test::draw,
    };
    draw(readings, sketch);
}
