//! Exams as data: areas with their weights, questions and lessons, the shares of the
//! levels, pass marks, minutes, and what is open. No paper is drawn here.

use std::collections::{BTreeMap, BTreeSet};

use super::fault::nearest;
use super::fields::{Fields, Reader, Text};
use super::node::{Block, Item, Node};
use super::source::Sources;

/// How many questions one family may have to bear, at most: more, and a paper would
/// ask the same job over and over; our own choice.
pub(crate) const A_FAMILY: u32 = 4;

/// An exam.
#[derive(Debug, Clone, PartialEq)]
pub struct Exam {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// How many questions.
    pub questions: u32,
    /// How many minutes.
    pub minutes: u32,
    /// The share of marks that passes, in per cent.
    pub pass: u32,
    /// The shares of levels 1, 2 and 3, in per cent.
    pub levels: [u32; 3],
    /// The share of numeric questions that are asked as choices, in per cent.
    pub choices: u32,
    /// What may be open.
    pub book: String,
    /// The tables that a closed-book paper takes away.
    pub closed: Vec<String>,
    /// Whether it is a closed-book paper.
    pub closed_book: bool,
    /// What is counted as safety besides.
    pub safety: Safety,
    /// The areas.
    pub areas: Vec<Area>,
    /// What holds of the paper as a whole, in sentences.
    pub rules: Vec<String>,
    /// Where it comes from.
    pub sources: Vec<String>,
}

impl Exam {
    /// The tables that nobody may open while this paper is sat.
    pub fn taken_away(&self) -> &[String] {
        if self.closed_book { &self.closed } else { &[] }
    }
}

/// The questions on safety, which stand in the areas and are counted alone too.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Safety {
    /// The least number of questions.
    pub questions: u32,
    /// The share of their marks that passes, in per cent.
    pub pass: u32,
    /// The lessons whose questions count.
    pub lessons: Vec<String>,
}

/// An area of an exam.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Area {
    /// Its name.
    pub name: String,
    /// Its weight, in per cent.
    pub weight: u32,
    /// How many questions.
    pub questions: u32,
    /// How many of them are numeric.
    pub numeric: u32,
    /// Its lessons.
    pub lessons: Vec<String>,
}

/// The families of each lesson, by the lesson's id.
pub(super) type Families = BTreeMap<String, Vec<String>>;

/// What an exam is checked against.
pub(super) struct Shelf<'a> {
    pub sources: &'a Sources,
    pub families: &'a Families,
    /// The folders of lessons, of faulty ones too: those have their own faults.
    pub folders: &'a BTreeSet<String>,
    /// The exams that stand above.
    pub before: &'a [Exam],
    /// Whether there is a table of this name.
    pub has_table: &'a dyn Fn(&str) -> bool,
}

/// Reads one `[[exam]]`.
pub(super) fn read(reader: &mut Reader<'_>, block: &Block, shelf: &Shelf<'_>) -> Option<Exam> {
    let before = reader.faults.len();
    let mut fields = Fields::new(block, "the exam");
    let id = fields.needed(reader, "exam")?;
    fields.what = format!("exam \"{}\"", id.text);
    if shelf.before.iter().any(|exam| exam.id == id.text) {
        let message = format!("there is an exam \"{}\" already", id.text);
        reader.refuse(&id.span, message, "give one of the two another name");
    }
    let title = fields.needed(reader, "title");
    let questions = count(reader, &mut fields, "questions");
    let minutes = count(reader, &mut fields, "minutes");
    let sources = fields.all_cited(reader, "sources", shelf.sources);
    if sources.is_empty() {
        fields.missing(reader, "sources");
    }
    let like = fields.text(reader, "like");
    let mut exam = match like {
        Some(like) => as_another(reader, &like, questions.unwrap_or(0), shelf)?,
        None => whole(reader, &mut fields, questions.unwrap_or(0), shelf)?,
    };
    fields.finish(reader);
    exam.id = id.text;
    exam.title = title?.text;
    exam.minutes = minutes?;
    exam.sources = sources;
    (questions.is_some() && reader.faults.len() == before).then_some(exam)
}

/// A number that must be there and is not nothing.
fn count(reader: &mut Reader<'_>, fields: &mut Fields<'_>, key: &'static str) -> Option<u32> {
    if !fields.has(key) {
        fields.missing(reader, key);
    }
    let number = fields.whole(reader, key)?;
    if number == 0 {
        let message = format!("\"{key}\" of {} is nothing", fields.what);
        reader.refuse(&fields.place_of(key), message, "write 1 or more");
    }
    (number > 0).then_some(number)
}

