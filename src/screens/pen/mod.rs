//! Marking with a pen: for one person's paper what is accepted on each line, the known
//! turns by letter, what was keyed, and what follows from it.

mod state;
mod update;
mod view;

pub use state::{Pen, Reason};
pub use update::update;
pub use view::page;
