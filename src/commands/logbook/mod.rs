//! The logbook at the shell: one file a thing that can be done with it.

mod carry;
mod check;
mod delete;
mod json;
mod report;
mod show;
mod tidy;

use std::path::{Path, PathBuf};

use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::System;

use crate::cli::OfLogbook;
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::Logbook;

/// Which logbook, and whose record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Desk {
    /// The file; none where this machine names no folder for data.
    pub file: Option<PathBuf>,
    /// Whose record is meant.
    pub person: String,
    /// Whether the command line named the person.
    pub named: bool,
    /// The system of units.
    pub system: System,
}

impl Desk {
    /// The file.
    ///
    /// # Errors
    /// Where this machine names no folder for data.
    pub fn file(&self) -> Result<&Path, Failure> {
        self.file.as_deref().ok_or_else(|| {
            let sentence = "this machine names no folder for data; name a file with --logbook";
            Failure::Input(sentence.to_owned())
        })
    }

    /// The logbook that is there, for reading; an older one is brought forward.
    fn there(&self, console: &mut Console) -> Result<Logbook, Failure> {
        let logbook = Logbook::there(self.file()?)?;
        say(&logbook, console);
        Ok(logbook)
    }
}

/// Whether the lessons are needed for it.
pub const fn needs_lessons(asked: &OfLogbook) -> bool {
    matches!(
        asked,
        OfLogbook::Show(_) | OfLogbook::Report(_) | OfLogbook::Tidy
    )
}

/// Does what was asked for.
///
/// # Errors
/// A sentence about the file or about what was asked.
pub fn run(
    asked: &OfLogbook,
    desk: &Desk,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    match asked {
        OfLogbook::Show(asked) => show::run(asked, desk, library, console),
        OfLogbook::Report(asked) => report::run(asked, desk, library, console),
        OfLogbook::Export(asked) => carry::export(asked, desk, console),
        OfLogbook::Import(asked) => carry::import(asked, desk, console),
        OfLogbook::Merge(asked) => carry::merge(asked, desk, console),
        OfLogbook::Check => check::run(desk, console),
        OfLogbook::Tidy => tidy::run(desk, library, console),
        OfLogbook::Delete(asked) => delete::run(asked, desk, console),
    }
}

/// Says beside the output what opening it had to say.
fn say(logbook: &Logbook, console: &mut Console) {
    for notice in logbook.notices() {
        console.note(format_args!("note: {notice}"));
    }
}

/// So many of a thing, in words.
fn count(number: usize, one: &str, several: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { several })
}

/// So many sheets, in words.
fn sheets(number: usize) -> String {
    count(number, "sheet", "sheets")
}

/// A name as it is printed; there may be none.
fn shown(person: &str) -> &str {
    if person.is_empty() {
        "somebody without a name"
    } else {
        person
    }
}
