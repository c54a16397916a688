//! Reading every lesson file and drawing every family: each fault with its place
//! and what to do about it. What counts as a fault is the engine's to say.

use pumpwright_engine::lessons::{self, Library};

use super::json;
use crate::cli::Check;
use crate::console::Console;
use crate::failure::Failure;
use crate::lesson_files::Files;

/// Checks lesson files and prints what is found.
///
/// # Errors
/// [`Failure::Found`] when anything is.
pub fn run(asked: &Check, files: &Files, console: &mut Console) -> Result<(), Failure> {
    let (library, faults) = Library::read(&files.files);
    let families = library.families().count();
    let faulty = !faults.is_empty() || !files.unread.is_empty();
    if asked.json {
        let unread = files.unread.iter().map(|sentence| unread(sentence));
        console.json(&json::Check {
            format: json::FORMAT,
            files: files.files.len(),
            families,
            faults: unread.chain(faults.iter().map(fault)).collect(),
        })?;
    } else {
        for sentence in &files.unread {
            console.line(format_args!("error: {sentence}\n"))?;
        }
        for fault in &faults {
            console.line(format_args!("{fault}\n"))?;
        }
        let count = files.unread.len() + faults.len();
        console.line(format_args!(
            "{} files, {families} families, {count} {}",
            files.files.len(),
            if count == 1 { "fault" } else { "faults" }
        ))?;
    }
    if faulty { Err(Failure::Found) } else { Ok(()) }
}

fn fault(fault: &lessons::Fault) -> json::Fault {
    json::Fault {
        file: fault.file.clone(),
        line: Some(fault.line),
        column: Some(fault.column),
        message: fault.message.clone(),
        remedy: fault.remedy.clone(),
        text: fault.to_string(),
    }
}

fn unread(sentence: &str) -> json::Fault {
    json::Fault {
        file: sentence.split(' ').next().unwrap_or_default().to_owned(),
        line: None,
        column: None,
        message: sentence.to_owned(),
        remedy: None,
        text: format!("error: {sentence}"),
    }
}
