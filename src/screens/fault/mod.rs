//! A lesson file that cannot be read: shown once at the start, one fault a screen.

mod state;
mod update;
mod view;

pub use state::{Faults, Of};
pub use update::update;
pub use view::page;
