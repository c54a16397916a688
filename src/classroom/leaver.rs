//! What a class's folder has of one person, to be taken along or deleted.
//!
//! Deleting goes from what is made of several papers to the person's own files, a paper's
//! record behind its other files, and the class list last: after a stop the name is still
//! there to be told, and the same goes on. The id stays taken, so that nobody else gets it
//! and nobody's paper changes; no name stands with it.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::make_up::{nth, owner};
use pumpwright_engine::classes::marks::{Decisions, HandIn};
use pumpwright_engine::classes::roster::Person;

use super::folder::{ClassFolder, cannot_write, keep_list, papers_in};
use super::kept::{Kept, read_as};
use super::paper::PaperFolder;
use crate::failure::Failure;
use crate::platform;

/// The rooms of a plan's papers with a file for each paper; the records last.
const ROOMS: [&str; 5] = ["screen", "papers", "pen", "handed-in", "printed"];

/// What is made of the papers of several, as each begins and ends.
const TOGETHER: [(&str, &str); 7] = [
    ("print", ".pdf"),
    ("key", ".pdf"),
    ("strips", ".pdf"),
    ("slips", ".pdf"),
    ("marks", ".csv"),
    ("report", ".html"),
    ("report", ".csv"),
];

/// What there is of one person in the folder of one plan.
#[derive(Debug)]
pub struct Belongings {
    /// The folder.
    pub folder: PaperFolder,
    /// The person's own files, the records last.
    pub own: Vec<PathBuf>,
    /// Files that are made of several papers, this person's among them.
    pub together: Vec<PathBuf>,
    /// How many papers, and how many hand-ins.
    pub papers: usize,
    /// How many hand-ins.
    pub hand_ins: usize,
    /// What was decided of the person's papers alone.
    pub judged: usize,
    /// The names that stand on the papers.
    pub names: Vec<String>,
}

/// What there is of a person, plan by plan; plans without anything are left out.
///
/// # Errors
/// When a folder cannot be read.
pub fn belongings(class: &Path, person: &Person) -> Result<Vec<Belongings>, Failure> {
    let roster = ClassFolder::kept_list(class)?.unwrap_or_default();
    let ids: Vec<&str> = roster.people.iter().map(|own| own.id.as_str()).collect();
    let mut found = Vec::new();
    for path in papers_in(class)? {
        let own = Belongings::of(PaperFolder::at(path), &person.id, &ids)?;
        if !own.own.is_empty() || own.judged > 0 {
            found.push(own);
        }
    }
    Ok(found)
}

impl Belongings {
    fn of(folder: PaperFolder, id: &str, ids: &[&str]) -> Result<Self, Failure> {
        let (mut own, mut papers, mut hand_ins) = (Vec::new(), 0, 0);
        let mut names: Vec<String> = Vec::new();
        for room in ROOMS {
            for path in files(&folder.path().join(room))? {
                let is = match room {
                    "handed-in" => is_handed_in(&path, id, ids),
                    _ => is_number(&stem(&path), id),
                };
                if !is {
                    continue;
                }
                papers += usize::from(room == "printed");
                hand_ins += usize::from(room == "handed-in");
                own.push(path);
            }
        }
        for record in folder.papers_of(id).unwrap_or_default() {
            names.push(record.person.name);
        }
        let mut together = Vec::new();
        for path in files(folder.path())? {
            let name = name(&path);
            let alone = ["key-", "strip-"].into_iter().find_map(|front| {
                let number = name.strip_prefix(front)?.strip_suffix(".pdf")?;
                number.contains('+').then(|| owner(number).to_owned())
            });
            if alone.as_deref() == Some(id) {
                own.insert(0, path);
            } else if alone.is_none() && is_together(&name) {
                together.push(path);
            }
        }
        let judged = folder.decisions()?.judged;
        let judged = judged.iter().filter(|judged| owner(&judged.paper) == id);
        Ok(Self {
            judged: judged.count(),
            folder,
            own,
            together,
            papers,
            hand_ins,
            names,
        })
    }

    /// Whether a file that is made of several papers is there.
    pub fn has(&self, name: &str) -> bool {
        self.together.iter().any(|path| self::name(path) == name)
    }

    /// What was decided of the person's papers.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn judged(&self, id: &str) -> Result<Decisions, Failure> {
        let mut decisions = self.folder.decisions()?;
        decisions.judged.retain(|own| owner(&own.paper) == id);
        Ok(decisions)
    }

    /// Deletes all of it.
    fn delete(&self, id: &str) -> Result<(), Failure> {
        for path in self.together.iter().chain(&self.own) {
            remove(path)?;
        }
        if self.judged > 0 {
            let mut decisions = self.folder.decisions()?;
            decisions.judged.retain(|own| owner(&own.paper) != id);
            self.folder.keep_decisions(&decisions)?;
        }
        let rooms = ROOMS.map(|room| self.folder.path().join(room));
        for room in rooms.iter().filter(|room| room.is_dir()) {
            settle(room)?;
        }
        settle(self.folder.path())
    }
}

