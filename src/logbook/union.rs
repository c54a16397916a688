//! Another logbook taken into this one: a set union, whatever the order.

use std::path::Path;

use super::connect;
use super::schema::{self, Head, STEPS};
use super::sheet::Sheet;
use super::store::{Added, Logbook};
use super::trouble::{Result, Trouble};
use super::{beside, trouble};

/// Adds every sheet of another logbook, which is only read.
///
/// # Errors
/// A sentence about the one or the other; then nothing was added.
pub fn merge(into: &mut Logbook, other: &Path) -> Result<Added> {
    into.add(&sheets_of(other, into.path())?)
}

/// The sheets of a logbook, of whatever schema.
fn sheets_of(other: &Path, own: &Path) -> Result<Vec<Sheet>> {
    let connection = connect::for_reading(other).map_err(|trouble| named(trouble, other))?;
    let head = Head::of(&connection).map_err(|error| Trouble::of(other, &error))?;
    head.allow(other, STEPS.len())?;
    if head.empty {
        return Ok(Vec::new());
    }
    if head.version == STEPS.len() {
        return Logbook::reading(other)?.sheets(None);
    }
    // An older one is brought forward in a copy, which goes away again.
    let copy = beside::free(own, "merging");
    let read = schema::copy_into(&connection, &copy)
        .and_then(|()| Logbook::open(&copy))
        .and_then(|logbook| {
            let sheets = logbook.sheets(None);
            logbook.close().and(sheets)
        });
    let _ = std::fs::remove_file(&copy);
    for beside in beside::companions(&copy) {
        let _ = std::fs::remove_file(beside);
    }
    read
}

/// That the other one is missing is told without naming another file for this one.
fn named(trouble: Trouble, other: &Path) -> Trouble {
    if trouble.kind == trouble::Kind::Missing {
        let file = other.display();
        return Trouble::said(trouble.kind, format!("there is no file {file} to take in"));
    }
    trouble
}
