//! Tonight: what stopped half-way, then a few jobs with their reasons, then an end.

mod plan;
mod state;
mod update;
mod view;

pub use plan::{JOBS, Planned, plan, plan_of, showing};
pub use state::Tonight;
pub use update::update;
pub use view::page;
