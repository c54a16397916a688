//! Opens the terminal and the outputs and hands them to the commands.

use std::io::{self, BufWriter, Write as _};

use std::path::PathBuf;

use clap::Parser as _;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::DecimalSign;

use crate::cli::{Cli, Command, Practice};
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
use crate::lesson_files;
use crate::platform::Look;

/// Runs what the command line asks for.
///
/// # Errors
/// A [`Failure`] says what to print and with which number to exit.
pub fn from_the_command_line() -> Result<(), Failure> {
    let cli = Cli::parse();
    let look = Look::of_this_machine();
    let (mut out, mut err) = (BufWriter::new(io::stdout().lock()), io::stderr().lock());
    let mut input = io::stdin().lock();
    let mut console = Console {
        out: &mut out,
        err: &mut err,
        input: &mut input,
        unicode: look.unicode && !cli.global.ascii,
    };
    let done = run(&cli, &mut console);
    let flushed = out.flush().map_err(Failure::from);
    done.and(flushed)
}

/// Runs one command.
///
/// # Errors
/// A [`Failure`] says what to print and with which number to exit.
pub fn run(cli: &Cli, console: &mut Console) -> Result<(), Failure> {
    let decimal = cli.global.decimal.sign();
    match &cli.command {
        Some(Command::Calc(asked)) => commands::calc::run(asked, decimal, console),
        Some(Command::Completions(asked)) => commands::completions::completions(asked, console),
        Some(Command::Man(asked)) => commands::completions::man(asked, console),
        Some(Command::Check(asked)) => {
            let folder = asked.folder.as_ref().or(cli.global.lessons.as_ref());
            commands::check::run(
                asked,
                &lesson_files::in_use(folder.map(PathBuf::as_path))?,
                console,
            )
        }
        other => {
            let library = library(cli, console)?;
            match other {
                Some(Command::Lessons(asked)) => commands::lessons::run(asked, &library, console),
                Some(Command::Problem(asked)) => commands::problem::run(asked, &library, console),
                Some(Command::Answer(asked)) => {
                    commands::answer::run(asked, decimal, &library, console)
                }
                Some(Command::Practice(asked)) => practice(asked, decimal, &library, console),
                _ => practice(&Practice::default(), decimal, &library, console),
            }
        }
    }
}

/// The lessons; what is wrong with a file is said beside the output, and the
/// rest works.
fn library(cli: &Cli, console: &mut Console) -> Result<Library, Failure> {
    let files = lesson_files::in_use(cli.global.lessons.as_deref())?;
    let (library, faults) = Library::read(&files.files);
    for sentence in &files.unread {
        console.note(format_args!("note: {sentence}; it is left out"));
    }
    for fault in &faults {
        console.note(fault);
        console.note(format_args!(
            "note: {} is left out; everything else works",
            fault.file
        ));
    }
    Ok(library)
}

fn practice(
    asked: &Practice,
    decimal: DecimalSign,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    commands::practice::plainly(asked, decimal, library, console)
}
