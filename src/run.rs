//! Opens the terminal and the outputs and hands them to the commands.

use std::io::{self, BufWriter, Write as _};

use clap::Parser as _;

use crate::cli::{Cli, Command};
use crate::commands;
use crate::console::Console;
use crate::failure::Failure;
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
        None => Ok(()),
        Some(Command::Calc(asked)) => commands::calc::run(asked, decimal, console),
        Some(Command::Completions(asked)) => commands::completions::completions(asked, console),
        Some(Command::Man(asked)) => commands::completions::man(asked, console),
        Some(_) => Ok(()),
    }
}
