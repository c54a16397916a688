//! The tables: an open book beside the sheet.

mod beside;
mod leaf;
mod state;
mod update;
mod view;

pub use beside::beside;
pub use leaf::{Closed, Leaf, closed, find, leaves};
pub use state::Tables;
pub use update::update;
pub use view::{page, said, under_text};
