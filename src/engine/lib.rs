//! From a lesson file to a marked problem: no terminal, no clock, no file opened.
//!
//! The rooms in their order; each may use those above it, never those below.

pub mod quantities;
pub mod formulas;
pub mod lessons;
pub mod problems;
