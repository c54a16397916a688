//! The settings file: what it settles, what comes before it, and what happens
//! where it cannot be read or written.

use std::fs;
use std::path::{Path, PathBuf};

use crate::started::{Run, finish, program};

/// A folder of its own for a test, empty at its start.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("settings-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn file(name: &str, text: &str) -> PathBuf {
    let path = folder(name).join("settings.toml");
    fs::write(&path, text).expect("a file");
    path
}

fn run(path: &Path, arguments: &[&str]) -> Run {
    finish(program(arguments).env("PUMPWRIGHT_SETTINGS", path))
}

const PROBLEM: [&str; 4] = ["problem", "tank-precharge", "--draw", "7"];

#[test]
fn an_option_comes_before_the_file_and_the_file_before_the_default() {
    let path = file(
        "order",
        "format = 1\nunits = \"SI\"\nsigns = \"ASCII\"\n[rules]\n\"tank.precharge_below\" = \"21 kPa\"\n",
    );
    let kept = run(&path, &PROBLEM);
    assert_eq!((kept.code, kept.err.as_str()), (0, ""));
    assert!(kept.out.contains("__ kPa,"), "{}", kept.out);
    assert!(kept.out.contains("21 kPa"), "{}", kept.out);
    assert!(kept.out.is_ascii(), "{}", kept.out);
    let asked = [&PROBLEM[..], &["--units", "us"]].concat();
    let asked = run(&path, &asked);
    assert!(asked.out.contains("__ psi,"), "{}", asked.out);
    let rule = [&PROBLEM[..], &["--rule", "tank.precharge_below=28 kPa"]].concat();
    let rule = run(&path, &rule);
    assert!(rule.out.contains("28 kPa"), "{}", rule.out);
    let other = folder("order-none").join("settings.toml");
    let other = other.to_string_lossy();
    let named = [&PROBLEM[..], &["--settings", &other]].concat();
    let named = run(&path, &named);
    assert!(
        named.out.contains("__ psi,"),
        "an option before the environment: {}",
        named.out
    );
}

#[test]
fn the_decimal_sign_is_that_of_the_file_unless_asked_for() {
    let path = file("decimal", "format = 1\ndecimal = \",\"\n");
    let sum = ["calc", "head.from_pressure", "pressure=1,5 psi"];
    let kept = run(&path, &sum);
    assert_eq!(kept.code, 0, "{}", kept.err);
    let asked = [&sum[..], &["--decimal", "point"]].concat();
    assert_eq!(run(&path, &asked).code, 2);
}

#[test]
fn a_code_settles_everything_whatever_the_file_says() {
    let si = file("code", "format = 1\nunits = \"SI\"\n");
    let us = run(Path::new(crate::started::NO_SETTINGS), &PROBLEM).out;
    let code = us.split_whitespace().find(|word| word.contains(".1us."));
    let code = code.or_else(|| us.split_whitespace().find(|word| word.contains("us.")));
    let again = run(&si, &["problem", code.expect("a code")]);
    assert_eq!(again.out, us);
}

#[test]
fn a_file_that_cannot_be_read_is_shown_and_left_alone_and_defaults_serve() {
    let text = "format = 1\nunits = \"SI\nname = \"Ina\"\n";
    let path = file("broken", text);
    let shown = run(&path, &PROBLEM);
    assert_eq!(shown.code, 0);
    assert!(shown.out.contains("__ psi,"), "{}", shown.out);
    for words in [
        "settings.toml, line 2, column",
        "  2 | units = \"SI",
        "remedy: ",
        "note: the settings file is left as it is; every setting is at its default",
    ] {
        assert!(shown.err.contains(words), "{words}: {}", shown.err);
    }
    assert_eq!(fs::read_to_string(&path).expect("the file"), text);
}

#[test]
fn a_rule_that_no_lesson_has_is_a_fault_of_the_file() {
    let text = "format = 1\nunits = \"SI\"\n[rules]\ntank.precharge_blow = \"3 psi\"\n";
    let path = file("rule", text);
    let shown = run(&path, &PROBLEM);
    assert_eq!(shown.code, 0);
    assert!(shown.err.contains("line 4, column 23"), "{}", shown.err);
    assert!(shown.err.contains("tank.precharge_below"), "{}", shown.err);
    assert!(shown.out.contains("__ psi,"), "{}", shown.out);
}

