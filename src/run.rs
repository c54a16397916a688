//! Opens the terminal and the outputs and hands them to the commands.

use std::io::{self, BufWriter, Write as _};

use std::path::PathBuf;

use clap::Parser as _;
use pumpwright_engine::lessons::{Fault, Library};
use pumpwright_screens as screens;

use crate::cli::{Cli, Command, Practice};
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
use crate::hangup;
use crate::lesson_files;
use crate::platform::{self, Look};

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
        Some(Command::Practice(asked)) => practice(cli, asked, console),
        None => practice(cli, &Practice::default(), console),
        Some(Command::Lessons(asked)) => {
            commands::lessons::run(asked, &library(cli, console)?, console)
        }
        Some(Command::Problem(asked)) => {
            commands::problem::run(asked, &library(cli, console)?, console)
        }
        Some(Command::Answer(asked)) => {
            commands::answer::run(asked, decimal, &library(cli, console)?, console)
        }
    }
}

fn library(cli: &Cli, console: &mut Console) -> Result<Library, Failure> {
    let read = Read::lessons(cli)?;
    read.say(console);
    Ok(read.library)
}

/// What was read, and what is wrong with what was not.
struct Read {
    library: Library,
    faults: Vec<Fault>,
    unread: Vec<String>,
}

impl Read {
    fn lessons(cli: &Cli) -> Result<Self, Failure> {
        let files = lesson_files::in_use(cli.global.lessons.as_deref())?;
        let (library, faults) = Library::read(&files.files);
        Ok(Self {
            library,
            faults,
            unread: files.unread,
        })
    }

    /// Says beside the output what is left out; everything else works.
    fn say(&self, console: &mut Console) {
        for sentence in &self.unread {
            console.note(format_args!("note: {sentence}; it is left out"));
        }
        for fault in &self.faults {
            console.note(fault);
            console.note(format_args!(
                "note: {} is left out; everything else works",
                fault.file
            ));
        }
    }
}

/// On the screen where a person sits at it, else in plain lines.
fn practice(cli: &Cli, asked: &Practice, console: &mut Console) -> Result<(), Failure> {
    let read = Read::lessons(cli)?;
    let decimal = cli.global.decimal.sign();
    if asked.needs_plain_lines() || !platform::at_a_terminal() {
        read.say(console);
        return commands::practice::plainly(asked, decimal, &read.library, console);
    }
    let look = screens::Look {
        ascii: !console.unicode,
        colour: Look::of_this_machine().color,
    };
    let start = match cli.command {
        None => screens::Start::First,
        Some(_) => screens::Start::Jobs,
    };
    let options = commands::practice::for_the_screen(asked, decimal, &read.library, look, start)?;
    let unheard = |error| Failure::World(format!("signals cannot be watched: {error}"));
    let stop = platform::stop_flag().map_err(unheard)?;
    hangup::watch(&stop);
    let ending = screens::train(&read.library, &read.faults, options, &stop)
        .map_err(|error| Failure::World(format!("the terminal fails: {error}")))?;
    console.line(ending.line)
}