/// An exam with the shares of another and a count of its own.
fn as_another(
    reader: &mut Reader<'_>,
    like: &Text,
    questions: u32,
    shelf: &Shelf<'_>,
) -> Option<Exam> {
    let Some(other) = shelf.before.iter().find(|exam| exam.id == like.text) else {
        let message = format!("there is no exam \"{}\" above", like.text);
        let has = shelf.before.iter().map(|exam| exam.id.clone()).collect();
        reader.unknown(&like.span, message, &like.text, has);
        return None;
    };
    let shared = |parts: Vec<u32>| share(questions, &parts);
    let counts = shared(other.areas.iter().map(|area| area.questions).collect());
    let areas = other.areas.iter().zip(counts).map(|(area, own)| Area {
        questions: own,
        numeric: (own * area.numeric + area.questions / 2) / area.questions.max(1),
        ..area.clone()
    });
    let safety = (other.safety.questions * questions).div_ceil(other.questions.max(1));
    Some(Exam {
        questions,
        areas: areas.collect(),
        safety: Safety {
            questions: safety,
            ..other.safety.clone()
        },
        ..other.clone()
    })
}

/// So many in the shares of some parts: what is left over goes to the greatest remainders.
pub(crate) fn share(whole: u32, parts: &[u32]) -> Vec<u32> {
    let all: u64 = parts.iter().map(|part| u64::from(*part)).sum();
    if all == 0 {
        return vec![0; parts.len()];
    }
    let product = |part: u32| u64::from(whole) * u64::from(part);
    let mut shares: Vec<u32> = (parts.iter())
        .map(|part| u32::try_from(product(*part) / all).unwrap_or(0))
        .collect();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by_key(|at| (std::cmp::Reverse(product(parts[*at]) % all), *at));
    let left = whole.saturating_sub(shares.iter().sum());
    for at in order.into_iter().take(left as usize) {
        shares[at] += 1;
    }
    shares
}

fn whole(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    questions: u32,
    shelf: &Shelf<'_>,
) -> Option<Exam> {
    let pass = per_cent(reader, fields, "pass");
    let choices = per_cent(reader, fields, "choices");
    let levels = levels(reader, fields);
    let book = fields.needed(reader, "book").map(|book| book.text);
    let closed = tables(reader, fields, shelf);
    let closed_book = fields.truth(reader, "closed_book").unwrap_or(false);
    let rules = fields.strings(reader, "rules");
    let safety = safety(reader, fields, shelf);
    let blocks = fields.blocks(reader, "area");
    if blocks.is_empty() {
        fields.missing(reader, "area");
    }
    let areas: Vec<Option<Area>> = blocks
        .iter()
        .map(|block| area(reader, block, shelf))
        .collect();
    let areas: Vec<Area> = areas.into_iter().collect::<Option<_>>()?;
    let place = fields.place_of("questions");
    let asked: u32 = areas.iter().map(|area| area.questions).sum();
    if asked != questions {
        let message = format!("the areas have {asked} questions, the exam has {questions}");
        reader.refuse(&place, message, "let them be the same");
    }
    let weighed: u32 = areas.iter().map(|area| area.weight).sum();
    if weighed != 100 {
        let message = format!("the weights of the areas add up to {weighed} %, not to 100 %");
        reader.refuse(&fields.place(), message, "change the weights");
    }
    Some(Exam {
        id: String::new(),
        title: String::new(),
        questions,
        minutes: 0,
        pass: pass?,
        levels: levels?,
        choices: choices?,
        book: book?,
        closed,
        closed_book,
        safety: safety?,
        areas,
        rules,
        sources: Vec::new(),
    })
}

fn per_cent(reader: &mut Reader<'_>, fields: &mut Fields<'_>, key: &'static str) -> Option<u32> {
    if !fields.has(key) {
        fields.missing(reader, key);
    }
    let share = fields.whole(reader, key)?;
    if share > 100 {
        let message = format!("\"{key}\" of {} is more than 100 %", fields.what);
        reader.refuse(&fields.place_of(key), message, "write 0 to 100");
    }
    (share <= 100).then_some(share)
}

