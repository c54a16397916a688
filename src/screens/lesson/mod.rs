//! A lesson to read: part by part, then a worked sheet of one of its families.

mod state;
mod update;
mod view;

pub use state::LessonPages;
pub use update::update;
pub use view::page;
