//! The completion script of a shell, and the manual pages: both are made from
//! the description of the command line, so they cannot say anything else.

use clap::CommandFactory as _;

use crate::cli::{Cli, Completions, Man};
use crate::console::Console;
use crate::failure::{self, Failure};

/// Prints the completion script of a shell.
///
/// # Errors
/// When the output is closed or full.
pub fn completions(asked: &Completions, console: &mut Console) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(asked.shell, &mut Cli::command(), "pumpwright", &mut script);
    Ok(console.out.write_all(&script)?)
}

/// Prints a manual page: of the program, or of one command.
///
/// # Errors
/// When there is no such command, or the output is closed or full.
pub fn man(asked: &Man, console: &mut Console) -> Result<(), Failure> {
    let mut program = Cli::command();
    program.build();
    let page = match &asked.command {
        None => program,
        Some(name) => page_of(&program, name)?,
    };
    let mut roff = Vec::new();
    clap_mangen::Man::new(page).render(&mut roff)?;
    Ok(console.out.write_all(&roff)?)
}

fn page_of(program: &clap::Command, name: &str) -> Result<clap::Command, Failure> {
    let found = program
        .get_subcommands()
        .find(|command| command.get_name() == name);
    found.cloned().ok_or_else(|| {
        let names = program.get_subcommands().map(clap::Command::get_name);
        failure::unknown("command", name, &failure::nearest(name, names))
    })
}
