//! A problem on the board, with the words of its help.

use clap::Args;

use super::Drawn;

/// Put a problem on the board: for a projector, one line of its working a key.
///
/// Enter shows the next line, Up covers it; ? then V brings a known wrong turn, ? then N
/// other numbers. Enlarge the letters of the terminal until 80 columns fill the wall.
#[derive(Debug, Args)]
pub struct Board {
    /// A family, for fresh numbers, or the code of a problem, for the same again
    #[arg(value_name = "FAMILY|CODE")]
    pub what: String,
    /// Which numbers.
    #[command(flatten)]
    pub drawn: Drawn,
    /// Begin where this known mistake is made, with it shown
    ///
    /// `problem --worked` lists the known mistakes of a family by their names.
    #[arg(long, value_name = "NAME")]
    pub mistake: Option<String>,
    /// Plain lines instead of a full screen: to hear, or to drive from a script
    #[arg(long)]
    pub plain: bool,
}
