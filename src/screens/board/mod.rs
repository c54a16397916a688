//! The board: a problem large for a projector, one step of its working a key, and on
//! request a wrong turn that people are known to take.

mod state;
mod update;
mod view;

pub use state::Board;
pub use update::update;
pub use view::page;
