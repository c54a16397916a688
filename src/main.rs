//! The program: runs, prints one error, exits with its number.

use std::process::ExitCode;

/// Papers are set on several threads, which would wait for each other's memory.
#[cfg(target_env = "musl")]
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

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
