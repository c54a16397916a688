//! The plan of a paper: which jobs, how hard, how many marks, and what holds for all.
//! `read` makes it of a TOML file with every fault in its place; nothing is drawn for a
//! person here.

mod allowed;
mod items;
pub(super) mod read;
mod text;

pub use allowed::Allowed;
pub use read::{is_plan, read};
pub use text::NEW;

use crate::problems::Settings;
use crate::quantities::System;

/// What a paper is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Its id: small letters, digits, hyphens. It names the folder of the papers and
    /// seals their numbers.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The day of the paper, as `2026-11-18`.
    pub date: Option<String>,
    /// The last day on which it may come in; later ones are told as late.
    pub due: Option<String>,
    /// The system of units.
    pub system: System,
    /// The tables that may be open, by name; none: all of them.
    pub tables: Option<Vec<String>>,
    /// What earns marks.
    pub marks_by: MarksBy,
    /// In which order the items stand.
    pub order: Order,
    /// The share of the marks that passes, in per cent.
    pub pass: Option<u32>,
    /// How many different papers.
    pub versions: Versions,
    /// The house rules of the paper, a class's rules file among them.
    pub settings: Settings,
    /// The items, in the order of the file.
    pub items: Vec<Item>,
}

/// What earns marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarksBy {
    /// Every line that is asked.
    Steps,
    /// The last line alone, and only that is asked.
    Answer,
}

/// In which order the items of a paper stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// As the plan has them.
    AsWritten,
    /// In an order of each paper's own.
    Shuffled,
}

/// How many different papers there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Versions {
    /// So many: 1, 2 or 4; people take them in turn.
    Some(u32),
    /// One for each person.
    OneEach,
}

/// One `[[item]]`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// The lesson, where the item names one.
    pub lesson: Option<String>,
    /// The families that it may be drawn from; one, where the item names a family.
    pub families: Vec<Source>,
    /// How often it stands in the paper.
    pub count: u32,
    /// The marks of one of it.
    pub marks: u32,
    /// The minutes of one of it.
    pub minutes: u32,
}

/// A family that an item may be drawn from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// The family.
    pub family: String,
    /// Its title.
    pub title: String,
    /// The level.
    pub level: u8,
}

impl Plan {
    /// The item of each place of the paper, by its number in the file from zero: an item
    /// with a count stands there so often.
    pub fn places(&self) -> impl Iterator<Item = (usize, &Item)> {
        let items = self.items.iter().enumerate();
        items.flat_map(|(at, item)| (0..item.count).map(move |_| (at, item)))
    }

    /// How many jobs a paper has.
    pub fn count(&self) -> u32 {
        self.items.iter().map(|item| item.count).sum()
    }

    /// The marks of a paper.
    pub fn marks(&self) -> u32 {
        self.items.iter().map(|item| item.count * item.marks).sum()
    }

    /// The minutes that a paper takes.
    pub fn minutes(&self) -> u32 {
        (self.items.iter())
            .map(|item| item.count * item.minutes)
            .sum()
    }

    /// The least marks that pass, where the plan has a pass mark: rounded up to a half.
    pub fn pass_marks(&self) -> Option<crate::marking::Marks> {
        let halves = |pass: u32| (self.marks() * 2 * pass).div_ceil(100);
        self.pass
            .map(|pass| crate::marking::Marks::halves(halves(pass)))
    }

    /// What the paper says of the tables: `tables: all`, `no tables`, or their names.
    pub fn tables_allowed(&self) -> String {
        Allowed::of(self.tables.as_deref()).to_string()
    }
}

impl MarksBy {
    /// The word of the plan.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Steps => "steps",
            Self::Answer => "answer",
        }
    }
}

impl Order {
    /// The word of the plan.
    pub const fn word(self) -> &'static str {
        match self {
            Self::AsWritten => "as written",
            Self::Shuffled => "shuffled",
        }
    }
}

impl std::fmt::Display for Versions {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Some(count) => write!(f, "{count}"),
            Self::OneEach => f.write_str("one each"),
        }
    }
}
