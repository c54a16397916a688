//! What is shown while a sheet is being written down.

use super::{Keeping, ask};
use crate::page::Page;

/// The page of the sheet on its way.
pub fn page(keeping: &Keeping) -> Page {
    let entry = &keeping.entry;
    let job = format!("{}, level {}", entry.title, entry.level);
    ask::page(&ask::OnItsWay {
        what: "sheet",
        head: ("Job", &job),
        title: "HANDED IN",
        comes: "The marks come when the sheet is on the disk.",
        stands: "This sheet is not in the logbook.",
        trouble: keeping.trouble.as_deref(),
        choice: &keeping.choice,
    })
}
