//! A paper while it is sat: questions, clock, what is set aside, and the hand-in.

mod clock;
mod closing;
mod draft;
mod state;
mod update;
mod view;

pub use clock::{Clock, duration};
pub use closing::numbers;
pub use draft::{FORMAT, Left};
pub use state::{IN_AN_EXAM, Sitting};
pub use update::{NO_HELP, update};
pub use view::{allowed, offers, page};
