//! What the tests of calc share: CSV with sources, units by name, laws by hand.
//! Written apart from the program's own reader and language, so that an error
//! there is not repeated here.

#![allow(dead_code, reason = "each test file uses a part of this")]

pub mod csv;
pub mod inputs;
pub mod kinds;
pub mod law;
pub mod points;
pub mod units;

use std::path::{Path, PathBuf};

/// The folder `tests` at the top.
pub fn tests_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests")
}
