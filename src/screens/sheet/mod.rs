//! The job sheet while it is written: figures, rows, choices, orders, matches.

mod checking;
mod draft;
mod figure;
mod lines;
mod state;
mod time;
mod update;
mod view;

pub use draft::FORMAT;
pub use state::{Sheet, asked, number};
pub use time::Spent;
pub use update::update;
pub use view::page;

pub(crate) use draft::written_on;
pub(crate) use lines::{Columns, offer, tally};
pub(crate) use update::is_at_its_end;
pub(crate) use view::{caution, head, job};
