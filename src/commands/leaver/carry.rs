//! What somebody takes along: papers, answers and marks as the folder has them, without any
//! solution, so that it may be handed on.

use std::path::Path;

use pumpwright_engine::classes::marks::{ClassMarks, Ready, State, mark_class};
use pumpwright_engine::classes::roster::{Person, Roster};
use pumpwright_engine::classes::sheet::{SheetForm, mark_sheet};
use pumpwright_engine::classes::{json, make_up};
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::DecimalSign;
use std::collections::BTreeMap;

use crate::archive::archive;
use crate::classroom::leaver::Belongings;
use crate::commands::export::{empty, write as write_new};
use crate::console::Console;
use crate::failure::Failure;

/// What says of the files what they are.
const READ_ME: &str = "\
What an instructor's folder has of one person.

person.csv           the id and the name
PLAN/papers          the papers as they were printed
PLAN/screen          the same as files for answering on screen
PLAN/handed-in       what came in, item by item; PLAN/pen what is half marked
PLAN/judged.json     marks that were set by hand, each with its reason
PLAN/marks.csv       the marks, a row for each paper
PLAN/slips.pdf       the same in words

Solutions are not among it.
";

/// A path in the archive, and what is in it.
type Carried = (String, Vec<u8>);

/// The files, in their order.
///
/// # Errors
/// When one cannot be read.
pub fn files(
    (person, all): (&Person, &[Belongings]),
    decimal: DecimalSign,
    console: &mut Console,
) -> Result<Vec<Carried>, Failure> {
    let list = format!(
        "\u{feff}{}",
        Roster::as_csv(std::slice::from_ref(person), ',')
    );
    let mut files = vec![
        ("read-me.txt".to_owned(), READ_ME.into()),
        ("person.csv".to_owned(), list.into_bytes()),
    ];
    for own in all {
        of_plan((person, own), decimal, &mut files, console)?;
    }
    Ok(files)
}

fn of_plan(
    (person, own): (&Person, &Belongings),
    decimal: DecimalSign,
    files: &mut Vec<Carried>,
    console: &mut Console,
) -> Result<(), Failure> {
    let folder = own.folder.path();
    let plan = folder.file_name().unwrap_or_default().to_string_lossy();
    for path in &own.own {
        let Ok(inside) = path.strip_prefix(folder) else {
            continue;
        };
        let parts: Vec<String> = (inside.iter())
            .map(|part| part.to_string_lossy().into_owned())
            .collect();
        // A record has every solution; a file beside the rooms is a key or a strip.
        if let [room, name] = parts.as_slice()
            && room != "printed"
        {
            let bytes = std::fs::read(path).map_err(|error| {
                Failure::World(format!("{} cannot be read: {error}", path.display()))
            })?;
            files.push((format!("{plan}/{room}/{name}"), bytes));
        }
    }
    if own.judged > 0 {
        let judged = json(&own.judged(&person.id)?);
        files.push((format!("{plan}/judged.json"), judged.into_bytes()));
    }
    let (ready, _) = own.folder.ready()?;
    let people = make_up::papers_of(std::slice::from_ref(person), ready.keys());
    let (hand_ins, _) = own.folder.hand_ins()?;
    let came = (hand_ins.as_slice(), &own.folder.decisions()?);
    let marks = mark_class(&people, &ready, came, Manner { decimal });
    let items = ready.values().map(|own| own.printed.items.len()).max();
    let form = form(own, decimal);
    let sheet = mark_sheet(&marks, items.unwrap_or(0), form);
    files.push((format!("{plan}/marks.csv"), sheet.into_bytes()));
    if marks.people.iter().any(|own| own.state != State::NotIn) {
        let slips = slips(own, (&marks, &ready), form.decimal, console)?;
        files.extend(slips.map(|bytes| (format!("{plan}/slips.pdf"), bytes)));
    }
    Ok(())
}

