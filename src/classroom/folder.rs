//! The folder of a class: key, kept list, and the papers of each plan.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::plan::Plan;
use pumpwright_engine::classes::roster::{self, Admitted, Listed, Person, Roster, RosterFault};
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::lessons::SourceFile;

use super::kept::read_as;
use super::paper::PaperFolder;
use super::secret;
use crate::failure::Failure;
use crate::{own_file, platform};

/// A class's folder.
#[derive(Debug)]
pub struct ClassFolder {
    path: PathBuf,
    /// The secret.
    pub key: ClassKey,
    /// The list that is kept.
    pub roster: Roster,
}

impl ClassFolder {
    /// Opens the folder, and makes it where there is none.
    ///
    /// # Errors
    /// When it cannot be made, or what stands in it is not of a class.
    pub fn open(path: &Path) -> Result<Self, Failure> {
        let cannot = |error: io::Error| {
            Failure::World(format!("{} cannot be made: {error}", path.display()))
        };
        if path.is_file() {
            let path = path.display();
            return Err(Failure::Input(format!(
                "{path} is a file; name a folder, which is made where there is none"
            )));
        }
        // Answers and marks of a class lie here: what is made is its owner's alone.
        platform::create_private_folder(path).map_err(cannot)?;
        let list = path.join("roster.json");
        let roster: Roster = read_as(&list)?.unwrap_or_default();
        let papers = papers_in(path)?;
        let has_papers = papers
            .into_iter()
            .any(|path| !PaperFolder::at(path).is_empty());
        Ok(Self {
            key: secret::key(&path.join("class.key"), has_papers)?,
            path: path.to_owned(),
            roster,
        })
    }

    /// The list that a class's folder keeps; none where the folder is none of a class.
    ///
    /// # Errors
    /// When it is there and cannot be read.
    pub fn kept_list(path: &Path) -> Result<Option<Roster>, Failure> {
        read_as(&path.join("roster.json"))
    }

    /// Takes a list: who is new gets an id, which is on the disk before any paper is.
    ///
    /// # Errors
    /// When the list cannot be kept.
    pub fn admit(&mut self, list: &[Listed]) -> Result<Admitted, Failure> {
        let admitted = self.roster.admit(list);
        keep_list(&self.path, &self.roster)?;
        Ok(admitted)
    }

    /// The folder of a plan's papers, made where there is none.
    ///
    /// # Errors
    /// When another plan of this name has papers there, or it cannot be made.
    pub fn papers(&self, plan: &Plan, source: &SourceFile) -> Result<PaperFolder, Failure> {
        let folder = PaperFolder::at(self.path.join(&plan.id));
        let kept = folder.path().join("plan.toml");
        match read(&kept)? {
            // As long as nothing is printed of it, a plan may be written anew.
            Some(text) if text != source.text && folder.is_empty() => {
                keep(&kept, &source.text)?;
                Ok(folder)
            }
            Some(text) if text != source.text => Err(Failure::Input(format!(
                "{} has the papers of another plan by the name {}; give this plan another name (plan = …), or assign {} as it stands there",
                folder.path().display(),
                plan.id,
                kept.display()
            ))),
            Some(_) => Ok(folder),
            None => {
                folder.make()?;
                keep(&kept, &source.text)?;
                Ok(folder)
            }
        }
    }
}

/// Keeps the list of a class, for a spreadsheet, too: there without whom only the id is left
/// of.
///
/// # Errors
/// When it cannot be written.
pub fn keep_list(class: &Path, roster: &Roster) -> Result<(), Failure> {
    let kept = serde_json::to_string_pretty(roster)? + "\n";
    let present: Vec<Person> = roster.present().cloned().collect();
    let csv = format!("\u{feff}{}", Roster::as_csv(&present, ','));
    // The list itself last: as long as a deleted name stands in it, deleting can go on.
    keep(&class.join("roster.csv"), &csv)?;
    keep(&class.join("roster.json"), &kept)
}