/// Deletes what there is of a person, and the name from the class list.
///
/// # Errors
/// When something cannot be written or taken away; the same may be done again.
pub fn delete(class: &Path, person: &Person, all: &[Belongings]) -> Result<(), Failure> {
    for own in all {
        own.delete(&person.id)?;
    }
    let mut roster = ClassFolder::kept_list(class)?.unwrap_or_default();
    for own in &mut roster.people {
        if own.id == person.id {
            own.name.clear();
        }
    }
    keep_list(class, &roster)?;
    settle(class)
}

/// The files of a class's folder in which one of these names still stands, PDFs left out:
/// what somebody wrote as a reason, or laid there.
pub fn still_named(class: &Path, names: &[String]) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![class.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let pdf = path.extension().is_some_and(|ending| ending == "pdf");
            let text = fs::read(&path).unwrap_or_default();
            let text = String::from_utf8_lossy(&text);
            if !pdf && names.iter().any(|name| is_in(&text, name)) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// Whether a name stands in a text, not as the beginning or end of another.
fn is_in(text: &str, name: &str) -> bool {
    let goes_on = |sign: Option<char>| sign.is_some_and(|own| own.is_alphanumeric() || own == '-');
    let alone = |(at, own): (usize, &str)| {
        let before = text.get(..at).and_then(|text| text.chars().next_back());
        let behind = text.get(at + own.len()..);
        !goes_on(before) && !goes_on(behind.and_then(|text| text.chars().next()))
    };
    !name.is_empty() && text.match_indices(name).any(alone)
}

/// The files of a folder, in order; none where there is no such folder.
fn files(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let cannot =
        |error: io::Error| Failure::World(format!("{} cannot be read: {error}", folder.display()));
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries.map_err(cannot)?,
    };
    let mut found = Vec::new();
    for entry in entries {
        let path = entry.map_err(cannot)?.path();
        if path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

fn name(path: &Path) -> String {
    let name = path.file_name();
    name.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

fn stem(path: &Path) -> String {
    let stem = path.file_stem();
    stem.map_or_else(String::new, |stem| stem.to_string_lossy().into_owned())
}

fn is_number(stem: &str, id: &str) -> bool {
    owner(stem) == id && nth(stem).is_some()
}

/// Whether a hand-in is of somebody: by what stands in it, else by its name.
fn is_handed_in(path: &Path, id: &str, ids: &[&str]) -> bool {
    if let Ok(Some(kept)) = read_as::<Kept<HandIn>>(path) {
        return owner(&kept.kept.paper) == id;
    }
    let stem = stem(path);
    if ids.contains(&owner(&stem)) {
        return is_number(&stem, id);
    }
    let later = stem.rsplit_once('-');
    later.is_some_and(|(number, later)| {
        is_number(number, id) && later.bytes().all(|byte| byte.is_ascii_digit())
    })
}

fn is_together(name: &str) -> bool {
    TOGETHER.iter().any(|(front, end)| {
        let rest = name.strip_prefix(front);
        let rest = rest.and_then(|rest| rest.strip_suffix(end));
        rest.is_some_and(|rest| {
            let part = rest.strip_prefix('-');
            rest.is_empty()
                || part.is_some_and(|part| part.bytes().all(|byte| byte.is_ascii_digit()))
        })
    })
}

fn remove(path: &Path) -> Result<(), Failure> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(Failure::World(format!(
            "{} cannot be taken away: {error}",
            path.display()
        ))),
        _ => Ok(()),
    }
}

/// What a stop left half written goes, too; then what is gone is gone from the disk.
fn settle(folder: &Path) -> Result<(), Failure> {
    for path in files(folder)? {
        let half = path.extension().is_some_and(|ending| ending == "new");
        if half && name(&path).starts_with(".pumpwright.") {
            remove(&path)?;
        }
    }
    platform::sync_folder(folder).map_err(|error| cannot_write(folder, &error))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_begins_another_is_not_in_it() {
        for (text, is) in [
            ("001,\"Smith, Ann\"\r\n", true),
            ("\"Smith, Ann-Marie\"", false),
            ("\"Smith, Anne\" and Smith, Ann.", true),
            ("Goldsmith, Ann; McSmith, Ann", false),
            ("", false),
        ] {
            assert_eq!(is_in(text, "Smith, Ann"), is, "{text}");
        }
        assert!(!is_in("anything", ""));
    }

    #[test]
    fn what_is_made_of_several_papers_is_told_from_other_files() {
        for name in [
            "print.pdf",
            "print-2.pdf",
            "marks.csv",
            "report.html",
            "key.pdf",
        ] {
            assert!(is_together(name), "{name}");
        }
        for name in [
            "plan.toml",
            "key-019+2.pdf",
            "prints.json",
            "marks.csv.old",
            "printed",
        ] {
            assert!(!is_together(name), "{name}");
        }
    }
}
