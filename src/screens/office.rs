//! Who keeps a class's folder, and the files of a paper that is answered: orders go out, and
//! what came of them is told later. No call waits for the disk, and nothing is read or written
//! here.

use std::collections::BTreeMap;
use std::sync::Arc;

use pumpwright_engine::classes::Paper;
use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::marks::{ClassMarks, Decisions, HandIn, Ready};
use pumpwright_engine::classes::plan::Plan;
use pumpwright_engine::classes::report::Report;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::marking::Manner;

/// What is asked of the office.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Order {
    /// Open the folder of a class, or of one plan's papers in it.
    Open(String),
    /// Take a class list into the folder, which is made where there is none.
    List {
        /// The folder.
        folder: String,
        /// The file of the list.
        file: String,
    },
    /// Take a plan into the class that is open.
    Plan(String),
    /// Look at the plan of the class that is open.
    Samples,
    /// Make the papers that are missing.
    Print,
    /// Make one further paper for a person.
    MakeUp {
        /// The id.
        person: String,
        /// Whether one more is made of somebody who has one.
        one_more: bool,
    },
    /// Take in files of answers, or a folder of them, or a table that was typed.
    Read(String),
    /// Say what the marks of the papers tell.
    Report,
    /// Keep what was keyed of a paper with the pen.
    Key(Keyed),
    /// Keep what was decided.
    Decide(Decision),
    /// Open a paper that was given as a file, to be answered.
    Give(String),
    /// Keep what is written on such a paper, or hand it in.
    Answer(Box<Answered>),
}

/// A paper that was given as a file, as it was left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Given {
    /// The paper.
    pub paper: SitPaper,
    /// What is written on it so far.
    pub answers: Answers,
    /// The file in which it is handed in.
    pub out: String,
}

/// What is written on a paper that was given as a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// The file in which it is handed in.
    pub out: String,
    /// The answers.
    pub answers: Answers,
    /// Whether it is handed in; else it is only kept.
    pub whole: bool,
}

/// What was keyed of a paper with the pen.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Keyed {
    /// The number of the paper.
    pub paper: String,
    /// Item by item in the order of the paper; none of an item that is not done.
    pub items: Vec<Option<String>>,
    /// The item with the pen, from zero.
    pub at: usize,
    /// Whether the whole paper is done and to be filed.
    pub whole: bool,
}

/// A decision beside the marks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Decision {
    /// An item counts for nobody, and why; without a reason it counts again.
    Drop {
        /// Its number in the plan, from one.
        item: usize,
        /// Why.
        reason: String,
    },
    /// The marks of an item of one paper, and why; without marks those that are worked
    /// out stand again.
    Judge {
        /// The number of the paper.
        paper: String,
        /// The item's number in the plan, from one.
        item: usize,
        /// The marks, counted in halves.
        halves: Option<u32>,
        /// Why.
        reason: String,
    },
}

impl Decision {
    /// Lays it into what was decided before.
    pub fn lay_into(&self, decisions: &mut Decisions) {
        use pumpwright_engine::classes::marks::{Dropped, Judged};
        match self {
            Self::Drop { item, reason } => {
                decisions.dropped.retain(|known| known.item != *item);
                if !reason.is_empty() {
                    decisions.dropped.push(Dropped {
                        item: *item,
                        reason: reason.clone(),
                    });
                }
            }
            Self::Judge {
                paper,
                item,
                halves,
                reason,
            } => {
                decisions
                    .judged
                    .retain(|known| known.paper != *paper || known.item != *item);
                decisions.judged.extend(halves.map(|halves| Judged {
                    paper: paper.clone(),
                    item: *item,
                    halves,
                    reason: reason.clone(),
                }));
            }
        }
    }
}

/// What the office tells.
#[derive(Debug)]
pub enum Told {
    /// How the class stands.
    Now(Box<ClassNow>),
    /// This folder is none of a class yet; the sentence says what is missing.
    NoClass {
        /// The folder.
        folder: String,
        /// What is so.
        why: String,
    },
    /// The plan of the class with papers drawn from it to look at.
    Samples(Box<Samples>),
    /// What the papers of the plan of this id take in the printer.
    Pages(String, Pages),
    /// What the marks tell.
    Report(Box<Report>),
    /// What came of an order, in lines.
    Done(Vec<String>),
    /// What was keyed is on the disk.
    Kept(Keyed),
    /// It is not, and why.
    NotKept(Keyed, String),
    /// A paper that was given as a file.
    Given(Box<Given>),
    /// What was written on it is on the disk.
    Answered(Box<Answered>),
    /// It is not, and why.
    NotAnswered(Box<Answered>, String),
    /// An order could not be done, and why. Nothing is lost.
    Refused(String),
}

/// A class as it stands.
#[derive(Debug, Clone, Default)]
pub struct ClassNow {
    /// The folder, as it was named.
    pub folder: String,
    /// What the class is called: the last part of its folder.
    pub name: String,
    /// Everybody on the list, in its order.
    pub people: Vec<Person>,
    /// The plan, where there is one.
    pub plan: Option<PlanNow>,
    /// The papers, ready to be marked by.
    pub papers: Arc<BTreeMap<String, Ready>>,
    /// What is half marked with the pen, by paper.
    pub keyed: BTreeMap<String, Keyed>,
    /// The hand-in of each paper that counts.
    pub hand_ins: BTreeMap<String, HandIn>,
    /// What was decided.
    pub decisions: Decisions,
    /// The marks.
    pub marks: ClassMarks,
    /// What cannot be read.
    pub notes: Vec<String>,
}

/// The plan of a class in a few words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PlanNow {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The day of the paper, as `2026-11-18`.
    pub date: Option<String>,
    /// How many items.
    pub items: usize,
    /// The marks of a paper.
    pub marks: u32,
    /// The minutes that a paper takes.
    pub minutes: u32,
    /// How many different papers, in the plan's words.
    pub versions: String,
}

/// A plan with papers drawn from it under a key that no class has.
#[derive(Debug, Clone)]
pub struct Samples {
    /// The plan.
    pub plan: Plan,
    /// The samples, whole papers; the first three are shown.
    pub papers: Vec<Paper>,
    /// How alike papers are.
    pub spread: Option<Spread>,
    /// How many people there are to print for.
    pub people: usize,
    /// What they take in the printer.
    pub pages: Pages,
}

/// What the papers of a class take in the printer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pages {
    /// It is being worked out.
    Awaited,
    /// They were set and counted.
    Counted {
        /// The fewest pages that a paper has.
        least: usize,
        /// The most pages that a paper has.
        most: usize,
        /// The pages of all of them, blank backs counted.
        together: usize,
        /// Whether only some were set, and all is reckoned from those.
        about: bool,
    },
    /// They are not counted, and why, in a sentence.
    Unknown(String),
}

/// Who keeps a class's folder. Every call comes back at once.
pub trait Office {
    /// Takes an order; figures are read and written as the person does.
    fn order(&mut self, order: Order, manner: Manner);
    /// What came of an order, if anything did since.
    fn told(&mut self) -> Option<Told>;
}

/// No office: where a paper is only sat, or nothing is kept.
#[derive(Debug, Default)]
pub struct NoOffice(Option<Told>);

impl Office for NoOffice {
    fn order(&mut self, _: Order, _: Manner) {
        self.0 = Some(Told::Refused("no class is kept here".to_owned()));
    }

    fn told(&mut self) -> Option<Told> {
        self.0.take()
    }
}
