//! A sheet that is being written down: its marks come when it is on the disk. Where
//! it cannot be, the person decides how to go on.

pub mod ask;
mod state;
mod update;
mod view;

pub use state::Keeping;
pub use update::update;
pub use view::page;
