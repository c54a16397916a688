//! The report of a logbook: where somebody stands, what the forecast was week by week,
//! which mistakes come back, how much time it took, and how well the forecasts fitted.
//!
//! It is one person's own. Nobody is set beside anybody else.

mod fit;
mod foretold;
mod mistakes;
mod stands;
mod time;

use maud::{Markup, html};
use pumpwright_engine::entries::Entry;
use pumpwright_engine::learner::{Blueprint, Curriculum, History, Moment, Record};
use pumpwright_engine::lessons::{Exam, Library};
use pumpwright_engine::problems::TRAINING;
use pumpwright_engine::quantities::System;

use crate::page::{Kind, page};
use crate::words;

/// What a report is made of.
pub struct Report<'a> {
    /// Whose it is.
    pub person: &'a str,
    /// Now.
    pub now: Moment,
    /// The lessons.
    pub library: &'a Library,
    /// The system of units in which mistakes are told.
    pub system: System,
    /// What was handed in, as the model reads it.
    pub history: &'a History,
    /// The same as it stands in the logbook.
    pub entries: &'a [Entry],
}

/// What the parts read.
struct Read<'a> {
    report: &'a Report<'a>,
    curriculum: Curriculum,
    record: Record,
    blueprint: Blueprint,
    exam: Option<&'a Exam>,
}

/// The report as a page.
pub fn report(report: &Report<'_>) -> String {
    let curriculum = Curriculum::of(report.library);
    let (blueprint, exam) = Blueprint::of_library(&curriculum, report.library);
    let record = Record::replay(&curriculum, report.history);
    let read = Read {
        report,
        curriculum,
        record,
        blueprint,
        exam,
    };
    let title = match words::typed(report.person).trim() {
        "" => "Report of a logbook".to_owned(),
        person => format!("Report of the logbook of {person}"),
    };
    let body = html! {
        h1 { (title) }
        (head(report))
        (stands::part(&read))
        (foretold::part(&read))
        (mistakes::part(&read))
        (time::part(&read))
        (fit::part(&read))
        h2 { "How to read this" }
        p { "The chances come from a model that reads each line of each sheet: right or \
             not, with help or without, and how long ago. So far it was \
             tried on simulated apprentices alone. The sheets, the time and the table of \
             what was foretold and seen are measured: they are this person's own." }
        p { "An interval of 80 % leaves one time in five for what lies outside of it. A \
             report says what somebody can probably do on paper. It replaces no license \
             and no training on the job." }
        p.faint { (TRAINING) }
    };
    page(Kind::Report, &title, &body)
}

fn head(report: &Report<'_>) -> Markup {
    let responses = report.history.in_order();
    let days = responses
        .first()
        .zip(responses.last())
        .map(|(first, last)| (first.when.day, last.when.day));
    html! {
        p.faint {
            "Written on " (words::day(report.now.day)) ". "
            (words::count(responses.len(), "sheet", "sheets"))
            @match days {
                Some((first, last)) if first != last => {
                    ", from " (words::day(first)) " to " (words::day(last)) "."
                }
                Some((day, _)) => { ", on " (words::day(day)) "." }
                None => ".",
            }
        }
    }
}
