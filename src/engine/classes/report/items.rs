//! The items of a plan, pooled over the classes that sat it. An item that one class has
//! dropped counts for none of them, so that every hand-in is of the same paper.

use std::collections::BTreeSet;

use super::{Item, Known, LEAST_PERSONS, PlanFigures, Reliability};
use crate::classes::paper::Head;
use crate::classes::printed::PrintedPaper;
use crate::marking::Marks;
use crate::statistics::Tally;

/// The marks of a hand-in in halves, by the item's number; none where nothing counts.
pub(super) type Row = Vec<Option<u32>>;

/// The hand-ins of a plan.
#[derive(Debug)]
pub(super) struct Pool {
    pub plan: String,
    title: String,
    classes: BTreeSet<String>,
    sittings: BTreeSet<usize>,
    places: Vec<Place>,
    dropped: BTreeSet<usize>,
    rows: Vec<Row>,
    /// The half marks that pass; none where there is no pass mark, or two.
    pass: Option<u32>,
}

/// A place of the plan.
#[derive(Debug, Clone)]
struct Place {
    /// In halves.
    bears: u32,
    families: BTreeSet<(String, u8)>,
}

impl Pool {
    /// The plan as these papers have it.
    pub fn of<'a>(
        (sitting, class): (usize, &str),
        head: &Head,
        papers: impl Iterator<Item = &'a PrintedPaper>,
    ) -> Self {
        let mut places: Vec<Place> = Vec::new();
        for paper in papers {
            for item in &paper.items {
                if places.len() <= item.place {
                    let none = Place {
                        bears: 0,
                        families: BTreeSet::new(),
                    };
                    places.resize(item.place + 1, none);
                }
                if let Some(place) = places.get_mut(item.place) {
                    let own = &item.problem;
                    place.bears = place.bears.max(own.marks().saturating_mul(2));
                    place.families.insert((own.family.clone(), own.level));
                }
            }
        }
        Self {
            plan: head.plan.clone(),
            title: head.title.clone(),
            classes: BTreeSet::from([class.to_owned()]),
            sittings: BTreeSet::from([sitting]),
            places,
            dropped: BTreeSet::new(),
            rows: Vec::new(),
            pass: head.pass_halves,
        }
    }

    /// What the items bear in halves, but for these.
    pub fn bears(&self, dropped: &BTreeSet<usize>) -> u32 {
        let places = (1..).zip(&self.places);
        let counted = places.filter(|(item, _)| !dropped.contains(item));
        counted.fold(0, |sum, (_, place)| sum.saturating_add(place.bears))
    }

    /// Takes in the hand-ins.
    pub fn take(&mut self, rows: Vec<Row>, dropped: &BTreeSet<usize>) {
        self.rows.extend(rows);
        self.dropped.extend(dropped);
    }

    /// Whether another paper has the same items: as many marks at each place, and jobs in
    /// common.
    pub fn goes_with(&self, other: &Self) -> bool {
        let same = |(one, other): (&Place, &Place)| {
            one.bears == other.bears && !one.families.is_disjoint(&other.families)
        };
        self.places.len() == other.places.len() && self.places.iter().zip(&other.places).all(same)
    }

    /// Lays another paper's hand-ins to these.
    pub fn join(&mut self, other: Self) {
        if self.pass != other.pass {
            self.pass = None;
        }
        self.classes.extend(other.classes);
        self.sittings.extend(other.sittings);
        self.dropped.extend(other.dropped);
        self.rows.extend(other.rows);
        for (place, more) in self.places.iter_mut().zip(other.places) {
            place.families.extend(more.families);
        }
    }

    /// The figures of the plan; whether it shares its id with another that is not pooled.
    pub fn figures(self, shares: bool) -> PlanFigures {
        let places = (1..).zip(&self.places);
        let kept: Vec<(usize, &Place)> = places
            .filter(|(item, _)| !self.dropped.contains(item))
            .collect();
        let most: Vec<u32> = kept.iter().map(|(_, place)| place.bears).collect();
        let mut tally = Tally::new(&most);
        let mut whole = vec![0; kept.len()];
        let mut totals: Vec<u32> = Vec::new();
        let mut left_out = 0;
        for row in &self.rows {
            let own = kept
                .iter()
                .map(|(item, _)| row.get(item - 1).copied().flatten());
            let own: Option<Vec<u32>> = own.collect();
            // A row that has a mark beyond the item's is of no paper that was printed.
            let Some(own) = own.filter(|own| tally.add(own).is_ok()) else {
                left_out += 1;
                continue;
            };
            totals.push(own.iter().sum());
            for (count, (mark, most)) in whole.iter_mut().zip(own.iter().zip(&most)) {
                *count += usize::from(mark == most);
            }
        }
        let hand_ins = totals.len();
        let enough = hand_ins >= LEAST_PERSONS;
        let pass = self.pass.map(|pass| {
            let all = u64::from(self.bears(&BTreeSet::new())).max(1);
            let of = u64::from(self.bears(&self.dropped));
            (u64::from(pass) * of).div_ceil(all) as f64
        });
        let figures = if enough { tally.items() } else { Vec::new() };
        let items = kept.iter().zip(&whole).enumerate();
        let items = items.map(|(at, ((item, place), whole))| Item {
            item: *item,
            families: place.families.iter().cloned().collect(),
            bears: Marks::halves(place.bears),
            hand_ins,
            whole: *whole,
            figures: figures.get(at).copied(),
        });
        let classes: Vec<String> = self.classes.into_iter().filter(|_| shares).collect();
        let of = classes.join(", ");
        let label = if shares {
            format!("{} of {of}", self.plan)
        } else {
            self.plan.clone()
        };
        PlanFigures {
            label,
            of,
            plan: self.plan,
            title: self.title,
            classes: self.sittings.len(),
            hand_ins,
            left_out,
            reliability: if enough {
                reliability(&tally, &totals, pass)
            } else {
                Reliability::Missing {
                    needs: LEAST_PERSONS,
                    here: hand_ins,
                }
            },
            items: items.collect(),
        }
    }
}

/// Marks are tallied in halves and told in whole ones.
fn reliability(tally: &Tally, totals: &[u32], pass: Option<f64>) -> Reliability {
    let Some(found) = tally.paper() else {
        return Reliability::Alike;
    };
    let near = |pass: f64| {
        let off = |total: &&u32| (f64::from(**total) - pass).abs() <= found.error + 1e-9;
        totals.iter().filter(off).count()
    };
    Reliability::Known(Known {
        alpha: found.alpha,
        is_kr20: found.is_kr20,
        between: found.between,
        error: found.error / 2.0,
        near_pass: pass.map(near),
    })
}
