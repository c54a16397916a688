//! A class's folder on disk. What stands in it:
//!
//! ```text
//! class.key            the secret, its owner's alone
//! roster.json          everybody with the id that was made for good
//! roster.csv           the same for a spreadsheet
//! WEEK-6/              a folder for each plan, named by its id
//!   plan.toml          the plan as it was when the papers were made
//!   lessons/SUM.json   the lesson text that papers were drawn from
//!   printed/019.json   a paper as it was printed: the key, not for learners
//!   screen/019.json    the same for answering on screen, to be handed out
//!   papers/019.pdf     the same for the printer, to be handed out
//!   print.pdf          24 papers to print, each on a leaf of its own; further ones, as of
//!                      the next two, in print-2.pdf and so on
//!   printed/019+2.json a make-up paper, likewise in screen/, papers/ and handed-in/; its key
//!                      is key-019+2.pdf, its strip strip-019+2.pdf, and print.pdf is without
//!   key.pdf            worked solutions with the marks of each step: not for learners
//!   strips.pdf         strips for marking with a pen, four a page: not for learners
//!   prints.json        what those files hold, and for which paper in the printer
//!   pen/               what is half marked with the pen, 019.json
//!   handed-in/         what came in, 019.json, 019-2.json
//!   decisions.json     items dropped, marks judged, each with its reason
//!   marks.csv          the mark sheet, written anew by each marking
//!   form.json          with which signs it was asked for last, where not the usual ones
//!   slips.pdf          what everybody gets back, a page each; likewise
//!   report.html        the class report, likewise; no names in it
//!   report.csv         the same for a spreadsheet, and for next week's plan
//! ```
//!
//! Every file is written beside and then put in its place, so a stop half-way leaves no
//! half file; what is missing is made the next time. What a file says is the engine's
//! business.

pub mod answers;
mod folder;
mod form;
mod kept;
pub mod leaver;
mod office;
#[cfg(feature = "pdf")]
pub mod page_count;
mod paper;
mod pen;
#[cfg(feature = "pdf")]
pub mod prints;
mod secret;
#[cfg(feature = "pdf")]
pub mod slips;

pub use folder::{
    ClassFolder, find_paper, find_papers, list_faults, no_papers, read_list, text_of,
};
pub use form::Form;
pub use office::{FileOffice, Stock, at};
pub use paper::{Made, PaperFolder, Taken};
