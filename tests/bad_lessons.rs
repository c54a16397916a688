//! Wrong lesson files, each beside the whole message that its author reads.
//!
//! `bad_lessons/good` is a small library without a fault. Every file in one of
//! the other folders is put into it, in the place that its folder names, and all
//! faults are compared with the text beside it. `PUMPWRIGHT_BLESS=1` writes those
//! texts anew; read each of them as an author would before it is committed.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use common::{bless, root, texts};
use pumpwright_engine::lessons::{Fault, Library, SourceFile};
use pumpwright_engine::problems::{Request, Settings, draw};
use pumpwright_engine::quantities::System;

/// The folders of wrong files, each with the place that its files take.
const ROOMS: [(&str, Place); 9] = [
    ("exams", Place::Instead("exams.toml")),
    ("words", Place::Instead("glossary.toml")),
    ("sources", Place::Beside("sources")),
    ("families", Place::Beside("wellhouse")),
    ("tables", Place::Beside("tables")),
    ("rules", Place::Instead("rules.toml")),
    ("lessons", Place::Instead("wellhouse/lesson.toml")),
    ("sheets", Place::Instead("sheets.toml")),
    ("class", Place::Over),
];

#[derive(Clone, Copy)]
enum Place {
    /// One more file in this folder.
    Beside(&'static str),
    /// In the place of this file.
    Instead(&'static str),
    /// As a class's own rules file, beside the lessons.
    Over,
}

struct Case {
    name: String,
    expected: PathBuf,
    file: SourceFile,
    files: Vec<SourceFile>,
    library: Library,
    faults: Vec<Fault>,
}

static CASES: LazyLock<Vec<Case>> = LazyLock::new(cases);

fn folder() -> PathBuf {
    root().join("tests/bad_lessons")
}

fn good() -> Vec<SourceFile> {
    texts(&folder().join("good"), "toml")
}

fn cases() -> Vec<Case> {
    let good = good();
    let mut cases = Vec::new();
    for (room, place) in ROOMS {
        for wrong in texts(&folder().join(room), "toml") {
            let name = format!("{room}/{}", wrong.path);
            let path = match place {
                Place::Beside(folder) => format!("{folder}/{}", wrong.path),
                Place::Instead(path) => path.to_owned(),
                Place::Over => wrong.path.clone(),
            };
            let file = SourceFile {
                path,
                text: wrong.text,
            };
            let mut files = good.clone();
            files.retain(|known| known.path != file.path);
            files.push(file.clone());
            let expected = folder().join(&name).with_extension("txt");
            let (library, faults) = if matches!(place, Place::Over) {
                Library::read_under(&good, &file)
            } else {
                Library::read(&files)
            };
            cases.push(Case {
                name,
                expected,
                file,
                files,
                library,
                faults,
            });
        }
    }
    cases
}

fn said(faults: &[Fault]) -> String {
    let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
    shown.join("\n\n") + "\n"
}

#[test]
fn the_good_library_has_no_fault() {
    let (library, faults) = Library::read(&good());
    assert!(faults.is_empty(), "{}", said(&faults));
    assert_eq!(library.families().count(), 5);
}

#[test]
fn every_message_is_as_written() {
    let mut off = Vec::new();
    for case in CASES.iter() {
        let said = said(&case.faults);
        if bless() {
            std::fs::write(&case.expected, &said).expect("a file to write");
            continue;
        }
        let expected = std::fs::read_to_string(&case.expected).unwrap_or_default();
        if expected.replace("\r\n", "\n") != said {
            off.push(format!(
                "== {}\n-- expected\n{expected}-- said\n{said}",
                case.name
            ));
        }
    }
    assert!(
        off.is_empty(),
        "{}\n{} differ; PUMPWRIGHT_BLESS=1 writes them anew",
        off.join("\n"),
        off.len()
    );
}

#[test]
fn every_wrong_file_has_its_message_and_every_message_its_file() {
    if bless() {
        return;
    }
    let mut stems: BTreeSet<PathBuf> = BTreeSet::new();
    for case in CASES.iter() {
        assert!(
            case.expected.exists(),
            "{} has no text beside it",
            case.name
        );
        stems.insert(case.expected.clone());
    }
    for (room, _) in ROOMS {
        for text in texts(&folder().join(room), "txt") {
            let path = folder().join(room).join(&text.path);
            assert!(
                stems.contains(&path),
                "{} has no file beside it",
                path.display()
            );
        }
    }
    assert!(
        stems.len() > 200,
        "wrong files went missing: {}",
        stems.len()
    );
}

/// A fault stands in the changed file, inside it, and says what to do.
#[test]
fn every_fault_stands_where_it_can_be_seen_and_says_what_to_do() {
    for case in CASES.iter() {
        let faults = &case.faults;
        assert!(!faults.is_empty(), "{} is read without a fault", case.name);
        let own = faults.iter().filter(|fault| fault.file == case.file.path);
        assert!(
            own.count() > 0,
            "{}: no fault is in the file itself",
            case.name
        );
        for fault in faults {
            let file = case.files.iter().find(|file| file.path == fault.file);
            let line = file.and_then(|file| file.text.split('\n').nth(fault.line - 1));
            let line =
                line.unwrap_or_else(|| panic!("{}: line {} is not there", case.name, fault.line));
            assert!(
                (1..=line.chars().count() + 1).contains(&fault.column),
                "{}: column {} of \"{line}\"",
                case.name,
                fault.column
            );
            assert!(
                fault
                    .remedy
                    .as_ref()
                    .is_some_and(|remedy| !remedy.is_empty()),
                "{}: no remedy for: {fault}",
                case.name
            );
        }
    }
}

/// A faulty family is left out; everything else draws as before.
#[test]
fn a_faulty_family_leaves_the_rest_working() {
    for case in CASES
        .iter()
        .filter(|case| case.name.starts_with("families/"))
    {
        let library = &case.library;
        let named: Vec<&str> = library
            .families()
            .map(|family| family.id.as_str())
            .collect();
        assert_eq!(
            named,
            ["charge", "gauge", "order", "parts", "valve"],
            "{}",
            case.name
        );
        assert_eq!(library.lessons()[0].families.len(), 5, "{}", case.name);
        for family in named {
            for system in System::BOTH {
                let request = Request {
                    family,
                    level: Some(1),
                    system,
                    draw: 1,
                    settings: &Settings::default(),
                };
                let drawn = draw(library, &request);
                assert!(drawn.is_ok(), "{}: {family}: {:?}", case.name, drawn.err());
            }
        }
    }
}

/// What does not rest on a faulty table, house rule or lesson is still read.
#[test]
fn a_faulty_shelf_leaves_what_does_not_rest_on_it() {
    for case in CASES.iter() {
        let library = &case.library;
        assert!(
            library.family("order").is_some(),
            "{}: the order rests on no table and no rule",
            case.name
        );
        assert!(
            Path::new(&case.name).starts_with("lessons")
                || !library.lessons().is_empty()
                || Path::new(&case.name).starts_with("rules"),
            "{}: the lesson is gone",
            case.name
        );
    }
}
