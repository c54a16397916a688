//! A class on the bench: sealed papers of the bench's lessons, and an office that keeps
//! everything in memory and does each order at once.

use std::cell::RefCell;
use std::collections::{BTreeMap, VecDeque};
use std::rc::Rc;
use std::sync::{Arc, LazyLock};

use pumpwright_engine::classes::Drawing;
use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::marks::{Decisions, HandIn, Ready, Way, mark_class};
use pumpwright_engine::classes::plan;
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::report::Gathered;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::lessons::SourceFile;
use pumpwright_engine::marking::Manner;

use super::bench::{files, library};
use crate::office::{
    Answered, ClassNow, Given, Keyed, Office, Order, Pages, PlanNow, Samples, Told,
};
use crate::trial::ready;

/// Ten items, as in a week's paper.
const PLAN: &str = r#"
format = 1
plan = "week-6"
title = "Week 6: cable, tank, relief"
date = "2026-11-18"
[[item]]
family = "psi-to-feet"
[[item]]
family = "tank-precharge"
[[item]]
family = "cable-drop"
[[item]]
family = "relief-setting"
[[item]]
family = "setback"
[[item]]
family = "tdh-with-friction"
[[item]]
family = "stage-count"
[[item]]
family = "insulation-order"
[[item]]
family = "box-parts"
[[item]]
family = "megohm-verdict"
"#;

/// Made-up people: accents, apostrophes, a name wider than its column.
const NAMES: [&str; 6] = [
    "Ash, R.",
    "Birch, Tomáš",
    "Cole-Wetherington, Maximiliane",
    "D'Arcy, Léa",
    "Fern, Jürgen",
    "O'Neill-Ødegård, Zoë",
];

/// The number of the paper that most checks mark.
pub const PAPER: &str = "004";

/// The class: its plan in a few words, its people, their papers, and samples.
type Kept = (PlanNow, Vec<Person>, Arc<BTreeMap<String, Ready>>, Samples);

static CLASS: LazyLock<Kept> = LazyLock::new(|| {
    let mut library = library();
    let source = SourceFile {
        path: "plan.toml".into(),
        text: PLAN.into(),
    };
    let plan = plan::read(&mut library, &source).expect("a plan");
    let people: Vec<Person> = (NAMES.iter().zip(1..))
        .map(|(name, at)| Person {
            id: format!("{at:03}"),
            name: (*name).to_owned(),
        })
        .collect();
    let text = LessonText::of(&files(), &library, (&plan, &source), None);
    let old = text.library();
    let key = ClassKey::of([7; 32]);
    let mut drawing = Drawing::new(&library, &plan, &key).expect("a plan that is drawn");
    let drawn = people.iter();
    let drawn = drawn.map(|person| drawing.paper(person).expect("a paper"));
    let drawn: Vec<_> = drawn.collect();
    let papers = people.iter().zip(&drawn).map(|(person, paper)| {
        let printed = PrintedPaper::of(paper, &text.sum(), &SitPaper::of(paper).sum());
        (person.id.clone(), Ready::of(printed, &old))
    });
    let papers = Arc::new(papers.collect());
    let now = PlanNow {
        id: plan.id.clone(),
        title: plan.title.clone(),
        date: plan.date.clone(),
        items: plan.count() as usize,
        marks: plan.marks(),
        minutes: plan.minutes(),
        versions: plan.versions.to_string(),
    };
    let samples = Samples {
        spread: Spread::of(drawn.iter().map(|paper| paper.expected), plan.marks()),
        plan,
        papers: drawn,
        people: people.len(),
        pages: Pages::Awaited,
    };
    (now, people, papers, samples)
});

/// What the office holds.
#[derive(Default)]
pub struct Held {
    /// Every order, in turn.
    pub orders: Vec<Order>,
    /// What was filed.
    pub filed: Vec<HandIn>,
    /// What is half marked.
    pub keyed: BTreeMap<String, Keyed>,
    /// What was written on a paper that was given as a file, the last of it.
    pub answered: Option<Answered>,
    /// What was decided.
    pub decisions: Decisions,
    /// What is told of pages, behind the samples.
    pub pages: Option<Pages>,
    /// Whether the disk is full.
    pub full: bool,
    /// Whether Birch has a make-up paper.
    pub made_up: bool,
    /// Whether somebody has joined late, and has no paper.
    pub late: bool,
    /// The first stage that is not done: 0 no list, 1 no plan, 2 no papers, 3 all is there.
    pub stage: usize,
    told: VecDeque<Told>,
}

/// The office.
#[derive(Clone, Default)]
pub struct Demo(pub Rc<RefCell<Held>>);

impl Demo {
    /// A class at a stage.
    pub fn at(stage: usize) -> Self {
        let demo = Self::default();
        demo.0.borrow_mut().stage = stage;
        demo
    }
}

impl Held {
    /// Further papers and people, where there are any.
    fn join(&self, now: &mut ClassNow) {
        if self.made_up {
            let (_, _, _, samples) = &*CLASS;
            let papers = samples.papers.iter();
            let further = ("002+2".to_owned(), ready(&samples.papers[1]));
            let papers = papers.map(|paper| (paper.person.id.clone(), ready(paper)));
            now.papers = Arc::new(papers.chain([further]).collect());
            let mut further = now.people[1].clone();
            further.id = "002+2".into();
            now.people.insert(2, further);
        }
        if self.late {
            now.people.push(Person {
                id: "007".into(),
                name: "Gale, Ines".into(),
            });
        }
    }

