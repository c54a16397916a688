//! The plan of a class's paper: its items with samples, sums, and how alike papers are.

mod sample;
mod state;
mod update;
mod view;

pub use sample::sample;
pub use state::{PlanSheet, SAMPLES, unseen};
pub use update::update;
pub use view::page;
