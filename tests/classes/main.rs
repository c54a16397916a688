//! An instructor's papers from plan and key to marks, over the shipped lessons.

#![allow(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used
)]

#[path = "../common/mod.rs"]
mod common;

mod drawn;
mod kept;
mod marked;
mod pen;
mod plans;
mod report;
mod sealed;
mod simulated;
mod support;
