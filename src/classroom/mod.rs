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
//!   pen/               what is half marked with the pen, 019.json
//!   handed-in/         what came in, 019.json, 019-2.json
//!   decisions.json     items dropped, marks judged, each with its reason
//!   marks.csv          the mark sheet, written anew by each marking
//! ```
//!
//! Every file is written beside and then put in its place, so a stop half-way leaves no
//! half file; what is missing is made the next time. What a file says is the engine's
//! business.

mod folder;
mod office;
mod paper;
mod pen;
mod secret;

pub use folder::{ClassFolder, find_paper, read_list, text_of};
pub use office::{FileOffice, Stock};
pub use paper::{Made, PaperFolder, Taken};
