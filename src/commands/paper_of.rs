//! The paper of a class that is meant: by a file of it in the folder of its class, or by the
//! folder and a number or a name. It is made again of its record, and only beside the key.

use std::path::{Path, PathBuf};

use pumpwright_engine::classes::Paper;
use pumpwright_engine::classes::printed::PrintedPaper;
use pumpwright_engine::classes::sit::SitPaper;

use crate::classroom::{PaperFolder, find_paper, text_of};
use crate::cli::ExportProblems;
use crate::failure::{Failure, shown};

/// The rooms of a folder of papers in which a file of a paper is named by its number.
const ROOMS: [&str; 3] = ["printed", "screen", "papers"];

/// The paper that is asked for; none where a family or a code is.
///
/// # Errors
/// When there is no such paper, its class has no key, or it cannot be made again.
pub fn asked(asked: &ExportProblems) -> Result<Option<Paper>, Failure> {
    let path = Path::new(&asked.what);
    let ending = path.extension().and_then(|ending| ending.to_str());
    let file = ending.is_some_and(|own| {
        ["json", "pdf"]
            .iter()
            .any(|known| own.eq_ignore_ascii_case(known))
    });
    let (folder, record) = match &asked.paper {
        Some(said) => {
            let folder = find_paper(path)?;
            let record = named(&folder, said)?;
            (folder, record)
        }
        None if file => of_file(path)?,
        None => return Ok(None),
    };
    let drawn = &asked.drawn;
    if asked.count.is_some()
        || drawn.level.is_some()
        || drawn.units.is_some()
        || drawn.draw.is_some()
        || !drawn.rules.is_empty()
    {
        return Err(Failure::Input(
            "a paper has problems of its own; leave --count, --level, --units, --draw and --rule out"
                .to_owned(),
        ));
    }
    folder.check_key()?;
    let paper = folder.again(&record).map_err(|why| {
        Failure::Input(format!(
            "paper {} cannot be made again: {why}",
            record.person.id
        ))
    })?;
    Ok(Some(paper))
}

/// The record of a paper by its number, or of the only one of somebody.
fn named(folder: &PaperFolder, said: &str) -> Result<PrintedPaper, Failure> {
    let numbers = folder.numbers()?;
    if let Some(number) = numbers
        .iter()
        .find(|own| own.eq_ignore_ascii_case(said.trim()))
    {
        return there(folder, number);
    }
    let roster = folder.roster()?;
    let person = roster.whom(said).map_err(Failure::Input)?;
    let own = folder.papers_of(&person.id)?;
    let numbers: Vec<&str> = own.iter().map(|own| own.person.id.as_str()).collect();
    match numbers.as_slice() {
        [] => Err(Failure::Input(format!(
            "{} {} has no paper in {}",
            person.id,
            person.name,
            folder.path().display()
        ))),
        [one] => there(folder, one),
        several => Err(Failure::Input(format!(
            "{} has several papers; name one by its number: {}",
            person.name,
            several.join(", ")
        ))),
    }
}

fn there(folder: &PaperFolder, number: &str) -> Result<PrintedPaper, Failure> {
    folder.printed(number)?.ok_or_else(|| {
        Failure::Input(format!(
            "paper {} is not in {}",
            shown(number),
            folder.path().display()
        ))
    })
}

/// The record of a paper that is named by one of its files.
fn of_file(path: &Path) -> Result<(PaperFolder, PrintedPaper), Failure> {
    let room = path.parent().filter(|room| {
        let name = room.file_name().and_then(|name| name.to_str());
        name.is_some_and(|name| ROOMS.contains(&name))
    });
    let folder = room.and_then(Path::parent);
    let folder = folder.map(|own| {
        if own.as_os_str().is_empty() {
            PathBuf::from(".")
        } else {
            own.to_owned()
        }
    });
    let is_papers = |own: &PathBuf| own.join("printed").is_dir() && own.join("plan.toml").is_file();
    if let Some(folder) = folder.filter(is_papers) {
        let folder = PaperFolder::at(folder);
        let number = path.file_stem().unwrap_or_default().to_string_lossy();
        let record = there(&folder, &number)?;
        return Ok((folder, record));
    }
    let shown = path.display();
    // A PDF is no text, and tells nothing of itself.
    let pdf = path
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
    if !pdf && SitPaper::read(&text_of(path)?).is_ok() {
        return Err(Failure::Input(format!(
            "{shown} is sealed: it has no answers, and only the folder of its class, with the class key, has them; name the paper there"
        )));
    }
    Err(Failure::Input(format!(
        "{shown} is no paper in the folder of a class; name one in its printed/, or the folder with --paper NUMBER"
    )))
}
