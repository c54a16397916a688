//! The paper that the instructor sat, marked. It is kept nowhere.

mod state;
mod update;
mod view;

pub use state::{Trial, ready};
pub use update::update;
pub use view::page;
