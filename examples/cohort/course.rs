//! One apprentice through one course under one policy: 40 evenings of 45 minutes in
//! eight weeks, with looks at the truth that only a simulation has.

use std::collections::VecDeque;

use pumpwright_engine::learner::{Moment, Place, Record, Response, Try, forecast, is_holding};

use crate::apprentice::{Apprentice, DAY, Generator};
use crate::luck::Luck;
use crate::policies::{Pick, Picker, Policy};
use crate::world::{QUESTIONS, World};

/// Evenings of a course, five a week.
pub const EVENINGS: usize = 40;

/// Evenings after which the forecast is held against an exam.
const CHECKED: [usize; 4] = [10, 20, 30, 40];

const MINUTES: f64 = 45.0;
const LESSON_MINUTES: f64 = 6.0;
const PROBLEM_MINUTES: f64 = 1.0;
const STEP_MINUTES: f64 = 0.75;

/// With less left than this, a problem is the evening's last.
const LAST_MINUTES: f64 = 5.0;

/// Days from the last evening to the exam that the scores are for.
const LATER: f64 = 30.0;

/// A forecast beside the exam that followed.
#[derive(Debug, Clone, Copy)]
pub struct Check {
    /// The chance to pass that was forecast.
    pub pass: f64,
    /// Whether the 80 % interval was met.
    pub covered: bool,
    /// Whether it was a pass.
    pub passed: bool,
    /// The chance to pass by the share of the last 50 problems that were right.
    pub by_share: f64,
    /// Forecast score less exam score.
    pub off: f64,
    /// After which of the checked evenings.
    pub at: usize,
}

/// What came of a course.
#[derive(Debug, Clone, Default)]
pub struct Outcome {
    /// True expected exam score 30 days after the last evening.
    pub score: f64,
    /// Problems until the mean step success was 80 %.
    pub reached: Option<u32>,
    /// Forecasts for half a day later.
    pub today: Vec<Check>,
    /// Forecasts for 30 days later.
    pub projected: Vec<Check>,
    /// Each family declared holding: true success a day later, and after how many
    /// problems.
    pub declared: Vec<(f64, u32)>,
    /// The same for three whole problems right in a row.
    pub three: Vec<(f64, u32)>,
    /// Problems worked.
    pub problems: u32,
    /// The share of the families that were met.
    pub met: f64,
}

struct Course<'w> {
    world: &'w World,
    policy: Policy,
    person: Box<dyn Apprentice + 'w>,
    picker: Picker<'w>,
    luck: Luck,
    record: Record,
    met: Vec<bool>,
    counts: Vec<u32>,
    runs: Vec<u32>,
    three: Vec<bool>,
    declared: Vec<bool>,
    last: VecDeque<bool>,
    outcome: Outcome,
}

/// One apprentice, numbered within its cohort, through a course. The same number is
/// the same apprentice under every policy.
pub fn run(
    world: &World,
    generator: &dyn Generator,
    policy: Policy,
    cohort: u64,
    number: u64,
) -> Outcome {
    let luck = |tag| Luck::of(&[cohort, number, tag]);
    let mut course = Course {
        world,
        policy,
        person: generator.apprentice(world, cohort, luck(1)),
        picker: Picker::new(world, policy, luck(2)),
        luck: luck(3),
        record: Record::new(&world.curriculum),
        met: vec![false; world.families()],
        counts: vec![0; world.families()],
        runs: vec![0; world.families()],
        three: vec![false; world.families()],
        declared: vec![false; world.families()],
        last: VecDeque::new(),
        outcome: Outcome::default(),
    };
    for evening in 0..EVENINGS {
        course.evening(evening);
    }
    let end = end_of(EVENINGS - 1);
    let met = course.met.iter().filter(|met| **met).count();
    course.outcome.met = met as f64 / world.families() as f64;
    course.outcome.score = world.score(&course.chances(end + LATER * DAY));
    course.outcome
}

/// When an evening begins: at seven, five days a week.
fn start_of(evening: usize) -> f64 {
    (7 * (evening / 5) + evening % 5) as f64 * DAY + 68_400.0
}

fn end_of(evening: usize) -> f64 {
    start_of(evening) + 3_000.0
}

/// The moment as the model takes it.
fn moment(at: f64) -> Moment {
    Moment {
        seconds: at as i64,
        day: (at / DAY) as i32,
    }
}

