//! The same practice as plain lines: one prompt at a time, a stable prefix before
//! every line, no escape codes, nothing overwritten. For ears, ssh and scripts.

mod asked;
mod board;
mod checked;
mod choosing;
mod evening;
mod exam;
mod front;
mod lines;
mod marked;
mod paper;
mod record;
mod result;
mod session;
mod set_up;
mod spoken;
mod tools;
mod trial;
mod written;

use std::io::{self, BufRead, Write};

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Marks};
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_engine::quantities::System;

use crate::desk::Person;
pub use asked::{MATCH_FORM, ORDER_FORM};
pub use board::{BoardPlain, board_plain};
pub use exam::ExamAsked;
pub use paper::{Heard, PaperTools};
use session::Session;
pub use trial::TrialPlain;

/// What the caller decides for practice in plain lines.
pub struct PlainOptions<'a> {
    /// The system of units.
    pub system: System,
    /// House rules off their default, for sheets beside the plan.
    pub settings: &'a Settings,
    /// How figures are written.
    pub manner: Manner,
    /// Print ASCII signs only.
    pub ascii: bool,
    /// Write down what is read, where no terminal shows it.
    pub echo: bool,
    /// How many sheets are planned, if that is known.
    pub count: Option<usize>,
    /// Whether the record chooses the sheets, where there is one.
    pub by_record: bool,
    /// Where the draws for sheets beside the plan come from.
    pub draws: &'a mut dyn FnMut() -> u32,
    /// Who writes, and what this person set.
    pub person: Person<'a>,
}

/// What was done in plain lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PlainDone {
    /// Sheets handed in.
    pub sheets: usize,
    /// The marks earned.
    pub score: Marks,
    /// The marks that could be earned.
    pub out_of: Marks,
}

/// Works through sheets in plain lines until they, or the input, end.
///
/// `next` gives the sheets, one after the other, in the units that hold then.
///
/// # Errors
/// What input or output refuse.
pub fn practice_plain<'a>(
    library: &'a Library,
    next: &mut dyn FnMut(System) -> Option<Problem>,
    options: PlainOptions<'a>,
    streams: (&'a mut dyn BufRead, &'a mut dyn Write),
) -> io::Result<PlainDone> {
    let (input, output) = streams;
    Session::new(library, options, input, output).practice(next)
}

/// Has a paper sat in plain lines, until it is handed in or left. Where a paper from an
/// instructor is taken of the list, its file comes back: another command answers it.
///
/// # Errors
/// What input or output refuse.
pub fn exam_plain<'a>(
    library: &'a Library,
    asked: ExamAsked<'_>,
    options: PlainOptions<'a>,
    streams: (&'a mut dyn BufRead, &'a mut dyn Write),
) -> io::Result<Option<String>> {
    let (input, output) = streams;
    Session::new(library, options, input, output).exam(asked)
}
