//! What can go wrong with a logbook, each as a sentence: what, where, what to do.

use std::fmt;
use std::io;
use std::path::Path;

use rusqlite::ErrorCode;

use crate::failure::Failure;

/// What went wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// There is no such file.
    Missing,
    /// Parts of the file cannot be read.
    Damaged,
    /// It is no logbook at all.
    Foreign,
    /// A newer program wrote it.
    Newer,
    /// The disk, or the room that the file may take, is full.
    Full,
    /// It may not be written, or not be opened.
    Refused,
    /// Another program holds it.
    Busy,
    /// Anything else that the disk or the system says.
    Failed,
}

/// What went wrong with a logbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// What sort it is.
    pub kind: Kind,
    sentence: String,
    /// What was found, without the file and without what to do.
    why: String,
}

/// What came of a use of a logbook.
pub type Result<T> = std::result::Result<T, Trouble>;

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence)
    }
}

impl From<Trouble> for Failure {
    fn from(trouble: Trouble) -> Self {
        match trouble.kind {
            Kind::Missing => Self::Input(trouble.sentence),
            _ => Self::World(trouble.sentence),
        }
    }
}

impl Trouble {
    /// A trouble of this sort with this file.
    pub fn new(kind: Kind, path: &Path, why: &str) -> Self {
        let file = path.display();
        let sentence = match kind {
            Kind::Missing => format!(
                "there is no logbook {file}; name another file with --logbook, or hand in a sheet first"
            ),
            Kind::Damaged => format!(
                "the logbook {file} is damaged ({why}). `pumpwright logbook check --logbook FILE`, with \
                 its name, keeps what can still be read"
            ),
            Kind::Foreign => format!(
                "{file} is no logbook ({why}); it is left as it is. Name another file with --logbook"
            ),
            Kind::Newer => format!(
                "the logbook {file} was written by a newer pumpwright ({why}); it is left as it is. \
                 Use that version, or name another file with --logbook"
            ),
            Kind::Full => format!(
                "the logbook {file} cannot take more: the disk is full. Free some space, then try \
                 again; what was kept before is safe"
            ),
            Kind::Refused => format!(
                "the logbook {file} cannot be written ({why}). See that you may write there, or \
                 name another file with --logbook; what was kept before is safe"
            ),
            Kind::Busy => format!(
                "another program holds the logbook {file} and does not let go. Close it, then try \
                 again; what was kept before is safe"
            ),
            Kind::Failed => format!(
                "the logbook {file} cannot be used: {why}. See that its disk is there, or name \
                 another file with --logbook"
            ),
        };
        Self {
            kind,
            sentence,
            why: why.to_owned(),
        }
    }

    /// What was found, without the file and without what to do.
    pub fn why(&self) -> &str {
        &self.why
    }

    /// A trouble of this sort in words of its own.
    pub fn said(kind: Kind, sentence: String) -> Self {
        let why = sentence.clone();
        Self {
            kind,
            sentence,
            why,
        }
    }

    /// What the database says of this file.
    pub fn of(path: &Path, error: &rusqlite::Error) -> Self {
        let kind = match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => Kind::Damaged,
            Some(ErrorCode::DiskFull) => Kind::Full,
            Some(ErrorCode::ReadOnly | ErrorCode::CannotOpen | ErrorCode::PermissionDenied) => {
                Kind::Refused
            }
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Kind::Busy,
            // A column of another type than it was written with.
            None if matches!(
                error,
                rusqlite::Error::FromSqlConversionFailure(..)
                    | rusqlite::Error::InvalidColumnType(..)
                    | rusqlite::Error::IntegralValueOutOfRange(..)
            ) =>
            {
                Kind::Damaged
            }
            _ => Kind::Failed,
        };
        Self::new(kind, path, &error.to_string())
    }

    /// What the system says of this file or its folder.
    pub fn system(path: &Path, error: &io::Error) -> Self {
        let kind = match error.kind() {
            io::ErrorKind::NotFound => Kind::Missing,
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Kind::Full,
            io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => Kind::Refused,
            _ => Kind::Failed,
        };
        Self::new(kind, path, &error.to_string())
    }

    /// Something in the file that does not read.
    pub fn damaged(path: &Path, why: &str) -> Self {
        Self::new(Kind::Damaged, path, why)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rusqlite::ffi;

    #[test]
    fn each_trouble_names_the_file_and_what_to_do() {
        let path = Path::new("shed/logbook.db");
        for (code, kind, remedy) in [
            (ffi::SQLITE_FULL, Kind::Full, "Free some space"),
            (ffi::SQLITE_READONLY, Kind::Refused, "--logbook"),
            (ffi::SQLITE_CANTOPEN, Kind::Refused, "--logbook"),
            (ffi::SQLITE_BUSY, Kind::Busy, "Close it"),
            (ffi::SQLITE_CORRUPT, Kind::Damaged, "logbook check"),
            (ffi::SQLITE_NOTADB, Kind::Damaged, "logbook check"),
            (ffi::SQLITE_IOERR, Kind::Failed, "disk is there"),
        ] {
            let error = rusqlite::Error::SqliteFailure(ffi::Error::new(code), None);
            let trouble = Trouble::of(path, &error);
            assert_eq!(trouble.kind, kind);
            let sentence = trouble.to_string();
            assert!(sentence.contains("shed/logbook.db"), "{sentence}");
            assert!(sentence.contains(remedy), "{sentence}");
            assert_eq!(Failure::from(trouble).exit_code(), 3);
        }
        let missing = Trouble::system(path, &io::Error::from(io::ErrorKind::NotFound));
        assert_eq!(Failure::from(missing).exit_code(), 2);
    }
}
