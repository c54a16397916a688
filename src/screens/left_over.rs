//! What was half-written and cannot be laid out again: its lesson was changed since, or
//! is gone.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::DecimalSign;

use crate::clerk::Draft;
use crate::sheet::{Sheet, written_on};
use crate::sitting::Left;

/// Why a draft cannot be laid out again, and what is written on it as far as it reads;
/// none where it can be.
pub fn left_over(draft: &Draft, library: &Library) -> Option<(String, Option<String>)> {
    let manner = Manner {
        decimal: DecimalSign::Point,
    };
    if let Some(read) = Sheet::of_draft(draft, library, manner) {
        return read.err().map(|why| (why, written_on(draft)));
    }
    let laid_out = Left::of_draft(draft)?.and_then(|left| left.lay_out(library, manner, 0));
    laid_out.err().map(|why| (why, None))
}
