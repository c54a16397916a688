//! What a class's papers are printed from: one PDF a paper, one to print with all of them,
//! and for the instructor key and strips. The files are made of papers, never the other way
//! round, so each that is missing is made again, the same to the last byte.
//!
//! Papers come one after the other and are printed a class at a time: so many stand in one
//! file and in memory at once, and no more. `pages` has what the press prints of a paper,
//! `known` which files are as they should be, `jobs` the work on several cores.

mod jobs;
mod known;
pub(super) mod pages;

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use pumpwright_engine::classes::Paper;
use pumpwright_engine::classes::marks::Ready;
use pumpwright_engine::classes::plan::Versions;
use pumpwright_engine::classes::roster::{Person, Roster};
use pumpwright_press::pdf::{Format, MOST_TOGETHER, PdfFault, unknown_sign};

use self::jobs::{Job, print};
use self::known::{Known, sum_of};
use super::PaperFolder;
use super::folder::cannot_write;
use crate::console::Console;
use crate::failure::Failure;
use crate::own_file;

/// The paper in the printer for a folder whose papers are made: as they were printed, else
/// as the units have it.
///
/// # Errors
/// When what is kept cannot be read.
pub fn format_of(folder: &PaperFolder, ready: &BTreeMap<String, Ready>) -> Result<Format, Failure> {
    let units = ready
        .values()
        .next()
        .map_or("us", |own| own.printed.head.units.as_str());
    Known::open(folder.path(), None, usual(units)).map(|known| known.format())
}

/// Prints anew what is made of several papers, of their records, in the order of the list.
///
/// # Errors
/// When a file cannot be written.
pub fn anew(folder: &PaperFolder, roster: &Roster, console: &mut Console) -> Result<(), Failure> {
    let mut printer = None;
    for person in &roster.people {
        let Ok(Some(printed)) = folder.printed(&person.id) else {
            continue;
        };
        let paper = match folder.again(&printed) {
            Ok(paper) => paper,
            Err(why) => {
                console.note(format_args!("note: paper {} has no PDF: {why}", person.id));
                continue;
            }
        };
        let printer = match &mut printer {
            Some(printer) => printer,
            None => {
                let versions = paper.version.map_or(Versions::OneEach, Versions::Some);
                let usual = usual(&paper.head.units);
                let of = (&*paper.head.title, versions);
                printer.insert(Printer::open(folder, (None, usual), of)?)
            }
        };
        printer.add(paper, printed.sum(), console)?;
    }
    match printer {
        Some(printer) => printer.end(console).map(|_| ()),
        None => Ok(()),
    }
}

/// The paper in the printer that goes with units.
fn usual(units: &str) -> Format {
    if units == "si" {
        Format::A4
    } else {
        Format::Letter
    }
}

/// The files of a paper that stands in none with others: its own, its key, its strip.
fn alone(number: &str) -> [String; 3] {
    [
        format!("papers/{number}.pdf"),
        format!("key-{number}.pdf"),
        format!("strip-{number}.pdf"),
    ]
}

/// Prints the papers of a plan.
pub struct Printer {
    folder: PathBuf,
    known: Known,
    /// Whether there is a key for each version instead of one for each paper.
    by_version: bool,
    /// The papers of the part that is being gathered, with the sums of their records.
    part: Vec<(Paper, String)>,
    /// How many parts are printed.
    parts: usize,
    /// The versions whose key stands in the key, one paper of each.
    versions: Vec<Paper>,
    told: BTreeSet<String>,
    /// How many papers are printed.
    printed: usize,
    /// The files that were written.
    written: Vec<String>,
}

