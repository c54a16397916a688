//! Things for paper and page: the report of a logbook, that of a class, and sheets to
//! take along.
//!
//! A page is one string of HTML with everything in it: no script, no address of
//! anything elsewhere, no font of its own. What stands on it the engine says; here it
//! is arranged. Files are the program's business.
//!
//! The files in the order of what they need: `words`, `colors`, `page`; `plot`;
//! `table`; `report`, `class_report`, `solution`, `sheet`; `qti`, which writes XML in place of HTML; `pdf`,
//! which is there with the feature of its name alone.

mod class_report;
mod colors;
mod page;
#[cfg(feature = "pdf")]
pub mod pdf;
mod plot;
pub mod qti;
mod report;
mod sheet;
mod solution;
mod table;
mod words;

pub use class_report::class_report;
pub use page::Kind;
pub use report::{Report, report};
pub use sheet::{Item, Sheet, sheet};
