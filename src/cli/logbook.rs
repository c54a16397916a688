//! What can be done with the logbook, with the words of its help.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// The record: look at it, take it along, look after it.
#[derive(Debug, Args)]
#[command(disable_help_subcommand = true)]
pub struct Logbook {
    /// What to do with it.
    #[command(subcommand)]
    pub what: OfLogbook,
}

/// What to do with the logbook.
#[derive(Debug, Subcommand)]
pub enum OfLogbook {
    /// Print where somebody stands, and the last sheets
    Show(Show),
    /// Write a report as a page: standing, forecast, mistakes, time
    Report(Report),
    /// Write somebody's sheets into a file for other programs
    Export(Export),
    /// Read sheets in from a file that export wrote
    Import(Import),
    /// Take in another logbook: each sheet is there once, whatever the order
    Merge(Merge),
    /// Verify the logbook; where it is damaged, keep what can be read
    Check,
    /// Throw away half-written sheets whose lesson was changed since
    Tidy,
    /// Delete everything of one person, named by --as
    Delete(Delete),
}

/// Print where somebody stands.
#[derive(Debug, Args)]
pub struct Show {
    /// How many of the last sheets
    #[arg(long, value_name = "N", default_value_t = 10)]
    pub count: u32,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Write a report as a page.
#[derive(Debug, Args)]
pub struct Report {
    /// The page; one that this program wrote is replaced
    pub file: PathBuf,
}

/// Write sheets into a file.
#[derive(Debug, Args)]
pub struct Export {
    /// Write a table with a row for each line of a sheet, for a spreadsheet
    #[arg(
        long,
        value_name = "FILE",
        required_unless_present = "jsonl",
        conflicts_with = "jsonl"
    )]
    pub csv: Option<PathBuf>,
    /// Write a sheet a line, as JSON, for a script
    #[arg(long, value_name = "FILE")]
    pub jsonl: Option<PathBuf>,
    /// The sheets of everybody in the logbook, not of one person
    #[arg(long, conflicts_with = "person")]
    pub everybody: bool,
}

/// Read sheets in.
#[derive(Debug, Args)]
pub struct Import {
    /// The file, as CSV or as JSON lines; all of it is taken in, or nothing
    pub file: PathBuf,
}

/// Take in another logbook.
#[derive(Debug, Args)]
pub struct Merge {
    /// The other logbook; it is only read
    pub other: PathBuf,
}

/// Delete everything of one person.
#[derive(Debug, Args)]
pub struct Delete {
    /// Do not ask; needed where nobody sits at a terminal
    #[arg(long)]
    pub without_asking: bool,
}
