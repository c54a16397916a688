//! Whether a logbook is sound: the database by its own check, every sheet by its sum,
//! and what the learner model reads by the sheet that it came from.

use std::fs;
use std::path::Path;

use pumpwright_engine::learner::History;
use rusqlite::Connection;

use super::schema::{Head, STEPS};
use super::store::Logbook;
use super::trouble::{Kind, Result, Trouble};
use super::{carve, connect};

/// So many findings are named; the rest would say the same.
const MOST: usize = 20;

/// How the file of any database of this kind begins.
///
/// Source: SQLite, "Database File Format", section 1.3.1, from memory.
const DATABASE: &[u8] = b"SQLite format 3\0";

/// What was found in a logbook.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Examined {
    /// Sheets that read.
    pub sheets: usize,
    /// Persons who have some.
    pub persons: usize,
    /// What is half written.
    pub drafts: usize,
    /// What is wrong, if anything.
    pub findings: Vec<String>,
}

/// Examines a file; nothing in it is changed.
///
/// # Errors
/// Where it is not there, is not a logbook, is a newer one, or another program holds
/// it. What is damaged is no error: it is found.
pub fn examine(path: &Path) -> Result<Examined> {
    let mut examined = Examined::default();
    let done = look(path, &mut examined);
    match done {
        Err(trouble) if trouble.kind == Kind::Damaged => {
            if is_something_else(path) {
                let why = "it is no database, and no sheet stands in it";
                return Err(Trouble::new(Kind::Foreign, path, why));
            }
            examined.findings.push(trouble.why().to_owned());
        }
        Err(trouble) => return Err(trouble),
        Ok(()) => {}
    }
    examined.findings.truncate(MOST);
    Ok(examined)
}

/// Whether a file is no damaged logbook, but something else: it does not begin as one,
/// and no sheet stands in its bytes.
fn is_something_else(path: &Path) -> bool {
    fs::read(path)
        .is_ok_and(|bytes| !bytes.starts_with(DATABASE) && carve::sheets(&bytes).is_empty())
}

fn look(path: &Path, examined: &mut Examined) -> Result<()> {
    let connection = connect::for_reading(path)?;
    let head = Head::of(&connection).map_err(|error| Trouble::of(path, &error))?;
    head.allow(path, STEPS.len())?;
    own_check(&connection, path, &mut examined.findings)?;
    drop(connection);
    if head.empty {
        return Ok(());
    }
    let logbook = Logbook::reading(path)?;
    let persons = logbook.persons()?;
    examined.persons = persons.len();
    for (person, count) in persons {
        let sheets = logbook.sheets(Some(&person))?;
        examined.sheets += sheets.len();
        let history: History = sheets.iter().map(|sheet| sheet.entry.response()).collect();
        if count != sheets.len() || history != logbook.history(&person)? {
            let sentence = format!("what the program reads of {person} is not what the sheets say");
            examined.findings.push(sentence);
        }
    }
    let count = |table: &str| {
        let sql = format!("SELECT count(*) FROM {table}");
        let count = logbook.connection.query_row(&sql, [], |row| row.get(0));
        let count: i64 = count.map_err(logbook.failed())?;
        Ok(usize::try_from(count).unwrap_or(usize::MAX))
    };
    examined.drafts = count("drafts")?;
    let all = count("sheets")?;
    if all != examined.sheets {
        let sentence = format!(
            "it holds {all} sheets, {} of which have a name",
            examined.sheets
        );
        examined.findings.push(sentence);
    }
    Ok(())
}

/// What the database says of its own pages.
fn own_check(connection: &Connection, path: &Path, findings: &mut Vec<String>) -> Result<()> {
    let failed = |error: rusqlite::Error| Trouble::of(path, &error);
    let check = format!("PRAGMA integrity_check({MOST})");
    let mut statement = connection.prepare(&check).map_err(failed)?;
    let rows = statement.query_map([], |row| row.get::<_, String>(0));
    for row in rows.map_err(failed)? {
        let row = row.map_err(failed)?;
        if row != "ok" {
            findings.extend(row.lines().map(|line| format!("the database says: {line}")));
        }
    }
    Ok(())
}
