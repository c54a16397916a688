//! What is readable of a damaged logbook, in a new file. The damaged one is moved
//! aside and never written.
//!
//! Three ways lead to a sheet: the tables, row by row, so that one bad page costs only
//! its own rows; the bytes of the file and of its log (`carve`); and where only the row
//! for the learner model is left, what that says.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use pumpwright_engine::entries::tries::{self, Names};
use pumpwright_engine::entries::{Entry, FORMAT, Id, LineEntry, Place, Purpose};
use pumpwright_screens::Draft;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, Row};

use super::sheet::{REMAINS, Sheet};
use super::store::{DraftChange, Logbook, sound};
use super::trouble::{Kind, Result, Trouble};
use super::{beside, carve};
use crate::platform;

/// What became of a damaged logbook.
#[derive(Debug, Default)]
pub struct Salvaged {
    /// Whole sheets that were kept.
    pub sheets: usize,
    /// Sheets of which only verdicts were left; they are kept as such.
    pub remains: Vec<Entry>,
    /// What is half written and was kept.
    pub drafts: usize,
    /// So many sheets may be gone, of which nothing is left; persons who were deleted
    /// before count here, too. None where the file does not tell any more how many there were.
    pub gone: Option<usize>,
    /// Where the damaged file lies now.
    pub aside: PathBuf,
}

/// Keeps what is readable in a new file in the place of the damaged one.
///
/// # Errors
/// Where another program holds the file, where nothing in it can be read, and where
/// the new one cannot be written; then everything is as it was.
pub fn salvage(path: &Path) -> Result<Salvaged> {
    // Where a link names it, the link stays.
    let real = fs::canonicalize(path).map_err(|error| Trouble::system(path, &error))?;
    let path = real.as_path();
    let found = Found::in_file(path)?;
    if found.sheets.is_empty() && found.rows.is_empty() && found.drafts.is_empty() {
        let why = "nothing in it can be read; move it away to start anew";
        return Err(Trouble::new(Kind::Foreign, path, why));
    }
    let mut salvaged = Salvaged {
        sheets: found.sheets.len(),
        drafts: found.drafts.len(),
        ..Salvaged::default()
    };
    let mut sheets = found.sheets;
    for (id, entry) in found.rows {
        if let std::collections::btree_map::Entry::Vacant(place) = sheets.entry(id)
            && let Ok(sheet) = Sheet::of(entry)
        {
            salvaged.remains.push(sheet.entry.clone());
            place.insert(sheet);
        }
    }
    salvaged.gone = (found.last).map(|last| last.saturating_sub(sheets.len()));
    let fresh = beside::free(path, "salvaged");
    let written = write(&fresh, sheets.into_values(), found.drafts);
    let moved = written.and_then(|()| put_in_place(path, &fresh));
    if moved.is_err() {
        // What is left of it is of no use; that it may stay is no second fault.
        let _ = fs::remove_file(&fresh);
    }
    salvaged.aside = moved?;
    Ok(salvaged)
}

fn write(
    fresh: &Path,
    sheets: impl Iterator<Item = Sheet>,
    drafts: Vec<(String, i64, Draft)>,
) -> Result<()> {
    let mut logbook = Logbook::open(fresh)?;
    let sheets: Vec<Sheet> = sheets.collect();
    logbook.add(&sheets)?;
    for (person, at, draft) in drafts {
        logbook.write(&[], &person, &[DraftChange::Keep(draft)], at)?;
    }
    logbook.close()
}

/// Moves the damaged file and what belongs to it aside, and the new one into its place.
fn put_in_place(path: &Path, fresh: &Path) -> Result<PathBuf> {
    let failed = |error: io::Error| Trouble::system(path, &error);
    let aside = beside::free(path, "damaged");
    let companions = beside::companions(path).into_iter();
    for (from, to) in companions.zip(beside::companions(&aside)) {
        if from.exists() {
            fs::rename(from, to).map_err(failed)?;
        }
    }
    fs::rename(path, &aside).map_err(failed)?;
    fs::rename(fresh, path).map_err(failed)?;
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    platform::sync_folder(folder.unwrap_or(Path::new("."))).map_err(failed)?;
    Ok(aside)
}

/// What is readable.
#[derive(Default)]
struct Found {
    sheets: BTreeMap<Id, Sheet>,
    /// What the rows for the learner model say, as far as they read.
    rows: BTreeMap<Id, Entry>,
    drafts: Vec<(String, i64, Draft)>,
    /// The greatest number that a sheet has, where that can be read.
    last: Option<usize>,
}

impl Found {
    fn in_file(path: &Path) -> Result<Self> {
        let mut found = Self::default();
        if let Some(connection) = alone(path)? {
            found.read(&connection, path);
        }
        for file in [path.to_owned(), beside::companions(path)[0].clone()] {
            if let Ok(bytes) = fs::read(file) {
                for sheet in carve::sheets(&bytes) {
                    found.enter(sheet);
                }
            }
        }
        Ok(found)
    }

    fn enter(&mut self, sheet: Sheet) {
        let id = sheet.entry.id;
        let stays = self.sheets.get(&id);
        if stays.is_none_or(|stands| sheet.rank() < stands.rank()) {
            self.sheets.insert(id, sheet);
        }
    }