impl Printer {
    /// Ready to print into a folder. Without a format it is the one of the last time, else
    /// `usual`.
    ///
    /// # Errors
    /// When the title cannot be printed, or the folder cannot be read or made.
    pub fn open(
        folder: &PaperFolder,
        (asked, usual): (Option<Format>, Format),
        (title, versions): (&str, Versions),
    ) -> Result<Self, Failure> {
        if let Some(sign) = unknown_sign(title) {
            let fault = PdfFault::Sign {
                text: title.to_owned(),
                sign,
            };
            return Err(Failure::Input(format!(
                "{fault}, or leave the PDFs out by --no-pdf"
            )));
        }
        jobs::get_ready();
        let papers = folder.path().join("papers");
        std::fs::create_dir_all(&papers).map_err(|error| cannot_write(&papers, &error))?;
        Ok(Self {
            folder: folder.path().to_owned(),
            known: Known::open(folder.path(), asked, usual)?,
            by_version: matches!(versions, Versions::Some(_)),
            part: Vec::new(),
            parts: 0,
            versions: Vec::new(),
            told: BTreeSet::new(),
            printed: 0,
            written: Vec::new(),
        })
    }

    /// Takes the next paper; `sum` is that of its record. Whose name the letters of the
    /// program cannot print gets a line to write it on.
    ///
    /// # Errors
    /// When a file cannot be written.
    pub fn add(&mut self, paper: Paper, sum: String, console: &mut Console) -> Result<(), Failure> {
        let paper = self.with_letters(paper, console);
        if let Some(version) = paper.version
            && self.versions.iter().all(|own| own.version != Some(version))
        {
            self.versions.push(paper.clone());
        }
        self.part.push((paper, sum));
        if self.part.len() == MOST_TOGETHER {
            self.print_part(console)?;
        }
        Ok(())
    }

    /// A paper whose name can be printed.
    fn with_letters(&mut self, mut paper: Paper, console: &mut Console) -> Paper {
        if let Some(sign) = unknown_sign(&paper.person.name) {
            let Person { id, name } = &paper.person;
            if self.told.insert(id.clone()) {
                console.note(format_args!(
                    "note: {name} has a sign that the program's letters lack, {sign:?}; paper {id} has a line to write the name on"
                ));
            }
            paper.person.name.clear();
        }
        paper
    }

    /// Whether everything that [`Self::alone`] makes of a paper is there.
    pub fn is_there_alone(&self, number: &str, sum: &String) -> bool {
        let names = alone(number);
        let [paper, others @ ..] = &names;
        self.known.is_there(&self.folder, paper, None)
            && (others.iter()).all(|name| self.known.is_there(&self.folder, name, Some(sum)))
    }

    /// Prints a paper that stands in no file with others: its own, its key and its strip.
    ///
    /// # Errors
    /// When a file cannot be written.
    pub fn alone(
        &mut self,
        paper: Paper,
        sum: String,
        console: &mut Console,
    ) -> Result<(), Failure> {
        let paper = self.with_letters(paper, console);
        let [own, key, strip] = alone(&paper.person.id);
        let missing = !self.known.is_there(&self.folder, &own, None);
        let set: Vec<&Paper> = missing.then_some(&paper).into_iter().collect();
        let pages = jobs::set(&set, self.known.format())?;
        let mut jobs = vec![
            (Job::Key(key, vec![&paper]), Some(sum.clone())),
            (Job::Strips(strip, vec![&paper]), Some(sum)),
        ];
        if let Some(pages) = &pages {
            jobs.push((Job::Together(own, pages), None));
        }
        self.run(jobs)
    }

    /// Prints what is left. Says which files were written.
    ///
    /// # Errors
    /// When a file cannot be written.
    pub fn end(mut self, console: &mut Console) -> Result<Vec<String>, Failure> {
        if !self.part.is_empty() {
            self.print_part(console)?;
        }
        if !self.versions.is_empty() {
            let mut versions = std::mem::take(&mut self.versions);
            versions.sort_by_key(|paper| paper.version);
            let key = Job::Key("key.pdf".to_owned(), versions.iter().collect());
            let sum = sum_of(versions.iter().map(|own| format!("{:?}", own.version)));
            self.run(vec![(key, Some(sum))])?;
        }
        self.known.keep(&self.folder)?;
        Ok(self.written)
    }

