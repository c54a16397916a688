//! The versions of program, lessons and file formats. Each number stands where its
//! format is read and written; here they are gathered and told.

use std::fmt::Write as _;

use pumpwright_engine::{classes, entries, lessons};
use pumpwright_screens as screens;

use crate::commands::json;
use crate::lesson_files;
use crate::logbook::schema;
use crate::settings;

/// What each format is called, and its number. A file with a higher number is from a
/// newer program, and is refused with that remedy.
pub fn numbers() -> [(&'static str, u64); 9] {
    [
        ("lesson files and plans", lessons::FORMAT.into()),
        ("list of a class", classes::roster::FORMAT.into()),
        ("printed papers, answers", classes::printed::FORMAT.into()),
        ("logbook", schema::STEPS.len() as u64),
        ("sheets in it, CSV, JSON lines", entries::FORMAT.into()),
        ("half-written sheets", screens::DRAFT_FORMAT.into()),
        ("half-sat exams", screens::SITTING_FORMAT.into()),
        ("settings", settings::FORMAT.unsigned_abs()),
        ("output of --json", json::FORMAT.into()),
    ]
}

/// Program, lessons and formats, as lines.
pub fn versions() -> String {
    let mut text = format!("pumpwright {}\n", env!("CARGO_PKG_VERSION"));
    let (jobs, lessons) = lesson_files::count();
    let edition = lesson_files::edition();
    let _ = writeln!(
        text,
        "lessons    {edition}: {jobs} kinds of job in {lessons} lessons"
    );
    let papers = if cfg!(feature = "pdf") {
        "with"
    } else {
        "without"
    };
    let _ = writeln!(text, "papers     {papers} PDF");
    text.push_str("formats\n");
    for (name, number) in numbers() {
        let _ = writeln!(text, "  {name:<30} {number}");
    }
    text
}
