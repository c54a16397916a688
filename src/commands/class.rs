//! The work order of a class: on the screen, or in plain lines.

use pumpwright_engine::marking::Manner;
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{
    self as screens, Look, Office as _, Order, Person, Start, Told, TrainOptions,
};

use super::practice;
use crate::classroom::FileOffice;
use crate::cli::Class;
use crate::console::Console;
use crate::failure::Failure;

/// Prints how a class stands.
///
/// # Errors
/// When no folder is named, or it is none of a class.
pub fn plainly(
    asked: &Class,
    last: Option<&str>,
    decimal: DecimalSign,
    mut office: FileOffice<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let named = asked.folder.as_ref().map(|path| path.display().to_string());
    let folder = named.or_else(|| last.map(str::to_owned)).ok_or_else(|| {
        Failure::Input("name the folder of a class: pumpwright class FOLDER".to_owned())
    })?;
    office.order(Order::Open(folder), Manner { decimal });
    match office.wait() {
        Some(Told::Now(now)) => {
            for line in screens::class_plain(now, !console.unicode) {
                console.line(line)?;
            }
            Ok(())
        }
        Some(Told::NoClass { why, .. }) => Err(Failure::Input(format!(
            "{why} on the screen, by the same command without --plain, or make papers: \
             pumpwright assign PLAN --roster LIST --out FOLDER"
        ))),
        Some(Told::Refused(why)) => Err(Failure::Input(why)),
        _ => Err(Failure::World("the folder cannot be read".to_owned())),
    }
}

/// What the trainer's screens are told to begin at the work order.
pub fn for_the_screen<'a>(
    asked: &Class,
    decimal: DecimalSign,
    look: Look,
    person: Person<'a>,
) -> TrainOptions<'a> {
    let folder = asked.folder.as_ref();
    TrainOptions {
        system: person.set.units.unwrap_or(System::Us),
        settings: pumpwright_engine::problems::Settings::default(),
        manner: Manner { decimal },
        look,
        draws: Box::new(practice::draws(None)),
        start: Start::Class(folder.map(|path| path.display().to_string())),
        person,
    }
}
