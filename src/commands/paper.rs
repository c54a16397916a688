//! A response that was worked on paper goes into the logbook.

use pumpwright_engine::entries::{Circumstances, Id, Place, Purpose, entry};
use pumpwright_engine::marking::Marked;
use pumpwright_engine::problems::Problem;

use super::logbook::Desk;
use crate::cli::Answer;
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::{Logbook, Sheet};
use crate::platform;

/// Whoever opened the solution had all four steps of help.
const ALL_HELP: usize = 4;

/// Writes the marked response into the logbook of a person, and waits for the disk.
///
/// # Errors
/// When nothing was answered, or the logbook cannot be written; then nothing is kept.
pub fn keep(
    asked: &Answer,
    (problem, marked, given): (&Problem, &Marked, Vec<bool>),
    desk: &Desk,
    console: &mut Console,
) -> Result<(), Failure> {
    let (milliseconds, zone) = platform::clock();
    let helped = if asked.looked { ALL_HELP } else { 0 };
    let by = Circumstances {
        id: Id::new(milliseconds, rand::random()),
        person: desk.person.clone(),
        at: milliseconds,
        zone,
        purpose: Purpose::Practice,
        place: Place::Paper,
        seconds: asked.minutes.unwrap_or(0).saturating_mul(60),
        helped: vec![helped; problem.lines.len()],
        line_seconds: Vec::new(),
        given,
        program: env!("CARGO_PKG_VERSION").to_owned(),
    };
    let sheet = Sheet::of(entry(problem, marked, by)).map_err(Failure::World)?;
    let mut logbook = Logbook::open(desk.file()?)?;
    for notice in logbook.notices() {
        console.note(format_args!("note: {notice}"));
    }
    let history = logbook.history(&desk.person)?;
    let code = problem.code.to_string();
    let before = history
        .in_order()
        .iter()
        .any(|response| *response.problem == *code);
    logbook.add(&[sheet])?;
    if before {
        console.note(
            "note: this problem was handed in before; the first time is what counts, this one is \
             kept beside it",
        );
    }
    Ok(())
}
