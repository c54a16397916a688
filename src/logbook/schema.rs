//! The schema of the file, and how an older one becomes the newest: forward only,
//! one step a version, with a copy beside the file before.
//!
//! To change the schema, add a step at the end of [`STEPS`]; never change one that
//! is there. DEVELOPERS.md tells what else belongs to it.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, TransactionBehavior};

use super::beside;
use super::trouble::{Kind, Result, Trouble};
use crate::platform;

/// Stands in the head of every logbook, so that no other database is taken for one.
/// The letters "pwlb"; our own choice.
pub const APPLICATION: i32 = 0x7077_6c62;

/// The SQL of each version, the first at place 0. `sum` is the start of the SHA-256
/// of the payload and stands right before it in the file: what is left of a damaged
/// file can be told by it from noise.
pub const STEPS: [&str; 1] = ["
    CREATE TABLE sheets (
        number  INTEGER PRIMARY KEY,
        id      BLOB NOT NULL UNIQUE,
        sum     BLOB NOT NULL,
        payload TEXT NOT NULL
    ) STRICT;
    CREATE TABLE responses (
        id      BLOB PRIMARY KEY,
        person  TEXT NOT NULL,
        at      INTEGER NOT NULL,
        zone    INTEGER NOT NULL,
        code    TEXT NOT NULL,
        family  TEXT NOT NULL,
        level   INTEGER NOT NULL,
        purpose TEXT NOT NULL,
        tries   TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE drafts (
        id      BLOB PRIMARY KEY,
        person  TEXT NOT NULL,
        at      INTEGER NOT NULL,
        kind    TEXT NOT NULL,
        text    TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
"];

/// What the head of a file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// Whose file it is.
    pub application: i32,
    /// The version of its schema; 0 where it has none.
    pub version: usize,
    /// Whether there is anything in it.
    pub empty: bool,
}

impl Head {
    /// Reads the head.
    pub fn of(connection: &Connection) -> rusqlite::Result<Self> {
        let number = |name: &str| -> rusqlite::Result<i64> {
            connection.pragma_query_value(None, name, |row| row.get(0))
        };
        let tables = "SELECT count(*) FROM sqlite_schema";
        let tables: i64 = connection.query_row(tables, [], |row| row.get(0))?;
        Ok(Self {
            application: number("application_id")? as i32,
            version: usize::try_from(number("user_version")?).unwrap_or(usize::MAX),
            empty: tables == 0,
        })
    }

    /// Whether the file is a logbook that these steps can read.
    pub fn allow(self, path: &Path, newest: usize) -> Result<()> {
        if self.empty && self.version == 0 {
            return Ok(());
        }
        if self.application != APPLICATION || self.version == 0 {
            let why = "it is the database of another program";
            return Err(Trouble::new(Kind::Foreign, path, why));
        }
        if self.version > newest {
            let version = self.version;
            let why = format!("its schema is {version}, this program knows {newest}");
            return Err(Trouble::new(Kind::Newer, path, &why));
        }
        Ok(())
    }
}

/// Brings the file to the newest schema; says where the copy of the old one lies,
/// if one was made.
pub fn migrate(
    connection: &mut Connection,
    path: &Path,
    steps: &[&str],
) -> Result<Option<PathBuf>> {
    let failed = |error: rusqlite::Error| Trouble::of(path, &error);
    let head = Head::of(connection).map_err(failed)?;
    head.allow(path, steps.len())?;
    if head.version == steps.len() {
        return Ok(None);
    }
    let copy = match head.version {
        0 => None,
        version => Some(copied(connection, path, version)?),
    };
    let immediate = TransactionBehavior::Immediate;
    let transaction = connection
        .transaction_with_behavior(immediate)
        .map_err(failed)?;
    // Another program may have done it in the meantime.
    let head = Head::of(&transaction).map_err(failed)?;
    head.allow(path, steps.len())?;
    for step in steps.iter().skip(head.version) {
        transaction.execute_batch(step).map_err(failed)?;
    }
    let newest = i32::try_from(steps.len()).unwrap_or(i32::MAX);
    for (name, number) in [("application_id", APPLICATION), ("user_version", newest)] {
        transaction
            .pragma_update(None, name, number)
            .map_err(failed)?;
    }
    transaction.commit().map_err(failed)?;
    Ok(copy)
}

/// A copy of the whole file beside it, under a name that is free.
fn copied(connection: &Connection, path: &Path, version: usize) -> Result<PathBuf> {
    let copy = beside::free(path, &format!("schema-{version}"));
    copy_into(connection, &copy)?;
    Ok(copy)
}

/// A copy of the whole file as it is now, for its owner alone.
pub fn copy_into(connection: &Connection, copy: &Path) -> Result<()> {
    // An empty file is taken; so nobody else ever sees into it.
    platform::create_private(copy).map_err(|error| Trouble::system(copy, &error))?;
    let failed = |error: rusqlite::Error| Trouble::of(copy, &error);
    connection
        .pragma_update(None, "query_only", false)
        .map_err(failed)?;
    connection
        .execute("VACUUM INTO ?1", [copy.to_string_lossy()])
        .map_err(failed)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::Folder;

    /// A made-up earlier schema, and what it became.
    const OLDER: [&str; 1] = ["CREATE TABLE sheets (text TEXT)"];
    const NEWER: [&str; 3] = [
        OLDER[0],
        "ALTER TABLE sheets ADD COLUMN letters INTEGER; UPDATE sheets SET letters = length(text)",
        "CREATE TABLE more (text TEXT)",
    ];

    fn texts(path: &Path, sql: &str) -> Vec<String> {
        let connection = Connection::open(path).unwrap();
        let mut found = connection.prepare(sql).unwrap();
        let rows = found.query_map([], |row| row.get(0)).unwrap();
        rows.map(std::result::Result::unwrap).collect()
    }

    #[test]
    fn each_step_is_taken_once_and_the_old_file_stays_beside() {
        let folder = Folder::new("migrate");
        let path = folder.path("logbook.db");
        let mut connection = Connection::open(&path).unwrap();
        assert_eq!(migrate(&mut connection, &path, &OLDER), Ok(None));
        connection
            .execute("INSERT INTO sheets VALUES ('four')", [])
            .unwrap();
        let copy = migrate(&mut connection, &path, &NEWER).unwrap().unwrap();
        assert_eq!(copy, folder.path("logbook.schema-1.db"));
        assert_eq!(
            texts(&path, "SELECT text || letters FROM sheets"),
            ["four4"]
        );
        assert_eq!(texts(&copy, "SELECT text FROM sheets"), ["four"]);
        assert_eq!(Head::of(&connection).unwrap().version, 3);
        assert_eq!(migrate(&mut connection, &path, &NEWER), Ok(None));
        let trouble = migrate(&mut connection, &path, &OLDER).unwrap_err();
        assert_eq!(trouble.kind, Kind::Newer);
        assert!(trouble.to_string().contains("its schema is 3"), "{trouble}");
    }

    #[test]
    fn a_step_that_fails_changes_nothing() {
        let folder = Folder::new("migrate-fails");
        let path = folder.path("logbook.db");
        let mut connection = Connection::open(&path).unwrap();
        migrate(&mut connection, &path, &OLDER).unwrap();
        let wrong = [OLDER[0], "CREATE TABLE more (text TEXT); no SQL"];
        assert!(migrate(&mut connection, &path, &wrong).is_err());
        assert_eq!(Head::of(&connection).unwrap().version, 1);
        assert_eq!(migrate(&mut connection, &path, &OLDER), Ok(None));
        assert_eq!(texts(&path, "SELECT name FROM sqlite_schema"), ["sheets"]);
    }

    #[test]
    fn the_database_of_another_program_is_left_alone() {
        let folder = Folder::new("migrate-foreign");
        let path = folder.path("other.db");
        let mut connection = Connection::open(&path).unwrap();
        connection.execute_batch("CREATE TABLE a (b)").unwrap();
        let trouble = migrate(&mut connection, &path, &STEPS).unwrap_err();
        assert_eq!(trouble.kind, Kind::Foreign);
        assert_eq!(texts(&path, "SELECT name FROM sqlite_schema"), ["a"]);
    }
}
