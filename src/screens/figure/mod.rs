//! The figure of a job, laid over its sheet: as the sheet shows it, or as the
//! learner's own answers would have it. In a wide window the same stands beside.

mod beside;
mod state;
mod update;
mod view;

pub use beside::Beside;
pub use state::Figure;
pub use update::update;
pub use view::page;

pub(crate) use state::signs;
