//! Exam papers: drawn from a blueprint and one number, and marked when they are handed
//! in. Nothing here knows a clock, a person or a record.

mod code;
mod draw;
mod levels;
mod marked;
mod paper;
mod plan;

pub use code::PaperCode;
pub use draw::{PaperError, PaperRequest, draw_paper, paper_again};
pub use marked::{AreaResult, MarkedPaper, MarkedQuestion, Tally, mark_paper};
pub(crate) use paper::answer_only;
pub use paper::{Paper, Question};
