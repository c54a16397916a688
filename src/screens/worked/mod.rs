//! The worked sheet: every line with its formula, its numbers and its reason.

mod state;
mod update;
mod view;

pub use state::Worked;
pub use update::update;
pub use view::page;

pub(crate) use view::{arranged, steps, whole};
