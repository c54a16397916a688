//! The front page: what stopped half-way, then every job, taken by its number.

mod state;
mod update;
mod view;

pub use state::{Job, Jobs, Takes, Waiting};
pub use update::update;
pub use view::{page, stopped};
