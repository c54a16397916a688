//! Sheets carried from one logbook to another: as a file for other programs, and
//! straight from another logbook.

use std::fs;
use std::io::Read as _;
use std::path::Path;

use super::{Desk, say, sheets, shown};
use crate::cli::{Export, Import, Merge};
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::{Added, Logbook, exchange, union};
use crate::own_file;

/// So many faults of a file are printed; whoever mends these finds the others.
const MOST: usize = 20;

/// A larger file holds no logbook of a person; reading it would only cost memory.
const LARGEST: u64 = 1 << 30;

/// Writes sheets into a file.
pub fn export(asked: &Export, desk: &Desk, console: &mut Console) -> Result<(), Failure> {
    for (file, ending) in [(&asked.csv, "csv"), (&asked.jsonl, "jsonl")] {
        file.as_ref()
            .map_or(Ok(()), |file| own_file::ends(file, ending))?;
    }
    let logbook = desk.there(console)?;
    let person = (!asked.everybody).then_some(desk.person.as_str());
    let (count, file) = match (&asked.csv, &asked.jsonl) {
        (Some(file), _) => (write(&logbook, person, file, true)?, file),
        (None, Some(file)) => (write(&logbook, person, file, false)?, file),
        (None, None) => return Ok(()),
    };
    if let (0, Some(person)) = (count, person) {
        console.note(format_args!(
            "note: there is no sheet of {} here; --as names somebody else",
            shown(person)
        ));
    }
    console.line(format_args!(
        "{} written to {}",
        sheets(count),
        file.display()
    ))
}

/// Writes sheets into a file, in the form that its name ends with.
pub fn write_by_name(logbook: &Logbook, person: &str, file: &Path) -> Result<usize, Failure> {
    let ending = file.extension().and_then(|ending| ending.to_str());
    match ending {
        Some("csv") => write(logbook, Some(person), file, true),
        Some("jsonl") => write(logbook, Some(person), file, false),
        _ => Err(Failure::Input(
            "the name of the file must end with .csv or .jsonl".to_owned(),
        )),
    }
}

fn write(
    logbook: &Logbook,
    person: Option<&str>,
    file: &Path,
    csv: bool,
) -> Result<usize, Failure> {
    let all = logbook.sheets(person)?;
    let (text, begins) = if csv {
        let text = exchange::as_csv(&all).map_err(Failure::World)?;
        (text, exchange::CSV_BEGINS)
    } else {
        (exchange::as_json_lines(&all), exchange::JSON_BEGINS)
    };
    own_file::write(file, &text, begins, "export")?;
    Ok(all.len())
}

/// Reads sheets in: all of the file, or nothing.
pub fn import(asked: &Import, desk: &Desk, console: &mut Console) -> Result<(), Failure> {
    let file = &asked.file;
    let bytes = bytes(file)?;
    let all = match exchange::read(&bytes) {
        Ok(all) => all,
        Err(faults) => {
            for fault in faults.iter().take(MOST) {
                console.note(format_args!("{}, {fault}", file.display()));
            }
            let more = faults.len().saturating_sub(MOST);
            if more > 0 {
                console.note(format_args!("and {more} more"));
            }
            return Err(Failure::Input(format!(
                "nothing of {} was taken in; mend these lines and import it again",
                file.display()
            )));
        }
    };
    let mut logbook = Logbook::open(desk.file()?)?;
    say(&logbook, console);
    let added = logbook.add(&all)?;
    told(added, console)
}

fn bytes(file: &Path) -> Result<Vec<u8>, Failure> {
    let shown = file.display();
    let unread = |error: std::io::Error| {
        let sentence = format!("{shown} cannot be read: {error}");
        match error.kind() {
            std::io::ErrorKind::NotFound => Failure::Input(sentence),
            _ => Failure::World(sentence),
        }
    };
    let about = fs::metadata(file).map_err(unread)?;
    if about.len() > LARGEST {
        return Err(Failure::Input(format!(
            "{shown} is larger than 1 GiB; import it in parts"
        )));
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(file).map_err(unread)?;
    file.take(LARGEST).read_to_end(&mut bytes).map_err(unread)?;
    Ok(bytes)
}

/// Takes in another logbook.
pub fn merge(asked: &Merge, desk: &Desk, console: &mut Console) -> Result<(), Failure> {
    let mut logbook = Logbook::open(desk.file()?)?;
    say(&logbook, console);
    let added = union::merge(&mut logbook, &asked.other)?;
    told(added, console)
}

fn told(added: Added, console: &mut Console) -> Result<(), Failure> {
    console.line(format_args!(
        "{} taken in; {} there already",
        sheets(added.new),
        added.known
    ))?;
    if added.differing > 0 {
        console.prose(&format!(
            "{} had the id of another that says something else. Of each pair one is kept, the \
             same whichever came first.",
            sheets(added.differing)
        ))?;
    }
    Ok(())
}
