//! The marks of a class: what each hand-in earns, line by line, what the instructor has
//! decided beside it, and everything odd in a line of its own that stops nothing else.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::answers::Answers;
use super::counts;
use super::day::day_of;
use super::make_up;
use super::pen::mark_keyed;
use super::printed::PrintedPaper;
use super::roster::Person;
use crate::lessons::Library;
use crate::marking::{Manner, Marked, MarkedLine, Marks, Response, Verdict, mark};
use crate::problems::{KeptFault, Problem, Rebuilder, Rebuilt};
use crate::quantities::echo;

/// What the note of a judged item begins with.
const JUDGED: &str = "judged ";

/// As many answers of a person that cannot be read are quoted; the rest are counted. Our own
/// choice, no source.
const QUOTED: usize = 3;

/// One hand-in, whichever way it came.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HandIn {
    /// The number of the paper.
    pub paper: String,
    /// The way.
    pub way: Way,
    /// When it came in: milliseconds since 1970, UTC; unknown of a paper on paper.
    pub at: Option<i64>,
    /// How far the clock there was ahead of UTC, in minutes.
    pub zone: i32,
    /// Item by item in the order of the paper: what stands on each line, or what was
    /// keyed.
    pub items: Vec<Vec<String>>,
}

/// The way in which a paper came in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Way {
    /// As a file of answers.
    Screen,
    /// Typed in from paper.
    Typed,
    /// Marked with the pen: each item has one text, the keys.
    Pen,
}

impl From<Answers> for HandIn {
    fn from(answers: Answers) -> Self {
        Self {
            paper: answers.paper,
            way: Way::Screen,
            at: Some(answers.at),
            zone: answers.zone,
            items: answers.items,
        }
    }
}

/// What the instructor has decided; it outlives every marking.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decisions {
    /// Items that count for nobody.
    #[serde(default)]
    pub dropped: Vec<Dropped>,
    /// Marks that stand in place of those worked out.
    #[serde(default)]
    pub judged: Vec<Judged>,
}

/// An item that counts for nobody.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dropped {
    /// Its number in the plan, from one.
    pub item: usize,
    /// Why.
    pub reason: String,
}

/// A mark that stands in place of the one worked out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Judged {
    /// The number of the paper.
    pub paper: String,
    /// The item's number in the plan, from one.
    pub item: usize,
    /// The marks, counted in halves.
    pub halves: u32,
    /// Why.
    pub reason: String,
}

/// A printed paper with its problems, ready to be marked by.
#[derive(Debug)]
pub struct Ready {
    /// The record.
    pub printed: PrintedPaper,
    /// Its problems, item by item.
    pub problems: Vec<Result<Rebuilt, KeptFault>>,
}

impl Ready {
    /// A record made ready with the library of its time.
    pub fn of(printed: PrintedPaper, library: &Library) -> Self {
        let problems = printed.rebuild(library);
        Self { printed, problems }
    }
}

/// Problems of several records of one library made again, record by record. A caller with
/// several cores gives each a part of the records.
pub fn rebuilt(
    printed: &[PrintedPaper],
    library: &Library,
) -> Vec<Vec<Result<Rebuilt, KeptFault>>> {
    let mut rebuilder = Rebuilder::of(library);
    let papers = printed.iter();
    papers.map(|own| own.rebuilt_by(&mut rebuilder)).collect()
}

/// Marks of one item.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedItem {
    /// Its number on the paper, from one.
    pub number: usize,
    /// Its number in the plan, from one: the same item on other papers.
    pub item: usize,
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// Line by line, with verdicts and mistakes; none where the item cannot be marked.
    pub marked: Option<Marked>,
    /// The marks that count.
    pub score: Marks,
    /// The marks that could be earned; none of a dropped item, or of one that cannot be
    /// marked and that nobody has judged.
    pub out_of: Marks,
    /// What it bears on the paper.
    pub bears: Marks,
    /// Whether it counts for nobody.
    pub dropped: bool,
    /// What is to be said of it: dropped, judged, worked otherwise now.
    pub notes: Vec<String>,
}

/// Where somebody's paper is.
#[derive(Debug, Clone, PartialEq)]
pub enum State {
    /// It did not come in.
    NotIn,
    /// It is marked.
    Marked(Vec<MarkedItem>),
}

