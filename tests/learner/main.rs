//! The learner model: against the recorded trace, and what holds of any history.

#![allow(clippy::expect_used)]

#[path = "../common/mod.rs"]
mod common;
mod laws;
mod lessons;
mod people;
mod trace;
