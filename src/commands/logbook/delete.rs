//! Deleting everything of one person: after an offer to export it and two questions,
//! or with an option that says so.

use std::io::{self, IsTerminal as _};
use std::path::Path;

use super::{Desk, carry, sheets};
use crate::cli::Delete;
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::Logbook;

/// Deletes everything of one person.
pub fn run(asked: &Delete, desk: &Desk, console: &mut Console) -> Result<(), Failure> {
    if !desk.named {
        return Err(Failure::Input(
            "say whose record is to be deleted: --as NAME".to_owned(),
        ));
    }
    let asks = !asked.without_asking;
    if asks && !io::stdin().is_terminal() {
        return Err(Failure::Input(
            "nobody sits here to be asked; add --without-asking to delete all the same".to_owned(),
        ));
    }
    let logbook = desk.there(console)?;
    let person = &desk.person;
    let persons = logbook.persons()?;
    let count = persons.iter().find(|(name, _)| name == person);
    let count = count.map_or(0, |(_, count)| *count);
    if count == 0 && logbook.drafts(person)?.is_empty() {
        return Err(Failure::Input(not_there(person, &persons)));
    }
    if asks && !is_sure(&logbook, person, count, console)? {
        return console.line("Nothing is deleted.");
    }
    drop(logbook);
    let gone = Logbook::existing(desk.file()?)?.delete(person)?;
    console.line(format_args!("{} of {person} deleted", sheets(gone)))?;
    console.line("What was exported or copied before is still there.")
}

fn not_there(person: &str, persons: &[(String, usize)]) -> String {
    let names: Vec<&str> = persons.iter().map(|(name, _)| name.as_str()).collect();
    let person = crate::failure::shown(person);
    if names.is_empty() {
        return format!("there is no record of \"{person}\" here, nor of anybody");
    }
    format!(
        "there is no record of \"{person}\" here; there is one of {}",
        names.join(", ")
    )
}

/// Offers the export, then asks twice.
fn is_sure(
    logbook: &Logbook,
    person: &str,
    count: usize,
    console: &mut Console,
) -> Result<bool, Failure> {
    console.line(format_args!(
        "This deletes {} of {person} for good.",
        sheets(count)
    ))?;
    loop {
        let file = console.question(
            "Export them first? A file name that ends with .csv or .jsonl, or nothing:",
        )?;
        if file.is_empty() {
            break;
        }
        match carry::write_by_name(logbook, person, Path::new(&file)) {
            Ok(count) => {
                console.line(format_args!("{} written to {file}", sheets(count)))?;
                break;
            }
            Err(failure) => console.line(failure)?,
        }
    }
    let answer = console.question("Delete them? yes or no:")?;
    if !answer.eq_ignore_ascii_case("yes") {
        return Ok(false);
    }
    let typed = console.question("To delete them, type the name:")?;
    Ok(typed == person)
}