/// One person's marks.
#[derive(Debug, Clone, PartialEq)]
pub struct PersonMarks {
    /// Who.
    pub person: Person,
    /// How the paper came in, and when.
    pub came: Option<(Way, Option<i64>, i32)>,
    /// The marks.
    pub state: State,
    /// What is odd about it, a sentence each.
    pub notes: Vec<String>,
}

impl MarkedItem {
    /// Whether nobody can tell what it earns: it cannot be marked, and nobody has judged or
    /// dropped it.
    pub fn is_open(&self) -> bool {
        self.marked.is_none() && self.out_of == Marks::default() && !self.dropped
    }

    /// Whether somebody has set its marks by hand.
    fn is_judged(&self) -> bool {
        self.notes.iter().any(|note| note.starts_with(JUDGED))
    }
}

impl PersonMarks {
    /// The marks earned, and those that could be; none where it is not in.
    pub fn total(&self) -> Option<(Marks, Marks)> {
        let State::Marked(items) = &self.state else {
            return None;
        };
        let score = items.iter().map(|item| item.score).sum();
        Some((score, items.iter().map(|item| item.out_of).sum()))
    }

    /// What is written and cannot be read, a sentence each with item and line of the paper;
    /// of many the first, and how many more. Items that are dropped or judged need none.
    pub fn unread(&self) -> Vec<String> {
        let State::Marked(items) = &self.state else {
            return Vec::new();
        };
        let waiting = items
            .iter()
            .filter(|item| !item.dropped && !item.is_judged());
        let lines = waiting.flat_map(|item| {
            let lines = item.marked.iter().flat_map(|marked| &marked.lines);
            let unread = lines.filter(|line| line.verdict == Verdict::Unreadable);
            unread.map(|line| format!("{}.{}: {}", item.number, line.number, unread_line(line)))
        });
        let mut said: Vec<String> = lines.collect();
        let more = said.len().saturating_sub(QUOTED);
        said.truncate(QUOTED);
        match more {
            0 => {}
            1 => said.push("1 more answer cannot be read".to_owned()),
            more => said.push(format!("{more} more answers cannot be read")),
        }
        said
    }
}

/// Says of a line that cannot be read what is written there.
pub fn unread_line(line: &MarkedLine) -> String {
    format!("`{}` cannot be read", echo(&line.typed))
}

/// The marks of a class, in the order of its list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ClassMarks {
    /// Everybody.
    pub people: Vec<PersonMarks>,
    /// What belongs to nobody: foreign papers, damaged files.
    pub notes: Vec<String>,
}

/// Marks one hand-in of a paper.
pub fn mark_paper(ready: &Ready, hand_in: &HandIn, manner: Manner) -> Vec<MarkedItem> {
    let items = ready.printed.items.iter().zip(&ready.problems);
    items
        .enumerate()
        .map(|(at, (item, problem))| {
            let mut marked = MarkedItem {
                number: item.number,
                item: item.place.saturating_add(1),
                family: item.problem.family.clone(),
                level: item.problem.level,
                marked: None,
                score: Marks::default(),
                // Nothing counts until it is marked: a nought would be a mark.
                out_of: Marks::default(),
                bears: Marks::whole(item.problem.marks()),
                dropped: false,
                notes: Vec::new(),
            };
            let written = hand_in.items.get(at).map_or(&[][..], Vec::as_slice);
            match problem {
                Err(fault) => marked.notes.push(format!("cannot be marked: {fault}")),
                Ok(rebuilt) => {
                    marked.notes.extend(rebuilt.differs.iter().map(|differs| {
                        format!(
                            "{}: printed {}, worked now {}; marked by what was printed",
                            differs.label, differs.printed, differs.now
                        )
                    }));
                    match one(&rebuilt.problem, hand_in.way, written, manner) {
                        Ok(own) => {
                            marked.score = own.score;
                            marked.out_of = own.out_of;
                            marked.marked = Some(own);
                        }
                        Err(what) => marked.notes.push(what),
                    }
                }
            }
            marked
        })
        .collect()
}

/// Marks one item.
fn one(problem: &Problem, way: Way, written: &[String], manner: Manner) -> Result<Marked, String> {
    if way == Way::Pen {
        let keys = written.first().map_or("", String::as_str);
        return mark_keyed(problem, keys, manner);
    }
    let lines = problem.asked().zip(written);
    let answers = lines.map(|((_, line), text)| (line.id.clone(), text.clone()));
    let response = Response {
        answers: answers.collect(),
    };
    Ok(mark(problem, &response, manner))
}

