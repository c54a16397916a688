//! What came in of a plan's papers, each hand-in in a file of its own, and what was decided
//! beside the marks.

use pumpwright_engine::classes::marks::{Decisions, HandIn};
use pumpwright_engine::classes::{answers::Answers, json};

use super::PaperFolder;
use crate::classroom::folder::keep;
use crate::classroom::kept::{Kept, names, read_as};
use crate::failure::{Failure, shown};

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
            // Why it cannot be read is told where everything is made ready to be marked.
            Some(Err(_)) => {
                return Ok(Taken::Out(format!(
                    "is of paper {}, whose record cannot be read",
                    answers.paper
                )));
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

    /// Whether the folder has the record of a paper, and it cannot be read.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn is_unread(&self, paper: &str) -> Result<bool, Failure> {
        let known = self.numbers()?.iter().any(|own| own == paper);
        Ok(known && self.printed(paper).is_err())
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
}
