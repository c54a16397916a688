//! The folder of one plan's papers: its rooms, its plan, the numbers of its papers, and the
//! class that it lies in. `records` has the papers as they were made, `came` what came in and
//! what was decided.

mod came;
mod records;

use std::fs;
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::make_up::is_make_up;
use pumpwright_engine::classes::roster::Roster;
use pumpwright_engine::lessons::SourceFile;

use super::folder::text_of;
use super::kept::{names, read_as};
use super::secret;
use crate::failure::Failure;

pub use came::Taken;
pub use records::Made;

/// The folder of a plan's papers.
#[derive(Debug, Clone)]
pub struct PaperFolder {
    path: PathBuf,
}

impl PaperFolder {
    /// The folder at a place.
    pub const fn at(path: PathBuf) -> Self {
        Self { path }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Makes it with its rooms.
    ///
    /// # Errors
    /// When it cannot be made.
    pub fn make(&self) -> Result<(), Failure> {
        for room in ["lessons", "printed", "screen", "handed-in"] {
            let path = self.path.join(room);
            fs::create_dir_all(&path).map_err(|error| {
                Failure::World(format!("{} cannot be made: {error}", path.display()))
            })?;
        }
        Ok(())
    }

    /// Whether no paper was made yet.
    pub fn is_empty(&self) -> bool {
        self.numbers().is_ok_and(|numbers| numbers.is_empty())
    }

    /// The plan as it was when the papers were made.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn plan(&self) -> Result<SourceFile, Failure> {
        let path = self.path.join("plan.toml");
        Ok(SourceFile {
            text: text_of(&path)?,
            path: path.display().to_string(),
        })
    }

    /// The numbers of the papers, in order.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn numbers(&self) -> Result<Vec<String>, Failure> {
        let mut found = names(&self.path.join("printed"))?;
        found.sort();
        Ok(found)
    }

    /// The numbers of the make-up papers, in order.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn make_ups(&self) -> Result<Vec<String>, Failure> {
        let mut own = self.numbers()?;
        own.retain(|number| is_make_up(number));
        Ok(own)
    }

    /// The folder of the class that this one lies in.
    fn class(&self) -> &Path {
        let class = self.path.parent();
        let class = class.filter(|path| !path.as_os_str().is_empty());
        class.unwrap_or_else(|| Path::new("."))
    }

    /// Checks that the key of the class is there, as only whoever keeps the class has it.
    ///
    /// # Errors
    /// When there is none.
    pub fn check_key(&self) -> Result<(), Failure> {
        let class = self.class();
        if secret::is_there(&class.join("class.key")) {
            return Ok(());
        }
        Err(Failure::Input(format!(
            "{} has no class.key that can be read; a sealed paper leaves its class only with the key: put it back",
            class.display()
        )))
    }

    /// The kept list of the class that this folder lies in.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn roster(&self) -> Result<Roster, Failure> {
        let path = self.class().join("roster.json");
        read_as(&path)?.ok_or_else(|| {
            Failure::Input(format!(
                "{} is not there; the folder of papers must lie in the folder of its class",
                path.display()
            ))
        })
    }
}
