//! The plan of a paper: for each question its area, family, level and form, before any
//! number is drawn.

use std::collections::{BTreeMap, BTreeSet};

use super::levels;
use crate::formulas::Type;
use crate::lessons::{A_FAMILY, Exam, Library, Variant, share};
use crate::problems::random::Stream;
use crate::quantities::System;

/// A question before its numbers are drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// The place of its area.
    pub area: usize,
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// Whether its answer is a figure.
    pub numeric: bool,
    /// Whether a figure or a row is asked as a choice.
    pub choice: bool,
    /// Whether it counts as safety.
    pub safety: bool,
}

/// What earlier plans ran into.
#[derive(Debug, Clone, Default)]
pub struct Barred {
    /// Families at levels that give no problem under these house rules.
    pub levels: BTreeSet<(String, u8)>,
    /// How many different answers a family gave, where it could give no more.
    pub most: BTreeMap<String, u32>,
}

/// How a variant is asked on a paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Answer {
    /// A figure with its unit.
    Figure,
    /// A row: a size, a name.
    Row,
    /// An offer, an order, a match.
    Other,
}

fn answer(variant: &Variant) -> Answer {
    if !variant.is_numeric() {
        return Answer::Other;
    }
    let found = variant.steps.iter().rev().filter(|step| step.ask);
    let ends = found
        .filter_map(|step| step.body.formula())
        .find_map(|f| match f.holds() {
            Type::Quantity(_) | Type::Temperature => Some(Answer::Figure),
            Type::Row(_) => Some(Answer::Row),
            _ => None,
        });
    ends.unwrap_or(Answer::Other)
}

/// A family with the levels at which it gives one kind of answer.
struct Candidate {
    family: String,
    lesson: String,
    levels: Vec<u8>,
    numeric: bool,
    choice: bool,
}

/// Plans a paper; none where an area has too few families, and says which area.
pub fn plan(
    library: &Library,
    exam: &Exam,
    system: System,
    barred: &Barred,
    stream: &mut Stream,
) -> Result<Vec<Slot>, usize> {
    let mut slots = Vec::new();
    let mut can = Vec::new();
    for (at, area) in exam.areas.iter().enumerate() {
        let mut candidates = candidates(library, &area.lessons, system, barred);
        stream.shuffle(&mut candidates);
        let mut used = Used {
            candidates: &candidates,
            barred,
            families: BTreeMap::new(),
            lessons: BTreeMap::new(),
        };
        // What has no figure is scarcer, so it is taken first.
        let others = area.questions.saturating_sub(area.numeric);
        for numeric in [(others, false), (area.numeric, true)] {
            for _ in 0..numeric.0 {
                let taken = used.take(numeric.1).ok_or(at)?;
                slots.push(Slot {
                    area: at,
                    family: taken.family.clone(),
                    level: 0,
                    numeric: taken.numeric,
                    choice: taken.choice,
                    safety: exam.safety.lessons.contains(&taken.lesson),
                });
                can.push(taken.levels.clone());
            }
        }
    }
    let wanted = share(exam.questions, &exam.levels);
    let wanted = std::array::from_fn(|at| wanted.get(at).copied().unwrap_or(0));
    let levels = levels::assign(&can, wanted, stream);
    for (slot, level) in slots.iter_mut().zip(levels) {
        slot.level = level;
    }
    stream.shuffle(&mut slots);
    as_choices(&mut slots, exam.choices);
    Ok(slots)
}

/// Leaves the form of a choice to this share of the questions that ask a figure.
fn as_choices(slots: &mut [Slot], share: u32) {
    let numeric = slots.iter().filter(|slot| slot.numeric).count();
    let choices = (numeric * share as usize + 50) / 100;
    let figures = slots.iter_mut().filter(|slot| slot.numeric);
    for slot in figures.skip(choices) {
        slot.choice = false;
    }
}

fn candidates(
    library: &Library,
    lessons: &[String],
    system: System,
    barred: &Barred,
) -> Vec<Candidate> {
    let mut found: Vec<Candidate> = Vec::new();
    let families = library.families();
    for family in families.filter(|family| lessons.contains(&family.lesson)) {
        for kind in [Answer::Figure, Answer::Row, Answer::Other] {
            let fits = |level: &u8| {
                let variant = library.variant(&family.id, *level, system);
                let open = !barred.levels.contains(&(family.id.clone(), *level));
                open && variant.is_some_and(|variant| answer(variant) == kind)
            };
            let levels: Vec<u8> = family.levels.iter().copied().filter(fits).collect();
            if !levels.is_empty() {
                found.push(Candidate {
                    family: family.id.clone(),
                    lesson: family.lesson.clone(),
                    levels,
                    numeric: kind == Answer::Figure,
                    choice: kind != Answer::Other,
                });
            }
        }
    }
    found
}

/// What an area has taken so far.
struct Used<'c> {
    candidates: &'c [Candidate],
    barred: &'c Barred,
    families: BTreeMap<String, u32>,
    lessons: BTreeMap<String, u32>,
}

impl<'c> Used<'c> {
    /// The next family: of the lesson that was asked least, then the family that was
    /// asked least. One of the other kind where there is none of the wanted one.
    fn take(&mut self, numeric: bool) -> Option<&'c Candidate> {
        let taken = self.least(numeric).or_else(|| self.least(!numeric))?;
        *self.families.entry(taken.family.clone()).or_default() += 1;
        *self.lessons.entry(taken.lesson.clone()).or_default() += 1;
        Some(taken)
    }

    fn least(&self, numeric: bool) -> Option<&'c Candidate> {
        let asked = |candidate: &Candidate| {
            let family = self.families.get(&candidate.family).copied().unwrap_or(0);
            let lesson = self.lessons.get(&candidate.lesson).copied().unwrap_or(0);
            (lesson, family)
        };
        let open = |candidate: &&Candidate| {
            let most = self.barred.most.get(&candidate.family).copied();
            asked(candidate).1 < most.unwrap_or(A_FAMILY).min(A_FAMILY)
        };
        let of_kind = self.candidates.iter().filter(|own| own.numeric == numeric);
        of_kind.filter(open).min_by_key(|own| asked(own))
    }
}
