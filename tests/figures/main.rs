//! Figures: what each looks like in cells, as a list and as a vector page; and what
//! holds of them over many draws of the shipped families.

#![allow(
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used
)]

#[path = "../common/mod.rs"]
mod common;
mod draws;
mod looks;
