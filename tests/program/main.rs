//! The whole program: commands, exit codes, what they print, what they refuse.

mod calc;
mod check;
mod lessons;
mod pages;
mod problem;
mod schema;
mod started;
