//! The papers that can be sat, and what is chosen of them so far.

use pumpwright_engine::entries::Id;
use pumpwright_engine::lessons::Library;

use crate::blank::Blank;
use crate::layout::Scroll;
use crate::picked::Picked;

/// The longest clock that is taken, in minutes: ten hours.
pub const LONGEST: u32 = 600;

/// A sitting that was stopped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stopped {
    /// The id of the sitting.
    pub id: Id,
    /// The title of its exam.
    pub title: String,
    /// Where it stopped and what time is left, in words.
    pub words: String,
}

/// What a line takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Takes {
    /// Goes on with the sitting of this id.
    GoOn(Id),
    /// Sits a new paper of this exam.
    Exam(String),
    /// Shows the marks of the paper that was handed in last.
    Marks,
    /// Answers a paper that an instructor gave as a file.
    Given,
}

/// A line of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// What it takes.
    pub takes: Takes,
    /// Its title.
    pub title: String,
    /// How many questions; where it stopped, for one that was stopped.
    pub size: String,
    /// The minutes of the blueprint.
    pub minutes: u32,
}

/// The list, and what is chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Exams {
    /// The lines.
    pub papers: Vec<Paper>,
    /// The line that is taken.
    pub picked: Picked,
    /// The minutes, as long as they are asked.
    pub minutes: Option<Blank>,
    /// The file of a paper, as long as it is asked.
    pub file: Option<Blank>,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Exams {
    /// The exams of a library behind the sittings that were stopped, and the marks of the
    /// paper of this title where one was handed in since the start.
    pub fn new(library: &Library, stopped: Vec<Stopped>, marked: Option<&str>) -> Self {
        let stopped = stopped.into_iter().map(|stopped| Paper {
            takes: Takes::GoOn(stopped.id),
            title: format!("go on: {}", stopped.title),
            size: stopped.words,
            minutes: 0,
        });
        let new = library.exams().iter().map(|exam| Paper {
            takes: Takes::Exam(exam.id.clone()),
            title: exam.title.clone(),
            size: format!("{} questions, {} min", exam.questions, exam.minutes),
            minutes: exam.minutes,
        });
        let marks = marked.map(|title| Paper {
            takes: Takes::Marks,
            title: format!("marks: {title}"),
            size: "handed in".to_owned(),
            minutes: 0,
        });
        let mut exams = Self {
            papers: stopped.chain(new).chain(marks).collect(),
            picked: Picked::default(),
            minutes: None,
            file: None,
            scroll: Scroll::default(),
        };
        exams.go(0);
        exams
    }

    /// The same, with a line for a paper that an instructor gave as a file.
    #[must_use]
    pub fn with_given(mut self) -> Self {
        self.papers.push(Paper {
            takes: Takes::Given,
            title: "Paper from your instructor".to_owned(),
            size: "a file, as in 019.json".to_owned(),
            minutes: 0,
        });
        self
    }

    /// Whether something is written below the list.
    pub const fn asks(&self) -> bool {
        self.minutes.is_some() || self.file.is_some()
    }

    /// Moves the pen to a line, which writes its number.
    pub fn go(&mut self, line: usize) {
        self.picked.go(line, self.papers.len());
        self.scroll.follow();
    }

    /// The line whose number is written.
    pub fn named(&self) -> Option<usize> {
        self.picked.named(self.papers.len())
    }

    /// The line with the pen.
    pub fn paper(&self) -> Option<&Paper> {
        self.papers.get(self.picked.pen)
    }
}

/// Reads the minutes of a clock; none for no clock.
///
/// # Errors
/// What can be read instead.
pub fn read_minutes(typed: &str) -> Result<Option<u32>, String> {
    let fault = || format!("write the minutes, 1 to {LONGEST}, or 0 for no clock");
    let minutes: u32 = typed.trim().parse().map_err(|_| fault())?;
    match minutes {
        0 => Ok(None),
        1..=LONGEST => Ok(Some(minutes)),
        _ => Err(fault()),
    }
}
