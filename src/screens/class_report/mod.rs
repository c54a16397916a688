//! The report of a class: what to teach again, how marks are spread, what cannot be said
//! yet. Nobody is named.

mod state;
mod update;
mod view;

pub use state::ReportSheet;
pub use update::update;
pub use view::page;
