//! A sheet that was handed in: verdicts, the likely turn, the marks explained.

mod state;
mod update;
mod view;

pub use state::HandedIn;
pub use update::update;
pub use view::page;
