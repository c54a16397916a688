//! What every bench needs: the lessons that the program carries, read, and
//! problems out of them. Nothing is timed here.

use std::fmt;

use pumpwright::lesson_files;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

/// The draw that is taken where one will do.
pub const DRAW: u32 = 7;

/// The shipped lessons, read.
pub fn library() -> Library {
    let (library, faults) = Library::read(&lesson_files::carried().files);
    assert!(faults.is_empty(), "{}", faults[0]);
    library
}

/// A family at a level, as a bench lists it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.family, self.level)
    }
}

/// Every family at every level that it has.
pub fn kinds() -> Vec<Kind> {
    let library = library();
    let kinds = library.families().flat_map(|family| {
        family.levels.iter().map(|&level| Kind {
            family: family.id.clone(),
            level,
        })
    });
    kinds.collect()
}

/// One problem of a kind.
pub fn problem(library: &Library, kind: &Kind, draw_number: u32) -> Problem {
    let request = Request {
        family: &kind.family,
        level: Some(kind.level),
        system: System::Us,
        draw: draw_number,
        settings: &Settings::default(),
    };
    draw(library, &request).expect("shipped families can be drawn")
}

/// The problem with the most lines that are asked.
pub fn longest(library: &Library) -> Problem {
    let problems = kinds()
        .into_iter()
        .map(|kind| problem(library, &kind, DRAW));
    problems
        .max_by_key(|problem| problem.asked().count())
        .expect("families are shipped")
}
