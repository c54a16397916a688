//! Set-up: name, units, decimal sign, signs, checking. Asked once, changed any time.

mod state;
mod update;
mod view;

pub use state::{Checked, Choices, Form, Line, SetUp, Signs, written};
pub use update::update;
pub use view::page;
