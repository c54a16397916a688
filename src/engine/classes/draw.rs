//! Drawing the papers of a class from its key: each alike in what it expects, none with
//! a neighbor's answer, and each by itself, so that a late joiner changes nobody else's.
//!
//! Papers are asked for in the order of the kept list. Each is balanced against one mark
//! that the plan alone decides, not against the other papers; of the others it only sees
//! the two before it, whose answers it avoids. A make-up paper sees the earlier ones of its
//! person, wherever on them a job stood.

use std::collections::VecDeque;
use std::sync::Arc;

use super::difficulty::expected;
use super::make_up::Job;
use super::paper::{Head, Paper, PaperItem};
use super::plan::{Item, MarksBy, Order, Plan, Source, Versions};
use super::roster::Person;
use super::seal::{ClassKey, Sealed};
use crate::lessons::{Library, share, show};
use crate::papers::answer_only;
use crate::problems::random::{Key, Stream, hex};
use crate::problems::{Asks, DrawError, Problem, Request, draw, draw_sealed};
use crate::quantities::print;

/// So many papers before are neighbors: whoever sits beside or before. Our own choice,
/// no source.
const NEIGHBORS: usize = 2;
/// How often the numbers of an item are drawn for an answer that no neighbor has. Our own
/// choice, no source.
const TRIES: u32 = 12;
/// Among how many such draws the one is taken that keeps the paper at its aim. Our own
/// choice, no source.
const CHOICES: usize = 3;
/// Off by less than this share of the item's marks, the first draw is taken. Our own choice, no
/// source.
const NEAR: f64 = 0.01;
/// How many draws of each family the aim is the mean of. Our own choice, no source.
const SAMPLES: u32 = 12;

/// Draws the papers of a plan, one after the other.
pub struct Drawing<'a> {
    library: &'a Library,
    plan: &'a Plan,
    key: &'a ClassKey,
    /// The marks to be expected of each place.
    aims: Vec<f64>,
    /// The answers of the papers before, place by place.
    before: VecDeque<Vec<String>>,
    /// The problems of somebody's earlier papers, while a further one is drawn.
    met: Vec<Met>,
    /// The versions, where there are some for all.
    versions: Vec<Drawn>,
    people: usize,
}

/// A paper without its person.
#[derive(Clone)]
struct Drawn {
    items: Vec<PaperItem>,
    answers: Vec<String>,
    expected: f64,
    coincide: u32,
}

/// A problem that somebody has met, with its answer.
struct Met {
    job: Job,
    family: String,
    answer: String,
}

/// What is against a draw, the least first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Against {
    /// Nothing.
    Nothing,
    /// A neighbor, or an earlier paper of this person, has its answer.
    Answer,
    /// An earlier paper of this person asks the same job with the same numbers.
    Job,
}

/// A draw of one place.
struct Candidate {
    problem: Problem,
    answer: String,
    expected: f64,
}

impl<'a> Drawing<'a> {
    /// Ready to draw the papers of a plan under a key.
    pub fn new(library: &'a Library, plan: &'a Plan, key: &'a ClassKey) -> Result<Self, DrawError> {
        let mut drawing = Self {
            library,
            plan,
            key,
            aims: Vec::new(),
            before: VecDeque::new(),
            met: Vec::new(),
            versions: Vec::new(),
            people: 0,
        };
        let items = plan.items.iter().map(|item| drawing.aim(item));
        let aims = items.collect::<Result<Vec<f64>, DrawError>>()?;
        drawing.aims = plan
            .places()
            .filter_map(|(at, _)| aims.get(at).copied())
            .collect();
        Ok(drawing)
    }

    /// The next person's paper.
    pub fn paper(&mut self, person: &Person) -> Result<Paper, DrawError> {
        let at = self.people;
        self.people += 1;
        let (drawn, version) = match self.plan.versions {
            Versions::OneEach => (self.drawn(&person.id)?, None),
            Versions::Some(count) => {
                let version = at % count.max(1) as usize;
                if self.versions.len() <= version {
                    let drawn = self.drawn(&format!("version {}", version + 1))?;
                    self.versions.push(drawn);
                }
                let drawn = self.versions.get(version).cloned();
                let drawn = drawn.ok_or_else(|| DrawError::Tries {
                    family: self.plan.id.clone(),
                })?;
                (drawn, Some(version as u32 + 1))
            }
        };
        Ok(Paper {
            head: Head::of(self.plan),
            person: person.clone(),
            version,
            items: drawn.items,
            expected: drawn.expected,
            coincide: drawn.coincide,
        })
    }

