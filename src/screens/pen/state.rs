//! A paper while it is marked with the pen, or looked at once it is marked.

use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

use pumpwright_engine::classes::marks::{Decisions, HandIn, Ready, Way, mark_paper};
use pumpwright_engine::classes::pen::presses;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::Problem;

use crate::blank::Blank;
use crate::layout::Scroll;
use crate::office::{ClassNow, Keyed};

/// What a reason is written for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// The item counts for nobody.
    Drop,
    /// Other marks stand in place of those worked out.
    Judge,
}

/// A paper with the pen over it.
#[derive(Debug, Clone)]
pub struct Pen {
    /// The number of the paper.
    pub paper: String,
    /// Whose it is.
    pub name: String,
    papers: Arc<BTreeMap<String, Ready>>,
    /// The problems of the paper; none where one cannot be made again.
    pub problems: Vec<Option<Rc<Problem>>>,
    /// What was handed in otherwise than by the pen: it is looked at, not keyed.
    pub came: Option<HandIn>,
    /// What was keyed of the items that are done.
    pub keyed: Vec<Option<String>>,
    /// The item with the pen, from zero.
    pub at: usize,
    /// What is keyed of this item so far.
    pub blank: Blank,
    /// What was decided for this class.
    pub decisions: Decisions,
    /// The blank for a reason, while one is written.
    pub reason: Option<(Reason, Blank)>,
    /// The keys that were pressed on this paper.
    pub keys: usize,
    /// Whether the whole paper is on its way to the disk.
    pub filing: bool,
    /// How figures are read.
    pub manner: Manner,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Pen {
    /// The paper of this number as it was left, as it was marked, or fresh.
    pub fn of(now: &ClassNow, paper: &str, manner: Manner) -> Option<Self> {
        let ready = now.papers.get(paper)?;
        let count = ready.printed.items.len();
        let hand_in = now.hand_ins.get(paper);
        let by_pen = hand_in.filter(|own| own.way == Way::Pen);
        let (mut keyed, at) = match (now.keyed.get(paper), by_pen) {
            (Some(keyed), _) => (keyed.items.clone(), keyed.at),
            (None, Some(own)) => {
                let keys = own.items.iter();
                let keys = keys.map(|item| Some(item.first().cloned().unwrap_or_default()));
                (keys.collect(), 0)
            }
            (None, None) => (Vec::new(), 0),
        };
        keyed.resize(count, None);
        let problems = ready.problems.iter();
        let problems = problems.map(|own| {
            let rebuilt = own.as_ref().ok()?;
            Some(Rc::new(rebuilt.problem.clone()))
        });
        let keys = keyed.iter().flatten().map(|keys| presses(keys)).sum();
        let mut pen = Self {
            paper: paper.to_owned(),
            name: ready.printed.person.name.clone(),
            papers: Arc::clone(&now.papers),
            problems: problems.collect(),
            came: hand_in.filter(|own| own.way != Way::Pen).cloned(),
            keyed,
            at: 0,
            blank: Blank::default(),
            decisions: now.decisions.clone(),
            reason: None,
            keys,
            filing: false,
            manner,
            scroll: Scroll::default(),
        };
        pen.go(at);
        Some(pen)
    }

    /// Goes to an item, with what was keyed of it.
    pub fn go(&mut self, at: usize) {
        self.at = at.min(self.count().saturating_sub(1));
        let keyed = self.keyed.get(self.at).cloned().flatten();
        self.blank = Blank::holding(&keyed.unwrap_or_default());
        self.scroll = Scroll::default();
    }

    /// How many items the paper has.
    pub fn count(&self) -> usize {
        self.problems.len()
    }

    /// The record of the paper.
    pub fn ready(&self) -> Option<&Ready> {
        self.papers.get(&self.paper)
    }

    /// The problem of the item with the pen.
    pub fn problem(&self) -> Option<&Rc<Problem>> {
        self.problems.get(self.at)?.as_ref()
    }

    /// The number of the item in the plan, from one.
    pub fn item(&self) -> usize {
        let item = self.ready().and_then(|own| own.printed.items.get(self.at));
        item.map_or(self.at, |item| item.place).saturating_add(1)
    }

    /// The item with the pen is done.
    pub fn done(&mut self) {
        let text = self.blank.trimmed().to_owned();
        if let Some(place) = self.keyed.get_mut(self.at) {
            *place = Some(text);
        }
    }

    /// The item that comes next: the one behind it, behind the last one the first that is
    /// not done; none where all are.
    pub fn following(&self) -> Option<usize> {
        if self.at + 1 < self.count() {
            return Some(self.at + 1);
        }
        let here = self.at;
        let open = self.keyed.iter().enumerate();
        let mut open = open.filter(|(at, keyed)| *at != here && keyed.is_none());
        open.next().map(|(at, _)| at)
    }

    /// What was keyed, to be kept.
    pub fn so_far(&self, whole: bool) -> Keyed {
        Keyed {
            paper: self.paper.clone(),
            items: self.keyed.clone(),
            at: self.at,
            whole,
        }
    }

    /// The marks of each item as they would be filed now, with what was decided.
    pub fn marked(&self) -> Vec<pumpwright_engine::classes::marks::MarkedItem> {
        let Some(ready) = self.ready() else {
            return Vec::new();
        };
        let hand_in = self.came.clone().unwrap_or_else(|| HandIn {
            paper: self.paper.clone(),
            way: Way::Pen,
            at: None,
            zone: 0,
            items: (self.keyed.iter().enumerate())
                .map(|(at, keyed)| {
                    let here = (at == self.at).then(|| self.blank.trimmed().to_owned());
                    vec![here.or_else(|| keyed.clone()).unwrap_or_default()]
                })
                .collect(),
        });
        let mut items = mark_paper(ready, &hand_in, self.manner);
        self.decisions.lay_over(&self.paper, &mut items);
        items
    }
}
