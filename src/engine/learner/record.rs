//! A history replayed: what is believed now, and the few counts that standing, choice
//! and forecast need beside it. It is worked anew from the history whenever it is
//! wanted; [`Record::take`] is the one step of that.

use std::collections::{HashSet, VecDeque};
use std::sync::Arc;

use super::constants::MISTAKE_WINDOW;
use super::curriculum::{Curriculum, FamilyFacts};
use super::history::History;
use super::observe::Observation;
use super::response::{Moment, Response, Try};
use super::standing::is_holding;
use super::state::State;

/// What the history says of one family beside its strength.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FamilyRecord {
    /// Responses to its problems.
    pub responses: u32,
    /// The day of the last one.
    pub last_day: Option<i32>,
    /// Responses on that day.
    pub that_day: u32,
    /// When a whole problem of it was last right without help.
    pub last_right: Option<Moment>,
    /// Whether it ever held.
    pub held: bool,
    /// The mistakes made in each of the last problems, oldest first.
    pub mistakes: VecDeque<Vec<Arc<str>>>,
}

/// A history replayed.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// What is believed.
    pub state: State,
    /// Each family at its place.
    pub families: Vec<FamilyRecord>,
    /// The family of the last problem.
    pub last_family: Option<usize>,
    /// Problems that counted.
    pub responses: u32,
    /// Problems since the last probe.
    pub since_probe: u32,
    /// First tries at steps of probes.
    pub probe_steps: u32,
    /// Each probe step's predicted chance and outcome, in order.
    pub probes: Vec<(f64, bool)>,
    /// The codes that were met: a problem counts once.
    codes: HashSet<Arc<str>>,
}

impl Record {
    /// The record of a person of whom nothing is known.
    pub fn new(curriculum: &Curriculum) -> Self {
        let count = curriculum.families().len();
        Self {
            state: State::new(count),
            families: vec![FamilyRecord::default(); count],
            last_family: None,
            responses: 0,
            since_probe: 0,
            probe_steps: 0,
            probes: Vec::new(),
            codes: HashSet::new(),
        }
    }

    /// The record that a history gives.
    pub fn replay(curriculum: &Curriculum, history: &History) -> Self {
        let mut record = Self::new(curriculum);
        record.codes.reserve(history.len());
        for response in history.in_order() {
            record.take(curriculum, response);
        }
        record
    }

    /// Takes in the next response. One of a family that the lessons have no more, or
    /// of a problem met before, says nothing.
    pub fn take(&mut self, curriculum: &Curriculum, response: &Response) {
        let Some(family) = curriculum.place(&response.family) else {
            return;
        };
        if !self.codes.insert(response.problem.clone()) {
            return;
        }
        let facts = &curriculum.families()[family];
        let offset = curriculum.offset(family, response.level);
        for tried in &response.tries {
            let skill = if tried.skill == response.family {
                family
            } else if let Some(skill) = curriculum.place(&tried.skill) {
                skill
            } else {
                continue;
            };
            if is_rapid(facts, tried) {
                continue;
            }
            let seen = Observation {
                family: skill,
                offset,
                right: tried.right && !tried.helped,
                options: tried.options,
                when: response.when,
            };
            let chance = self.state.observe(&seen);
            if response.probe {
                self.probe_steps += 1;
                self.probes.push((chance, seen.right));
            }
            if !self.families[skill].held {
                self.families[skill].held = is_holding(&self.state, skill, response.when);
            }
        }
        self.count(family, response);
    }

    /// The counts of the problem as a whole.
    fn count(&mut self, family: usize, response: &Response) {
        let own = &mut self.families[family];
        own.responses += 1;
        if own.last_day == Some(response.when.day) {
            own.that_day += 1;
        } else {
            own.that_day = 1;
        }
        own.last_day = Some(response.when.day);
        let unaided = |tried: &Try| tried.right && !tried.helped;
        if !response.tries.is_empty() && response.tries.iter().all(unaided) {
            own.last_right = Some(response.when);
        }
        let mistakes = response.tries.iter();
        let mistakes = mistakes.filter_map(|tried| tried.mistake.clone());
        own.mistakes.push_back(mistakes.collect());
        if own.mistakes.len() > MISTAKE_WINDOW {
            own.mistakes.pop_front();
        }
        self.last_family = Some(family);
        self.responses += 1;
        self.since_probe = if response.probe {
            0
        } else {
            self.since_probe + 1
        };
    }
}

/// Whether a try was too quick to have been worked.
///
/// Source: Wise, "Rapid-guessing behavior: its identification, interpretation, and
/// implications", Educational Measurement: Issues and Practice 36 (2017), from memory;
/// the limit is the family's own.
fn is_rapid(facts: &FamilyFacts, tried: &Try) -> bool {
    matches!((facts.quick, tried.seconds), (Some(quick), Some(took)) if took < quick)
}
