//! Statistics of a paper that a class wrote: how reliable it is, how each question
//! does, how sure a pass is. Numbers in, numbers out; what they mean for a lesson or a
//! person is said elsewhere.
//!
//! Every figure that rests on a sample comes with an interval where a plain one is
//! known. Nobody is ranked.

mod calibration;
mod consistency;
mod interval;
mod item;
mod marks;
mod normal;
mod paper;
mod tally;

pub use calibration::{BINS, Bin, Calibration, calibration};
pub use consistency::{Consistency, consistency};
pub use interval::{Interval, of_alpha, of_correlation, of_difference, of_share};
pub use item::{Item, items};
pub use marks::{Marks, MarksFault};
pub use normal::{EIGHTY, NINETY_FIVE, normal_below};
pub use paper::{LEAST_PERSONS, Paper, Reliability, paper, reliability};
pub use tally::{RowFault, Tallied, TalliedItem, Tally};
