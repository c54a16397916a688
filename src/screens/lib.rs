//! The terminal: the trainer's screens and the same practice as plain lines.
//!
//! A screen is a state, an update that takes a press and returns an outcome, and
//! a view that makes a page out of the state. The terminal and the plain list
//! read pages. Nothing is worked out here; a screen arranges what the engine says.

mod answering;
mod blank;
mod board;
mod calendar;
mod class;
mod class_report;
mod clerk;
mod desk;
mod exam;
mod fault;
mod figure;
mod first;
mod glossary;
mod guide;
mod hand_in;
mod handed_in;
mod jobs;
mod keeping;
mod keys;
mod layout;
mod left_over;
mod lesson;
mod office;
mod outcome;
mod page;
mod paint;
mod pen;
mod picked;
mod plain;
mod plan_sheet;
mod reading;
mod result;
mod rules;
mod screen;
mod set_up;
mod sheet;
mod shelf;
mod sitting;
mod slip;
mod standing;
mod sums;
mod tables;
mod terminal;
mod theme;
mod through;
mod tonight;
mod trainer;
mod trial;
mod words;
mod worked;
mod wrap;

#[cfg(test)]
mod checks;

use std::io;

use pumpwright_engine::lessons::{Fault, Library};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::papers::Paper;
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_engine::quantities::System;

pub use calendar::{Date, read as read_date};
pub use clerk::{Clerk, Draft, InMemory, Now, Receipt};
pub use desk::{Keeper, Person};
pub use keys::Press;
pub use left_over::left_over;
pub use office::{
    Answered, ClassNow, Decision, Given, Keyed, NoOffice, Office, Order, Pages, PlanNow, Samples,
    Told,
};
pub use plain::{
    BoardPlain, ExamAsked, Heard, MATCH_FORM, ORDER_FORM, PaperTools, PlainDone, PlainOptions,
    TrialPlain, board_plain, exam_plain, practice_plain,
};
pub use plan_sheet::{SAMPLES, unseen};
pub use set_up::{Checked, Choices, SetUp, Signs};
pub use sheet::FORMAT as DRAFT_FORMAT;
pub use sitting::FORMAT as SITTING_FORMAT;
pub use terminal::{Runs, Signals};
pub use theme::Look;
pub use tonight::{JOBS, Planned, plan_of, showing};
pub use trainer::Trainer;

/// Where the trainer begins.
#[derive(Debug, Clone)]
pub enum Start {
    /// With what it is and a worked sheet.
    First,
    /// At the front page.
    Jobs,
    /// With a sheet of this family, at its home level.
    Family(String),
    /// With a sheet of this family at this level.
    Level(String, u8),
    /// With this problem on the board and, if one is named, a known mistake of it.
    Board(Box<Problem>, Option<String>),
    /// At the work order of the class in this folder, or of the one that was open last.
    Class(Option<String>),
    /// Where a paper is chosen.
    Exams,
    /// With a paper that an instructor gave as a file.
    Given(Box<Given>),
    /// With this paper, and so many minutes on the clock; none for no clock.
    Paper(Box<Paper>, Option<u32>),
}

/// What the caller decides for the trainer.
pub struct TrainOptions<'a> {
    /// The system of units.
    pub system: System,
    /// House rules off their default.
    pub settings: Settings,
    /// How figures are written.
    pub manner: Manner,
    /// How the screen may look.
    pub look: Look,
    /// Where it begins.
    pub start: Start,
    /// Where the draws come from: each number below [`pumpwright_engine::problems::DRAWS`].
    pub draws: Box<dyn FnMut() -> u32 + 'a>,
    /// Who sits at the screen, and what this person set.
    pub person: Person<'a>,
}

/// How the trainer ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ending {
    /// What is printed when the terminal is given back.
    pub line: String,
}

/// How a class stands, as plain lines.
pub fn class_plain(now: Box<ClassNow>, ascii: bool) -> Vec<String> {
    let look = Look {
        ascii,
        colour: false,
    };
    let mut class = class::Class::of("");
    class.asks = None;
    class.take_in(now);
    class::page(&class, 76).plain(look)
}

/// Runs the trainer in the terminal until it is left, or told to stop.
///
/// # Errors
/// What the terminal refuses. The terminal is given back first.
pub fn train(
    library: &Library,
    faults: &[Fault],
    options: TrainOptions<'_>,
    signals: &Signals<'_>,
) -> io::Result<Ending> {
    let mut trainer = Trainer::new(library, faults, options);
    terminal::run(&mut trainer, signals)?;
    Ok(trainer.ending())
}
