//! Starting the real program, and what came of it. No test stands here.

use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

/// What a run of the program printed, and the number that it exited with.
#[derive(Debug, PartialEq, Eq)]
pub struct Run {
    /// The exit code.
    pub code: i32,
    /// What was asked for.
    pub out: String,
    /// What was said beside it.
    pub err: String,
}

/// A settings file that is not there, so that no settings of this machine count.
pub const NO_SETTINGS: &str = concat!(env!("CARGO_TARGET_TMPDIR"), "/none/settings.toml");

/// A settings file of its own that is not there yet: what somebody does at a terminal may
/// write it, and then it counts for nobody else.
pub fn fresh_settings() -> PathBuf {
    static NUMBER: AtomicU32 = AtomicU32::new(0);
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("settings-of-sessions");
    let path = folder.join(format!("{}-{number}.toml", std::process::id()));
    // One of an earlier run with the same number.
    let _ = std::fs::remove_file(&path);
    path
}

/// A logbook of its own, so that no record of this machine, and of no other test, counts.
pub fn fresh_logbook() -> PathBuf {
    static NUMBER: AtomicU32 = AtomicU32::new(0);
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("logbooks");
    std::fs::create_dir_all(&folder).expect("a folder for logbooks");
    let path = folder.join(format!("{}-{number}.db", std::process::id()));
    for end in ["", "-wal", "-shm"] {
        // One of an earlier run with the same number.
        let _ = std::fs::remove_file(format!("{}{end}", path.display()));
    }
    path
}

/// The program, in surroundings that are the same on every machine.
pub fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pumpwright"));
    command
        .args(arguments)
        .env_clear()
        .env("LC_ALL", "C.UTF-8")
        .env("PUMPWRIGHT_SETTINGS", NO_SETTINGS)
        .env("PUMPWRIGHT_LOGBOOK", fresh_logbook())
        .stdin(Stdio::null());
    command
}

/// Runs the program to its end.
pub fn run(arguments: &[&str]) -> Run {
    finish(&mut program(arguments))
}

/// Runs a prepared program to its end.
pub fn finish(command: &mut Command) -> Run {
    let done = command.output().expect("the program starts");
    Run {
        code: done.status.code().expect("the program exits by itself"),
        out: String::from_utf8(done.stdout).expect("the output is UTF-8"),
        err: String::from_utf8(done.stderr).expect("the error output is UTF-8"),
    }
}

/// What a run prints that must succeed without a word beside it.
pub fn printed(arguments: &[&str]) -> String {
    let run = run(arguments);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{arguments:?}");
    run.out
}

/// Checks that a run ends with this code, prints nothing, and says exactly this.
pub fn refused(arguments: &[&str], code: i32, sentence: &str) {
    let expected = Run {
        code,
        out: String::new(),
        err: format!("error: {sentence}\n"),
    };
    assert_eq!(run(arguments), expected, "{arguments:?}");
}
