//! A report as a page: where somebody stands, what the forecast was, what comes back.

use pumpwright_engine::entries::{Entry, moment};
use pumpwright_engine::learner::{Curriculum, Record};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::statistics::calibration;
use pumpwright_press as press;

use super::{Desk, count, shown};
use crate::cli::Report;
use crate::console::Console;
use crate::failure::Failure;
use crate::{own_file, platform};

/// Writes the report.
pub fn run(
    asked: &Report,
    desk: &Desk,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    own_file::ends(&asked.file, "html")?;
    let logbook = desk.there(console)?;
    let person = &desk.person;
    let history = logbook.history(person)?;
    if history.is_empty() {
        return Err(Failure::Input(format!(
            "there is no sheet of {} in {}; --as names somebody else",
            shown(person),
            desk.file()?.display()
        )));
    }
    let sheets = logbook.sheets(Some(person))?;
    let entries: Vec<Entry> = sheets.into_iter().map(|sheet| sheet.entry).collect();
    let (milliseconds, zone) = platform::clock();
    let page = press::report(&press::Report {
        person,
        now: moment(milliseconds, zone),
        library,
        system: desk.system,
        history: &history,
        entries: &entries,
    });
    let kind = press::Kind::Report;
    own_file::write(&asked.file, &page, kind.begins(), kind.name())?;
    console.line(format_args!(
        "{} is written: {} of {}",
        asked.file.display(),
        count(history.len(), "sheet", "sheets"),
        shown(person)
    ))?;
    fit(library, &history, console)
}

/// How well the model foretold this person's own lines, in a line.
fn fit(
    library: &Library,
    history: &pumpwright_engine::learner::History,
    console: &mut Console,
) -> Result<(), Failure> {
    let record = Record::replay(&Curriculum::of(library), history);
    let Some(found) = calibration(&record.probes) else {
        return Ok(());
    };
    console.prose(&format!(
        "Foretold and seen, measured on {} without help: Brier score {:.3} (of the base rate \
         {:.3}), calibration error {:.3}",
        count(found.count, "line", "lines"),
        found.brier,
        found.brier_of_base_rate,
        found.error
    ))
}
