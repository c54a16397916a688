//! Statistics of a paper that a class wrote: how reliable it is, how each question does.
//! Numbers in, numbers out; what they mean for a lesson or a person is said elsewhere.
//!
//! Every figure that rests on a sample comes with an interval where a plain one is
//! known. Nobody is ranked.

mod calibration;
mod interval;
mod normal;
mod tally;

pub use calibration::{BINS, Bin, Calibration, calibration};
pub use interval::{Interval, of_alpha, of_correlation, of_share};
pub use normal::{EIGHTY, NINETY_FIVE, normal_below};
pub use tally::{LEAST_PERSONS, RowFault, Tallied, TalliedItem, Tally};
