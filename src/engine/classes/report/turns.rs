//! The known mistakes: who met them, who made them, in which paper. People are counted,
//! not answers: whoever made one twice counts once.

use std::collections::{BTreeMap, BTreeSet};

use super::{Turn, board};
use crate::classes::marks::MarkedItem;
use crate::lessons::Library;
use crate::problems::Problem;
use crate::quantities::System;
use crate::statistics::{EIGHTY, of_share};

/// For so many of the first turns a problem for the board is looked for. Our own choice, no
/// source.
const WITH_BOARD: usize = 12;

/// Family, level, mistake.
pub(super) type Key = (String, u8, String);

/// What somebody did with a mistake that can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Seen {
    /// Met it.
    Met,
    /// Made it, or another one that gives the same figure.
    Perhaps,
    /// Made it.
    Made,
}

/// What is said of a mistake, and what to draw it under.
#[derive(Debug)]
struct Facts {
    title: String,
    did: String,
    says: String,
    fatal: bool,
    rules: Vec<(String, String)>,
    system: System,
}

/// Who met it and how, over all papers; how many met and made it in each.
#[derive(Debug, Default)]
struct Count {
    people: BTreeMap<usize, Seen>,
    seen: BTreeMap<usize, (usize, usize)>,
}

/// Mistakes over the hand-ins so far.
#[derive(Debug, Default)]
pub(super) struct Turns {
    facts: BTreeMap<Key, Facts>,
    counts: BTreeMap<Key, Count>,
}

impl Turns {
    /// Takes in one hand-in: the items of it that count, each with its problem.
    pub fn add<'a>(
        &mut self,
        (sitting, person): (usize, usize),
        items: impl Iterator<Item = (&'a MarkedItem, &'a Problem)>,
    ) {
        let mut own: BTreeMap<Key, Seen> = BTreeMap::new();
        for (item, problem) in items {
            let Some(marked) = &item.marked else { continue };
            let key = |mistake: &str| (item.family.clone(), item.level, mistake.to_owned());
            let mut saw = |key: Key, seen: Seen| {
                let known = own.entry(key).or_insert(seen);
                *known = seen.max(*known);
            };
            for live in &problem.mistakes {
                let key = key(&live.id);
                if !self.facts.contains_key(&key) {
                    let facts = facts(problem, &live.id);
                    self.facts.insert(key.clone(), facts);
                }
                saw(key, Seen::Met);
            }
            for line in &marked.lines {
                for turn in &line.turns {
                    let seen = if line.alternatives {
                        Seen::Perhaps
                    } else {
                        Seen::Made
                    };
                    let key = key(&turn.mistake);
                    if !self.facts.contains_key(&key) {
                        let facts = facts(problem, &turn.mistake);
                        self.facts.insert(key.clone(), facts);
                    }
                    saw(key, seen);
                }
            }
        }
        for (key, seen) in own {
            let count = self.counts.entry(key).or_default();
            let known = count.people.entry(person).or_insert(seen);
            *known = seen.max(*known);
            let here = count.seen.entry(sitting).or_default();
            here.0 += usize::from(seen > Seen::Met);
            here.1 += 1;
        }
    }

    /// The turns that anybody took: the one that most people took first; of equal ones
    /// that with the greater share of those who met it, then by family, level and name.
    /// `order` gives for each sitting of the report its number here, `classes` its class.
    pub fn listed(self, order: &[usize], classes: &[usize], library: &Library) -> Vec<Turn> {
        let mut turns: Vec<(Turn, &Facts)> = Vec::new();
        for (key, count) in &self.counts {
            let Some(facts) = self.facts.get(key) else {
                continue;
            };
            let took = |least: Seen| count.people.values().filter(|own| **own >= least).count();
            let (made, met) = (took(Seen::Perhaps), count.people.len());
            if made == 0 {
                continue;
            }
            let seen: Vec<_> = order.iter().map(|at| count.seen.get(at).copied()).collect();
            turns.push((
                Turn {
                    rank: 0,
                    tied: false,
                    family: key.0.clone(),
                    title: facts.title.clone(),
                    level: key.1,
                    mistake: key.2.clone(),
                    did: facts.did.clone(),
                    says: facts.says.clone(),
                    fatal: facts.fatal,
                    made,
                    perhaps: made - took(Seen::Made),
                    met,
                    between: of_share(made as f64 / met as f64, met as f64, EIGHTY),
                    comes_back: comes_back(&seen, classes),
                    seen,
                    board: None,
                },
                facts,
            ));
        }
        turns.sort_by(|(a, _), (b, _)| {
            let more = b.made.cmp(&a.made);
            more.then((b.made * a.met).cmp(&(a.made * b.met)))
        });
        let all: Vec<usize> = turns.iter().map(|(turn, _)| turn.made).collect();
        for (at, (turn, facts)) in turns.iter_mut().enumerate() {
            turn.rank = all.iter().filter(|made| **made > turn.made).count() + 1;
            turn.tied = all.iter().filter(|made| **made == turn.made).count() > 1;
            if at < WITH_BOARD {
                let wanted = board::Wanted {
                    family: &turn.family,
                    level: turn.level,
                    mistake: &turn.mistake,
                    system: facts.system,
                    rules: &facts.rules,
                };
                turn.board = board::separating(library, &wanted);
            }
        }
        turns.into_iter().map(|(turn, _)| turn).collect()
    }
}

/// Whether one class made it in two of its papers.
fn comes_back(seen: &[Option<(usize, usize)>], classes: &[usize]) -> bool {
    let made = seen.iter().zip(classes);
    let made = made.filter(|(seen, _)| seen.is_some_and(|(made, _)| made > 0));
    let mut known = BTreeSet::new();
    made.into_iter().any(|(_, class)| !known.insert(*class))
}

/// What is said of a mistake, without the numbers of one problem.
fn facts(problem: &Problem, mistake: &str) -> Facts {
    let variant = &problem.variant;
    let plan = variant.mistakes.iter().find(|plan| plan.id == mistake);
    let render = |text: &crate::lessons::Template| text.render(&variant.names, &[]);
    Facts {
        title: problem.family.title.clone(),
        did: plan.map_or_else(|| mistake.to_owned(), |plan| render(&plan.did)),
        says: plan.map_or_else(String::new, |plan| render(&plan.says)),
        fatal: plan.is_some_and(|plan| plan.fatal),
        rules: problem.code.rules.clone(),
        system: problem.code.system,
    }
}
