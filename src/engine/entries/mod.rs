//! What a logbook keeps of a sheet that was handed in: one entry, written once and
//! never changed. It holds what was given, asked, typed and found, so that it can be
//! shown after every upgrade; and it gives the learner model its response.
//!
//! Where entries lie is the program's business; here is only what they say.

mod entry;
mod id;
mod of_sheet;
mod response;
mod time;
pub mod tries;

pub use entry::{Entry, FORMAT, GivenEntry, LineEntry, Place, Purpose};
pub use id::{Id, IdFault};
pub use of_sheet::{Circumstances, entry};
pub use response::moment;
pub use time::{WeekTime, time_by_week};
