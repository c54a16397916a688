//! Choosing a paper to sit: which exam, or the sitting that was stopped, and the clock.

mod state;
mod update;
mod view;

pub use state::{Exams, Stopped, Takes, read_minutes};
pub use update::update;
pub use view::page;
