//! The program as a library, so that tests and benches reach it.

pub mod archive;
pub mod classroom;
pub mod cli;
pub mod commands;
pub mod console;
pub mod failure;
pub mod formats;
pub mod hangup;
pub mod lesson_files;
pub mod logbook;
pub mod news;
pub mod own_file;
pub mod parts;
pub mod platform;
pub mod run;
pub mod settings;
pub mod telling;
#[cfg(test)]
mod testing;