    fn now(&self, manner: Manner) -> ClassNow {
        let (plan, people, papers, _) = &*CLASS;
        let mut now = ClassNow {
            folder: "/classes/evening-class".into(),
            name: "evening-class".into(),
            ..ClassNow::default()
        };
        if self.stage > 0 {
            now.people.clone_from(people);
        }
        if self.stage > 1 {
            now.plan = Some(plan.clone());
        }
        if self.stage > 2 {
            now.papers = Arc::clone(papers);
            self.join(&mut now);
            now.keyed.clone_from(&self.keyed);
            now.decisions.clone_from(&self.decisions);
            let all = (&*self.filed, &self.decisions);
            now.marks = mark_class(people, papers, all, manner);
            for own in &self.filed {
                now.hand_ins.insert(own.paper.clone(), own.clone());
            }
        }
        now
    }
}

impl Office for Demo {
    fn order(&mut self, order: Order, manner: Manner) {
        let held = &mut *self.0.borrow_mut();
        held.orders.push(order.clone());
        let mut lines = None;
        match order {
            Order::Open(folder) if folder.contains("nowhere") => {
                held.told.push_back(Told::NoClass {
                    why: format!("{folder} is not there yet: name the list of the class"),
                    folder,
                });
                return;
            }
            Order::Open(_) => {}
            Order::List { .. } => held.stage = 1,
            Order::Plan(file) if file.contains("wrong") => {
                let why = format!("{file} cannot be read: no such file");
                held.told.push_back(Told::Refused(why));
                return;
            }
            Order::Plan(_) => held.stage = 2,
            Order::Print => {
                held.stage = 3;
                lines = Some(vec!["6 papers, 6 new".to_owned()]);
            }
            Order::MakeUp { person, one_more } => {
                let nth = if one_more { 3 } else { 2 };
                lines = Some(vec![format!("paper {person}+{nth} is made")]);
            }
            Order::Read(place) => {
                lines = Some(vec![format!(
                    "{place} is damaged: its checksum is not that of its answers; it is left out"
                )]);
            }
            Order::Samples => {
                let (_, _, _, samples) = &*CLASS;
                held.told
                    .push_back(Told::Samples(Box::new(samples.clone())));
                let pages = held.pages.clone();
                held.told
                    .extend(pages.map(|pages| Told::Pages("week-6".into(), pages)));
                return;
            }
            Order::Report => {
                let (_, _, papers, _) = &*CLASS;
                let mut gathered = Gathered::default();
                gathered.take("evening-class", &held.now(manner).marks, papers);
                let report = gathered.report(&library());
                held.told.push_back(Told::Report(Box::new(report)));
                return;
            }
            Order::Key(keyed) if held.full => {
                let why = "no space is left".to_owned();
                held.told.push_back(Told::NotKept(keyed, why));
                return;
            }
            Order::Key(keyed) => {
                if keyed.whole {
                    held.keyed.remove(&keyed.paper);
                    held.filed.retain(|own| own.paper != keyed.paper);
                    held.filed.push(HandIn {
                        paper: keyed.paper.clone(),
                        way: Way::Pen,
                        at: None,
                        zone: 0,
                        items: (keyed.items.iter())
                            .map(|item| vec![item.clone().unwrap_or_default()])
                            .collect(),
                    });
                    let now = held.now(manner);
                    held.told.push_back(Told::Now(Box::new(now)));
                } else {
                    held.keyed.insert(keyed.paper.clone(), keyed.clone());
                }
                held.told.push_back(Told::Kept(keyed));
                return;
            }
            Order::Give(file) if file.contains("nowhere") => {
                let why = format!("{file} cannot be read: no such file");
                held.told.push_back(Told::Refused(why));
                return;
            }
            Order::Give(_) => {
                held.told.push_back(Told::Given(Box::new(given())));
                return;
            }
            Order::Answer(answered) if held.full => {
                let why = "no space is left".to_owned();
                held.told.push_back(Told::NotAnswered(answered, why));
                return;
            }
            Order::Answer(answered) => {
                held.answered = Some((*answered).clone());
                held.told.push_back(Told::Answered(answered));
                return;
            }
            Order::Decide(decision) => decision.lay_into(&mut held.decisions),
        }
        let now = held.now(manner);
        held.told.push_back(Told::Now(Box::new(now)));
        held.told.extend(lines.map(Told::Done));
    }

    fn told(&mut self) -> Option<Told> {
        self.0.borrow_mut().told.pop_front()
    }
}

/// The paper of D'Arcy as a file, on which nothing is written yet.
pub fn given() -> Given {
    let (_, _, _, samples) = &*CLASS;
    let paper = SitPaper::of(&samples.papers[3]);
    Given {
        answers: Answers::to(&paper),
        out: "/stick/answers-week-6-004.json".into(),
        paper,
    }
}

/// A paper that was marked with the pen: so many items right, then these keys, then right.
pub fn from_the_pen(paper: &str, at: usize, keys: &str) -> HandIn {
    let (_, _, papers, _) = &*CLASS;
    let items = papers[paper].printed.items.len();
    let keys = (0..items).map(|own| if own == at { keys } else { "" });
    HandIn {
        paper: paper.to_owned(),
        way: Way::Pen,
        at: None,
        zone: 0,
        items: keys.map(|keys| vec![keys.to_owned()]).collect(),
    }
}

/// A paper of the class as the learner at the screen answers it: all of one line right.
pub fn from_the_screen(paper: &str) -> HandIn {
    let (_, _, papers, _) = &*CLASS;
    let ready = &papers[paper];
    HandIn {
        paper: paper.to_owned(),
        way: Way::Screen,
        at: Some(1_795_436_000_000),
        zone: 0,
        items: (ready.printed.items.iter())
            .map(|item| {
                let lines = item.problem.lines.iter();
                let asked = lines
                    .filter(|line| line.asks != pumpwright_engine::problems::KeptAsks::Nothing);
                asked.map(|line| line.answer.clone()).collect()
            })
            .collect(),
    }
}