/// Reads a class list.
///
/// # Errors
/// When it cannot be read, or with each of its faults.
pub fn read_list(path: &Path) -> Result<Vec<Listed>, Failure> {
    roster::read(&text_of(path)?).map_err(|faults| list_faults(path, &faults))
}

/// Says what is wrong with a class list.
pub fn list_faults(path: &Path, faults: &[RosterFault]) -> Failure {
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    Failure::Input(format!("{}: {}", path.display(), said.join("\n  ")))
}

/// The folder of papers that is meant: itself, or the only one in a class's folder.
///
/// # Errors
/// When there is none, or more than one.
pub fn find_paper(path: &Path) -> Result<PaperFolder, Failure> {
    let shown = path.display();
    match papers_in(path)?.as_slice() {
        [one] => Ok(PaperFolder::at(one.clone())),
        [] => Err(no_papers(path)),
        several => {
            let names: Vec<String> = several
                .iter()
                .map(|path| path.display().to_string())
                .collect();
            Err(Failure::Input(format!(
                "{shown} has the papers of several plans; name one: {}",
                names.join(", ")
            )))
        }
    }
}

/// The folders of papers at a path: itself, or those in it, in the order of their names.
///
/// # Errors
/// When it cannot be read.
pub fn papers_in(path: &Path) -> Result<Vec<PathBuf>, Failure> {
    let is = |path: &Path| path.join("printed").is_dir() && path.join("plan.toml").is_file();
    if is(path) {
        return Ok(vec![path.to_owned()]);
    }
    let odd = match path.metadata() {
        Ok(found) if found.is_file() => Some("is a file"),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Some("is not there"),
        _ => None,
    };
    if let Some(odd) = odd {
        return Err(Failure::Input(format!(
            "{} {odd}; name the folder of a class, or of one of its papers",
            path.display()
        )));
    }
    let entries = fs::read_dir(path)
        .map_err(|error| Failure::World(format!("{} cannot be read: {error}", path.display())))?;
    let mut found: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| is(path))
        .collect();
    found.sort();
    Ok(found)
}

/// Says that a folder has no papers, and what makes some.
pub fn no_papers(path: &Path) -> Failure {
    let shown = path.display();
    Failure::Input(format!(
        "{shown} has no papers; make them by pumpwright assign PLAN --roster CLASS.csv --out {shown}"
    ))
}

/// The folders of papers that are meant: itself, or all in a class's folder.
///
/// # Errors
/// When there is none.
pub fn find_papers(path: &Path) -> Result<Vec<PaperFolder>, Failure> {
    let found = papers_in(path)?;
    if found.is_empty() {
        return Err(no_papers(path));
    }
    Ok(found.into_iter().map(PaperFolder::at).collect())
}

/// The text of a file that may be missing.
///
/// # Errors
/// When it is there and cannot be read.
pub fn read(path: &Path) -> Result<Option<String>, Failure> {
    match path.try_exists() {
        Ok(false) => Ok(None),
        _ => text_of(path).map(Some),
    }
}

/// The text of a file.
///
/// # Errors
/// When it cannot be read, or is no UTF-8.
pub fn text_of(path: &Path) -> Result<String, Failure> {
    let shown = path.display();
    let bytes = fs::read(path)
        .map_err(|error| Failure::World(format!("{shown} cannot be read: {error}")))?;
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        Failure::Input(format!(
            "{shown} is not UTF-8 text from byte {at} on; save it as UTF-8"
        ))
    })
}

/// Puts a text in the place of a file, whole, and on the disk.
///
/// # Errors
/// When it cannot be written; what was there stays.
pub fn keep(path: &Path, text: &str) -> Result<(), Failure> {
    own_file::replace(path, text.as_bytes()).map_err(|error| cannot_write(path, &error))
}

/// Says that a file cannot be written.
pub fn cannot_write(path: &Path, error: &io::Error) -> Failure {
    Failure::World(format!("{} cannot be written: {error}", path.display()))
}