    /// A further paper of somebody, under a number of its own: the jobs and levels of the
    /// plan, as hard as the others, and nothing of this person's earlier papers as long as a
    /// family has anything else. Nobody's other paper comes into it.
    ///
    /// # Errors
    /// When an item of the plan cannot be drawn.
    pub fn make_up(
        &mut self,
        person: &Person,
        number: &str,
        earlier: &[Paper],
    ) -> Result<Paper, DrawError> {
        let before = std::mem::take(&mut self.before);
        let items = earlier.iter().flat_map(|paper| &paper.items);
        let met = items.map(|item| Met {
            job: Job::of(&item.problem),
            family: item.problem.family.id.clone(),
            answer: answer(&item.problem),
        });
        self.met = met.collect();
        let drawn = self.drawn(number);
        self.met.clear();
        self.before = before;
        let drawn = drawn?;
        Ok(Paper {
            // The day on which the others come in is none for this one.
            head: Head {
                due: None,
                ..Head::of(self.plan)
            },
            person: Person {
                id: number.to_owned(),
                name: person.name.clone(),
            },
            version: None,
            items: drawn.items,
            expected: drawn.expected,
            coincide: drawn.coincide,
        })
    }

    /// The mean of what draws of an item expect, over every family that it may be of.
    fn aim(&self, item: &Item) -> Result<f64, DrawError> {
        let mut sum = 0.0;
        for family in &item.families {
            for number in 0..SAMPLES {
                let problem = draw(self.library, &self.request(family, number))?;
                sum += expected(&self.marked(problem, item.marks));
            }
        }
        let draws = item.families.len() as u32 * SAMPLES;
        Ok(sum / f64::from(draws.max(1)))
    }

    fn request<'r>(&'r self, family: &'r Source, draw: u32) -> Request<'r> {
        Request {
            family: &family.family,
            level: Some(family.level),
            system: self.plan.system,
            draw,
            settings: &self.plan.settings,
        }
    }

    /// The paper of an id or a version.
    fn drawn(&mut self, paper: &str) -> Result<Drawn, DrawError> {
        let plan = self.plan;
        let mut drawn = Drawn {
            items: Vec::new(),
            answers: Vec::new(),
            expected: 0.0,
            coincide: 0,
        };
        // What the places before expect beyond their aims; the next ones make up for it.
        let mut over = 0.0;
        let mut used: Vec<String> = Vec::new();
        for (place, (_, item)) in plan.places().enumerate() {
            let aim = self.aims.get(place).copied().unwrap_or(0.0);
            let (candidate, free) = self.place(paper, (place, item), aim - over, &used)?;
            over += candidate.expected - aim;
            used.push(candidate.problem.family.id.clone());
            drawn.expected += candidate.expected;
            drawn.coincide += u32::from(!free);
            drawn.answers.push(candidate.answer);
            drawn.items.push(PaperItem {
                number: place + 1,
                place,
                marks: candidate.problem.marks(),
                problem: Arc::new(candidate.problem),
            });
        }
        if plan.order == Order::Shuffled {
            stream(&self.key.secret(&plan.id, paper, Sealed::Order)).shuffle(&mut drawn.items);
            for (at, item) in drawn.items.iter_mut().enumerate() {
                item.number = at + 1;
            }
        }
        self.before.push_back(drawn.answers.clone());
        if self.before.len() > NEIGHBORS {
            self.before.pop_front();
        }
        Ok(drawn)
    }

    /// The numbers of one place, and whether no neighbor has their answer.
    fn place(
        &self,
        paper: &str,
        (place, item): (usize, &Item),
        aim: f64,
        used: &[String],
    ) -> Result<(Candidate, bool), DrawError> {
        let off = |candidate: &Candidate| (candidate.expected - aim).abs();
        let mut free: Vec<Candidate> = Vec::new();
        // Where no draw is free, the last of those that have least against them.
        let mut last: Option<(Against, Candidate)> = None;
        let mut refused = None;
        for attempt in 0..TRIES {
            let candidate = match self.candidate(paper, (place, item), attempt, used) {
                Ok(candidate) => candidate,
                Err(error) => {
                    refused = Some(error);
                    continue;
                }
            };
            let against = self.against(place, &candidate);
            if against != Against::Nothing {
                if last.as_ref().is_none_or(|(known, _)| against <= *known) {
                    last = Some((against, candidate));
                }
                continue;
            }
            let near = off(&candidate) <= NEAR * f64::from(item.marks);
            free.push(candidate);
            if near || free.len() == CHOICES {
                break;
            }
        }
        let best = free.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        let found = best
            .map(|best| (best, true))
            .or(last.map(|(_, last)| (last, false)));
        found.ok_or_else(|| {
            refused.unwrap_or_else(|| DrawError::Tries {
                family: self.plan.id.clone(),
            })
        })
    }

