//! Taking in classes' papers one after the other, and the report of all of them.

use std::collections::{BTreeMap, BTreeSet};

use super::items::{Pool, Row};
use super::spread::Spread;
use super::steps::Steps;
use super::turns::Turns;
use super::{Met, PlanFigures, Report, Sitting};
use crate::classes::make_up::{counted, owner};
use crate::classes::marks::{ClassMarks, MarkedItem, Ready, State};
use crate::lessons::Library;
use crate::marking::Marks;

/// What was taken in so far: sums and counts, and a row of marks for each hand-in.
#[derive(Debug, Default)]
pub struct Gathered {
    classes: Vec<String>,
    sittings: Vec<Taken>,
    /// People by class and number, so that one who sat two papers is one person.
    people: BTreeMap<(usize, String), usize>,
    turns: Turns,
    steps: Steps,
    pools: Vec<Pool>,
    notes: Vec<String>,
}

/// A class's paper that was taken in.
#[derive(Debug)]
struct Taken {
    class: usize,
    sitting: Sitting,
    families: BTreeSet<(String, u8)>,
}

impl Gathered {
    /// Takes in the marks of a class's paper. Papers under the same name of a class are of
    /// one class. Where there is no paper there is nothing to take in.
    pub fn take(&mut self, class: &str, marks: &ClassMarks, ready: &BTreeMap<String, Ready>) {
        let Some(head) = ready.values().next().map(|own| &own.printed.head) else {
            return;
        };
        let number = self.sittings.len();
        let class_number = self.class(class);
        let mut dropped: BTreeSet<usize> = BTreeSet::new();
        let mut families = BTreeSet::new();
        let mut totals: Vec<u32> = Vec::new();
        let mut rows: Vec<Row> = Vec::new();
        let (mut came_in, mut left_out) = (0, 0);
        for person in &marks.people {
            let State::Marked(items) = &person.state else {
                continue;
            };
            came_in += 1;
            let id = (class_number, owner(&person.person.id).to_owned());
            let next = self.people.len();
            let who = *self.people.entry(id).or_insert(next);
            dropped.extend(items.iter().filter(|own| own.dropped).map(|own| own.item));
            let counted = |own: &&MarkedItem| !own.dropped;
            families
                .extend((items.iter().filter(counted)).map(|own| (own.family.clone(), own.level)));
            let problems = ready.get(&person.person.id).map(|own| &own.problems);
            let problems = problems.into_iter().flatten().map(|own| own.as_ref().ok());
            let known: Vec<_> = items.iter().zip(problems).collect();
            for (item, problem) in known.iter().filter(|(item, _)| !item.dropped) {
                let problem = problem.map(|own| &own.problem);
                self.steps.add(&head.plan, item, problem);
            }
            let with_problem = known.iter().filter(|(item, _)| !item.dropped);
            let with_problem =
                with_problem.filter_map(|(item, own)| Some((*item, &own.as_ref()?.problem)));
            self.turns.add((number, who), with_problem);
            if items.iter().any(MarkedItem::is_open) {
                left_out += 1;
            } else {
                let total: Marks = items.iter().map(|own| own.score).sum();
                totals.push(total.in_halves());
            }
            rows.push(row(items));
        }
        let mut pool = Pool::of(
            (number, class),
            head,
            ready.values().map(|own| &own.printed),
        );
        let whole = pool.bears(&BTreeSet::new());
        let of = pool.bears(&dropped);
        let pass = head.pass_halves.map(|pass| scaled(pass, of, whole));
        pool.take(rows, &dropped);
        self.pool(class, pool);
        self.sittings.push(Taken {
            class: class_number,
            families,
            sitting: Sitting {
                class: class.to_owned(),
                plan: head.plan.clone(),
                title: head.title.clone(),
                date: head.date.clone(),
                units: head.units.clone(),
                papers: counted(marks).1,
                came_in,
                dropped: dropped.into_iter().collect(),
                spread: Spread::of(totals, Marks::halves(of), pass, left_out),
            },
        });
    }

