//! The items of a plan's file: what each is drawn from, and the marks that it bears.

use std::ops::RangeInclusive;

use super::read::near_only;
use super::{Item, MarksBy, Source};
use crate::lessons::Library;
use crate::lessons::fields::{Fields, Reader, Text};
use crate::lessons::node::Block;
use crate::problems::{DrawError, Request, Settings, draw};
use crate::quantities::System;

/// The levels that there are.
const LEVELS: RangeInclusive<u32> = 1..=3;
/// As often as one item may stand in a paper; our own choice, no source.
const MOST_COUNT: u32 = 20;
/// As many marks as an item may bear; our own choice, no source.
const MOST_MARKS: u32 = 100;
/// What a job takes whose family does not say; our own choice, no source.
const MINUTES: u32 = 4;

/// What items are checked against.
pub(super) struct Shelf<'a> {
    pub(super) library: &'a Library,
    pub(super) settings: &'a Settings,
    pub(super) system: System,
    pub(super) marks_by: MarksBy,
}

/// One item of the file.
pub(super) fn item(
    reader: &mut Reader<'_>,
    block: &Block,
    number: usize,
    shelf: &Shelf<'_>,
) -> Option<Item> {
    let before = reader.faults.len();
    let mut fields = Fields::new(block, format!("item {number}"));
    let family = fields.text(reader, "family");
    let lesson = fields.text(reader, "lesson");
    let level = fields.whole_in(reader, "level", &LEVELS);
    let count = fields.whole_in(reader, "count", &(1..=MOST_COUNT));
    let marks = fields.whole_in(reader, "marks", &(1..=MOST_MARKS));
    let place = |key: &str| Fields::new(block, "").place_of(key);
    if family.is_none() && lesson.is_none() && reader.faults.len() == before {
        fields.missing(reader, "family");
    }
    if let (Some(_), Some(lesson)) = (&family, &lesson) {
        let message = format!("item {number} names a family and a lesson");
        reader.refuse(&lesson.span, message, "take one of the two out");
    }
    fields.finish(reader);
    if reader.faults.len() > before {
        return None;
    }
    let level = level.map(|level| level as u8);
    let found = match (&family, &lesson) {
        (Some(family), _) => of_family(reader, family, level, shelf),
        (None, Some(lesson)) => of_lesson(reader, lesson, level, shelf),
        (None, None) => None,
    }?;
    let own = (family, lesson);
    let marks = marks_of(
        reader,
        number,
        marks,
        (&own, &place("marks")),
        (&found, shelf),
    )?;
    let minutes: Vec<u32> = found.iter().map(|found| found.minutes).collect();
    Some(Item {
        lesson: own.1.map(|lesson| lesson.text),
        count: count.unwrap_or(1),
        marks,
        minutes: minutes
            .iter()
            .sum::<u32>()
            .div_ceil(minutes.len().max(1) as u32),
        families: found.into_iter().map(|found| found.source).collect(),
    })
}

/// A family that an item may be drawn from, with what a first draw of it shows.
struct Found {
    source: Source,
    minutes: u32,
    lines: u32,
    marks: u32,
}

fn tried(shelf: &Shelf<'_>, family: &str, level: Option<u8>) -> Result<Found, DrawError> {
    let request = Request {
        family,
        level,
        system: shelf.system,
        draw: 0,
        settings: shelf.settings,
    };
    let problem = draw(shelf.library, &request)?;
    Ok(Found {
        source: Source {
            family: family.to_owned(),
            title: problem.family.title.clone(),
            level: problem.code.level,
        },
        minutes: problem.family.minutes.unwrap_or(MINUTES),
        lines: problem.asked().count() as u32,
        marks: problem.marks(),
    })
}

fn of_family(
    reader: &mut Reader<'_>,
    family: &Text,
    level: Option<u8>,
    shelf: &Shelf<'_>,
) -> Option<Vec<Found>> {
    match tried(shelf, &family.text, level) {
        Ok(found) => Some(vec![found]),
        Err(DrawError::Family { .. }) => {
            let message = format!("there is no family \"{}\"", family.text);
            let ids: Vec<String> = (shelf.library.families())
                .map(|family| family.id.clone())
                .collect();
            near_only(reader, family, message, &ids);
            None
        }
        Err(DrawError::Level {
            has,
            family: id,
            level,
        }) => {
            let levels: Vec<String> = has.iter().map(u8::to_string).collect();
            let message = format!("{id} has no level {level}");
            let fault = reader.fault(&family.span, message);
            fault.remedy = Some(format!("write level = {}", levels.join(" or ")));
            None
        }
        Err(error) => {
            let remedy = "name another family, or change the house rule";
            reader.refuse(&family.span, error.to_string(), remedy);
            None
        }
    }
}

/// The families of a lesson that have the level and can be drawn under these rules.
fn of_lesson(
    reader: &mut Reader<'_>,
    lesson: &Text,
    level: Option<u8>,
    shelf: &Shelf<'_>,
) -> Option<Vec<Found>> {
    let Some(known) = shelf.library.lesson(&lesson.text) else {
        let message = format!("there is no lesson \"{}\"", lesson.text);
        let lessons = shelf.library.lessons().iter();
        let ids: Vec<String> = lessons.map(|lesson| lesson.id.clone()).collect();
        near_only(reader, lesson, message, &ids);
        return None;
    };
    let families = known.families.iter();
    let found: Vec<Found> = families
        .filter_map(|family| tried(shelf, family, level).ok())
        .collect();
    if found.is_empty() {
        let level = level.map_or_else(String::new, |level| format!(" at level {level}"));
        let message = format!("the lesson {} has no family{level}", lesson.text);
        reader.refuse(&lesson.span, message, "name another level or lesson");
        return None;
    }
    Some(found)
}

/// The marks of an item. By steps each line that is asked bears one at least, so that
/// no line is for nothing.
fn marks_of(
    reader: &mut Reader<'_>,
    number: usize,
    marks: Option<u32>,
    (own, place): (&(Option<Text>, Option<Text>), &std::ops::Range<usize>),
    (found, shelf): (&[Found], &Shelf<'_>),
) -> Option<u32> {
    let most = found.iter().max_by_key(|found| found.lines)?;
    match (marks, shelf.marks_by) {
        (Some(marks), MarksBy::Steps) if marks < most.lines => {
            let message = format!(
                "item {number} has {marks} {} for the {} lines that {} asks",
                if marks == 1 { "mark" } else { "marks" },
                most.lines,
                most.source.family
            );
            let remedy = format!("write marks = {} or more", most.lines);
            reader.refuse(place, message, &remedy);
            None
        }
        (Some(marks), _) => Some(marks),
        (None, MarksBy::Answer) => Some(1),
        (None, MarksBy::Steps)
            if most.marks <= MOST_MARKS && found.iter().all(|found| found.marks == most.marks) =>
        {
            Some(most.marks)
        }
        (None, MarksBy::Steps) => {
            let message = format!(
                "item {number} does not say its marks, and the families of its lesson bear different ones"
            );
            let remedy = format!("add marks = {} or more", most.lines);
            let at = own.1.as_ref().or(own.0.as_ref());
            let span = at.map_or_else(|| place.clone(), |text| text.span.clone());
            reader.refuse(&span, message, &remedy);
            None
        }
    }
}
