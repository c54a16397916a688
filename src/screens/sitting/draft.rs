//! A sitting as it is kept, and laid out again after a stop: the code of its paper, when
//! it began, and what is written.

use std::collections::BTreeSet;
use std::rc::Rc;

use pumpwright_engine::entries::Id;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::papers::{PaperCode, paper_again};
use serde::{Deserialize, Serialize};

use super::clock::Clock;
use super::state::Sitting;
use crate::blank::Blank;
use crate::clerk::Draft;
use crate::exam::Stopped;
use crate::sheet::Spent;

/// What drafts of sittings are called.
const KIND: &str = "exam";
/// The format of what is kept.
pub const FORMAT: u32 = 1;

/// What is kept of a sitting.
#[derive(Debug, Serialize, Deserialize)]
struct Kept {
    format: u32,
    paper: String,
    started: i64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    minutes: Option<u32>,
    /// The latest time that was seen.
    seen: i64,
    at: usize,
    aside: BTreeSet<usize>,
    handed_in: bool,
    questions: Vec<Question>,
}

/// What is kept of a question.
#[derive(Debug, Serialize, Deserialize)]
struct Question {
    id: Id,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    slots: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    sums: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    half_sums: Vec<String>,
    #[serde(default)]
    spent: i64,
}

/// A sitting that was left, before it is laid out again.
#[derive(Debug)]
pub struct Left {
    id: Id,
    kept: Kept,
}

impl Sitting {
    /// What is kept of it.
    pub fn draft(&self) -> Option<Draft> {
        let questions = self.sheets.iter().map(|sheet| {
            let slots = sheet.slots.iter().map(|slot| slot.blank.text().to_owned());
            let slots: Vec<String> = slots.collect();
            let written = slots.iter().any(|text| !text.is_empty());
            Some(Question {
                id: sheet.id?,
                slots: if written { slots } else { Vec::new() },
                sums: sheet.back.texts(),
                half_sums: sheet.back.half_typed(),
                spent: sheet.spent.milliseconds(),
            })
        });
        let kept = Kept {
            format: FORMAT,
            paper: self.paper.code.to_string(),
            started: self.clock.started,
            minutes: self.clock.minutes,
            seen: self.clock.now,
            at: self.at,
            aside: self.aside.clone(),
            handed_in: self.handed_in,
            questions: questions.collect::<Option<_>>()?,
        };
        Some(Draft {
            id: self.id,
            kind: KIND.to_owned(),
            text: serde_json::to_string(&kept).ok()?,
        })
    }
}

impl Left {
    /// The sitting of a draft; none where it is a draft of something else.
    ///
    /// # Errors
    /// A sentence where it cannot be read.
    pub fn of_draft(draft: &Draft) -> Option<Result<Self, String>> {
        draft.is_a(KIND).then(|| read(draft))
    }

    /// The id of the sitting.
    pub const fn id(&self) -> Id {
        self.id
    }

    fn clock(&self, now: i64) -> Clock {
        Clock {
            started: self.kept.started,
            minutes: self.kept.minutes,
            now: self.kept.seen.max(now),
        }
    }

    /// Whether it is to be handed in as it stands: its time is up, or it was handed in
    /// and stopped before everything was written down.
    pub fn is_over(&self, now: i64) -> bool {
        self.kept.handed_in || self.clock(now).is_up()
    }

    /// How it stands in the list of papers.
    pub fn stopped(&self, library: &Library, now: i64) -> Stopped {
        let exam = self.kept.paper.split('.').next().unwrap_or_default();
        let title = library.exams().iter().find(|known| known.id == exam);
        let left = match self.clock(now).minutes_left() {
            Some(left) => format!("{} left", super::duration(left)),
            None => "no clock".to_owned(),
        };
        Stopped {
            id: self.id,
            title: title.map_or(exam, |exam| &exam.title).to_owned(),
            words: format!("question {}, {left}", self.kept.at + 1),
        }
    }

    /// Lays the sitting out again.
    ///
    /// # Errors
    /// A sentence where its paper cannot be drawn any more: lessons or program changed.
    pub fn lay_out(self, library: &Library, manner: Manner, now: i64) -> Result<Sitting, String> {
        let changed =
            |why: String| format!("the exam that was stopped cannot be laid out again: {why}");
        let code: PaperCode = self
            .kept
            .paper
            .parse()
            .map_err(|fault: pumpwright_engine::problems::CodeFault| changed(fault.to_string()))?;
        let paper = paper_again(library, &code).map_err(|fault| changed(fault.to_string()))?;
        let clock = self.clock(now);
        let kept = self.kept;
        let mut ids = kept.questions.iter().map(|question| question.id);
        let own = self.id;
        let mut first = true;
        let mut sitting = Sitting::new(Rc::new(paper), manner, clock, || {
            if std::mem::take(&mut first) {
                own
            } else {
                ids.next().unwrap_or(own)
            }
        });
        for (sheet, question) in sitting.sheets.iter_mut().zip(&kept.questions) {
            for (slot, text) in sheet.slots.iter_mut().zip(&question.slots) {
                slot.blank = Blank::holding(text);
            }
            sheet.spent = Spent::kept(question.spent.max(0), Vec::new());
            let problem = Rc::clone(&sheet.problem);
            sheet.back.work_again(&question.sums, &problem, manner);
            sheet.back.type_again(&question.half_sums);
        }
        let count = sitting.sheets.len();
        sitting.aside = kept.aside.into_iter().filter(|at| *at < count).collect();
        sitting.handed_in = kept.handed_in;
        sitting.open(kept.at);
        Ok(sitting)
    }
}

fn read(draft: &Draft) -> Result<Left, String> {
    let unreadable = |_| "an exam that was stopped cannot be read any more".to_owned();
    let kept: Kept = serde_json::from_str(&draft.text).map_err(unreadable)?;
    if kept.format != FORMAT {
        return Err("an exam that was stopped is of a newer version; it waits for that one".into());
    }
    Ok(Left { id: draft.id, kept })
}
