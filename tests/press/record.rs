//! A made-up record: somebody invented who works real sheets. No test stands here.

use pumpwright_engine::entries::{Circumstances, Entry, Id, Place, Purpose, entry};
use pumpwright_engine::learner::{History, Moment};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Response, mark};
use pumpwright_engine::problems::{Problem, Request, Settings, draw, working};
use pumpwright_engine::quantities::System;

use crate::common::still_files;

/// A Monday noon in UTC: 5 October 2026.
pub const MONDAY: i64 = 1_791_201_600_000;
const DAY: i64 = 86_400_000;

/// The lessons that stand still.
pub fn library() -> Library {
    let (library, faults) = Library::read(&still_files());
    assert_eq!(faults, []);
    library
}

/// A problem.
pub fn problem(library: &Library, family: &str, number: u32) -> Problem {
    let request = Request {
        family,
        level: None,
        system: System::Us,
        draw: number,
        settings: &Settings::default(),
    };
    draw(library, &request).expect("a draw")
}

/// So many sheets, two a day; a line in five goes wrong by a known mistake where there
/// is one, and every second sheet is a probe.
pub fn entries(library: &Library, count: u32) -> Vec<Entry> {
    let families: Vec<String> = library.families().map(|family| family.id.clone()).collect();
    (0..count)
        .map(|number| {
            let family = &families[number as usize % families.len()];
            handed_in(&problem(library, family, number), number)
        })
        .collect()
}

fn handed_in(problem: &Problem, number: u32) -> Entry {
    let worked = working(problem);
    let answers = problem.asked().filter_map(|(at, line)| {
        let right = worked.iter().find(|worked| worked.id == line.id)?;
        let slips = (at + number as usize).is_multiple_of(5);
        let mistake = problem.mistakes.iter().find(|live| live.step == line.id);
        let typed = match mistake {
            Some(mistake) if slips && mistake.value.is_some() => mistake.text.clone(),
            _ if slips => String::new(),
            _ => right.typed.clone(),
        };
        Some((line.id.clone(), typed))
    });
    let response = Response {
        answers: answers.collect(),
    };
    let marked = mark(problem, &response, Manner::default());
    let at = MONDAY + i64::from(number / 2) * DAY + i64::from(number % 2) * 3_600_000;
    let by = Circumstances {
        id: Id::new(at, u128::from(number)),
        person: "Ina".to_owned(),
        at,
        zone: -300,
        purpose: if number.is_multiple_of(2) {
            Purpose::Probe
        } else {
            Purpose::Practice
        },
        place: Place::Screen,
        seconds: 240 + 7 * number,
        helped: Vec::new(),
        line_seconds: Vec::new(),
        given: Vec::new(),
        program: "0.1.0".to_owned(),
    };
    entry(problem, &marked, by)
}

/// What the model reads.
pub fn history(entries: &[Entry]) -> History {
    entries.iter().map(Entry::response).collect()
}

/// So many days after the Monday.
pub fn now(days: i64) -> Moment {
    pumpwright_engine::entries::moment(MONDAY + days * DAY, -300)
}
