//! Opening the file: made where there is none, for its owner only; every commit is
//! on the disk before it counts; two programs at once wait for one another.

use std::fmt::Write as _;
use std::io;
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags};

use super::beside;
use super::trouble::{Kind, Result, Trouble};
use crate::platform;

/// How long one program waits for another. Writing a sheet takes milliseconds; our
/// own choice.
const PATIENCE: Duration = Duration::from_secs(5);

/// So that a whole sheet lies in one page, where it can still be found when the tree
/// above it is lost.
const PAGE_SIZE: u32 = 8192;

/// After so many pages the log is taken into the file, so that the next start does
/// not read a long one. Two megabytes; our own choice.
const LOG_PAGES: u32 = 250;

/// Opens the file for writing; says what there is to say about how it is kept.
pub fn for_writing(path: &Path) -> Result<(Connection, Option<String>)> {
    with_vfs(path, None)
}

/// The same through another way to files, which a test may name.
fn with_vfs(path: &Path, vfs: Option<&str>) -> Result<(Connection, Option<String>)> {
    platform::create_private(path).map_err(|error| cannot_make(path, &error))?;
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let opened = match vfs {
        None => Connection::open_with_flags(path, flags),
        Some(vfs) => Connection::open_with_flags_and_vfs(path, flags, vfs),
    };
    let failed = |error: rusqlite::Error| Trouble::of(path, &error);
    let connection = opened.map_err(failed)?;
    set_up(&connection).map_err(failed)?;
    // Where the system lets it only be read, it is opened all the same.
    if connection.is_readonly("main").map_err(failed)? {
        let why = "it is write-protected";
        return Err(Trouble::new(Kind::Refused, path, why));
    }
    let notice = journal(&connection, path)?;
    Ok((connection, notice))
}

/// Opens the file for reading alone; nothing in it is changed. On a medium that takes
/// no writing, what a killed program left in its log is not seen.
pub fn for_reading(path: &Path) -> Result<Connection> {
    let about = path.metadata();
    let about = about.map_err(|error| Trouble::system(path, &error))?;
    if !about.is_file() {
        return Err(Trouble::new(Kind::Foreign, path, "it is no file"));
    }
    // Writing is allowed to the database alone, which then cleans up what it made
    // beside the file. What a killed program left in its log is not taken in.
    let [log, ..] = beside::companions(path);
    let left = log.metadata().is_ok_and(|about| about.len() > 0);
    let reads = |connection: &Connection| {
        set_up(connection)?;
        connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, left)?;
        connection.pragma_update(None, "query_only", true)?;
        connection.pragma_query_value(None, "schema_version", |row| row.get::<_, i64>(0))
    };
    let failed = |error: rusqlite::Error| Trouble::of(path, &error);
    let flags = OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let opened = Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_READ_WRITE);
    match opened.and_then(|connection| reads(&connection).map(|_| connection)) {
        Err(error) if error.sqlite_error_code() == Some(ErrorCode::CannotOpen) => {
            let flags = flags | OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
            let connection = Connection::open_with_flags(unchanging(path), flags);
            let connection = connection.map_err(failed)?;
            reads(&connection).map_err(failed)?;
            Ok(connection)
        }
        opened => opened.map_err(failed),
    }
}

/// The address of a file that nobody changes.
fn unchanging(path: &Path) -> String {
    let mut address = "file:".to_owned();
    for byte in path.to_string_lossy().bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'.' | b'-' | b'_' => {
                address.push(char::from(byte));
            }
            byte => {
                let _ = write!(address, "%{byte:02x}");
            }
        }
    }
    address + "?immutable=1"
}

fn cannot_make(path: &Path, error: &io::Error) -> Trouble {
    // That a folder above it is missing or is no folder is no missing logbook here.
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory | io::ErrorKind::AlreadyExists => {
            Trouble::new(Kind::Refused, path, &error.to_string())
        }
        io::ErrorKind::IsADirectory => Trouble::new(Kind::Foreign, path, "it is a folder"),
        _ => Trouble::system(path, error),
    }
}

fn set_up(connection: &Connection) -> rusqlite::Result<()> {
    connection.busy_timeout(PATIENCE)?;
    // A file from a stranger must not run anything, nor be trusted in its pages.
    connection.pragma_update(None, "trusted_schema", false)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    // What is deleted is gone from the file, too.
    connection.pragma_update(None, "secure_delete", true)?;
    // Only a file that is still empty takes it.
    connection.pragma_update(None, "page_size", PAGE_SIZE)
}

