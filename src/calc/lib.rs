//! Calculations of the pump trade, and nothing else: pure functions over typed
//! quantities. No files, no clock, no chance, no text for learners, no panics.
//!
//! One module a subject. [`registry`] lists every function by name for whoever
//! calls by name: the formula language, the `calc` command, the reference page.

pub mod affinity;
pub mod allowance;
pub mod ampacity;
pub mod aquifer;
pub mod bounds;
pub mod cable;
pub mod cable_size;
mod calling;
pub mod capacitor;
pub mod casing;
pub mod chlorine;
pub mod conductor;
pub mod cooling;
pub mod curve;
pub mod cycle;
pub mod darcy;
pub mod demand;
pub mod dimension;
pub mod drop_cable;
pub mod expansion;
pub mod fittings;
pub mod friction;
pub mod generator;
pub mod grout;
pub mod hammer;
pub mod head;
pub mod insulation;
pub mod interference;
pub mod jacob;
pub mod leak;
pub mod lifting;
pub mod metal;
pub mod mixed_cable;
pub mod motor;
pub mod operating;
pub mod page;
pub mod pipe;
mod ports;
pub mod power;
pub mod pressure;
pub mod pump;
pub mod reactance;
pub mod registry;
pub mod relief;
pub mod siting;
pub mod spacing;
pub mod step_test;
pub mod stock;
pub mod supply;
mod tables;
pub mod tank;
pub mod tank_size;
pub mod trench;
pub mod unbalance;
mod units;
pub mod velocity;
pub mod water;
pub mod well;
pub mod winding;
