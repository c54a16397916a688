//! Standing: what the record says that a person can do, and how sure that is.

mod read;
mod state;
mod update;
mod view;

pub use read::read;
pub use state::{Line, Standing};
pub use update::update;
pub use view::page;
