//! Checks of whole screens: the shipped lessons, a trainer without a terminal,
//! and windows of every size read back as text.

mod ascii;
mod bench;
mod every_key;
mod plain;
mod sizes;
mod snapshots;
mod tapes;
mod tools;
