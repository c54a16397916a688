//! The work order of a class: five boxes from class list to report, and its people.

mod person;
mod state;
mod update;
mod view;

pub use state::{Asks, Class, waits};
pub use update::{print, update};
pub use view::page;
