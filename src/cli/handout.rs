//! Problems as a PDF to hand out, with the words of its help.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use pumpwright_press::pdf::Format;

use super::Drawn;

/// Print problems as a PDF to hand out.
///
/// A lesson's or a family's, with room to work and blanks for the answers; with --key
/// the worked solutions as a second file. The codes on the key draw the same problems
/// again.
#[derive(Debug, Args)]
pub struct Handout {
    /// The PDF to write on; one that this program wrote is replaced
    pub file: PathBuf,
    /// One problem of each family of this lesson
    #[arg(long, required_unless_present = "family", conflicts_with = "family")]
    pub lesson: Option<String>,
    /// Problems of this family; may be given several times
    #[arg(long)]
    pub family: Vec<String>,
    /// So many problems of each family
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=40))]
    pub count: u8,
    /// The worked solutions, as a PDF of their own
    #[arg(long, value_name = "FILE")]
    pub key: Option<PathBuf>,
    /// What stands over it; left out, the title of the lesson
    #[arg(long)]
    pub title: Option<String>,
    /// Whose it is; left out, there is a line to write the name on
    #[arg(long)]
    pub name: Option<String>,
    /// The paper in the printer; left out, letter with US units and A4 with metric ones
    #[arg(long, value_enum)]
    pub size: Option<Size>,
    /// Which numbers; a named draw is the first problem's, the next have the next ones.
    #[command(flatten)]
    pub drawn: Drawn,
}

/// The paper in the printer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Size {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
}

impl Size {
    /// As the press names it.
    pub const fn format(self) -> Format {
        match self {
            Self::A4 => Format::A4,
            Self::Letter => Format::Letter,
        }
    }
}
