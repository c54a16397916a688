//! Which problem comes next, at which level, and why; an evening is several of these.

use super::blueprint::Blueprint;
use super::constants::{A_DAY, AIM, DUE, GATE, LEAST_BEARING, PROBE_EVERY};
use super::curriculum::Curriculum;
use super::dice::Dice;
use super::record::Record;
use super::response::Moment;
use super::standing::Support;

/// Where in the evening a problem stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// The first: one that probably goes well.
    First,
    /// In between.
    Middle,
    /// The last: one that probably goes well.
    Last,
}

/// Why a problem was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// The family was not met, and what it rests on is there.
    New,
    /// It was met, and its success is down to where a refresher is due.
    Due,
    /// Of those met, the one that leaves most to gain.
    Weakest,
    /// To begin or end with one that probably goes well.
    Steady,
    /// A probe: drawn by the blueprint from the families met, without help.
    Probe,
}

/// A chosen problem.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// The place of the family.
    pub family: usize,
    /// The level.
    pub level: u8,
    /// Why.
    pub why: Why,
    /// The chance of a right step at home level, now.
    pub success: f64,
    /// The chance of a right step at the level chosen, once it is taught.
    pub expected: f64,
    /// How much of it is worked for the person; a probe gets nothing.
    pub support: Support,
}

/// What a choice rests on.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// What there is to learn.
    pub curriculum: &'a Curriculum,
    /// What the history says.
    pub record: &'a Record,
    /// By what a probe is drawn.
    pub blueprint: &'a Blueprint,
    /// Now.
    pub now: Moment,
}

/// What was done, or is planned, so far this evening.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Evening {
    last: Option<usize>,
    today: Vec<u32>,
    since_probe: u32,
    met_tonight: Vec<bool>,
}

impl Evening {
    /// The evening as the history has it.
    pub fn of(record: &Record, now: Moment) -> Self {
        let families = record.families.iter();
        let today = families.map(|own| {
            let same_day = own.last_day == Some(now.day);
            if same_day { own.that_day } else { 0 }
        });
        Self {
            last: record.last_family,
            today: today.collect(),
            since_probe: record.since_probe,
            met_tonight: vec![false; record.families.len()],
        }
    }

    /// The evening after a choice, as if it had been worked.
    #[must_use]
    pub fn with(mut self, choice: &Choice) -> Self {
        self.last = Some(choice.family);
        self.today[choice.family] += 1;
        self.met_tonight[choice.family] = true;
        self.since_probe = if choice.why == Why::Probe {
            0
        } else {
            self.since_probe + 1
        };
        self
    }
}

