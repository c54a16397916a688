//! Which PDFs of a folder are as they should be. A paper's own is never made anew while it
//! is there; a file with several papers is, where it should have others in it.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::Path;

use pumpwright_engine::classes::printed::FORMAT;
use pumpwright_press::pdf::Format;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use crate::classroom::folder::{cannot_write, keep};
use crate::classroom::kept::read_as;
use crate::failure::Failure;

/// Where it is kept.
const FILE: &str = "prints.json";

/// What is kept.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    format: u32,
    /// The paper in the printer, by its word.
    size: String,
    /// Files with several papers, with the sum of what they hold.
    holds: BTreeMap<String, String>,
}

impl Known {
    /// What is known of a folder. Another paper in the printer makes all of it anew.
    pub fn open(folder: &Path, asked: Option<Format>, usual: Format) -> Result<Self, Failure> {
        let fresh = |format| Self {
            format: FORMAT,
            size: word(format).to_owned(),
            holds: BTreeMap::new(),
        };
        let Some(own) = read_as::<Self>(&folder.join(FILE))? else {
            return Ok(fresh(asked.unwrap_or(usual)));
        };
        let Some(other) = asked.filter(|asked| word(*asked) != own.size) else {
            return Ok(own);
        };
        // First those of the other size, then what says of which size they are: a stop in
        // between leaves none of the wrong one.
        let papers = folder.join("papers");
        let cannot = |error: io::Error| cannot_write(&papers, &error);
        for entry in fs::read_dir(&papers).map_err(cannot)? {
            let path = entry.map_err(cannot)?.path();
            if path.extension().is_some_and(|ending| ending == "pdf") {
                fs::remove_file(&path).map_err(cannot)?;
            }
        }
        let new = fresh(other);
        new.keep(folder)?;
        Ok(new)
    }

    /// The paper in the printer.
    pub fn format(&self) -> Format {
        if self.size == word(Format::A4) {
            Format::A4
        } else {
            Format::Letter
        }
    }

    /// Whether a file is there, and holds what it should.
    pub fn is_there(&self, folder: &Path, name: &str, sum: Option<&String>) -> bool {
        let holds = sum.is_none_or(|sum| self.holds.get(name) == Some(sum));
        holds && folder.join(name).is_file()
    }

    /// A file is made.
    pub fn made(&mut self, name: &str, sum: Option<String>) {
        if let Some(sum) = sum {
            self.holds.insert(name.to_owned(), sum);
        }
    }

    /// Keeps it.
    pub fn keep(&self, folder: &Path) -> Result<(), Failure> {
        keep(&folder.join(FILE), &pumpwright_engine::classes::json(self))
    }
}

const fn word(format: Format) -> &'static str {
    match format {
        Format::A4 => "a4",
        Format::Letter => "letter",
    }
}

/// The sum of what a file holds.
pub fn sum_of(parts: impl Iterator<Item = String>) -> String {
    let mut hash = Sha256::new();
    for part in parts {
        hash.update((part.len() as u64).to_be_bytes());
        hash.update(part.as_bytes());
    }
    let sum = hash.finalize();
    sum.iter().fold(String::new(), |mut text, byte| {
        // Writing into a text does not fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}
