//! The scenes that a family may have drawn beside its sheet: their kinds, and what each
//! takes. How a scene is drawn is not known here.

mod kinds;

use std::sync::Arc;

use crate::formulas::{Formula, Table};
use crate::quantities::Dimension;

use super::variant::Pool;

/// A kind of scene.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum SceneKind {
    /// A drilled well, cut from top to bottom.
    WellSection,
    /// The lot from above, with the distance that a sheet asks.
    SetbackPlan,
    /// Head against flow: what the pump gives and what the house takes.
    PumpCurve,
    /// The parts of a total head as bars, one on top of the other.
    HeadLadder,
    /// Pressure against time, from cut-in to cut-out and back.
    PressureCycle,
    /// One tank drained, at cut-in, at cut-out and waterlogged.
    TankStates,
    /// A pressure switch with its nuts, contacts and volts.
    PressureSwitch,
    /// The way of the current from the service to the motor.
    WiringPath,
    /// The two windings of a three-wire motor.
    WindingTriangle,
    /// A megohm reading on the bands of its table.
    LeadToGround,
    /// The cable from the panel to the motor, with the volts on the way.
    CableRun,
    /// The water that chlorine has to reach.
    ChlorineColumn,
    /// What hangs on the hook.
    HookString,
    /// The pitless and the buried line, cut from top to bottom.
    PitlessSection,
    /// The fall of a gauge with the house valve open and shut.
    HoldTest,
}

impl SceneKind {
    /// Every kind.
    pub const ALL: [Self; 15] = [
        Self::WellSection,
        Self::SetbackPlan,
        Self::PumpCurve,
        Self::HeadLadder,
        Self::PressureCycle,
        Self::TankStates,
        Self::PressureSwitch,
        Self::WiringPath,
        Self::WindingTriangle,
        Self::LeadToGround,
        Self::CableRun,
        Self::ChlorineColumn,
        Self::HookString,
        Self::PitlessSection,
        Self::HoldTest,
    ];

    /// As a family's file names it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::WellSection => "well-section",
            Self::SetbackPlan => "setback-plan",
            Self::PumpCurve => "pump-curve",
            Self::HeadLadder => "head-ladder",
            Self::PressureCycle => "pressure-cycle",
            Self::TankStates => "tank-states",
            Self::PressureSwitch => "pressure-switch",
            Self::WiringPath => "wiring-path",
            Self::WindingTriangle => "winding-triangle",
            Self::LeadToGround => "lead-to-ground",
            Self::CableRun => "cable-run",
            Self::ChlorineColumn => "chlorine-column",
            Self::HookString => "hook-string",
            Self::PitlessSection => "pitless-section",
            Self::HoldTest => "hold-test",
        }
    }

    /// Its heading.
    pub const fn title(self) -> &'static str {
        match self {
            Self::WellSection => "Well section",
            Self::SetbackPlan => "Setback plan",
            Self::PumpCurve => "Pump curve and system curve",
            Self::HeadLadder => "Total head, part by part",
            Self::PressureCycle => "Pressure over time",
            Self::TankStates => "One tank, state by state",
            Self::PressureSwitch => "Pressure switch",
            Self::WiringPath => "From the service to the motor",
            Self::WindingTriangle => "Windings of the motor",
            Self::LeadToGround => "Motor lead to ground",
            Self::CableRun => "Cable run",
            Self::ChlorineColumn => "Water to be chlorinated",
            Self::HookString => "String on the hook",
            Self::PitlessSection => "Pitless and buried line",
            Self::HoldTest => "Hold test",
        }
    }

    /// The kind of this name.
    pub fn of(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// What it takes.
    pub const fn ports(self) -> &'static [ScenePort] {
        kinds::ports(self)
    }

    /// The place of a port among those that it takes.
    pub fn port(self, name: &str) -> Option<&'static ScenePort> {
        self.ports().iter().find(|port| port.name == name)
    }
}

/// Something that a scene takes.
#[derive(Debug, PartialEq, Eq)]
pub struct ScenePort {
    /// Its name in a family's file.
    pub name: &'static str,
    /// What stands beside it in the picture.
    pub label: &'static str,
    /// What may be bound to it.
    pub takes: Takes,
    /// Whether the scene is nothing without it.
    pub needed: bool,
}

/// What may be bound to a port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// A quantity of this dimension.
    Quantity(Dimension),
    /// Words, a row by its name, or a quantity with its unit.
    Text,
    /// Rows of a table with these columns.
    Rows(&'static [&'static str]),
}

/// The scene of a family: its kind, and what each port holds.
#[derive(Debug, Clone)]
pub struct ScenePlan {
    /// The kind.
    pub kind: SceneKind,
    /// The ports that are bound, in the order of the kind's list.
    pub bindings: Vec<Binding>,
}

/// What a port holds.
#[derive(Debug, Clone)]
pub struct Binding {
    /// The port.
    pub port: &'static ScenePort,
    /// Where its value comes from.
    pub bound: Bound,
}

/// Where the value of a port comes from.
#[derive(Debug, Clone)]
pub enum Bound {
    /// A formula over house rules, givens and steps.
    Formula(Formula),
    /// The rows that a name holds.
    Slot(usize),
    /// The rows of a table.
    Table(Arc<Table>),
}

impl From<Pool> for Bound {
    fn from(pool: Pool) -> Self {
        match pool {
            Pool::Slot(slot) => Self::Slot(slot),
            Pool::Table(table) => Self::Table(table),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_kinds_and_ports_are_their_own() {
        for kind in SceneKind::ALL {
            assert_eq!(SceneKind::of(kind.name()), Some(kind));
            for port in kind.ports() {
                assert_eq!(kind.port(port.name), Some(port), "{}", port.name);
                assert!(!["kind", "levels"].contains(&port.name));
            }
        }
    }
}