/// The shares of the three levels.
fn levels(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<[u32; 3]> {
    if !fields.has("levels") {
        fields.missing(reader, "levels");
    }
    let share = |node: &Node| match node.item {
        Item::Number { value, .. } if value.fract() == 0.0 && (0.0..=100.0).contains(&value) => {
            Some(value as u32)
        }
        _ => None,
    };
    let list: Option<Vec<u32>> = fields.list(reader, "levels")?.iter().map(share).collect();
    match list.as_deref() {
        Some(&[one, two, three]) if one + two + three == 100 => Some([one, two, three]),
        _ => {
            let message = "the shares of levels 1, 2 and 3 are three numbers that add up to 100";
            let remedy = "write levels = [30, 55, 15]";
            reader.refuse(&fields.place_of("levels"), message, remedy);
            None
        }
    }
}

/// The tables that a closed-book paper takes away.
fn tables(reader: &mut Reader<'_>, fields: &mut Fields<'_>, shelf: &Shelf<'_>) -> Vec<String> {
    let named = fields.strings(reader, "closed");
    for name in named.iter().filter(|name| !(shelf.has_table)(name)) {
        let message = format!("there is no table \"{name}\"");
        reader.refuse(
            &fields.place_of("closed"),
            message,
            "name tables of this library",
        );
    }
    named
}

fn safety(reader: &mut Reader<'_>, fields: &mut Fields<'_>, shelf: &Shelf<'_>) -> Option<Safety> {
    if !fields.has("safety") {
        fields.missing(reader, "safety");
    }
    let mut own = Fields::new(fields.block(reader, "safety")?, "safety");
    let questions = count(reader, &mut own, "questions");
    let pass = per_cent(reader, &mut own, "pass");
    let lessons = lessons(reader, &mut own, shelf);
    own.finish(reader);
    Some(Safety {
        questions: questions?,
        pass: pass?,
        lessons,
    })
}

fn area(reader: &mut Reader<'_>, block: &Block, shelf: &Shelf<'_>) -> Option<Area> {
    let mut fields = Fields::new(block, "the area");
    let name = fields.needed(reader, "area")?;
    fields.what = format!("area \"{}\"", name.text);
    let weight = per_cent(reader, &mut fields, "weight");
    let questions = count(reader, &mut fields, "questions");
    let numeric = fields.whole(reader, "numeric").unwrap_or(0);
    let lessons = lessons(reader, &mut fields, shelf);
    let questions = questions?;
    if numeric > questions {
        let message = format!("{numeric} of {questions} questions cannot be numeric");
        reader.refuse(&fields.place_of("numeric"), message, "write fewer");
    }
    let families = lessons
        .iter()
        .filter_map(|lesson| shelf.families.get(lesson));
    let families: usize = families.map(Vec::len).sum();
    let bears = u32::try_from(families)
        .unwrap_or(u32::MAX)
        .saturating_mul(A_FAMILY);
    let known = lessons
        .iter()
        .all(|lesson| shelf.families.contains_key(lesson));
    if known && !lessons.is_empty() && questions > bears {
        let message = format!(
            "{questions} questions would come from {families} families; each bears {A_FAMILY} at most"
        );
        let remedy = "ask fewer, or add a lesson";
        reader.refuse(&fields.place_of("questions"), message, remedy);
    }
    fields.finish(reader);
    Some(Area {
        name: name.text,
        weight: weight?,
        questions,
        numeric,
        lessons,
    })
}

/// A list of lessons that are there.
fn lessons(reader: &mut Reader<'_>, fields: &mut Fields<'_>, shelf: &Shelf<'_>) -> Vec<String> {
    if !fields.has("lessons") {
        fields.missing(reader, "lessons");
    }
    let mut found = Vec::new();
    for item in fields.list(reader, "lessons").unwrap_or_default() {
        let Some(named) = super::fields::text(item) else {
            fields.wrong_kind(reader, "lessons", item, "ids in quotes");
            continue;
        };
        if !shelf.families.contains_key(&named.text) && !shelf.folders.contains(&named.text) {
            let message = format!("there is no lesson \"{}\"", named.text);
            let near = nearest(&named.text, shelf.families.keys().map(String::as_str));
            let fault = reader.fault(&named.span, message);
            fault.remedy = Some(match near.first() {
                Some(best) => format!("write \"{best}\""),
                None => "write the id of a lesson, which is the name of its folder".to_owned(),
            });
            fault.has = near;
        }
        found.push(named.text);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_over_goes_to_the_greatest_remainders() {
        let parts = [12, 12, 8, 14, 16, 6, 7];
        assert_eq!(share(25, &parts), [4, 4, 3, 5, 5, 2, 2]);
        assert_eq!(share(75, &parts), parts);
        assert_eq!(share(3, &[0, 0]), [0, 0]);
        assert_eq!(share(1, &[1, 1]), [1, 0]);
    }
}
