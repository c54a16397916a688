//! Quantities known at run time: the trade's units with exact factors, reading
//! what people type, printing what people read. No formulas and no marking.

mod echo;
mod measures;
mod nouns;
mod number;
pub mod print;
mod quantity;
mod read;
mod row;
#[cfg(test)]
mod tests;
mod unit;

pub use echo::echo;
pub use pumpwright_calc::dimension::Dimension;
pub use quantity::{Quantity, System, UnknownSystem};
pub use read::{CannotRead, DecimalSign, Form, LONGEST, Reading, read, read_for};
pub use unit::{Unit, UnknownUnit};
