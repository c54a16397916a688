//! Verifying the logbook; where it is damaged, what can be read goes into a new file
//! in its place, and what is lost is said.

use super::{Desk, count, sheets, shown};
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::examine::examine;
use crate::logbook::salvage::{Salvaged, salvage};
use crate::logbook::times;

/// Checks the logbook, and salvages it where that is needed.
pub fn run(desk: &Desk, console: &mut Console) -> Result<(), Failure> {
    let file = desk.file()?;
    let examined = examine(file)?;
    if examined.findings.is_empty() {
        console.line(format_args!(
            "{}: nothing is wrong. {} of {}, {} half written",
            file.display(),
            sheets(examined.sheets),
            count(examined.persons, "person", "persons"),
            examined.drafts
        ))?;
        return Ok(());
    }
    console.line(format_args!("{} is damaged:", file.display()))?;
    for finding in &examined.findings {
        console.hanging("  ", finding)?;
    }
    let salvaged = salvage(file)?;
    told(&salvaged, console)?;
    Err(Failure::Found)
}

fn told(salvaged: &Salvaged, console: &mut Console) -> Result<(), Failure> {
    console.prose(&format!(
        "The damaged file lies in {}, as it was. In its place is a new one with what could be \
         read: {}, {} half written.",
        salvaged.aside.display(),
        sheets(salvaged.sheets + salvaged.remains.len()),
        salvaged.drafts
    ))?;
    if !salvaged.remains.is_empty() {
        console.prose(&format!(
            "Of {} of them only right and wrong is left, which counts for the standing. What was \
             asked and typed is lost:",
            salvaged.remains.len()
        ))?;
        for entry in &salvaged.remains {
            console.line(format_args!(
                "  {}  {}  {}",
                times::wall(entry.at, entry.zone),
                shown(&entry.person),
                entry.code
            ))?;
        }
    }
    match salvaged.gone {
        Some(0) if salvaged.remains.is_empty() => console.line("No sheet is known to be lost."),
        Some(0) => Ok(()),
        Some(gone) => console.prose(&format!(
            "Up to {gone} more may be gone, of which nothing is left. A copy of the logbook from \
             elsewhere brings them back: pumpwright logbook merge FILE"
        )),
        None => console.prose(
            "Whether more sheets stood in it cannot be read there any more. A copy of the logbook \
             from elsewhere brings back what is missing: pumpwright logbook merge FILE",
        ),
    }
}