impl Course<'_> {
    fn evening(&mut self, evening: usize) {
        let mut left = if self.person.attends(evening) {
            MINUTES
        } else {
            0.0
        };
        let mut worked = 0;
        while left > 0.0 {
            let at = start_of(evening) + 200.0 * f64::from(worked);
            let place = match worked {
                0 => Place::First,
                _ if left <= LAST_MINUTES => Place::Last,
                _ => Place::Middle,
            };
            let pick = self.picker.pick(&self.record, moment(at), place);
            left -= self.problem(pick, at);
            worked += 1;
        }
        self.look(end_of(evening));
        if CHECKED.contains(&(evening + 1)) && self.policy == Policy::Recommended {
            let (today, projected) = (self.check(evening, 0.5), self.check(evening, LATER));
            self.outcome.today.push(today);
            self.outcome.projected.push(projected);
        }
    }

    /// Works a problem; gives the minutes that it took.
    fn problem(&mut self, pick: Pick, at: f64) -> f64 {
        let world = self.world;
        let steps = &world.steps[pick.family];
        let mut minutes = PROBLEM_MINUTES + STEP_MINUTES * steps.len() as f64;
        if !self.met[pick.family] {
            self.met[pick.family] = true;
            self.person.lesson(pick.family, at - 30.0);
            minutes += LESSON_MINUTES;
        }
        let mut tries = Vec::new();
        for (number, skill) in steps.iter().enumerate() {
            let then = at + 25.0 * number as f64;
            let right = self
                .luck
                .happens(self.person.chance(*skill, pick.level, then));
            self.person.step(*skill, pick.level, right, then);
            tries.push((*skill, right));
        }
        let all_right = tries.iter().all(|(_, right)| *right);
        if self.policy.needs_model() {
            let response = self.response(pick, at, &tries);
            self.record.take(&world.curriculum, &response);
        }
        self.picker.worked(all_right);
        self.count(pick.family, all_right, at);
        minutes
    }

    fn response(&self, pick: Pick, at: f64, tries: &[(usize, bool)]) -> Response {
        let id = |family: usize| self.world.curriculum.families()[family].id.as_str().into();
        let tries = tries.iter().map(|(skill, right)| Try {
            skill: id(*skill),
            right: *right,
            helped: false,
            seconds: None,
            options: None,
            mistake: None,
        });
        Response {
            when: moment(at),
            id: u128::from(self.outcome.problems),
            problem: self.outcome.problems.to_string().into(),
            family: id(pick.family),
            level: pick.level,
            probe: pick.probe,
            tries: tries.collect(),
        }
    }

    fn count(&mut self, family: usize, all_right: bool, at: f64) {
        self.outcome.problems += 1;
        self.counts[family] += 1;
        self.runs[family] = if all_right { self.runs[family] + 1 } else { 0 };
        if self.runs[family] >= 3 && !self.three[family] {
            self.three[family] = true;
            let truth = self.person.chance(family, 2, at + DAY);
            self.outcome.three.push((truth, self.counts[family]));
        }
        self.last.push_back(all_right);
        if self.last.len() > 50 {
            self.last.pop_front();
        }
    }

    fn chances(&self, at: f64) -> Vec<f64> {
        (0..self.world.families())
            .map(|skill| self.person.chance(skill, 2, at))
            .collect()
    }

    /// What the truth is at the end of an evening.
    fn look(&mut self, at: f64) {
        if self.outcome.reached.is_none() && self.world.step_success(&self.chances(at)) >= 0.80 {
            self.outcome.reached = Some(self.outcome.problems);
        }
        if self.policy != Policy::Spiral {
            return;
        }
        for family in 0..self.world.families() {
            if !self.declared[family] && is_holding(&self.record.state, family, moment(at)) {
                self.declared[family] = true;
                let truth = self.person.chance(family, 2, at + DAY);
                self.outcome.declared.push((truth, self.counts[family]));
            }
        }
    }

    /// Draws an exam some days later and holds the forecast against it.
    fn check(&mut self, evening: usize, days: f64) -> Check {
        let world = self.world;
        let at = end_of(evening) + days * DAY;
        let items = world.items(&self.chances(at));
        let questions = f64::from(QUESTIONS);
        let drawn = (0..QUESTIONS).filter(|_| {
            let family = self.luck.place(world.blueprint.weights());
            self.luck.happens(items[family])
        });
        let score = drawn.count() as f64 / questions;
        let said = forecast(
            &world.curriculum,
            &self.record,
            &world.blueprint,
            moment(at),
        );
        let right = self.last.iter().filter(|right| **right).count() as f64;
        let share = (right + 1.0) / (self.last.len() as f64 + 2.0);
        let deviation = (2.0 * share * (1.0 - share) / questions).sqrt();
        let above = share - world.blueprint.pass + 0.5 / questions;
        Check {
            pass: said.pass,
            covered: (said.between.0..=said.between.1).contains(&score),
            passed: score >= world.blueprint.pass - 1e-9,
            by_share: 0.5 * libm::erfc(-above / deviation / std::f64::consts::SQRT_2),
            off: said.score - score,
            at: evening,
        }
    }
}
