//! Who sits at the machine for the first time, in a real terminal: with an empty folder
//! for the record, and beside somebody whose record is there.

use std::path::Path;

use crate::logbook::{folder, printed};
use crate::pty::{Session, Start};

/// The program with this logbook and settings of its own.
fn start(logbook: &Path, settings: &Path, arguments: &[&str]) -> Session {
    let [logbook, settings] = [logbook, settings].map(|path| path.display().to_string());
    Session::start(&Start {
        arguments,
        variables: &[
            ("PUMPWRIGHT_LOGBOOK", &logbook),
            ("PUMPWRIGHT_SETTINGS", &settings),
        ],
        ..Start::default()
    })
}

/// Hands a sheet in, with whatever figures, and stops.
fn hands_in(mut session: Session) {
    session.shows("Volts lost on the way down");
    session.types("1\r2\r3\r4\r");
    session.shows("JOB SHEET, HANDED IN");
    session.types("?q");
    let screen = session.ends().contents();
    assert!(screen.contains("1 sheet handed in"), "{screen}");
}

const SHEET: [&str; 5] = ["practice", "--family", "cable-drop", "--draw", "7"];

#[test]
fn a_first_start_with_an_empty_folder_makes_the_logbook_there() {
    let folder = folder("first-start");
    let logbook = folder.join("data/logbook.db");
    let settings = folder.join("settings.toml");
    let mut first = start(&logbook, &settings, &[]);
    first.shows("PUMPWRIGHT");
    first.types("?q");
    first.ends();
    let said = printed(&logbook, &["logbook", "check"]);
    assert!(said.contains("nothing is wrong. 0 sheets"), "{said}");
    hands_in(start(&logbook, &settings, &SHEET));
    let mut again = start(&logbook, &settings, &[]);
    again.shows("TONIGHT");
    again.types("?q");
    again.ends();
    let said = printed(&logbook, &["logbook", "check"]);
    assert!(said.contains("nothing is wrong. 1 sheet of 1"), "{said}");
}

#[test]
fn a_second_person_on_the_machine_begins_anew_beside_the_first() {
    let folder = folder("second-person");
    let logbook = folder.join("logbook.db");
    let settings = folder.join("settings.toml");
    let with = |name, more: &[&'static str]| {
        let arguments = [&["--as", name][..], more].concat();
        start(&logbook, &settings, &arguments)
    };
    hands_in(with("Ina", &SHEET));
    let mut second = with("Bo", &[]);
    let screen = second.shows("PUMPWRIGHT").contents();
    assert!(!screen.contains("TONIGHT"), "{screen}");
    second.types("?s");
    second.shows("there is no record yet");
    second.types("?q");
    second.ends();
    hands_in(with("Bo", &SHEET));
    hands_in(with(
        "Bo",
        &["practice", "--family", "cable-drop", "--draw", "8"],
    ));
    for (name, sheets) in [("Ina", "Ina: 1 sheet"), ("Bo", "Bo: 2 sheets")] {
        let shown = printed(&logbook, &["logbook", "show", "--as", name]);
        assert!(shown.starts_with(sheets), "{shown}");
    }
    let mut first = with("Ina", &[]);
    first.shows("TONIGHT");
    first.types("?q");
    first.ends();
}
