//! The logbook on disk, from outside: what the commands print and refuse, what stays
//! after a kill, after damage and on a full disk.

mod commands;
mod damage;
mod earlier;
mod writers;

use std::fs;
use std::path::{Path, PathBuf};

use pumpwright::logbook::{Logbook, Sheet};
use pumpwright_engine::entries::{Circumstances, Entry, Id, Place, Purpose, entry};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Response, mark};
use pumpwright_engine::problems::{self, Problem, Request, Settings, working};
use pumpwright_engine::quantities::System;

use crate::started::{Run, finish, program};

/// A folder of its own for a test, empty at its start.
pub fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("logbook-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

/// Runs the program with this logbook.
pub fn run(file: &Path, arguments: &[&str]) -> Run {
    finish(program(arguments).env("PUMPWRIGHT_LOGBOOK", file))
}

/// What it prints where it must succeed without a word beside it.
pub fn printed(file: &Path, arguments: &[&str]) -> String {
    let run = run(file, arguments);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{arguments:?}");
    run.out
}

/// The time of the first sheet: 2026-09-21 in UTC.
const FIRST: i64 = 1_790_000_000_000;

/// Real sheets, family after family, a few a day; each third line is left empty.
pub fn handed_in(library: &Library, person: &str, count: u32) -> Vec<Entry> {
    let families: Vec<String> = library.families().map(|family| family.id.clone()).collect();
    let settings = Settings::default();
    (0..count)
        .map(|number| {
            let family = &families[number as usize % 7];
            let request = Request {
                family,
                level: None,
                system: System::Us,
                draw: number,
                settings: &settings,
            };
            let problem = problems::draw(library, &request).expect("a draw");
            sheet(&problem, person, number)
        })
        .collect()
}

fn sheet(problem: &Problem, person: &str, number: u32) -> Entry {
    let worked = working(problem);
    let answers = problem.asked().filter_map(|(at, line)| {
        let worked = worked.iter().find(|worked| worked.id == line.id)?;
        let written = !(at + number as usize).is_multiple_of(3);
        written.then(|| (line.id.clone(), worked.typed.clone()))
    });
    let response = Response {
        answers: answers.collect(),
    };
    let marked = mark(problem, &response, Manner::default());
    let at = FIRST + i64::from(number) * 3 * 3_600_000;
    let by = Circumstances {
        id: Id::new(
            at,
            u128::from(number) << 64 | u128::from(person.len() as u32),
        ),
        person: person.to_owned(),
        at,
        zone: -300,
        purpose: Purpose::ALL[number as usize % 5],
        place: Place::Plain,
        seconds: 60 + number,
        helped: vec![0, (number % 2) as usize],
        line_seconds: vec![Some(20 + number), None],
        given: Vec::new(),
        program: "0.1.0".to_owned(),
    };
    entry(problem, &marked, by)
}

/// Adds sheets to the logbook in this file.
pub fn add(file: &Path, entries: Vec<Entry>) {
    let sheets: Vec<Sheet> = entries
        .into_iter()
        .map(|entry| Sheet::of(entry).expect("a sheet"))
        .collect();
    let mut logbook = Logbook::open(file).expect("a logbook");
    logbook.add(&sheets).expect("room");
    logbook.close().expect("closed");
}

/// The path as the command line takes it.
pub fn text(path: &Path) -> &str {
    path.to_str().expect("a path in UTF-8")
}
