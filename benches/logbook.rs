//! The record on disk: what a person can do and what comes next, out of a file of ten
//! thousand sheets; one sheet written and on the disk.

use std::cell::RefCell;
use std::path::PathBuf;
use std::sync::LazyLock;

use divan::Bencher;
use pumpwright::lesson_files;
use pumpwright::logbook::{Logbook, Sheet};
use pumpwright_engine::entries::{
    Entry, FORMAT, GivenEntry, Id, LineEntry, Place, Purpose, moment,
};
use pumpwright_engine::learner::{
    self, Blueprint, Curriculum, Desk, Dice, Evening, Record, standing,
};
use pumpwright_engine::lessons::Library;

const SHEETS: u32 = 10_000;
/// 2026-09-21 in UTC.
const FIRST: i64 = 1_790_000_000_000;
/// Twenty-five sheets a day.
const BETWEEN: i64 = 86_400_000 / 25;

static LIBRARY: LazyLock<Library> = LazyLock::new(|| {
    let (library, faults) = Library::read_checked(&lesson_files::carried().files);
    assert!(faults.is_empty(), "the carried lessons are sound");
    library
});

/// A sheet of four lines and three givens, as long as most are.
fn sheet(number: u32, family: &str, lesson: &str) -> Sheet {
    let right = !number.is_multiple_of(3);
    let line = |at: u32| LineEntry {
        id: format!("step-{at}"),
        label: "volts lost on the way down".to_owned(),
        typed: "8.71 V".to_owned(),
        expected: "8.7 V".to_owned(),
        verdict: if right { "right" } else { "mistake" }.to_owned(),
        right: Some(right),
        marks: 1.0,
        out_of: 1.0,
        helped: 0,
        given: false,
        seconds: Some(30 + at),
        options: None,
        skill: family.to_owned(),
        mistakes: Vec::new(),
    };
    let given = |name: &str| GivenEntry {
        name: name.to_owned(),
        label: format!("the {name} of the well"),
        text: "240 ft".to_owned(),
    };
    let at = FIRST + i64::from(number) * BETWEEN;
    let entry = Entry {
        format: FORMAT,
        id: Id::new(at, u128::from(number)),
        person: "Ina".to_owned(),
        at,
        zone: -300,
        code: format!("{family}.2us.{number}"),
        family: family.to_owned(),
        lesson: lesson.to_owned(),
        title: "Volts lost on the way down".to_owned(),
        level: 2,
        units: "us".to_owned(),
        purpose: if number.is_multiple_of(5) {
            Purpose::Probe
        } else {
            Purpose::Practice
        },
        sitting: None,
        area: None,
        place: Place::Screen,
        seconds: 150,
        givens: ["depth", "width", "level"].map(given).into(),
        lines: (1..=4).map(line).collect(),
        marks: 4.0,
        out_of: 4.0,
        program: "0.1.0".to_owned(),
    };
    Sheet::of(entry).expect("a sheet")
}

fn place(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("bench-logbook");
    std::fs::create_dir_all(&folder).expect("a folder");
    folder.join(name)
}

/// A fresh file; what an earlier run left is taken away.
fn fresh(name: &str) -> (PathBuf, Logbook) {
    let file = place(name);
    for ending in ["", "-wal", "-shm"] {
        let _ = std::fs::remove_file(format!("{}{ending}", file.display()));
    }
    let logbook = Logbook::open(&file).expect("a logbook");
    (file, logbook)
}

/// The file of ten thousand sheets.
pub static LONG: LazyLock<PathBuf> = LazyLock::new(|| {
    let (file, mut logbook) = fresh("long.db");
    let families: Vec<_> = LIBRARY.families().collect();
    let sheets: Vec<Sheet> = (0..SHEETS)
        .map(|number| {
            let family = families[(number as usize * 7) % families.len()];
            sheet(number, &family.id, &family.lesson)
        })
        .collect();
    logbook.add(&sheets).expect("room");
    logbook.close().expect("closed");
    file
});

/// The whole: the file opened, the history read and replayed, every standing, what
/// comes next.
#[divan::bench(sample_count = 50)]
fn standing_and_next_from_a_logbook_of_10_000(bencher: Bencher) {
    let (curriculum, file) = (Curriculum::of(&LIBRARY), &*LONG);
    let blueprint = Blueprint::even(&curriculum, 75, 0.7);
    let now = moment(FIRST + i64::from(SHEETS) * BETWEEN, -300);
    bencher.bench(|| {
        let logbook = Logbook::open(file).expect("a logbook");
        let history = logbook.history("Ina").expect("a history");
        let record = Record::replay(&curriculum, &history);
        let families = 0..curriculum.families().len();
        let standings: Vec<_> = families
            .map(|family| standing(&record, family, now))
            .collect();
        let desk = Desk {
            curriculum: &curriculum,
            record: &record,
            blueprint: &blueprint,
            now,
        };
        let evening = Evening::of(&record, now);
        let next = desk.next(&evening, learner::Place::Middle, &mut Dice::of(1));
        (standings, next)
    });
}

/// Of it: the file opened and the history read.
#[divan::bench(sample_count = 50)]
fn history_from_a_logbook_of_10_000(bencher: Bencher) {
    let file = &*LONG;
    bencher.bench(|| {
        let logbook = Logbook::open(file).expect("a logbook");
        logbook.history("Ina").expect("a history")
    });
}

/// A sheet written and on the disk.
#[divan::bench(sample_count = 200)]
fn commit_with_full_sync(bencher: Bencher) {
    let (_, logbook) = fresh("commits.db");
    let state = RefCell::new((logbook, 0));
    bencher.bench_local(|| {
        let (logbook, number) = &mut *state.borrow_mut();
        *number += 1;
        let sheet = sheet(*number, "cable-drop", "drop-cable");
        logbook.add(std::slice::from_ref(&sheet)).expect("room")
    });
}
