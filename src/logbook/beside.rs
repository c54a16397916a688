//! Names of files beside a logbook: copies of it, and what is moved aside.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// The name for a file beside this one that says what it is, and that nothing has:
/// `logbook.db` gives `logbook.WORD.db`, else `logbook.WORD-2.db` and so on.
pub fn free(path: &Path, word: &str) -> PathBuf {
    let mut number = 1_u32;
    loop {
        let candidate = named(path, word, number);
        if candidate.symlink_metadata().is_err() || number == u32::MAX {
            return candidate;
        }
        number += 1;
    }
}

fn named(path: &Path, word: &str, number: u32) -> PathBuf {
    let mut name = OsString::from(path.file_stem().unwrap_or_default());
    name.push(".");
    name.push(word);
    if number > 1 {
        name.push(format!("-{number}"));
    }
    if let Some(ending) = path.extension() {
        name.push(".");
        name.push(ending);
    }
    path.with_file_name(name)
}

/// The files that the database keeps beside its own while it is open, or after it
/// was killed.
pub fn companions(path: &Path) -> [PathBuf; 3] {
    ["-wal", "-shm", "-journal"].map(|ending| {
        let mut name = OsString::from(path.as_os_str());
        name.push(ending);
        PathBuf::from(name)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::Folder;

    #[test]
    fn a_name_that_is_taken_is_passed_over() {
        let folder = Folder::new("beside");
        let path = folder.path("logbook.db");
        assert_eq!(free(&path, "damaged"), folder.path("logbook.damaged.db"));
        std::fs::write(folder.path("logbook.damaged.db"), "x").unwrap();
        assert_eq!(free(&path, "damaged"), folder.path("logbook.damaged-2.db"));
        let plain = folder.path("mine");
        assert_eq!(free(&plain, "damaged"), folder.path("mine.damaged"));
        assert_eq!(companions(&plain)[0], folder.path("mine-wal"));
    }
}
