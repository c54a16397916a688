//! The papers of one plan: records, files for the screen, what came in, what was decided.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::make_up::{is_make_up, nth, owner};
use pumpwright_engine::classes::marks::{Decisions, HandIn, Ready, rebuilt};
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::roster::Roster;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::{Paper, answers::Answers, json};
use pumpwright_engine::lessons::SourceFile;

use super::folder::{cannot_write, keep, text_of};
use super::kept::{Kept, names, newer, put, read_as};
use super::secret;
use crate::failure::{Failure, shown};
use crate::parts::in_parts;

/// The folder of a plan's papers.
#[derive(Debug, Clone)]
pub struct PaperFolder {
    path: PathBuf,
}

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

/// What became of a file that came in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Taken {
    /// It is filed.
    In,
    /// It was filed before.
    Before,
    /// It is left out, and why.
    Out(String),
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

    /// The numbers of the make-up papers, in order.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn make_ups(&self) -> Result<Vec<String>, Failure> {
        let mut own = self.numbers()?;
        own.retain(|number| is_make_up(number));
        Ok(own)
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

    /// The numbers of the papers, in order.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn numbers(&self) -> Result<Vec<String>, Failure> {
        let mut found = names(&self.path.join("printed"))?;
        found.sort();
        Ok(found)
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

    /// Takes in the text of a file of answers. What is left out has its sentence, behind
    /// the name of the file.
    ///
    /// # Errors
    /// When it cannot be filed.
    pub fn take_answers(&self, plan: &str, text: &str) -> Result<Taken, Failure> {
        let answers = match Answers::read(text) {
            Ok(answers) => answers,
            Err(what) => return Ok(Taken::Out(what)),
        };
        if answers.plan != plan {
            return Ok(Taken::Out(format!(
                "is of the plan {}, not of {plan}",
                shown(&answers.plan)
            )));
        }
        let known = self.numbers()?.contains(&answers.paper);
        let printed = match known.then(|| self.printed(&answers.paper)) {
            Some(Err(failure)) => {
                let why = failure.sentence().unwrap_or_default();
                return Ok(Taken::Out(format!("cannot be filed: {why}")));
            }
            Some(Ok(printed)) => printed,
            None => None,
        };
        match printed {
            None => Ok(Taken::Out(format!(
                "is of paper {}, which is not in this folder",
                shown(&answers.paper)
            ))),
            Some(printed) if printed.sit != answers.sum => Ok(Taken::Out(format!(
                "answers another printing of paper {} than the one that is kept here",
                answers.paper
            ))),
            Some(_) => self.take(&HandIn::from(answers)),
        }
    }

    /// Files a hand-in, whichever way it came; it is on the disk before this returns.
    ///
    /// # Errors
    /// When it cannot be filed.
    pub fn take(&self, hand_in: &HandIn) -> Result<Taken, Failure> {
        if !self.numbers()?.contains(&hand_in.paper) {
            return Ok(Taken::Out(format!(
                "is of paper {}, which is not in this folder",
                shown(&hand_in.paper)
            )));
        }
        for number in 1.. {
            let name = match number {
                1 => format!("{}.json", hand_in.paper),
                later => format!("{}-{later}.json", hand_in.paper),
            };
            let path = self.path.join("handed-in").join(name);
            match read_as::<Kept<HandIn>>(&path) {
                Ok(Some(known)) if known.kept == *hand_in => return Ok(Taken::Before),
                // One that cannot be read keeps its place; marking tells of it.
                Ok(Some(_)) | Err(_) => {}
                Ok(None) => {
                    keep(&path, &json(&Kept::of(hand_in)))?;
                    return Ok(Taken::In);
                }
            }
        }
        Ok(Taken::Before)
    }

    /// Everything that came in, the first of each paper before its later ones, with a
    /// line for each file that cannot be read.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn hand_ins(&self) -> Result<(Vec<HandIn>, Vec<String>), Failure> {
        let folder = self.path.join("handed-in");
        let mut found = names(&folder)?;
        // `019` before `019-2` before `019-10`.
        let order = |name: &String| {
            let (id, later) = name.rsplit_once('-').unwrap_or((name.as_str(), "1"));
            match later.parse::<u32>() {
                Ok(later) => (id.to_owned(), later),
                Err(_) => (name.clone(), 1),
            }
        };
        found.sort_by_key(order);
        let mut hand_ins = Vec::new();
        let mut notes = Vec::new();
        for name in found {
            match read_as::<Kept<HandIn>>(&folder.join(format!("{name}.json"))) {
                Ok(own) => hand_ins.extend(own.map(|own| own.kept)),
                Err(failure) => notes.extend(failure.sentence()),
            }
        }
        Ok((hand_ins, notes))
    }

    /// What was decided.
    ///
    /// # Errors
    /// When it is there and cannot be read.
    pub fn decisions(&self) -> Result<Decisions, Failure> {
        let kept = read_as::<Kept<Decisions>>(&self.path.join("decisions.json"))?;
        Ok(kept.map(|kept| kept.kept).unwrap_or_default())
    }

    /// Keeps what was decided.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_decisions(&self, decisions: &Decisions) -> Result<(), Failure> {
        keep(
            &self.path.join("decisions.json"),
            &json(&Kept::of(decisions)),
        )
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
