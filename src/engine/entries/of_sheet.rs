//! The entry that a marked sheet makes.

use super::entry::{Entry, FORMAT, GivenEntry, LineEntry, Place, Purpose};
use super::id::Id;
use crate::learner::outcome;
use crate::marking::Marked;
use crate::problems::{Asks, Problem, working};

/// What is not on the sheet: who did it, when, where and what for.
#[derive(Debug, Clone, PartialEq)]
pub struct Circumstances {
    /// The id that the entry gets.
    pub id: Id,
    /// Whose it is.
    pub person: String,
    /// When it was handed in: milliseconds since 1970, UTC.
    pub at: i64,
    /// How far the person's clock is ahead of UTC, in minutes.
    pub zone: i32,
    /// What it was done for.
    pub purpose: Purpose,
    /// Where it was done.
    pub place: Place,
    /// Seconds that the whole sheet took.
    pub seconds: u32,
    /// The steps of help that were opened, line by line of the problem; lines beyond
    /// the end had none.
    pub helped: Vec<usize>,
    /// Seconds that each line took, where known.
    pub line_seconds: Vec<Option<u32>>,
    /// Which lines stood there filled in.
    pub given: Vec<bool>,
    /// The version of the program.
    pub program: String,
}

/// The entry of a sheet that was handed in and marked by its first writing.
pub fn entry(problem: &Problem, marked: &Marked, by: Circumstances) -> Entry {
    let worked = working(problem);
    let lines = problem.lines.iter().enumerate().filter_map(|(at, line)| {
        let marked = marked.lines.iter().find(|marked| marked.id == line.id)?;
        let expected = worked.iter().find(|worked| worked.id == line.id);
        let step = problem.variant.steps.get(line.step)?;
        let helped = by.helped.get(at).copied().unwrap_or(0);
        Some(LineEntry {
            id: line.id.clone(),
            label: line.label.clone(),
            typed: marked.typed.clone(),
            expected: expected.map(|line| line.text.clone()).unwrap_or_default(),
            verdict: marked.verdict.name().to_owned(),
            right: outcome(&marked.verdict),
            marks: marked.marks.number(),
            out_of: marked.out_of.number(),
            helped: u8::try_from(helped).unwrap_or(u8::MAX),
            given: by.given.get(at).copied().unwrap_or(false),
            seconds: by.line_seconds.get(at).copied().flatten(),
            options: match &line.asks {
                Asks::Pick { offers, .. } => u8::try_from(offers.len()).ok(),
                _ => None,
            },
            skill: step
                .skill
                .clone()
                .unwrap_or_else(|| problem.code.family.clone()),
            mistakes: marked
                .turns
                .iter()
                .filter(|_| !marked.alternatives || marked.turns.len() == 1)
                .map(|turn| turn.mistake.clone())
                .collect(),
        })
    });
    Entry {
        format: FORMAT,
        id: by.id,
        person: by.person.clone(),
        at: by.at,
        zone: by.zone,
        code: problem.code.to_string(),
        family: problem.code.family.clone(),
        lesson: problem.family.lesson.clone(),
        title: problem.family.title.clone(),
        level: problem.code.level,
        units: problem.code.system.letters().to_owned(),
        purpose: by.purpose,
        sitting: None,
        area: None,
        place: by.place,
        seconds: by.seconds,
        givens: problem
            .told()
            .into_iter()
            .map(|given| GivenEntry {
                name: given.name,
                label: given.label,
                text: given.text,
            })
            .collect(),
        lines: lines.collect(),
        marks: marked.score.number(),
        out_of: marked.out_of.number(),
        program: by.program,
    }
}
