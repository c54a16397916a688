//! A paper that was handed in: both pass marks, each area with its interval, where to
//! begin. It is shown when every question is on the disk.

mod state;
mod update;
mod view;

pub use state::PaperResult;
pub use update::update;
pub use view::{begin, limits, page, summary, tally_words, time_words};
