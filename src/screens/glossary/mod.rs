//! The glossary: a word of the trade looked up beside the sheet or the lesson.

mod state;
mod update;
mod view;

pub use state::WordBook;
pub use update::update;
pub use view::page;