impl Desk<'_> {
    /// The next problem; none only where there is no family at all.
    ///
    /// Among the families open, which are not met yet today and not the last one, whose
    /// used skills all have a success of at least 0.6, and the lessons before their own on
    /// average:
    ///
    /// - those never met first, in the order of the curriculum;
    /// - then the greatest need, (1 − P)² √(w (1 + days since the last try)): what is
    ///   weak, was let lie and bears much of the exam. w is the weight of the families
    ///   whose items exercise the skill.
    ///
    /// The first and the last problem of an evening are of the greatest need among those
    /// met that have a level at which success is 0.75 or more, at such a level. Every
    /// fifth is a probe. Where nothing is open, the weakest met.
    ///
    /// Source of the need: our own choice, by simulation. Need by success alone came out
    /// below a plain round where forgetting is not the model's; with powers 0.5 of the
    /// days and 0.6 of the weight it came out above it on all five kinds. The whole weight
    /// instead of its root starves small lessons.
    pub fn next(&self, evening: &Evening, place: Place, dice: &mut Dice) -> Option<Choice> {
        let success = self.success();
        if place == Place::Middle
            && evening.since_probe + 1 >= PROBE_EVERY
            && let Some(family) = self.probe(evening, dice)
        {
            return Some(self.chosen(family, success[family], Why::Probe));
        }
        let open: Vec<usize> = (0..success.len())
            .filter(|family| self.is_open(*family, evening, &success))
            .collect();
        if place != Place::Middle {
            let steady = open.iter().copied().filter(|family| {
                self.is_met(*family, evening) && self.steady_level(*family).is_some()
            });
            if let Some(family) = self.neediest(steady, &success) {
                return Some(self.chosen(family, success[family], Why::Steady));
            }
        }
        let family = self
            .neediest(open.into_iter(), &success)
            .or_else(|| self.fallback(evening, &success))?;
        let why = if !self.is_met(family, evening) {
            Why::New
        } else if success[family] <= DUE {
            Why::Due
        } else {
            Why::Weakest
        };
        Some(self.chosen(family, success[family], why))
    }

    /// An evening's problems, planned as if each went as predicted.
    pub fn evening(&self, count: usize, dice: &mut Dice) -> Vec<Choice> {
        let mut evening = Evening::of(self.record, self.now);
        let mut plan = Vec::new();
        for number in 0..count {
            let place = match number {
                0 => Place::First,
                _ if number + 1 == count => Place::Last,
                _ => Place::Middle,
            };
            let Some(choice) = self.next(&evening, place, dice) else {
                break;
            };
            evening = evening.with(&choice);
            plan.push(choice);
        }
        plan
    }

    /// The success of every family, now.
    fn success(&self) -> Vec<f64> {
        let count = self.curriculum.families().len();
        let success = |family| self.record.state.success(family, self.now);
        (0..count).map(success).collect()
    }

    fn is_met(&self, family: usize, evening: &Evening) -> bool {
        evening.met_tonight[family] || self.record.state.families[family].last.is_some()
    }

    /// The family of the greatest need, the first of several.
    fn neediest(&self, families: impl Iterator<Item = usize>, success: &[f64]) -> Option<usize> {
        let bearing = self.bearing();
        let need = |family: usize| match self.record.state.families[family].last {
            None => f64::INFINITY,
            Some(last) => {
                let missing = 1.0 - success[family];
                let days = self.now.days_since(last);
                missing * missing * (bearing[family] * (1.0 + days)).sqrt()
            }
        };
        families
            .map(|family| (family, need(family)))
            .reduce(|best, other| if other.1 > best.1 { other } else { best })
            .map(|(family, _)| family)
    }

    /// How much of the exam each skill bears, and a little of each where the exam has
    /// nothing of it.
    fn bearing(&self) -> Vec<f64> {
        let families = self.curriculum.families();
        let least = LEAST_BEARING / families.len().max(1) as f64;
        let mut bearing = vec![least; families.len()];
        for (facts, weight) in families.iter().zip(self.blueprint.weights()) {
            for skill in &facts.skills {
                bearing[*skill] += weight;
            }
        }
        bearing
    }

    /// Whether a family may be picked.
    fn is_open(&self, family: usize, evening: &Evening, success: &[f64]) -> bool {
        let facts = &self.curriculum.families()[family];
        let stands = |lesson: &Vec<usize>| {
            let sum: f64 = lesson.iter().map(|before| success[*before]).sum();
            sum >= GATE * lesson.len() as f64
        };
        evening.last != Some(family)
            && evening.today[family] < A_DAY
            && facts.needs.iter().all(|need| success[*need] >= GATE)
            && facts.after.iter().all(stands)
    }

    /// Where nothing is open: the weakest that was met, not the last one if there is
    /// another; else the first of all.
    fn fallback(&self, evening: &Evening, success: &[f64]) -> Option<usize> {
        let all = 0..success.len();
        let met = || all.clone().filter(|family| self.is_met(*family, evening));
        let others = met().filter(|family| evening.last != Some(*family));
        lowest(others, success)
            .or_else(|| lowest(met(), success))
            .or_else(|| all.clone().next())
    }

    /// A family drawn by the blueprint from those met, but the last one.
    fn probe(&self, evening: &Evening, dice: &mut Dice) -> Option<usize> {
        let weights = self.blueprint.weights().iter().enumerate();
        let met = weights.map(|(family, weight)| {
            let counts = self.is_met(family, evening) && evening.last != Some(family);
            if counts { *weight } else { 0.0 }
        });
        dice.place(&met.collect::<Vec<_>>())
    }

    /// The chance of a right step at a level, in a family that is taught.
    fn at_level(&self, family: usize, level: u8) -> f64 {
        let offset = self.curriculum.offset(family, level);
        self.record.state.fresh(family, offset, self.now).chance
    }

    /// Of these levels, the one at which success is nearest 0.75.
    fn nearest(&self, family: usize, levels: impl Iterator<Item = u8>) -> Option<u8> {
        let off = |level: u8| (self.at_level(family, level) - AIM).abs();
        levels.min_by(|a, b| off(*a).total_cmp(&off(*b)))
    }

    /// The level nearest to a success of 0.75 from above.
    fn steady_level(&self, family: usize) -> Option<u8> {
        let levels = self.curriculum.families()[family].levels.iter().copied();
        self.nearest(
            family,
            levels.filter(|level| self.at_level(family, *level) >= AIM),
        )
    }

    /// The choice of a family. A probe is at home level and gets nothing; one to begin
    /// or end with is at a level where it probably goes well, and needs nothing.
    fn chosen(&self, family: usize, success: f64, why: Why) -> Choice {
        let facts = &self.curriculum.families()[family];
        let level = match why {
            Why::Probe => None,
            Why::Steady => self.steady_level(family),
            Why::New | Why::Due | Why::Weakest => {
                self.nearest(family, facts.levels.iter().copied())
            }
        };
        let level = level.unwrap_or(facts.home);
        Choice {
            family,
            level,
            why,
            success,
            expected: self.at_level(family, level),
            support: match why {
                Why::Probe | Why::Steady => Support::Bare,
                Why::New | Why::Due | Why::Weakest => Support::at(success),
            },
        }
    }
}

/// The family of the lowest success, the first of several.
fn lowest(families: impl Iterator<Item = usize>, success: &[f64]) -> Option<usize> {
    families.min_by(|a, b| success[*a].total_cmp(&success[*b]))
}
