//! A response to verdicts: what was typed is read, compared, followed through,
//! and met with what to look at. Nothing is drawn here.

mod arrangement;
mod bands;
mod choices;
mod figure;
mod mark;
mod marked;
mod reading;
mod score;
mod slips;

pub use bands::{
    Arranged, Follow, OnGrid, RowOffer, Span, accepted, arranged, bears, follow, mistaken,
    row_offers,
};
pub use choices::{in_order, read_match, read_order, read_pick};
pub(crate) use figure::could_hurt;
pub use mark::{keep, known_turn, mark};
pub(crate) use mark::{remark, turns_named};
pub use marked::{Marked, MarkedLine, Marks, Response, Turn, Verdict};
pub use reading::{Manner, written_values};
