//! Problems as a page to take along, with the words of its help.

use std::path::PathBuf;

use clap::Args;

use super::Drawn;

/// Write problems as a page for a phone.
///
/// Tonight's, as the logbook has them, or a lesson's. Everything is in the one file:
/// figures, tables, and the solutions folded shut. The answers are entered afterwards
/// by `answer --paper`.
#[derive(Debug, Args)]
pub struct Sheet {
    /// The page; one that this program wrote is replaced
    pub file: PathBuf,
    /// So many of tonight's problems; left out, as many as the trainer lists
    #[arg(long, value_name = "N", conflicts_with = "lesson", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub count: Option<u8>,
    /// One problem of each family of this lesson instead
    #[arg(long)]
    pub lesson: Option<String>,
    /// Which numbers; a named draw is the first problem's, the next have the next ones.
    #[command(flatten)]
    pub drawn: Drawn,
}
