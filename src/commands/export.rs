//! Problems in an open standard: drawn, or those of a class's paper, written as a package,
//! and as one archive.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::Path;
use std::sync::Arc;

use pumpwright_engine::classes::Paper;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::Problem;
use pumpwright_press::qti;

use super::{drawing, paper_of};
use crate::archive::archive;
use crate::cli::{Drawn, ExportProblems};
use crate::console::Console;
use crate::failure::Failure;

/// Where the package and its archive lie in the folder.
const PACKAGE: &str = "package";
const ARCHIVE: &str = "package.zip";

/// Writes the package.
///
/// # Errors
/// When a problem cannot be drawn, or the folder is not empty or cannot be written.
pub fn run(
    asked: &ExportProblems,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let (title, problems) = match paper_of::asked(asked)? {
        Some(paper) => (paper.head.title.clone(), of_paper(paper)),
        None => {
            let problems = problems(asked, library)?;
            let first = problems.first();
            let title = first.map_or_else(String::new, |own| own.family.title.clone());
            (title, problems)
        }
    };
    let package = qti::package(&title, &problems);
    let files = package.files.iter();
    let archive = archive(files.map(|file| (file.path.as_str(), file.text.as_bytes())))
        .map_err(|error| Failure::World(format!("the archive cannot be made: {error}")))?;
    let folder = &asked.qti;
    empty(folder)?;
    for file in &package.files {
        write(&folder.join(PACKAGE).join(&file.path), file.text.as_bytes())?;
    }
    // Last, so that an archive that is there is whole.
    write(&folder.join(ARCHIVE), &archive)?;
    let noun = if problems.len() == 1 { "item" } else { "items" };
    console.line(format_args!(
        "{} is written: {} {noun}, and {} with all of it",
        folder.join(PACKAGE).display(),
        problems.len(),
        folder.join(ARCHIVE).display()
    ))?;
    for problem in &problems {
        console.line(format_args!("  {}", problem.shown_code()))?;
    }
    Ok(())
}

/// The problems of a paper, in its order.
fn of_paper(paper: Paper) -> Vec<Problem> {
    let items = paper.items.into_iter();
    items
        .map(|item| Arc::unwrap_or_clone(item.problem))
        .collect()
}

/// The problems asked for: each of its own numbers.
fn problems(asked: &ExportProblems, library: &Library) -> Result<Vec<Problem>, Failure> {
    let count = asked.count.unwrap_or(1);
    if asked.what.contains('.') && count > 1 {
        return Err(Failure::Input(
            "a code names one problem; leave --count out, or name a family".to_owned(),
        ));
    }
    let problem = |further: u32| {
        let drawn = Drawn {
            draw: drawing::further(asked.drawn.draw, further),
            ..asked.drawn.clone()
        };
        drawing::of_either(&asked.what, &drawn, library)
    };
    (0..count).map(problem).collect()
}

/// Refuses a folder in which something lies: nothing of it shall be mixed or lost.
pub(super) fn empty(folder: &Path) -> Result<(), Failure> {
    match fs::read_dir(folder) {
        Ok(mut entries) => match entries.next() {
            None => Ok(()),
            Some(_) => Err(Failure::Input(format!(
                "{} is not empty; name another folder, or one that is not there yet",
                folder.display()
            ))),
        },
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(cannot(folder, &error)),
    }
}

/// Writes a file that is not there yet, and its folders, onto the disk.
pub(super) fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let done = path
        .parent()
        .map_or(Ok(()), fs::create_dir_all)
        .and_then(|()| File::create_new(path))
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()));
    done.map_err(|error| cannot(path, &error))
}

fn cannot(path: &Path, error: &io::Error) -> Failure {
    Failure::World(format!("{} cannot be written: {error}", path.display()))
}
