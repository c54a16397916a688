//! What stands over every page of a paper: whose it is, what it is, and on which paper
//! it is printed.

use jiff::civil::Date;
use pumpwright_engine::problems::TRAINING;
use serde::Serialize;

use super::text::{clean, marks};
use crate::words;

/// The paper that goes into the printer. Both have one body of 176 by 255 mm, so pages
/// break at the same place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Format {
    /// 210 by 297 mm.
    A4,
    /// 8.5 by 11 inches.
    #[default]
    Letter,
}

impl Format {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }
}

/// What stands over every page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Head {
    /// What the paper is: "Week 6: cable, tank, relief".
    pub title: String,
    /// The day of the paper, from 1 January 1970; the only day that is printed. None where
    /// it has none.
    pub day: Option<i32>,
    /// Whose it is; empty leaves a line to write it on.
    pub name: String,
    /// Its number: "019"; empty where it has none.
    pub number: String,
    /// The paper that it is printed on.
    pub format: Format,
    /// What is said of the tables, in a sentence; empty where nobody decided.
    pub tables: String,
}

/// A day for the file's own properties.
#[derive(Serialize)]
pub struct Dated {
    year: i16,
    month: i8,
    day: i8,
}

impl Dated {
    /// The day, where a calendar reaches it.
    pub fn of(day: Option<i32>) -> Option<Self> {
        let date: Date = words::date(day?)?;
        Some(Self {
            year: date.year(),
            month: date.month(),
            day: date.day(),
        })
    }
}

/// The head as the template takes it.
#[derive(Serialize)]
pub struct HeadData {
    title: String,
    day: String,
    name: String,
    number: String,
    marks: String,
    foot: String,
}

impl HeadData {
    pub fn of(head: &Head, total: u32, training: bool) -> Self {
        let training = if training { TRAINING } else { "" };
        Self {
            title: clean(&head.title),
            day: head.day.map_or_else(String::new, words::day),
            name: clean(&head.name),
            number: clean(&head.number),
            marks: marks(total),
            foot: format!("{} {training}", clean(&head.tables))
                .trim()
                .to_owned(),
        }
    }
}
