//! How long a class's hand-ins take to be marked: from the records of printed papers and
//! what was handed in to marks, as `mark` does it, without the disk.
//! `cargo bench -p pumpwright-engine --bench classes`.
//!
//! A response is what somebody wrote on one item. The plan asks every kind of line; most
//! answers are right, some take a known mistake and work on from it, some are off in another
//! way, in another unit, or empty.

#![allow(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "a bench reads the shipped lessons and ends loudly without them"
)]

#[path = "../tests/common/mod.rs"]
mod common;
#[path = "../src/parts.rs"]
mod parts;

use std::collections::BTreeMap;
use std::hint::black_box;
use std::sync::LazyLock;

use divan::Bencher;
use parts::in_parts;
use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::{ClassMarks, Decisions, HandIn, Ready, Sorted, rebuilt};
use pumpwright_engine::classes::plan::{self, Plan};
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::report::Gathered;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::strip::strip;
use pumpwright_engine::classes::{Drawing, Paper};
use pumpwright_engine::learner::Dice;
use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{Problem, working};

fn main() {
    divan::main();
}

/// The plan that the tests of a class have, too.
const PLAN: &str = include_str!("../tests/classes/week-6.toml");

/// So many responses stand on a paper.
const ITEMS: usize = 10;

/// So many papers lie before the marking: what `mark` is given.
const PAPERS: usize = 1_000;

/// So often each of them is marked, so that 100,000 responses are.
const TIMES: usize = 10;

/// Papers that were printed and answered.
struct Class {
    people: Vec<Person>,
    printed: Vec<PrintedPaper>,
    text: LessonText,
    hand_ins: Vec<HandIn>,
}

static CLASS: LazyLock<Class> = LazyLock::new(class);

fn class() -> Class {
    let source = SourceFile {
        path: "plan.toml".into(),
        text: PLAN.into(),
    };
    let files = common::texts(&common::root().join("lessons"), "toml");
    let (mut library, faults) = Library::read(&files);
    assert!(faults.is_empty(), "{faults:?}");
    let plan: Plan = plan::read(&mut library, &source).expect("a plan");
    let text = LessonText::of(&files, &library, (&plan, &source), None);
    let key = ClassKey::of([9; 32]);
    let mut drawing = Drawing::new(&library, &plan, &key).expect("a drawing");
    let mut dice = Dice::of(11);
    let mut class = Class {
        people: Vec::new(),
        printed: Vec::new(),
        text,
        hand_ins: Vec::new(),
    };
    let sum = class.text.sum();
    for at in 0..PAPERS {
        let person = Person {
            id: format!("{at:04}"),
            name: format!("Person {at}"),
        };
        let paper = drawing.paper(&person).expect("a paper");
        assert_eq!(paper.items.len(), ITEMS);
        class.hand_ins.push(handed_in(&paper, &mut dice));
        let sit = SitPaper::of(&paper);
        class
            .printed
            .push(PrintedPaper::of(&paper, &sum, &sit.sum()));
        class.people.push(person);
    }
    class
}

fn handed_in(paper: &Paper, dice: &mut Dice) -> HandIn {
    let mut answers = Answers::to(&SitPaper::of(paper));
    for (item, blank) in paper.items.iter().zip(&mut answers.items) {
        *blank = answered(&item.problem, dice);
    }
    answers.into()
}

/// What somebody writes on an item: of 100, 60 are right, 20 take a known mistake, 8 are off
/// by a figure, 4 by a unit, 8 leave lines empty.
fn answered(problem: &Problem, dice: &mut Dice) -> Vec<String> {
    let worked = working(problem);
    let typed = |id: &str| worked.iter().find(|own| own.id == id);
    let mut lines: Vec<String> = problem
        .asked()
        .map(|(_, line)| typed(&line.id).map_or_else(String::new, |own| own.typed.clone()))
        .collect();
    let throw = dice.share();
    let at = (dice.share() * lines.len() as f64) as usize;
    if throw < 0.6 {
        return lines;
    }
    if throw < 0.8 {
        let key = strip(problem);
        let turns: Vec<_> = key.lines.iter().flat_map(|line| &line.turns).collect();
        let one = (dice.share() * turns.len() as f64) as usize;
        if let Some(turn) = turns.get(one) {
            lines[turn.line - 1].clone_from(&turn.text);
            let after = key.after.iter().find(|own| own.letter == turn.letter);
            for (line, text) in after.into_iter().flat_map(|own| &own.figures) {
                lines[line - 1].clone_from(text);
            }
        }
    } else if throw < 0.88 {
        lines[at] = "17.3".into();
    } else if throw < 0.92 {
        let figure = lines[at].split(' ').next().unwrap_or_default();
        lines[at] = format!("{figure} kPa");
    } else {
        lines[at..].iter_mut().for_each(String::clear);
    }
    lines
}

impl Class {
    /// Every paper ready to be marked by.
    fn ready(&self, library: &Library) -> BTreeMap<String, Ready> {
        ready(self.printed.clone(), library)
    }

    /// Their marks.
    fn marks(&self, ready: &BTreeMap<String, Ready>) -> ClassMarks {
        let sorted = Sorted::of(&self.people, ready, &self.hand_ins);
        let (none, manner) = (Decisions::default(), Manner::default());
        let marks = in_parts(&self.people, |part| sorted.mark(part, &none, manner));
        sorted.class(marks)
    }
}

/// Records made ready as the program does it, on all cores.
fn ready(printed: Vec<PrintedPaper>, library: &Library) -> BTreeMap<String, Ready> {
    let problems = in_parts(&printed, |part| rebuilt(part, library));
    let made = printed.into_iter().zip(problems);
    let made = made.map(|(printed, problems)| {
        let id = printed.person.id.clone();
        (id, Ready { printed, problems })
    });
    made.collect()
}

/// 100,000 responses: ten times 1,000 papers of ten items, each made again from its record
/// and marked. The records are there: reading them is the disk's and JSON's.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn mark_100_000_responses(bencher: Bencher) {
    let class = &*CLASS;
    let library = class.text.library();
    let records = || vec![class.printed.clone(); TIMES];
    bencher.with_inputs(records).bench_values(|records| {
        for printed in records {
            let ready = ready(printed, black_box(&library));
            black_box(class.marks(&ready));
        }
    });
}

/// Of it: the problems made again from the records.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn of_it_problems_made_again(bencher: Bencher) {
    let class = &*CLASS;
    let library = class.text.library();
    let records = || vec![class.printed.clone(); TIMES];
    bencher.with_inputs(records).bench_values(|records| {
        for printed in records {
            black_box(ready(printed, black_box(&library)));
        }
    });
}

/// Marks of 10,000 responses to the whole report of the class.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn report_of_10_000_responses(bencher: Bencher) {
    let class = &*CLASS;
    let library = class.text.library();
    let ready = class.ready(&library);
    let marks = class.marks(&ready);
    bencher.bench(|| {
        let mut gathered = Gathered::default();
        gathered.take("class", black_box(&marks), &ready);
        gathered.report(&library)
    });
}
