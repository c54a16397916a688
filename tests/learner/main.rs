//! The learner model: against the recorded trace, and what holds of any history.

#![allow(clippy::expect_used)]

mod laws;
mod people;
mod trace;
