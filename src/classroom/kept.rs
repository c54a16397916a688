//! Files of ours in a class's folder: each says its format, is written whole, and is read
//! or refused with its name.

use std::fs;
use std::path::Path;

use pumpwright_engine::classes::printed::FORMAT;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::folder::{cannot_write, read};
use crate::failure::Failure;
use crate::own_file;

/// The names of the files of ours in a folder, without their ending.
///
/// # Errors
/// When the folder cannot be read.
pub fn names(folder: &Path) -> Result<Vec<String>, Failure> {
    let cannot = |error: std::io::Error| {
        Failure::World(format!("{} cannot be read: {error}", folder.display()))
    };
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(cannot)? {
        let path = entry.map_err(cannot)?.path();
        let json = path
            .extension()
            .is_some_and(|extension| extension == "json");
        let name = path
            .file_stem()
            .map(|stem| stem.to_string_lossy().into_owned());
        found.extend(name.filter(|name| json && !name.starts_with('.')));
    }
    Ok(found)
}

/// What is filed, with the format in which it is.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kept<T> {
    format: u32,
    /// The value.
    pub kept: T,
}

impl<T> Kept<T> {
    /// A value to be filed.
    pub const fn of(kept: T) -> Self {
        Self {
            format: FORMAT,
            kept,
        }
    }
}

/// What every file of ours says first.
#[derive(Deserialize)]
struct Format {
    format: u32,
}

/// The format of a text that a newer program wrote.
pub fn newer(text: &str) -> Option<u32> {
    let own: Format = serde_json::from_str(text).ok()?;
    (own.format > FORMAT).then_some(own.format)
}

/// A file of ours as the value that it holds; none where it is not there.
///
/// # Errors
/// When it is a newer program's, or cannot be read.
pub fn read_as<T: DeserializeOwned>(path: &Path) -> Result<Option<T>, Failure> {
    let Some(text) = read(path)? else {
        return Ok(None);
    };
    if let Some(format) = newer(&text) {
        return Err(Failure::Input(format!(
            "{} is written in format {format}; this program reads format {FORMAT}: use a newer program",
            path.display()
        )));
    }
    serde_json::from_str(&text).map(Some).map_err(|error| {
        Failure::Input(format!(
            "{} breaks off or is damaged in line {}; put it back as it was",
            path.display(),
            error.line()
        ))
    })
}

/// Puts a file in its place without waiting for the disk.
///
/// # Errors
/// When it cannot be written.
pub fn put(path: &Path, text: &str) -> Result<(), Failure> {
    own_file::put(path, text.as_bytes()).map_err(|error| cannot_write(path, &error))
}
