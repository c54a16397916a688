//! What to practise next: the baselines, and the recommended choice of the model.

use pumpwright_engine::learner::{Desk, Dice, Evening, Moment, Place, Record, Why};

use crate::luck::Luck;
use crate::world::World;

/// A way to choose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Policy {
    /// Eight problems of a family in a row, in the order of the lessons, over again.
    Massed,
    /// On to the next after three right in a row or fifteen tries; then at random.
    ThreeInARow,
    /// Any family at random.
    Random,
    /// One of each in the order of the lessons, round and round.
    Spiral,
    /// The lowest success by the model, whenever it was last tried, at most two a day.
    Weakest,
    /// The model's choice.
    Recommended,
}

impl Policy {
    /// All, in the order of the table.
    pub const ALL: [Self; 6] = [
        Self::Massed,
        Self::ThreeInARow,
        Self::Random,
        Self::Spiral,
        Self::Weakest,
        Self::Recommended,
    ];

    /// Its name in the table.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Massed => "massed",
            Self::ThreeInARow => "3 in a row",
            Self::Random => "random",
            Self::Spiral => "spiral",
            Self::Weakest => "weakest",
            Self::Recommended => "recommended",
        }
    }

    /// Whether the model has to follow along.
    pub const fn needs_model(self) -> bool {
        matches!(self, Self::Spiral | Self::Weakest | Self::Recommended)
    }
}

/// The next problem.
#[derive(Debug, Clone, Copy)]
pub struct Pick {
    /// The family.
    pub family: usize,
    /// The level.
    pub level: u8,
    /// Whether it is a probe.
    pub probe: bool,
}

/// A policy at work on one apprentice.
pub struct Picker<'w> {
    world: &'w World,
    policy: Policy,
    luck: Luck,
    dice: Dice,
    worked: usize,
    current: usize,
    run: u32,
    tries: u32,
}

impl<'w> Picker<'w> {
    /// A policy before the first evening.
    pub fn new(world: &'w World, policy: Policy, mut luck: Luck) -> Self {
        let seed = (luck.share() * 1e15) as u64;
        Self {
            world,
            policy,
            luck,
            dice: Dice::of(seed),
            worked: 0,
            current: 0,
            run: 0,
            tries: 0,
        }
    }

    /// The next problem.
    pub fn pick(&mut self, record: &Record, now: Moment, place: Place) -> Pick {
        let families = self.world.families();
        let family = match self.policy {
            Policy::Massed => (self.worked / 8) % families,
            Policy::Spiral => self.worked % families,
            Policy::ThreeInARow if self.current < families => self.current,
            Policy::ThreeInARow | Policy::Random => self.luck.below(families),
            Policy::Weakest => self.weakest(record, now),
            Policy::Recommended => return self.recommended(record, now, place),
        };
        Pick {
            family,
            level: 2,
            probe: false,
        }
    }

    /// The lowest success of those whose prerequisites are there, not the last one and
    /// not a third time in a day.
    fn weakest(&mut self, record: &Record, now: Moment) -> usize {
        let success: Vec<f64> = (0..self.world.families())
            .map(|family| record.state.success(family, now))
            .collect();
        let open = |family: &usize| {
            let own = &record.families[*family];
            let today = if own.last_day == Some(now.day) {
                own.that_day
            } else {
                0
            };
            let needs = self.world.curriculum.families()[*family].needs.iter();
            record.last_family != Some(*family)
                && today < 2
                && needs.into_iter().all(|need| success[*need] >= 0.6)
        };
        let lowest = |a: &usize, b: &usize| success[*a].total_cmp(&success[*b]);
        let found = (0..self.world.families()).filter(open).min_by(lowest);
        found.unwrap_or_else(|| self.luck.below(self.world.families()))
    }

    fn recommended(&mut self, record: &Record, now: Moment, place: Place) -> Pick {
        let desk = Desk {
            curriculum: &self.world.curriculum,
            record,
            blueprint: &self.world.blueprint,
            now,
        };
        let evening = Evening::of(record, now);
        let choice = desk.next(&evening, place, &mut self.dice);
        choice.map_or(
            Pick {
                family: 0,
                level: 2,
                probe: false,
            },
            |choice| Pick {
                family: choice.family,
                level: choice.level,
                probe: choice.why == Why::Probe,
            },
        )
    }

    /// The problem was worked.
    pub fn worked(&mut self, all_right: bool) {
        self.worked += 1;
        if self.policy == Policy::ThreeInARow && self.current < self.world.families() {
            self.run = if all_right { self.run + 1 } else { 0 };
            self.tries += 1;
            if self.run >= 3 || self.tries >= 15 {
                self.current += 1;
                self.run = 0;
                self.tries = 0;
            }
        }
    }
}
