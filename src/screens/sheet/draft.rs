//! A half-written sheet as it is kept, and laid out again: the code of its problem
//! and what stands on it.

use std::rc::Rc;

use pumpwright_engine::entries::Purpose;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::again;
use serde::{Deserialize, Serialize};

use super::state::Sheet;
use super::time::Spent;
use crate::blank::Blank;
use crate::clerk::Draft;

/// What drafts of sheets are called.
const KIND: &str = "sheet";
/// The format of what is kept.
pub const FORMAT: u32 = 1;
/// How what cannot be laid out again is thrown away.
const THROWN: &str = "pumpwright logbook tidy throws it away";

/// What is kept of a sheet.
#[derive(Debug, Serialize, Deserialize)]
struct Kept {
    format: u32,
    code: String,
    purpose: Purpose,
    pen: usize,
    slots: Vec<String>,
    helped: Vec<usize>,
    given: Vec<bool>,
    line_by_line: bool,
    /// The lines that were checked: their place, and what was written first.
    firsts: Vec<(usize, String)>,
    sums: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    half_sums: Vec<String>,
    spent: i64,
    lines_spent: Vec<i64>,
}

impl Sheet {
    /// What is kept of the sheet; none where nothing is written or it has no id.
    pub fn draft(&self) -> Option<Draft> {
        let id = self.id?;
        if self.mending.is_some() || !self.is_begun() && self.back.is_empty() {
            return None;
        }
        let kept = Kept {
            format: FORMAT,
            code: self.problem.code.to_string(),
            purpose: self.purpose,
            pen: self.pen,
            slots: self
                .slots
                .iter()
                .map(|slot| slot.blank.text().to_owned())
                .collect(),
            helped: self.helped.clone(),
            given: self.given.clone(),
            line_by_line: self.line_by_line,
            firsts: self
                .checks
                .iter()
                .map(|check| (check.line, check.first.clone()))
                .collect(),
            sums: self.back.texts(),
            half_sums: self.back.half_typed(),
            spent: self.spent.milliseconds(),
            lines_spent: self.spent.by_line().to_vec(),
        };
        let text = serde_json::to_string(&kept).ok()?;
        let kind = KIND.to_owned();
        Some(Draft { id, kind, text })
    }

    /// The sheet of a draft; none where it is a draft of something else.
    ///
    /// # Errors
    /// A sentence where the sheet cannot be laid out again: its lesson was changed
    /// since, or is gone.
    pub fn of_draft(
        draft: &Draft,
        library: &Library,
        manner: Manner,
    ) -> Option<Result<Self, String>> {
        draft.is_a(KIND).then(|| read(draft, library, manner))
    }
}

/// What stands on a draft in words, whether or not it can be laid out again: the code
/// and what is written.
pub(crate) fn written_on(draft: &Draft) -> Option<String> {
    let kept: Kept = serde_json::from_str(&draft.text).ok()?;
    let sums = kept.sums.iter().chain(&kept.half_sums);
    let written = kept.slots.iter().chain(sums);
    let written: Vec<&str> = written
        .map(|text| text.trim())
        .filter(|text| !text.is_empty())
        .collect();
    Some(format!("{}: {}", kept.code, written.join("; ")))
}

fn read(draft: &Draft, library: &Library, manner: Manner) -> Result<Sheet, String> {
    let unreadable = |_| "a sheet that was half-written cannot be read any more".to_owned();
    let kept: Kept = serde_json::from_str(&draft.text).map_err(unreadable)?;
    if kept.format != FORMAT {
        return Err("a half-written sheet is of a newer version; it waits for that one".to_owned());
    }
    let code = kept.code.parse();
    let problem = code
        .map_err(|fault: pumpwright_engine::problems::CodeFault| fault.to_string())
        .and_then(|code| again(library, &code).map_err(|fault| fault.to_string()))
        .map_err(|fault| {
            format!("a half-written sheet cannot be laid out again: {fault} ({THROWN})")
        })?;
    let mut sheet = Sheet::new(Rc::new(problem), manner)
        .line_by_line(kept.line_by_line)
        .with_id(draft.id, kept.purpose);
    for (slot, text) in sheet.slots.iter_mut().zip(&kept.slots) {
        slot.blank = Blank::holding(text);
    }
    sheet.pen = kept.pen.min(sheet.slots.len().saturating_sub(1));
    let lines = sheet.problem.lines.len();
    sheet.helped = kept.helped;
    sheet.helped.resize(lines, 0);
    sheet.given = kept.given;
    sheet.given.resize(lines, false);
    sheet.spent = Spent::kept(kept.spent.max(0), kept.lines_spent);
    sheet.back.work_again(&kept.sums, &sheet.problem, manner);
    sheet.back.type_again(&kept.half_sums);
    for (line, first) in kept.firsts {
        sheet.check_again(line, first);
    }
    Ok(sheet)
}
