//! What came in of a plan's papers, each hand-in in a file of its own, and what was decided
//! beside the marks.

use std::path::PathBuf;

use pumpwright_engine::classes::correct::{Correction, Place};
use pumpwright_engine::classes::marks::{Decisions, HandIn, Way};
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
                "answers another printing of paper {0} than the one that is kept here, or the paper {0} of another class",
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
        let (known, free) = self.came_of(&hand_in.paper);
        let is_known = match hand_in.way {
            Way::Screen => known.contains(hand_in),
            // What is typed or keyed once more mends the latest, be it as an earlier one was.
            way => known.iter().rfind(|own| own.way == way) == Some(hand_in),
        };
        if is_known {
            return Ok(Taken::Before);
        }
        keep(&free, &json(&Kept::of(hand_in)))?;
        Ok(Taken::In)
    }

    /// Files a row of a typed table with these columns. Where the paper was typed before the
    /// row mends what stands there, and the second of the pair says how; a row on which
    /// nothing is written takes answers back, but never all of them.
    ///
    /// # Errors
    /// When it cannot be filed.
    pub fn take_typed(
        &self,
        row: &HandIn,
        columns: &[Place],
    ) -> Result<(Taken, Option<String>), Failure> {
        let (known, _) = self.came_of(&row.paper);
        let is_empty = row.items.iter().flatten().all(String::is_empty);
        let Some(before) = known.iter().rfind(|own| own.way == Way::Typed) else {
            let taken = if is_empty {
                Taken::Before
            } else {
                self.take(row)?
            };
            return Ok((taken, None));
        };
        let mended = Correction::of(before, row, columns);
        if !mended.changed {
            return Ok((Taken::Before, None));
        }
        if is_empty && mended.is_empty() {
            let stays = "an empty row; what was typed before stays".to_owned();
            return Ok((Taken::Before, Some(stays)));
        }
        Ok((self.take(&mended.hand_in)?, Some(mended.note)))
    }

    /// What came in of a paper in the order in which it was filed, and the file for the next.
    fn came_of(&self, paper: &str) -> (Vec<HandIn>, PathBuf) {
        let folder = self.path.join("handed-in");
        let mut known = Vec::new();
        let mut number = 1_u32;
        loop {
            let name = match number {
                1 => format!("{paper}.json"),
                later => format!("{paper}-{later}.json"),
            };
            let path = folder.join(name);
            match read_as::<Kept<HandIn>>(&path) {
                Ok(Some(own)) => known.push(own.kept),
                // One that cannot be read keeps its place; marking tells of it.
                Err(_) => {}
                Ok(None) => return (known, path),
            }
            number = number.saturating_add(1);
        }
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
