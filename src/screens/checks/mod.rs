//! Checks of whole screens: the shipped lessons, a trainer without a terminal,
//! and windows of every size read back as text.

mod answered;
mod answering;
mod ascii;
mod bench;
mod board;
mod class;
mod evening;
mod every_key;
mod exam;
mod lesson;
mod line_by_line;
mod office;
mod plain;
mod plain_exam;
mod record;
mod set_up;
mod sizes;
mod snapshots;
mod states;
mod tapes;
mod tools;
mod words;
