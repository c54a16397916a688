//! Throwing away what was half-written and cannot be laid out again, because its lesson
//! was changed since. What stood on it is printed, so that nothing goes unseen.

use pumpwright_engine::lessons::Library;
use pumpwright_screens::left_over;

use super::{Desk, count, say};
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::{DraftChange, Logbook};
use crate::platform;

/// Throws away what cannot be laid out again.
pub fn run(desk: &Desk, library: &Library, console: &mut Console) -> Result<(), Failure> {
    let mut logbook = Logbook::existing(desk.file()?)?;
    say(&logbook, console);
    let drafts = logbook.drafts(&desk.person)?;
    let left = drafts.iter().filter_map(|draft| {
        let (why, written) = left_over(draft, library)?;
        Some((draft.id, why, written))
    });
    let left: Vec<_> = left.collect();
    let changes: Vec<_> = left.iter().map(|(id, ..)| DraftChange::Drop(*id)).collect();
    logbook.write(&[], &desk.person, &changes, platform::clock().0)?;
    for (_, why, written) in &left {
        console.hanging("  ", written.as_ref().unwrap_or(why))?;
    }
    let thrown = match left.len() {
        0 => "nothing is thrown away: everything half-written can be laid out again".to_owned(),
        many => format!("{} thrown away", count(many, "draft is", "drafts are")),
    };
    console.line(thrown)
}
