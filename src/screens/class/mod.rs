//! The work order of a class: five boxes from class list to report, and its people.

mod make_up;
mod person;
mod state;
mod update;
mod view;

pub use make_up::ask as ask_make_up;
pub use state::{Asks, Class, waits};
pub use update::{print, update};
pub use view::page;