impl Decisions {
    /// Lays what was decided over marked items.
    pub fn lay_over(&self, paper: &str, items: &mut [MarkedItem]) {
        for item in items {
            let judged = self.judged.iter().rev();
            let judged = judged
                .clone()
                .find(|judged| judged.paper == paper && judged.item == item.item);
            if let Some(judged) = judged {
                item.score = Marks::halves(judged.halves);
                item.out_of = item.bears;
                item.notes.push(format!(
                    "{JUDGED}{}: {}",
                    Marks::halves(judged.halves),
                    judged.reason
                ));
            }
            if let Some(dropped) = self.dropped.iter().find(|own| own.item == item.item) {
                item.score = Marks::default();
                item.out_of = Marks::default();
                item.dropped = true;
                item.notes.push(format!("dropped: {}", dropped.reason));
            }
        }
    }
}

/// The hand-ins of a class by their papers, and what is not of this class.
#[derive(Debug)]
pub struct Sorted<'a> {
    ready: &'a BTreeMap<String, Ready>,
    came: BTreeMap<&'a str, Vec<&'a HandIn>>,
    /// A sentence for each hand-in that belongs to nobody here.
    notes: Vec<String>,
}

impl<'a> Sorted<'a> {
    /// Hand-ins in the order in which they were taken in.
    pub fn of(
        people: &[Person],
        ready: &'a BTreeMap<String, Ready>,
        hand_ins: &'a [HandIn],
    ) -> Self {
        let ids: BTreeSet<&str> = people.iter().map(|person| person.id.as_str()).collect();
        let mut sorted = Self {
            ready,
            came: BTreeMap::new(),
            notes: Vec::new(),
        };
        for hand_in in hand_ins {
            let paper = hand_in.paper.as_str();
            if ids.contains(paper) && ready.contains_key(paper) {
                sorted.came.entry(paper).or_default().push(hand_in);
            } else {
                sorted.notes.push(format!(
                    "a hand-in is of paper {paper}, of which this class has no record that can be read; it is left out"
                ));
            }
        }
        sorted
    }

    /// The marks of some of the class: of each paper what was taken in first counts, and
    /// everything else is told. A caller with several cores gives each a part of the people.
    pub fn mark(
        &self,
        people: &[Person],
        decisions: &Decisions,
        manner: Manner,
    ) -> Vec<PersonMarks> {
        let of = |person: &Person| {
            let own = self.came.get(person.id.as_str());
            let own = own.map_or(&[][..], Vec::as_slice);
            let ready = self.ready.get(&person.id);
            mark_person(person, ready, (own, decisions), manner)
        };
        people.iter().map(of).collect()
    }

    /// The class, once everybody's marks are there.
    pub fn class(self, people: Vec<PersonMarks>) -> ClassMarks {
        let mut class = ClassMarks {
            people,
            notes: self.notes,
        };
        make_up::tell(&mut class);
        class
    }
}

/// The marks of a whole class.
pub fn mark_class(
    people: &[Person],
    ready: &BTreeMap<String, Ready>,
    (hand_ins, decisions): (&[HandIn], &Decisions),
    manner: Manner,
) -> ClassMarks {
    let sorted = Sorted::of(people, ready, hand_ins);
    let marks = sorted.mark(people, decisions, manner);
    sorted.class(marks)
}

/// One person's hand-ins, in the order in which they were filed.
fn mark_person(
    person: &Person,
    ready: Option<&Ready>,
    (came, decisions): (&[&HandIn], &Decisions),
    manner: Manner,
) -> PersonMarks {
    let own = counts::standing(came);
    let mut marks = PersonMarks {
        person: person.clone(),
        came: None,
        state: State::NotIn,
        notes: Vec::new(),
    };
    if let (Some(first), Some(ready)) = (own.first(), ready) {
        let mut items = mark_paper(ready, first, manner);
        decisions.lay_over(&person.id, &mut items);
        marks.came = Some((first.way, first.at, first.zone));
        marks.state = State::Marked(items);
        marks.notes.extend(late(ready, first));
        marks.notes.extend(counts::told(&own));
    }
    marks
}

/// Whether a hand-in came after the day that the paper names.
fn late(ready: &Ready, hand_in: &HandIn) -> Option<String> {
    let due = ready.printed.head.due.as_ref()?;
    let day = day_of(hand_in.at?, hand_in.zone);
    (day > *due).then(|| format!("late: came in on {day}, due {due}"))
}