    /// The number of a class by its name.
    fn class(&mut self, name: &str) -> usize {
        let known = self.classes.iter().position(|own| own == name);
        known.unwrap_or_else(|| {
            self.classes.push(name.to_owned());
            self.classes.len() - 1
        })
    }

    /// Lays a paper's rows to those of the same plan.
    fn pool(&mut self, class: &str, pool: Pool) {
        let same_name = |own: &&mut Pool| own.plan == pool.plan;
        match self
            .pools
            .iter_mut()
            .filter(same_name)
            .find(|own| own.goes_with(&pool))
        {
            Some(known) => known.join(pool),
            None => {
                if self.pools.iter().any(|own| own.plan == pool.plan) {
                    self.notes.push(format!(
                        "the plan {} of {class} has other items than the one of that name before; \
                         the two are not pooled",
                        pool.plan
                    ));
                }
                self.pools.push(pool);
            }
        }
    }

    /// The report. The lessons are those of today, for the problems on the board.
    pub fn report(self, library: &Library) -> Report {
        let mut order: Vec<usize> = (0..self.sittings.len()).collect();
        // What has no day comes behind what has one.
        order.sort_by_key(|at| {
            let taken = self.sittings.get(*at);
            let date = taken.and_then(|own| own.sitting.date.clone());
            (taken.map(|own| own.class), date.is_none(), date)
        });
        let ordered = || order.iter().filter_map(|at| self.sittings.get(*at));
        let classes: Vec<usize> = ordered().map(|own| own.class).collect();
        let families = met(&ordered().collect::<Vec<_>>());
        let sittings: Vec<Sitting> = ordered().map(|own| own.sitting.clone()).collect();
        let mut notes = self.notes;
        let left_out: usize = sittings.iter().map(|own| own.spread.left_out).sum();
        if left_out > 0 {
            notes.push(format!(
                "{left_out} {} an item that cannot be marked: their marks are not in the figures, \
                 their other items are",
                if left_out == 1 {
                    "hand-in has"
                } else {
                    "hand-ins have"
                }
            ));
        }
        Report {
            teach: self.turns.listed(&order, &classes, library),
            steps: self.steps.listed(),
            plans: figures(self.pools),
            sittings,
            families,
            notes,
        }
    }
}

/// The figures of each plan.
fn figures(pools: Vec<Pool>) -> Vec<PlanFigures> {
    let plans: Vec<String> = pools.iter().map(|pool| pool.plan.clone()).collect();
    let shares = |pool: &Pool| plans.iter().filter(|own| **own == pool.plan).count() > 1;
    let figures = pools.into_iter().map(|pool| {
        let shares = shares(&pool);
        pool.figures(shares)
    });
    figures.collect()
}

/// The families of papers in their order, those longest ago first.
fn met(papers: &[&Taken]) -> Vec<Met> {
    let mut families: Vec<Met> = Vec::new();
    for (at, own) in papers.iter().enumerate() {
        let lately = papers
            .get(at + 1)
            .is_none_or(|next| next.class != own.class);
        for (family, level) in &own.families {
            let before = families
                .iter()
                .position(|met| (&met.family, met.level) == (family, *level));
            let before = before.map(|at| families.remove(at));
            families.push(Met {
                family: family.clone(),
                level: *level,
                lately: lately || before.is_some_and(|met| met.lately),
            });
        }
    }
    families
}

/// A row of marks in halves by the item's number in the plan; none where nothing counts.
fn row(items: &[MarkedItem]) -> Row {
    let places = items.iter().map(|own| own.item).max().unwrap_or(0);
    let mut row = vec![None; places];
    for item in items {
        let place = item.item.checked_sub(1).and_then(|at| row.get_mut(at));
        if let Some(place) = place.filter(|_| item.out_of > Marks::default()) {
            *place = Some(item.score.in_halves());
        }
    }
    row
}

/// The pass mark where items are dropped: the same share, rounded up to a half.
fn scaled(pass: u32, of: u32, whole: u32) -> u32 {
    let needed = (u64::from(pass) * u64::from(of)).div_ceil(u64::from(whole.max(1)));
    u32::try_from(needed).unwrap_or(u32::MAX)
}
