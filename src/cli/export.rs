//! Problems in an open standard, with the words of its help.

use std::path::PathBuf;

use clap::Args;

use super::Drawn;

/// Write problems in an open standard, for another program to ask and to mark.
///
/// QTI 3.0: the folder gets a package of items with one test, and the same in one archive,
/// package.zip. Every program that opens the package can read its answers.
///
/// A paper of a class has its problems in the order in which they were printed, with their
/// marks. It is taken from the folder of the class, where the class key is.
#[derive(Debug, Args)]
pub struct Export {
    /// A family, for fresh numbers, or the code of a problem; or a paper: its file in the
    /// folder of the class, or the folder with --paper
    #[arg(value_name = "FAMILY|CODE|PAPER")]
    pub what: String,
    /// Which paper of the folder: its number, or whose it is
    #[arg(long, value_name = "NUMBER|NAME")]
    pub paper: Option<String>,
    /// The folder for the package; one that is there must be empty
    #[arg(long, value_name = "FOLDER", required = true)]
    pub qti: PathBuf,
    /// So many problems of the family; left out, one
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=500))]
    pub count: Option<u32>,
    /// Which numbers; a named draw is the first problem's, the next have the next ones.
    #[command(flatten)]
    pub drawn: Drawn,
}