#[cfg(feature = "pdf")]
fn slips(
    own: &Belongings,
    (marks, ready): (&ClassMarks, &BTreeMap<String, Ready>),
    decimal: DecimalSign,
    _: &mut Console,
) -> Result<Option<Vec<u8>>, Failure> {
    use crate::classroom::{prints, slips};
    let format = prints::format_of(&own.folder, ready)?;
    let (slips, _) = slips::slips(marks, ready, (format, decimal));
    let bytes = pumpwright_press::pdf::slips(&slips);
    let bytes = bytes.map_err(|fault| Failure::Input(fault.to_string()))?;
    Ok(Some(bytes))
}

/// A build without the typesetter writes none, and says so.
#[cfg(not(feature = "pdf"))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "with the typesetter there are faults"
)]
fn slips(
    _: &Belongings,
    _: (&ClassMarks, &BTreeMap<String, Ready>),
    _: DecimalSign,
    console: &mut Console,
) -> Result<Option<Vec<u8>>, Failure> {
    console.note("note: this build has no typesetter, so there is no slips.pdf");
    Ok(None)
}

/// How the mark sheet of a folder is written: as the last time, else as usual.
pub fn form(own: &Belongings, decimal: DecimalSign) -> SheetForm {
    let sheet = std::fs::read_to_string(own.folder.path().join("marks.csv")).unwrap_or_default();
    let semicolons = sheet.starts_with("\u{feff}id;");
    let half = |cell: &str, end: &str| {
        let whole = cell.strip_suffix(end);
        whole.is_some_and(|whole| {
            !whole.is_empty() && whole.bytes().all(|byte| byte.is_ascii_digit())
        })
    };
    let signs: &[char] = if semicolons {
        &[';', '"', '\r', '\n']
    } else {
        &['"', '\r', '\n']
    };
    let comma = sheet.split(signs).any(|cell| half(cell, ",5"));
    SheetForm {
        separator: if semicolons { ';' } else { ',' },
        decimal: if comma { DecimalSign::Comma } else { decimal },
    }
}

/// Writes the files, as an archive or into a new folder. They are on the disk before this
/// returns.
///
/// # Errors
/// When something is there already, or the place lies in the class's folder, or it cannot be
/// written.
pub fn write(to: &Path, class: &Path, files: &[Carried]) -> Result<(), Failure> {
    let shown = to.display();
    if inside(to, class) {
        return Err(Failure::Input(format!(
            "{shown} lies in the folder of the class, from which it is to be taken; name another place"
        )));
    }
    let zip = to
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("zip"));
    if !zip {
        empty(to)?;
        for (path, bytes) in files {
            write_new(&to.join(path), bytes)?;
        }
        return Ok(());
    }
    if to.exists() {
        return Err(Failure::Input(format!(
            "{shown} is there; name another file, or take it away first"
        )));
    }
    let parts = files.iter();
    let bytes = archive(parts.map(|(path, bytes)| (path.as_str(), bytes.as_slice())))
        .map_err(|error| Failure::World(format!("the archive cannot be made: {error}")))?;
    crate::own_file::replace(to, &bytes)
        .map_err(|error| Failure::World(format!("{shown} cannot be written: {error}")))
}

/// Whether a place lies in a folder, also one that is not there yet.
fn inside(place: &Path, folder: &Path) -> bool {
    let whole = |path: &Path| std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let there = whole(place);
    let there = there.ancestors().find_map(|path| path.canonicalize().ok());
    let folder = folder.canonicalize();
    let both = there.zip(folder.ok());
    both.is_some_and(|(there, folder)| there.starts_with(folder))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_in_a_folder_is_told_though_it_is_not_there() {
        let folder = std::env::temp_dir();
        assert!(inside(&folder.join("none/file.zip"), &folder));
        assert!(!inside(&folder, &folder.join("none")));
        assert!(!inside(Path::new("/none/file.zip"), &folder));
    }
}