#[test]
fn a_newer_format_and_what_is_no_file_are_refused_with_a_sentence() {
    let newer = file("newer", "format = 9\n");
    let shown = run(&newer, &PROBLEM).err;
    assert!(shown.contains("written in format 9"), "{shown}");
    let folder = folder("no-file");
    let shown = run(&folder, &PROBLEM).err;
    assert!(
        shown.contains("the settings file cannot be read"),
        "{shown}"
    );
    fs::write(folder.join("bytes"), b"format = 1\nname = \"\xff\"\n").expect("a file");
    let shown = run(&folder.join("bytes"), &PROBLEM).err;
    assert!(shown.contains("not UTF-8"), "{shown}");
    assert!(shown.contains("line 2"), "{shown}");
}

#[cfg(unix)]
mod at_a_terminal {
    use super::{file, folder, fs};
    use crate::pty::{Session, Start};

    /// From the first start to set-up, which is asked when the second sheet is left.
    fn two_sheets(session: &mut Session) {
        session.shows("look at a worked job sheet");
        session.types("\r");
        session.shows("JOB SHEET, WORKED");
        session.types("\r");
        for sheet in ["the first", "the second"] {
            session.until(sheet, |screen| {
                let text = screen.contents();
                text.contains("JOB SHEET ─")
            });
            session.types(&"\u{1b}[B".repeat(9));
            session.types("1\r");
            session.shows("JOB SHEET, HANDED IN");
            session.types("?n");
        }
        session.shows("asked after the second sheet");
    }

    #[test]
    fn set_up_is_asked_once_and_holds_from_the_next_sheet_and_the_next_start() {
        let path = folder("asked").join("deep/settings.toml");
        let shown = path.to_string_lossy();
        let variables = [("PUMPWRIGHT_SETTINGS", &*shown)];
        let start = || {
            Session::start(&Start {
                variables: &variables,
                ..Start::default()
            })
        };
        let mut session = start();
        two_sheets(&mut session);
        session.types("Ina\r");
        session.types("si\r");
        session.types("\u{1b}");
        session.until("the next sheet", |screen| {
            screen.contents().contains("Units   SI")
        });
        session.types("?q");
        session.ends();
        let kept = fs::read_to_string(&path).expect("it is kept");
        assert!(
            kept.ends_with("format = 1\nname = \"Ina\"\nunits = \"SI\"\n"),
            "{kept}"
        );

        let mut session = start();
        session.shows("LESSONS AND JOBS");
        session.shows("For   Ina");
        session.types("cable-drop\u{1b}[B\r");
        session.shows("Units   SI");
        session.types("?q");
        session.ends();
    }

    #[test]
    fn a_broken_file_is_shown_first_and_never_written_over() {
        let text = "format = 1\nunits = SI\n";
        let path = file("broken-at-a-terminal", text);
        let shown = path.to_string_lossy();
        let mut session = Session::start(&Start {
            variables: &[("PUMPWRIGHT_SETTINGS", &shown)],
            ..Start::default()
        });
        session.shows("SETTINGS FILE NOT READ");
        session.shows("units = SI");
        session.types("\r");
        session.shows("LESSONS AND JOBS");
        session.types("?u");
        session.shows("SET-UP");
        session.types("Ina\r");
        session.shows("set-up is not kept");
        session.types("\u{3}");
        session.ends();
        assert_eq!(fs::read_to_string(&path).expect("the file"), text);
    }

    #[test]
    fn a_disk_that_takes_nothing_is_told_and_what_was_there_stays() {
        let text = "format = 1\n# mine\n";
        let path = file("full", text);
        let shown = path.to_string_lossy();
        let mut session = Session::start(&Start {
            variables: &[("PUMPWRIGHT_SETTINGS", &shown)],
            shell: Some("ulimit -f 0; trap '' XFSZ; exec $PROGRAM"),
            ..Start::default()
        });
        session.shows("LESSONS AND JOBS");
        session.types("?u");
        session.shows("SET-UP");
        session.types("Ina\r");
        session.shows("set-up is not kept");
        session.shows("It holds until you stop");
        session.types("\u{1b}");
        session.shows("For   Ina");
        session.types("?q");
        session.ends();
        assert_eq!(fs::read_to_string(&path).expect("the file"), text);
        let beside = fs::read_dir(path.parent().expect("a folder")).expect("a folder");
        assert_eq!(beside.count(), 1);
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_told() {
        let mut session = Session::start(&Start {
            variables: &[("PUMPWRIGHT_SETTINGS", "/proc/none/settings.toml")],
            arguments: &["practice"],
            ..Start::default()
        });
        session.shows("LESSONS AND JOBS");
        session.types("?u");
        session.shows("SET-UP");
        session.types("Ina\r");
        session.shows("set-up is not kept");
        session.types("\u{3}");
        session.ends();
    }
}
