//! The shape that `logbook show --json` prints. It is a promise to scripts, as those
//! of the other commands are.

use serde::Serialize;

use super::show::{Met, Shown, stage};
use crate::commands::json::FORMAT;
use crate::logbook::times;
use pumpwright_engine::entries::Entry;

/// A person's record in short.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Logbook {
    /// See [`FORMAT`].
    pub format: u32,
    /// Where the logbook lies.
    pub file: String,
    /// Whose record it is.
    pub person: String,
    /// How many sheets there are of theirs.
    pub sheets: usize,
    /// Who else has sheets there.
    pub others: Vec<Other>,
    /// How many families there are in the lessons.
    pub families: usize,
    /// Each family that was met.
    pub standing: Vec<Stands>,
    /// The last sheets, the latest first.
    pub latest: Vec<Latest>,
}

/// Somebody else with sheets in the logbook.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Other {
    /// The name.
    pub person: String,
    /// How many sheets there are.
    pub sheets: usize,
}

/// Where the person stands in a family.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stands {
    /// Its id.
    pub family: String,
    /// Its lesson.
    pub lesson: String,
    /// Its title.
    pub title: String,
    /// `building`, `holding` or `slipping`.
    pub stage: String,
    /// The chance of a right line at home level, now.
    pub success: f64,
    /// The lower end of its 80 % interval.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// How sure it is that the chance is at the mark of holding or above.
    pub sure: f64,
    /// Days until a refresher is due; null where none is.
    pub due_in: Option<i32>,
    /// Sheets of it that counted.
    pub sheets: u32,
}

/// One of the last sheets.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Latest {
    /// Its id.
    pub id: String,
    /// When it was handed in, in world time.
    pub at: String,
    /// The minutes that the person's clock was ahead of it.
    pub zone: i32,
    /// The code of the problem.
    pub code: String,
    /// Its family.
    pub family: String,
    /// What it was done for.
    pub purpose: String,
    /// Where it was done.
    pub place: String,
    /// The marks earned.
    pub marks: f64,
    /// The marks that could be earned.
    pub out_of: f64,
    /// Seconds that it took.
    pub seconds: u32,
}

impl Logbook {
    /// The shape of what is shown.
    pub fn of(shown: &Shown) -> Self {
        let file = shown.desk.file.as_deref();
        let others = shown.others.iter();
        let others = others.map(|(person, sheets)| Other {
            person: person.clone(),
            sheets: *sheets,
        });
        Self {
            format: FORMAT,
            file: file
                .map(|file| file.display().to_string())
                .unwrap_or_default(),
            person: shown.desk.person.clone(),
            sheets: shown.sheets,
            others: others.collect(),
            families: shown.families,
            standing: shown.met.iter().map(stands).collect(),
            latest: shown.latest.iter().map(latest).collect(),
        }
    }
}

fn stands(met: &Met) -> Stands {
    let standing = &met.standing;
    Stands {
        family: met.id.clone(),
        lesson: met.lesson.clone(),
        title: met.title.clone(),
        stage: stage(standing.stage).to_owned(),
        success: standing.success,
        low: standing.between.0,
        high: standing.between.1,
        sure: standing.sure,
        due_in: standing.due_in,
        sheets: met.responses,
    }
}

fn latest(entry: &Entry) -> Latest {
    Latest {
        id: entry.id.to_string(),
        at: times::world(entry.at),
        zone: entry.zone,
        code: entry.code.clone(),
        family: entry.family.clone(),
        purpose: entry.purpose.name().to_owned(),
        place: entry.place.name().to_owned(),
        marks: entry.marks,
        out_of: entry.out_of,
        seconds: entry.seconds,
    }
}
