//! The report of a class out of its folders, as lines, as a page, as a table; and next
//! week's plan out of it.

use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

use pumpwright_engine::classes::make_up;
use pumpwright_engine::classes::marks::{ClassMarks, Ready};
use pumpwright_engine::classes::report::{
    BEGINS, Findings, Gathered, Plain, Report, next_plan, plain, read_table, table,
};
use pumpwright_engine::classes::sheet::SheetForm;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_press as press;

use super::mark::{Unwritten, marked};
use super::plan::{self, aligned};
use crate::classroom::{PaperFolder, find_papers, text_of};
use crate::cli::ClassReport;
use crate::console::Console;
use crate::failure::Failure;
use crate::own_file;

/// Prints the report of some folders, and writes it where asked.
///
/// # Errors
/// [`Failure::Found`] where something in them cannot be read: the rest is reported. When a
/// folder cannot be read, or a file cannot be written.
pub fn run(
    asked: &ClassReport,
    decimal: DecimalSign,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    for (file, ending) in [(&asked.html, "html"), (&asked.csv, "csv")] {
        file.as_ref()
            .map_or(Ok(()), |file| own_file::ends(file, ending))?;
    }
    let Read { report, faulty } = of_folders(&asked.folders, decimal, library, console)?;
    for part in plain(&report) {
        match part {
            Plain::Gap => console.gap()?,
            Plain::Line(text) => console.line(text)?,
            Plain::Prose(head, text) => console.hanging(&head, &text)?,
            Plain::Table(rows) => {
                for row in aligned(&rows) {
                    console.line(row)?;
                }
            }
        }
    }
    if let Some(path) = &asked.html {
        page(path, &report)?;
        console.line(format_args!("{} is written", path.display()))?;
    }
    if let Some(path) = &asked.csv {
        let form = SheetForm {
            separator: if asked.semicolons { ';' } else { ',' },
            decimal,
        };
        sheet(path, &report, form)?;
        console.line(format_args!("{} is written", path.display()))?;
    }
    if faulty { Err(Failure::Found) } else { Ok(()) }
}

/// Writes the report of marks into the folder that they are of.
///
/// # Errors
/// When the output is closed.
pub fn beside(
    folder: &PaperFolder,
    (class, ready): (&ClassMarks, &BTreeMap<String, Ready>),
    form: SheetForm,
    library: &Library,
    (unwritten, console): (&mut Unwritten, &mut Console),
) -> Result<(), Failure> {
    let mut gathered = Gathered::default();
    gathered.take(&Classes::default().name(folder.path()), class, ready);
    let report = gathered.report(library);
    let path = folder.path().join("report.html");
    unwritten.told(page(&path, &report), &path, console)?;
    let path = folder.path().join("report.csv");
    unwritten.told(sheet(&path, &report, form), &path, console)
}

/// Next week's plan, out of a table or a folder.
///
/// # Errors
/// When there is nothing to make it of, or it cannot be written.
pub fn next(
    file: Option<&Path>,
    from: Option<&Path>,
    decimal: DecimalSign,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let Some(from) = from else {
        return plan::new(file, console);
    };
    let told = |what: String| Failure::Input(format!("{} {what}", from.display()));
    let mut left_out = false;
    let findings = if from.is_dir() {
        let Read { report, faulty } = of_folders(&[from], decimal, library, console)?;
        left_out = faulty;
        if report.came_in().0 == 0 {
            return Err(told("has no hand-in; mark the papers first".to_owned()));
        }
        Findings::of(&report)
    } else {
        let is_page = from
            .extension()
            .is_some_and(|own| own.eq_ignore_ascii_case("html"));
        if is_page {
            return Err(told(
                "is a page; name the report.csv beside it, or the folder".to_owned(),
            ));
        }
        read_table(&text_of(from)?).map_err(told)?
    };
    let text = next_plan(&findings, library).map_err(told)?;
    plan::written(file, &text, console)?;
    if left_out {
        Err(Failure::Found)
    } else {
        Ok(())
    }
}

/// A report out of folders.
pub struct Read {
    /// The report of what can be read.
    pub report: Report,
    /// Whether something there cannot be read; each has its line.
    pub faulty: bool,
}

/// The report of folders, one taken in after the other. What cannot be read there is said
/// beside it.
///
/// # Errors
/// When a folder has no papers.
pub fn of_folders<P: AsRef<Path>>(
    folders: &[P],
    decimal: DecimalSign,
    library: &Library,
    console: &mut Console,
) -> Result<Read, Failure> {
    let mut gathered = Gathered::default();
    let mut faulty = false;
    let mut known = Vec::new();
    let mut classes = Classes::default();
    for path in folders {
        for folder in find_papers(path.as_ref())? {
            // A folder that is named twice counts once.
            let place = folder.path().canonicalize();
            let place = place.unwrap_or_else(|_| folder.path().to_owned());
            if !known.contains(&place) {
                known.push(place);
                let class = classes.name(folder.path());
                faulty |= take((&mut gathered, &class), &folder, decimal, console)?;
            }
        }
    }
    Ok(Read {
        report: gathered.report(library),
        faulty,
    })
}

/// Takes in a folder; whether something of it cannot be read.
fn take(
    (gathered, name): (&mut Gathered, &str),
    folder: &PaperFolder,
    decimal: DecimalSign,
    console: &mut Console,
) -> Result<bool, Failure> {
    let roster = folder.roster()?;
    let (ready, mut notes) = folder.ready()?;
    let (hand_ins, unread) = folder.hand_ins()?;
    notes.extend(unread);
    let faulty = !notes.is_empty();
    for note in notes {
        console.note(format_args!("note: {note}"));
    }
    let people = make_up::papers_of(&roster.people, ready.keys());
    let came = (hand_ins.as_slice(), &folder.decisions()?);
    let class = marked(&people, &ready, came, Manner { decimal });
    gathered.take(name, &class, &ready);
    Ok(faulty)
}

/// What classes are called: by their folders, with as many folders above as tell one from
/// another.
#[derive(Default)]
struct Classes {
    named: Vec<(PathBuf, String)>,
}

impl Classes {
    /// The name of the class that a folder of papers lies in.
    fn name(&mut self, papers: &Path) -> String {
        let whole = papers.canonicalize().unwrap_or_else(|_| papers.to_owned());
        let class = whole.parent().map(Path::to_owned).unwrap_or_default();
        if let Some((_, name)) = self.named.iter().find(|(path, _)| *path == class) {
            return name.clone();
        }
        let parts: Vec<String> = (class.components())
            .filter(|own| matches!(own, Component::Normal(_)))
            .map(|own| own.as_os_str().to_string_lossy().into_owned())
            .collect();
        let names = (0..parts.len()).rev().filter_map(|from| parts.get(from..));
        let mut names = names.map(|own| own.join("/"));
        let free = |name: &String| self.named.iter().all(|(_, known)| known != name);
        let name = names.find(free).unwrap_or_else(|| "class".to_owned());
        self.named.push((class, name.clone()));
        name
    }
}

fn page(path: &Path, report: &Report) -> Result<(), Failure> {
    let kind = press::Kind::ClassReport;
    let text = press::class_report(report);
    own_file::write(path, &text, kind.begins(), kind.name())
}

fn sheet(path: &Path, report: &Report, form: SheetForm) -> Result<(), Failure> {
    let text = table(report, form);
    own_file::write(path, &text, BEGINS, "table of a class report")
}
