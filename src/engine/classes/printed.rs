//! What the instructor's folder keeps of every paper as it was printed, from which it is
//! marked: a newer program, a changed lesson or a lost key takes nothing away from it.
//! The text of the lessons, tables and rules is kept once for all papers drawn from it.

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::paper::{Head, Paper, PaperItem};
use super::plan::read::lay_rules;
use super::roster::Person;
use crate::lessons::{Library, SourceFile};
use crate::problems::random::hex;
use crate::problems::{KeptFault, KeptProblem, Rebuilder, Rebuilt};

/// The format of what is kept.
pub const FORMAT: u32 = 1;

/// A paper as it was printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintedPaper {
    /// The format of the file.
    pub format: u32,
    /// The head.
    pub head: Head,
    /// Whose it is.
    pub person: Person,
    /// Which version, where several people have the same one.
    pub version: Option<u32>,
    /// The sum of the [`LessonText`] that it was drawn from.
    pub lessons: String,
    /// The sum of its file for the screen, see [`super::sit`].
    pub sit: String,
    /// The marks to be expected of it.
    pub expected: f64,
    /// The items in the order of the paper.
    pub items: Vec<PrintedItem>,
}

/// An item as it was printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintedItem {
    /// Its number on the paper, from one.
    pub number: usize,
    /// Its place in the plan, from zero: the same item on other papers.
    pub place: usize,
    /// The job in a few words.
    pub title: String,
    /// The problem.
    pub problem: KeptProblem,
}

impl PrintedPaper {
    /// What is kept of a paper: `lessons` and `sit` are the sums of the text that it was
    /// drawn from and of its file for the screen.
    pub fn of(paper: &Paper, lessons: &str, sit: &str) -> Self {
        let items = paper.items.iter().map(|item| PrintedItem {
            number: item.number,
            place: item.place,
            title: item.problem.family.title.clone(),
            problem: KeptProblem::of(&item.problem),
        });
        Self {
            format: FORMAT,
            head: paper.head.clone(),
            person: paper.person.clone(),
            version: paper.version,
            lessons: lessons.to_owned(),
            sit: sit.to_owned(),
            expected: paper.expected,
            items: items.collect(),
        }
    }

    /// The paper again, as it is printed once more, from a library that
    /// [`LessonText::library`] gave.
    ///
    /// # Errors
    /// Why an item cannot be made again.
    pub fn paper(&self, library: &Library) -> Result<Paper, KeptFault> {
        let items = self.items.iter().zip(self.rebuild(library));
        let items = items.map(|(item, rebuilt)| {
            let problem = rebuilt?.problem;
            Ok(PaperItem {
                number: item.number,
                place: item.place,
                marks: problem.marks(),
                problem: Arc::new(problem),
            })
        });
        Ok(Paper {
            head: self.head.clone(),
            person: self.person.clone(),
            version: self.version,
            items: items.collect::<Result<_, KeptFault>>()?,
            expected: self.expected,
            coincide: 0,
        })
    }

    /// The sum of the record.
    pub fn sum(&self) -> String {
        short(&Sha256::digest(super::json(self).as_bytes()))
    }

    /// What an item bears, by its number in the plan from one.
    pub fn bears(&self, item: usize) -> u32 {
        let own = self
            .items
            .iter()
            .filter(|own| Some(own.place) == item.checked_sub(1));
        own.fold(0, |sum, own| sum.saturating_add(own.problem.marks()))
    }

    /// The problems again, item by item, from a library that [`LessonText::library`]
    /// gave. An item that cannot be made again stops no other.
    pub fn rebuild(&self, library: &Library) -> Vec<Result<Rebuilt, KeptFault>> {
        self.rebuilt_by(&mut Rebuilder::of(library))
    }

    /// The same, where several papers are of one library.
    pub fn rebuilt_by(&self, rebuilder: &mut Rebuilder<'_>) -> Vec<Result<Rebuilt, KeptFault>> {
        let items = self.items.iter();
        items.map(|item| rebuilder.problem(&item.problem)).collect()
    }
}

/// The text of lessons, tables and rules as it was when papers were printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LessonText {
    /// The format of the file.
    pub format: u32,
    /// The plan.
    pub plan: KeptFile,
    /// The class's own rules file, where there was one.
    pub rules: Option<KeptFile>,
    /// The files that the families rest on.
    pub files: Vec<KeptFile>,
}

/// A file as it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptFile {
    /// Its path as it was shown.
    pub path: String,
    /// Its text.
    pub text: String,
}

impl KeptFile {
    fn of(file: &SourceFile) -> Self {
        Self {
            path: file.path.clone(),
            text: file.text.clone(),
        }
    }

    fn source(&self) -> SourceFile {
        SourceFile {
            path: self.path.clone(),
            text: self.text.clone(),
        }
    }
}

impl LessonText {
    /// What the families of a plan rest on: their own files, all tables, rules, sheets
    /// and sources.
    pub fn of(
        files: &[SourceFile],
        library: &Library,
        plan: (&super::plan::Plan, &SourceFile),
        rules: Option<&SourceFile>,
    ) -> Self {
        let named = plan.0.items.iter().flat_map(|item| &item.families);
        let paths: Vec<&str> = named
            .filter_map(|family| library.family(&family.family))
            .map(|family| family.file.as_str())
            .collect();
        let shared = |path: &str| {
            let in_folder = |folder: &str| path.rsplit('/').nth(1) == Some(folder);
            let name = path.rsplit('/').next().unwrap_or_default();
            in_folder("tables")
                || in_folder("sources")
                || matches!(name, "rules.toml" | "sheets.toml")
        };
        let kept = files.iter();
        let kept = kept.filter(|file| shared(&file.path) || paths.contains(&file.path.as_str()));
        Self {
            format: FORMAT,
            plan: KeptFile::of(plan.1),
            rules: rules.map(KeptFile::of),
            files: kept.map(KeptFile::of).collect(),
        }
    }

    /// The sum that names it. The paths are left out of it: the same text from another
    /// folder is the same text.
    pub fn sum(&self) -> String {
        let mut hash = Sha256::new();
        hash.update(b"pumpwright lesson text 1");
        let rules = self.rules.iter();
        let mut texts: Vec<&str> = self.files.iter().map(|file| file.text.as_str()).collect();
        texts.sort_unstable();
        let heads = std::iter::once(&self.plan).chain(rules);
        for text in heads.map(|file| file.text.as_str()).chain(texts) {
            hash.update((text.len() as u64).to_be_bytes());
            hash.update(text.as_bytes());
        }
        short(&hash.finalize())
    }

    /// The library of the time.
    pub fn library(&self) -> Library {
        let files: Vec<SourceFile> = self.files.iter().map(KeptFile::source).collect();
        let (mut library, _) = match &self.rules {
            Some(rules) => Library::read_under(&files, &rules.source()),
            None => Library::read(&files),
        };
        lay_rules(&mut library, &self.plan.source());
        library
    }
}

/// The start of a sum, as file names and files for others have it.
pub(super) fn short(sum: &[u8]) -> String {
    hex(sum).chars().take(32).collect()
}
