//! The whole program: commands, exit codes, what they print, what they refuse.

#![cfg(test)]

mod answers;
mod board;
mod calc;
mod check;
mod class;
mod class_folder;
mod class_reports;
mod exam;
mod export;
mod figure;
mod fixtures;
#[cfg(unix)]
mod hand_ins;
mod hangup;
mod inside;
mod leaver;
mod lessons;
mod logbook;
mod make_up;
mod old_papers;
mod packages;
mod pages;
mod paper_words;
mod papers;
#[cfg(unix)]
mod persons;
#[cfg(unix)]
mod picture_class;
mod pictures;
mod practice;
mod press;
#[cfg(feature = "pdf")]
mod prints;
mod problem;
#[cfg(unix)]
mod pty;
mod readme;
mod schema;
mod settings;
mod started;
#[cfg(unix)]
mod svg;
#[cfg(unix)]
mod terminal;
mod trade_facts;
mod typed_tables;
mod versions;
mod words;
