//! Calculations of the pump trade, and nothing else: pure functions over typed
//! quantities. No files, no clock, no chance, no text for learners, no panics.
//!
//! One module a subject. [`registry`] lists every function by name for whoever
//! calls by name: the formula language, the `calc` command, the reference page.

pub mod bounds;
pub mod cable;
mod calling;
pub mod conductor;
pub mod dimension;
pub mod friction;
pub mod head;
pub mod insulation;
mod ports;
pub mod pressure;
pub mod pump;
pub mod registry;
pub mod relief;
pub mod siting;
mod tables;
pub mod tank;
mod units;
pub mod water;
pub mod well;
