//! Commands run inside this process, over lessons that are read once: for tests
//! that go through every family. No test stands here.

use std::io;

use clap::Parser as _;
use pumpwright::cli::{Cli, Command};
use pumpwright::commands::logbook::Desk;
use pumpwright::commands::{answer, problem};
use pumpwright::console::Console;
use pumpwright::failure::Failure;
use pumpwright::lesson_files;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::System;

/// The lessons that the program carries.
pub fn library() -> Library {
    let (library, faults) = Library::read(&lesson_files::carried().files);
    assert_eq!(faults, []);
    library
}

/// Every family, level and system, as the command line names them.
pub fn everything(library: &Library) -> Vec<[String; 3]> {
    let mut all = Vec::new();
    for family in library.families() {
        for level in &family.levels {
            let of = |system: System| [family.id.clone(), level.to_string(), system.to_string()];
            all.extend(System::BOTH.map(of));
        }
    }
    assert!(all.len() >= 16, "{all:?}");
    all
}

/// What a `problem` or `answer` on this command line prints.
pub fn printed(library: &Library, arguments: &[&str]) -> Result<String, Failure> {
    let line = [&["pumpwright"], arguments].concat();
    let cli = Cli::try_parse_from(&line).map_err(|error| Failure::Input(error.to_string()))?;
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut console = Console {
        out: &mut out,
        err: &mut err,
        input: &mut io::empty(),
        unicode: !cli.global.ascii,
    };
    match &cli.command {
        Some(Command::Problem(asked)) => problem::run(asked, library, &mut console)?,
        Some(Command::Answer(asked)) => {
            let desk = Desk {
                file: None,
                person: String::new(),
                named: false,
                system: System::Us,
            };
            answer::run(
                asked,
                cli.global.decimal.unwrap_or_default().sign(),
                (library, &desk),
                &mut console,
            )?;
        }
        _ => panic!("{line:?} is not run inside"),
    }
    assert!(
        err.is_empty(),
        "{line:?} says {}",
        String::from_utf8_lossy(&err)
    );
    Ok(String::from_utf8(out).expect("UTF-8"))
}
