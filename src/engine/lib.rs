//! Lessons, problems and marking: no terminal, no clock, no file opened.

pub mod quantities;
