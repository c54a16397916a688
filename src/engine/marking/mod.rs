//! A response to verdicts: what was typed is read, compared, followed through,
//! and met with what to look at. Nothing is drawn here.

mod arrangement;
mod figure;
mod mark;
mod marked;
mod reading;
mod score;
mod slips;

pub use mark::{keep, mark};
pub(crate) use mark::{remark, turns_named};
pub use marked::{Marked, MarkedLine, Marks, Response, Turn, Verdict};
pub use reading::{Manner, written_values};