    /// Prints a part: what of it is not there yet.
    fn print_part(&mut self, console: &mut Console) -> Result<(), Failure> {
        self.parts += 1;
        let part = std::mem::take(&mut self.part);
        let sum = sum_of(part.iter().map(|(_, sum)| sum.clone()));
        let papers: Vec<&Paper> = part.iter().map(|(paper, _)| paper).collect();
        let number = self.parts;
        let named = |what: &str| match number {
            1 => format!("{what}.pdf"),
            later => format!("{what}-{later}.pdf"),
        };
        let print = named("print");
        let own = |paper: &Paper| format!("papers/{}.pdf", paper.person.id);
        let is_there = |name: &str, sum| self.known.is_there(&self.folder, name, sum);
        // All are set where they are printed together, else those that lack their own.
        let together = !is_there(&print, Some(&sum));
        let set: Vec<&Paper> = papers
            .iter()
            .copied()
            .filter(|paper| together || !is_there(&own(paper), None))
            .collect();
        if let Some(pages) = jobs::set(&set, self.known.format())? {
            // The longest first, so that no core waits for it at the end.
            let mut jobs = Vec::new();
            if together {
                jobs.push((Job::Together(print, &pages), Some(sum.clone())));
            }
            let alone = set.iter().enumerate();
            jobs.extend(alone.map(|(at, paper)| (Job::Alone(own(paper), &pages, at), None)));
            self.run(jobs)?;
        }
        // What the instructor has of them comes when the papers' pages are given up: so it
        // takes no memory beside theirs.
        let mut jobs = Vec::new();
        if !self.by_version {
            jobs.push((Job::Key(named("key"), papers.clone()), Some(sum.clone())));
        }
        jobs.push((Job::Strips(named("strips"), papers), Some(sum)));
        if self.is_long() {
            for job in jobs {
                self.run(vec![job])?;
            }
        } else {
            self.run(jobs)?;
        }
        self.printed += part.len();
        if self.is_long() {
            console.note(format_args!(
                "note: {} papers are printed, the last of them in {}",
                self.printed,
                named("print")
            ));
        }
        Ok(())
    }

    /// Whether there are more papers than one class has. Their key and their strips are set one
    /// after the other, and what the typesetter remembers is dropped before it goes on: a class
    /// is printed sooner without either, a thousand papers take less memory with both.
    fn is_long(&self) -> bool {
        self.parts > 1
    }

    /// Does the jobs whose files are not as they should be.
    fn run(&mut self, jobs: Vec<(Job<'_>, Option<String>)>) -> Result<(), Failure> {
        let missing = |(job, sum): &(Job<'_>, Option<String>)| {
            !self.known.is_there(&self.folder, job.name(), sum.as_ref())
        };
        let jobs: Vec<(Job<'_>, Option<String>)> = jobs.into_iter().filter(missing).collect();
        let format = self.known.format();
        let only: Vec<&Job<'_>> = jobs.iter().map(|(job, _)| job).collect();
        let mut failed = None;
        print(&only, format, |at, made| {
            let Some((job, sum)) = jobs.get(at) else {
                return true;
            };
            let path = self.folder.join(job.name());
            let done = made
                .map_err(|fault| Failure::Input(fault.to_string()))
                .and_then(|bytes| {
                    own_file::put(&path, &bytes).map_err(|error| cannot_write(&path, &error))
                });
            match done {
                Ok(()) => {
                    self.written.push(job.name().to_owned());
                    self.known.made(job.name(), sum.clone());
                }
                Err(failure) => failed = Some(failure),
            }
            failed.is_none()
        });
        if self.is_long() {
            jobs::forget();
        } else {
            jobs::forget_meanwhile();
        }
        if let Some(failure) = failed {
            return Err(failure);
        }
        if jobs.is_empty() {
            return Ok(());
        }
        self.known.keep(&self.folder)
    }
}
