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
use crate::lessons::FigureKind;

/// What is said where nothing in a figure is to scale.
const NOT_TO_SCALE: &str = "not to scale";

/// Draws a figure of a kind.
pub(super) fn draw(kind: FigureKind, readings: &Readings<'_>, sketch: &mut Sketch) {
    let draw = match kind {
        FigureKind::WellSection => well_section::draw,
        FigureKind::SetbackPlan => setback_plan::draw,
        FigureKind::PumpCurve => pump_curve::draw,
        FigureKind::HeadLadder => head_ladder::draw,
        FigureKind::PressureCycle => pressure_cycle::draw,
        FigureKind::TankStates => tank_states::draw,
        FigureKind::PressureSwitch => pressure_switch::draw,
        FigureKind::WiringPath => wiring_path::draw,
        FigureKind::WindingTriangle => winding_triangle::draw,
        FigureKind::LeadToGround => lead_to_ground::draw,
        FigureKind::CableRun => cable_run::draw,
        FigureKind::ChlorineColumn => chlorine_column::draw,
        FigureKind::HookString => hook_string::draw,
        FigureKind::PitlessSection => pitless_section::draw,
        FigureKind::HoldTest => hold_test::draw,
    };
    draw(readings, sketch);
}