    fn read(&mut self, connection: &Connection, path: &Path) {
        let most = most_sheets(path);
        self.last = last_number(connection).map(|last| last.min(most));
        for number in 1..=i64::try_from(self.last.unwrap_or(most)).unwrap_or(i64::MAX) {
            let sql = "SELECT payload, sum FROM sheets WHERE number = ?1";
            let row = connection.prepare_cached(sql).and_then(|mut statement| {
                let cells = |row: &Row| Ok((row.get::<_, String>(0)?, row.get::<_, Vec<u8>>(1)?));
                statement.query_row([number], cells)
            });
            if let Ok((payload, sum)) = row
                && let Ok(sheet) = sound(&payload, &sum)
            {
                self.enter(sheet);
            }
        }
        let columns = "id, person, at, zone, code, family, level, purpose, tries";
        for entry in from_both_ends(connection, columns, "responses", remains) {
            self.rows.entry(entry.id).or_insert(entry);
        }
        let columns = "id, person, at, kind, text";
        for draft in from_both_ends(connection, columns, "drafts", draft) {
            if self.drafts.iter().all(|other| other.2.id != draft.2.id) {
                self.drafts.push(draft);
            }
        }
    }
}

/// Opens the file, alone and without ever writing into it; none where it cannot be
/// opened at all.
fn alone(path: &Path) -> Result<Option<Connection>> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let open = || -> rusqlite::Result<Connection> {
        let connection = Connection::open_with_flags(path, flags)?;
        connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
        connection.pragma_update(None, "trusted_schema", false)?;
        connection.query_row("PRAGMA locking_mode = exclusive", [], |_| Ok(()))?;
        connection.query_row("SELECT count(*) FROM sqlite_schema", [], |_| Ok(()))?;
        Ok(connection)
    };
    match open() {
        Ok(connection) => Ok(Some(connection)),
        Err(error) => match Trouble::of(path, &error) {
            trouble if trouble.kind == Kind::Busy => Err(trouble),
            _ => Ok(None),
        },
    }
}

/// The number of the last sheet, where it can be read.
fn last_number(connection: &Connection) -> Option<usize> {
    let last = "SELECT max(number) FROM sheets";
    let last = connection.query_row(last, [], |row| row.get::<_, Option<i64>>(0));
    let last = last.ok()?;
    Some(usize::try_from(last.unwrap_or(0)).unwrap_or(0))
}

/// As many sheets as the file could hold: so far is looked, however few there were.
fn most_sheets(path: &Path) -> usize {
    /// No sheet is shorter.
    const SHORTEST: u64 = 200;
    let size = path.metadata().map_or(0, |about| about.len());
    usize::try_from(size / SHORTEST).unwrap_or(usize::MAX)
}

/// What rows give, from the first on until one cannot be read, and from the last back.
fn from_both_ends<T>(
    connection: &Connection,
    columns: &str,
    table: &str,
    read: impl Fn(&Row) -> Option<T>,
) -> Vec<T> {
    let mut found = Vec::new();
    for order in ["ASC", "DESC"] {
        let sql = format!("SELECT {columns} FROM {table} ORDER BY id {order}");
        let Ok(mut statement) = connection.prepare(&sql) else {
            continue;
        };
        let Ok(mut rows) = statement.query([]) else {
            continue;
        };
        let mut broke = false;
        loop {
            match rows.next() {
                Ok(Some(row)) => found.extend(read(row)),
                Ok(None) => break,
                Err(_) => {
                    broke = true;
                    break;
                }
            }
        }
        if !broke {
            break;
        }
    }
    found
}

/// The entry that a row for the learner model still tells: its tries, and nothing of
/// what was asked and typed.
fn remains(row: &Row) -> Option<Entry> {
    let id = Id::of_number(u128::from_be_bytes(row.get(0).ok()?));
    let family: String = row.get(5).ok()?;
    let tries = tries::read(row.get_ref(8).ok()?.as_str().ok()?, &mut Names::default())?;
    let line = |tried: pumpwright_engine::learner::Try| LineEntry {
        id: String::new(),
        label: String::new(),
        typed: String::new(),
        expected: String::new(),
        verdict: String::new(),
        right: Some(tried.right),
        marks: 0.0,
        out_of: 0.0,
        helped: u8::from(tried.helped),
        given: false,
        seconds: tried.seconds,
        options: tried.options,
        skill: tried.skill.to_string(),
        mistakes: tried.mistake.iter().map(ToString::to_string).collect(),
    };
    Some(Entry {
        format: FORMAT,
        id,
        person: row.get(1).ok()?,
        at: row.get(2).ok()?,
        zone: row.get(3).ok()?,
        code: row.get(4).ok()?,
        title: family.clone(),
        family,
        lesson: String::new(),
        level: row.get(6).ok()?,
        units: String::new(),
        purpose: Purpose::named(row.get_ref(7).ok()?.as_str().ok()?)?,
        sitting: None,
        area: None,
        place: Place::Screen,
        seconds: 0,
        givens: Vec::new(),
        lines: tries.into_iter().map(line).collect(),
        marks: 0.0,
        out_of: 0.0,
        program: REMAINS.to_owned(),
    })
}

fn draft(row: &Row) -> Option<(String, i64, Draft)> {
    let draft = Draft {
        id: Id::of_number(u128::from_be_bytes(row.get(0).ok()?)),
        kind: row.get(3).ok()?,
        text: row.get(4).ok()?,
    };
    Some((row.get(1).ok()?, row.get(2).ok()?, draft))
}

#[cfg(test)]
#[path = "salvage_tests.rs"]
mod tests;