/// Write-ahead log with full sync. Where that cannot be had, the rollback journal,
/// with the folder synced as well, keeps just as safe, but slower.
fn journal(connection: &Connection, path: &Path) -> Result<Option<String>> {
    let failed = |error: rusqlite::Error| Trouble::of(path, &error);
    let ahead = match wal(connection) {
        Ok(mode) => mode == "wal",
        Err(error) => match Trouble::of(path, &error) {
            trouble if trouble.kind == Kind::Refused => false,
            trouble => return Err(trouble),
        },
    };
    if !ahead {
        let mode = "journal_mode = delete";
        connection
            .query_row(&format!("PRAGMA {mode}"), [], |_| Ok(()))
            .map_err(failed)?;
    }
    let sync = if ahead { "full" } else { "extra" };
    connection
        .pragma_update(None, "synchronous", sync)
        .map_err(failed)?;
    connection
        .pragma_update(None, "wal_autocheckpoint", LOG_PAGES)
        .map_err(failed)?;
    Ok((!ahead).then(|| {
        format!(
            "the disk of {} takes no write-ahead log; the logbook uses a rollback journal there, \
             which is as safe, and slower",
            path.display()
        )
    }))
}

/// Asks for the write-ahead log. While another program asks too, the database says at
/// once that it is busy, so the waiting is done here.
fn wal(connection: &Connection) -> rusqlite::Result<String> {
    let end = Instant::now() + PATIENCE;
    loop {
        let asked = connection.query_row("PRAGMA journal_mode = wal", [], |row| row.get(0));
        match asked {
            Err(error)
                if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy)
                    && Instant::now() < end =>
            {
                thread::sleep(Duration::from_millis(10));
            }
            done => return done,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::Folder;

    fn pragma(connection: &Connection, name: &str) -> String {
        let value: rusqlite::types::Value = connection
            .pragma_query_value(None, name, |row| row.get(0))
            .unwrap();
        format!("{value:?}")
    }

    #[test]
    fn a_new_file_has_a_log_ahead_and_full_sync() {
        let folder = Folder::new("connect");
        let path = folder.path("deep/er/logbook.db");
        let (connection, notice) = for_writing(&path).unwrap();
        assert_eq!(notice, None);
        assert_eq!(pragma(&connection, "journal_mode"), "Text(\"wal\")");
        assert_eq!(pragma(&connection, "synchronous"), "Integer(2)");
        assert_eq!(pragma(&connection, "page_size"), "Integer(8192)");
    }

    #[cfg(unix)]
    #[test]
    fn only_the_owner_may_read_it() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = Folder::new("connect-private");
        let path = folder.path("mine/logbook.db");
        let (connection, _) = for_writing(&path).unwrap();
        connection.execute_batch("CREATE TABLE a (b)").unwrap();
        for (path, rights) in [
            (folder.path("mine"), 0o700),
            (path.clone(), 0o600),
            (folder.path("mine/logbook.db-wal"), 0o600),
        ] {
            let mode = path.metadata().unwrap().permissions().mode();
            assert_eq!(mode & 0o777, rights, "{}", path.display());
        }
    }

    #[cfg(unix)]
    #[test]
    fn without_a_log_ahead_the_rollback_journal_serves_and_it_says_so() {
        let folder = Folder::new("connect-rollback");
        let path = folder.path("logbook.db");
        // A way to files that has no shared memory, as some disks have none.
        let (connection, notice) = with_vfs(&path, Some("unix-dotfile")).unwrap();
        assert!(notice.unwrap().contains("rollback journal"));
        assert_eq!(pragma(&connection, "journal_mode"), "Text(\"delete\")");
        assert_eq!(pragma(&connection, "synchronous"), "Integer(3)");
        connection.execute_batch("CREATE TABLE a (b)").unwrap();
    }

    #[test]
    fn what_is_no_file_is_named() {
        let folder = Folder::new("connect-no-file");
        let trouble = for_writing(&folder.path("")).unwrap_err();
        assert_eq!(trouble.kind, Kind::Foreign, "{trouble}");
        std::fs::write(folder.path("file"), "text").unwrap();
        let trouble = for_writing(&folder.path("file/logbook.db")).unwrap_err();
        assert_eq!(trouble.kind, Kind::Refused, "{trouble}");
        let trouble = for_reading(&folder.path("none.db")).unwrap_err();
        assert_eq!(trouble.kind, Kind::Missing);
        std::fs::write(
            folder.path("text"),
            "no database, but a long text. ".repeat(99),
        )
        .unwrap();
        let trouble = for_writing(&folder.path("text")).unwrap_err();
        assert_eq!(trouble.kind, Kind::Damaged, "{trouble}");
    }

    #[test]
    fn an_odd_name_is_read_where_nothing_may_be_written() {
        assert_eq!(
            unchanging(Path::new("/a b/50%?.db")),
            "file:/a%20b/50%25%3f.db?immutable=1"
        );
    }
}