    /// What is against a draw of a place.
    fn against(&self, place: usize, candidate: &Candidate) -> Against {
        let family = &candidate.problem.family.id;
        let mut met = self.met.iter().filter(|met| met.family == *family);
        if met.clone().next().is_some() {
            let job = Job::of(&candidate.problem);
            if met.clone().any(|met| met.job == job) {
                return Against::Job;
            }
        }
        let has = |answers: &Vec<String>| answers.get(place) == Some(&candidate.answer);
        if met.any(|met| met.answer == candidate.answer) || self.before.iter().any(has) {
            return Against::Answer;
        }
        Against::Nothing
    }

    fn candidate(
        &self,
        paper: &str,
        (place, item): (usize, &Item),
        attempt: u32,
        used: &[String],
    ) -> Result<Candidate, DrawError> {
        let secret = |of: Sealed| self.key.secret(&self.plan.id, paper, of);
        let fresh = |family: &&Source| !used.contains(&family.family);
        let mut families: Vec<&Source> = item.families.iter().filter(fresh).collect();
        if families.is_empty() {
            families = item.families.iter().collect();
        }
        let of_lesson = stream(&secret(Sealed::Family { place, attempt })).below(families.len());
        let Some(family) = families.get(of_lesson) else {
            return Err(DrawError::Tries {
                family: self.plan.id.clone(),
            });
        };
        let numbers = secret(Sealed::Numbers { place, attempt });
        let problem = draw_sealed(self.library, &self.request(family, 0), &numbers)?;
        let problem = self.marked(problem, item.marks);
        Ok(Candidate {
            answer: answer(&problem),
            expected: expected(&problem),
            problem,
        })
    }

    /// A problem whose lines bear the marks of the item: by steps each line one at
    /// least, the rest shared out as the family has them; by answer the last line all.
    fn marked(&self, problem: Problem, marks: u32) -> Problem {
        let mut problem = match self.plan.marks_by {
            MarksBy::Steps => problem,
            MarksBy::Answer => answer_only(problem, false),
        };
        if problem.marks() == marks {
            return problem;
        }
        let asked = |line: &&mut crate::problems::Line| line.asks != Asks::Nothing;
        let own: Vec<u32> = problem.asked().map(|(_, line)| line.marks.max(1)).collect();
        let shares = share(marks.saturating_sub(own.len() as u32), &own);
        for (line, more) in problem.lines.iter_mut().filter(asked).zip(shares) {
            line.marks = 1 + more;
        }
        problem
    }
}

/// A stream that a secret decides.
fn stream(secret: &[u8; 32]) -> Stream {
    Key::of(&["sealed", &hex(secret)]).stream(0)
}

/// The answer of a problem as one that neighbors may not share: the last line that is
/// asked, a figure as it is written, or to three figures.
fn answer(problem: &Problem) -> String {
    let Some(line) = problem.asked().last().map(|(_, line)| line) else {
        return String::new();
    };
    match &line.asks {
        Asks::Pick { offers, key } => {
            let right = offers.get(*key).map(|offer| offer.text.as_str());
            format!("{key} {}", right.unwrap_or_default())
        }
        Asks::Order { cards } => {
            let places = cards.iter().map(|card| (&card.id, card.place));
            format!("{:?}", places.collect::<Vec<_>>())
        }
        Asks::Match { parts, .. } => {
            format!("{parts:?}")
        }
        Asks::Figure | Asks::Row | Asks::Nothing => {
            let value = problem.value(line.step);
            let write = problem
                .variant
                .steps
                .get(line.step)
                .and_then(|step| step.write);
            match (value.and_then(crate::formulas::Value::number), &line.unit) {
                (Some(quantity), Some(unit)) => {
                    let figure = unit.from_si(quantity.si);
                    match write {
                        Some(write) => {
                            let grid = write.grid_shown;
                            print::on_grid(print::rounded(figure, grid, write.direction), grid)
                        }
                        None => print::figures(figure, 3),
                    }
                }
                _ => value.map_or_else(String::new, |value| show(value, line.unit.as_ref())),
            }
        }
    }
}
