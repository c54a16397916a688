//! What there is to learn and what the exam asks, made out of the lessons once, and
//! the record read by it.

use pumpwright_engine::learner::{Blueprint, Curriculum, Desk, History, Moment, Record};
use pumpwright_engine::lessons::{Exam, Library};

use crate::calendar;
use crate::clerk::Now;

/// What there is to learn and what the exam asks.
pub struct Guide<'a> {
    /// The families, and what rests on what.
    pub curriculum: Curriculum,
    /// The weights of the exam.
    pub blueprint: Blueprint,
    /// The exam, if the lessons have it.
    pub exam: Option<&'a Exam>,
}

impl<'a> Guide<'a> {
    /// The guide that the lessons make.
    pub fn of(library: &'a Library) -> Self {
        let curriculum = Curriculum::of(library);
        let (blueprint, exam) = Blueprint::of_library(&curriculum, library);
        Self {
            curriculum,
            blueprint,
            exam,
        }
    }

    /// The record that a history gives.
    pub fn record(&self, history: &History) -> Record {
        Record::replay(&self.curriculum, history)
    }

    /// What a choice rests on, now.
    pub fn desk<'d>(&'d self, record: &'d Record, now: Now) -> Desk<'d> {
        Desk {
            curriculum: &self.curriculum,
            record,
            blueprint: &self.blueprint,
            now: Moment {
                seconds: now.milliseconds.div_euclid(1000),
                day: calendar::day(now),
            },
        }
    }
}
