//! First start: what it is, what it does not ask, five keys.

mod state;
mod update;
mod view;

pub use state::First;
pub use update::update;
pub use view::page;
