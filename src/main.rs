//! The program: runs, prints one error, exits with its number.

use std::process::ExitCode;

fn main() -> ExitCode {
    match pumpwright::run::from_the_command_line() {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            if let Some(sentence) = failure.sentence() {
                eprintln!("error: {sentence}");
            }
            ExitCode::from(failure.exit_code())
        }
    }
}
