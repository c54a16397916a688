//! The slip that `?` opens: four steps of help on a line, then the tools.

mod state;
mod update;
mod view;

pub use state::{About, STEPS, Slip};
pub use update::update;
pub use view::page;
