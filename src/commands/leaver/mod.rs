//! Somebody who leaves a class: what its folder has of the person is told, written to be taken
//! along, and deleted, after an offer to write it and two questions.

mod anew;
mod carry;

use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};

use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::quantities::DecimalSign;

use super::assign::Lessons;
use crate::classroom::ClassFolder;
use crate::classroom::leaver::{Belongings, belongings, delete, still_named};
use crate::cli::Class;
use crate::console::Console;
use crate::failure::Failure;

/// Does what is asked for of one person.
///
/// # Errors
/// When it is not clear who is meant, nobody is there to be asked, or a file fails: nothing is
/// deleted before what was asked to be written is on the disk.
pub fn run(
    asked: &Class,
    decimal: DecimalSign,
    lessons: &mut Lessons<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let class = class_of(asked.folder.as_deref().unwrap_or_else(|| Path::new(".")));
    if !class.join("roster.json").is_file() {
        return Err(Failure::Input(format!(
            "{} is no folder of a class; name one that assign made",
            class.display()
        )));
    }
    let roster = ClassFolder::kept_list(&class)?.unwrap_or_default();
    let whom = asked.leaver.as_deref().unwrap_or_default();
    let person = roster.whom(whom).map_err(Failure::Input)?.clone();
    let asks = asked.delete && !asked.without_asking;
    if asks && !io::stdin().is_terminal() {
        return Err(Failure::Input(
            "nobody sits here to be asked; add --without-asking to delete all the same".to_owned(),
        ));
    }
    let leaver = Leaver {
        all: belongings(&class, &person)?,
        class,
        person,
        decimal,
    };
    if let Some(to) = &asked.export {
        leaver.export(to, console)?;
    }
    if !asked.delete {
        if asked.export.is_none() {
            console.line(format_args!(
                "{} has of {}: {}",
                leaver.class.display(),
                leaver.called(),
                leaver.what()
            ))?;
            console
                .line("--export FILE.zip writes them to be taken along, --delete deletes them")?;
        }
        return Ok(());
    }
    if asks && !leaver.is_sure(asked.export.is_some(), console)? {
        return console.line("Nothing is deleted.");
    }
    leaver.delete(lessons, console)
}

/// The class's folder, where that of one plan's papers in it may be named.
fn class_of(folder: &Path) -> PathBuf {
    let is_papers = folder.join("printed").is_dir() && folder.join("plan.toml").is_file();
    match folder.parent().filter(|_| is_papers) {
        Some(class) if class.as_os_str().is_empty() => PathBuf::from("."),
        Some(class) => class.to_owned(),
        None => folder.to_owned(),
    }
}

/// Somebody who leaves, with everything that the folder has.
struct Leaver {
    class: PathBuf,
    person: Person,
    all: Vec<Belongings>,
    decimal: DecimalSign,
}

impl Leaver {
    fn called(&self) -> String {
        format!("{} {}", self.person.id, self.person.name)
    }

    /// What there is, counted.
    fn what(&self) -> String {
        let sum = |count: fn(&Belongings) -> usize| self.all.iter().map(count).sum::<usize>();
        let counted = [
            (sum(|own| own.papers), "paper", "papers"),
            (sum(|own| own.hand_ins), "hand-in", "hand-ins"),
            (
                sum(|own| own.judged),
                "mark set by hand",
                "marks set by hand",
            ),
        ];
        let told = counted.into_iter().filter(|(count, ..)| *count > 0);
        let mut told: Vec<String> = told
            .map(|(count, one, several)| {
                format!("{count} {}", if count == 1 { one } else { several })
            })
            .collect();
        told.push("the name".to_owned());
        told.join(", ")
    }

    fn export(&self, to: &Path, console: &mut Console) -> Result<(), Failure> {
        let files = carry::files((&self.person, &self.all), self.decimal, console)?;
        carry::write(to, &self.class, &files)?;
        console.line(format_args!(
            "{} is written: what {} has of {}",
            to.display(),
            self.class.display(),
            self.called()
        ))
    }

    /// Offers to write it, then asks twice.
    fn is_sure(&self, written: bool, console: &mut Console) -> Result<bool, Failure> {
        console.line(format_args!(
            "This deletes {} from {} for good: {}.",
            self.called(),
            self.class.display(),
            self.what()
        ))?;
        let mut written = written;
        while !written {
            let to = console.question(
                "Export it first? A file name that ends with .zip, a new folder, or nothing:",
            )?;
            if to.is_empty() {
                break;
            }
            match self.export(Path::new(&to), console) {
                Ok(()) => written = true,
                Err(failure) => console.line(failure)?,
            }
        }
        let answer = console.question("Delete it? yes or no:")?;
        if !answer.eq_ignore_ascii_case("yes") {
            return Ok(false);
        }
        let typed = console.question("To delete it, type the name:")?;
        Ok(typed == self.person.name)
    }

    fn delete(&self, lessons: &mut Lessons<'_>, console: &mut Console) -> Result<(), Failure> {
        // How the tables were written is read before they go.
        let forms: Vec<_> = (self.all.iter())
            .map(|own| carry::form(own, self.decimal))
            .collect();
        delete(&self.class, &self.person, &self.all)?;
        console.line(format_args!(
            "{} is deleted from {}: {}",
            self.called(),
            self.class.display(),
            self.what()
        ))?;
        for (own, form) in self.all.iter().zip(forms) {
            anew::make(own, (form, self.decimal), lessons, console)?;
        }
        console.line(format_args!(
            "The id {} stays taken. What was exported, copied or handed out before is still there.",
            self.person.id
        ))?;
        self.say_left(console)
    }

    /// Says where the name stands all the same: what somebody else wrote is not ours to change.
    fn say_left(&self, console: &mut Console) -> Result<(), Failure> {
        let roster = ClassFolder::kept_list(&self.class)?.unwrap_or_default();
        let mut names: Vec<String> = self.all.iter().flat_map(|own| own.names.clone()).collect();
        names.push(self.person.name.clone());
        // Another of the same name keeps it.
        names.retain(|name| roster.present().all(|own| own.name != *name));
        let left = still_named(&self.class, &names);
        for path in &left {
            console.note(format_args!(
                "note: the name still stands in {}; change it there, or take it away",
                path.display()
            ));
        }
        if left.is_empty() {
            Ok(())
        } else {
            Err(Failure::Found)
        }
    }
}
