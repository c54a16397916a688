//! Papers as they were made: the record of each, the lesson text that it was drawn from, and
//! its file for the screen. Of its record a paper is made again, and made ready to be marked.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use pumpwright_engine::classes::make_up::{nth, owner};
use pumpwright_engine::classes::marks::{Ready, rebuilt};
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::{Paper, json};

use super::PaperFolder;
use crate::classroom::folder::{cannot_write, keep};
use crate::classroom::kept::{newer, put, read_as};
use crate::failure::Failure;
use crate::parts::in_parts;

/// What became of a paper that was to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Made {
    /// It is new.
    New,
    /// It was there, and would be drawn the same again.
    There,
    /// It was there and stays, though it would be drawn otherwise now.
    Stays,
    /// Its record could not be read; it is drawn again, and the damaged one lies here.
    Again(PathBuf),
}

impl PaperFolder {
    /// Keeps the lesson text of papers, once.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_lessons(&self, text: &LessonText) -> Result<(), Failure> {
        let path = self
            .path
            .join("lessons")
            .join(format!("{}.json", text.sum()));
        if read_as::<LessonText>(&path).is_ok_and(|kept| kept.is_some()) {
            return Ok(());
        }
        keep(&path, &json(text))
    }

    /// Keeps a paper: its record, then its file for the screen. One that is there stays.
    ///
    /// These are not waited for on the disk one by one: what a power cut takes is made
    /// again from the key, the same to the last byte.
    ///
    /// Beside what became of it stands the record that is kept now.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_paper(
        &self,
        paper: &Paper,
        lessons: &str,
    ) -> Result<(Made, PrintedPaper), Failure> {
        let sit = SitPaper::of(paper);
        let printed = PrintedPaper::of(paper, lessons, &sit.sum());
        let number = &paper.person.id;
        let record = self.path.join("printed").join(format!("{number}.json"));
        let screen = self.screen(number);
        let made = match read_as::<PrintedPaper>(&record) {
            Ok(Some(kept)) if kept == printed => Made::There,
            // Who is called otherwise now has the paper that was printed.
            Ok(Some(kept)) if kept.items == printed.items && kept.head == printed.head => {
                return Ok((Made::There, kept));
            }
            Ok(Some(kept)) => return Ok((Made::Stays, kept)),
            // A newer program's record is none of ours to replace.
            Err(failure)
                if fs::read_to_string(&record).is_ok_and(|text| newer(&text).is_some()) =>
            {
                return Err(failure);
            }
            Ok(None) => {
                put(&record, &json(&printed))?;
                Made::New
            }
            // The paper in somebody's hand may be another than would be drawn today, so
            // what is left of its record is kept.
            Err(Failure::Input(_)) => {
                let aside = record.with_extension("damaged");
                fs::rename(&record, &aside).map_err(|error| cannot_write(&aside, &error))?;
                put(&record, &json(&printed))?;
                Made::Again(aside)
            }
            Err(failure) => return Err(failure),
        };
        let text = sit.text();
        if fs::read_to_string(&screen).ok().as_ref() != Some(&text) {
            put(&screen, &text)?;
        }
        Ok((made, printed))
    }

    /// Whether a paper's file for the screen is there.
    pub fn has_screen(&self, number: &str) -> bool {
        self.screen(number).is_file()
    }

    fn screen(&self, number: &str) -> PathBuf {
        self.path.join("screen").join(format!("{number}.json"))
    }

    /// Makes the file for the screen again of a paper that was made again of its record.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn mend_screen(&self, paper: &Paper, printed: &PrintedPaper) -> Result<(), Failure> {
        let sit = SitPaper::of(paper);
        // Answers know their paper by its sum: another file would be no use to anybody.
        if sit.sum() == printed.sit && !self.has_screen(&paper.person.id) {
            put(&self.screen(&paper.person.id), &sit.text())?;
        }
        Ok(())
    }

    /// The record of a paper; none where there is none.
    ///
    /// # Errors
    /// When it is there and cannot be read.
    pub fn printed(&self, id: &str) -> Result<Option<PrintedPaper>, Failure> {
        read_as(&self.path.join("printed").join(format!("{id}.json")))
    }

    /// The records of somebody's papers, the first one first.
    ///
    /// # Errors
    /// When one cannot be read.
    pub fn papers_of(&self, id: &str) -> Result<Vec<PrintedPaper>, Failure> {
        let mut own = self.numbers()?;
        own.retain(|number| owner(number) == id);
        own.sort_by_key(|number| nth(number));
        let records = own.iter().map(|number| self.printed(number));
        records.filter_map(Result::transpose).collect()
    }

    /// The paper of a record, as it is printed once more.
    ///
    /// # Errors
    /// Why it cannot be made again.
    pub fn again(&self, printed: &PrintedPaper) -> Result<Paper, String> {
        let path = self.path.join("lessons");
        let path = path.join(format!("{}.json", printed.lessons));
        let said = |failure: Failure| failure.sentence().unwrap_or_default();
        let text = read_as::<LessonText>(&path).map_err(said)?;
        let text = text.ok_or_else(|| format!("{} is missing", path.display()))?;
        let paper = printed.paper(&text.library());
        paper.map_err(|fault| fault.to_string())
    }

    /// Every paper ready to be marked by, with a line for each record that cannot be read.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn ready(&self) -> Result<(BTreeMap<String, Ready>, Vec<String>), Failure> {
        let mut drawn: BTreeMap<String, (Vec<String>, Vec<PrintedPaper>)> = BTreeMap::new();
        let mut ready = BTreeMap::new();
        let mut notes = Vec::new();
        for id in self.numbers()? {
            match self.printed(&id) {
                Ok(Some(printed)) => {
                    let (ids, papers) = drawn.entry(printed.lessons.clone()).or_default();
                    ids.push(id);
                    papers.push(printed);
                }
                Ok(None) => {}
                Err(failure) => notes.extend(failure.sentence()),
            }
        }
        for (sum, (ids, papers)) in drawn {
            let path = self.path.join("lessons").join(format!("{sum}.json"));
            match read_as::<LessonText>(&path) {
                Ok(Some(text)) => {
                    let library = text.library();
                    let problems = in_parts(&papers, |part| rebuilt(part, &library));
                    let made = papers.into_iter().zip(problems);
                    let made = made.map(|(printed, problems)| Ready { printed, problems });
                    ready.extend(ids.into_iter().zip(made));
                }
                Ok(None) => notes.push(format!(
                    "{} is missing; papers drawn from it cannot be marked until it is back",
                    path.display()
                )),
                Err(failure) => notes.extend(failure.sentence()),
            }
        }
        notes.dedup();
        Ok((ready, notes))
    }
}
