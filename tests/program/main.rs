//! The whole program: commands, exit codes, what they print, what they refuse.

#![cfg(test)]

mod answers;
mod calc;
mod check;
#[cfg(unix)]
mod hangup;
mod inside;
mod lessons;
mod pages;
mod practice;
mod problem;
mod schema;
mod started;
#[cfg(unix)]
mod terminal;
