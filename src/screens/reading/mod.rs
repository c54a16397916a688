//! Text that is only read: the keys, the house rules, a screen as a list.

mod state;
mod update;
mod view;

pub use state::Reading;
pub use update::update;
pub use view::page;
