//! The whole program: commands, exit codes, what they print, what they refuse.

mod calc;
mod pages;
mod schema;
mod started;
