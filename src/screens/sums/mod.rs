//! The back of the sheet: side sums with their units. Nothing here is marked.

mod front;
mod state;
mod update;
mod view;

pub use front::Front;
pub use state::{Back, CameFrom, Sums, carried, work};
pub use update::update;
pub use view::{line_of, page};
