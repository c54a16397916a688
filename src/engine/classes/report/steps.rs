//! Which lines are missed, and how often; what follows an earlier figure is kept apart.

use std::collections::BTreeMap;

use super::Step;
use crate::classes::marks::MarkedItem;
use crate::marking::Verdict;
use crate::problems::Problem;

/// Plan, item, family, level, place among the lines, step.
type Key = (String, usize, String, u8, usize, String);

/// Lines over the hand-ins so far.
#[derive(Debug, Default)]
pub(super) struct Steps {
    found: BTreeMap<Key, Step>,
}

impl Steps {
    /// Takes in the lines of one item that counts.
    pub fn add(&mut self, plan: &str, item: &MarkedItem, problem: Option<&Problem>) {
        let lines = item.marked.iter().flat_map(|marked| &marked.lines);
        for line in lines {
            let key = (
                plan.to_owned(),
                item.item,
                item.family.clone(),
                item.level,
                line.number,
                line.id.clone(),
            );
            let step = self.found.entry(key).or_insert_with(|| {
                let own = problem.into_iter().flat_map(|problem| &problem.lines);
                let own = own.into_iter().find(|own| own.id == line.id);
                Step {
                    plan: plan.to_owned(),
                    item: item.item,
                    family: item.family.clone(),
                    level: item.level,
                    line: line.number,
                    step: line.id.clone(),
                    label: own.map_or_else(|| line.id.clone(), |own| own.label.clone()),
                    met: 0,
                    right: 0,
                    follows: 0,
                    carried: 0,
                    missed: 0,
                    empty: 0,
                    unfollowed: 0,
                }
            });
            step.met += 1;
            match line.verdict {
                Verdict::Right => step.right += 1,
                Verdict::Follows { .. } => step.follows += 1,
                Verdict::Carried { .. } => step.carried += 1,
                _ => step.missed += 1,
            }
            step.empty += usize::from(line.verdict == Verdict::NotWritten);
            let unfollowed = matches!(line.verdict, Verdict::NotFollowed { .. });
            step.unfollowed += usize::from(unfollowed);
        }
    }

    /// The lines, the one missed most often first; of equal ones that with the greater
    /// share, then in the order of the plan.
    pub fn listed(self) -> Vec<Step> {
        let mut steps: Vec<Step> = self.found.into_values().collect();
        steps.sort_by(|a, b| {
            let share = |one: &Step, other: &Step| one.missed * other.met.max(1);
            b.missed.cmp(&a.missed).then(share(b, a).cmp(&share(a, b)))
        });
        steps
    }
}
