//! The whole program: commands, exit codes, what they print, what they refuse.

#![cfg(test)]

mod answers;
mod calc;
mod check;
mod class;
mod exam;
mod figure;
#[cfg(unix)]
mod hangup;
mod inside;
mod lessons;
mod logbook;
mod pages;
mod papers;
mod practice;
mod press;
mod problem;
#[cfg(unix)]
mod pty;
mod readme;
mod schema;
mod settings;
mod started;
#[cfg(unix)]
mod terminal;
mod words;
