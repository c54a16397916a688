//! Going through questions of a marked paper: each with its offers, what was taken, and
//! its working.

mod state;
mod update;
mod view;

pub use state::Through;
pub use update::update;
pub use view::page;

pub(crate) use view::verdict;
