//! Sheets as files that other programs read: JSON, a sheet a line, and CSV, a row a
//! line of a sheet. Both carry everything; what is written is read again to the last
//! digit.

mod columns;
mod csv_file;
mod json_lines;
mod rows;

use std::fmt;

use super::sheet::Sheet;

pub use csv_file::BEGINS as CSV_BEGINS;
pub use json_lines::BEGINS as JSON_BEGINS;

/// What is wrong with a file that is to be read in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Its line, from 1.
    pub line: u64,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}; {}", self.line, self.message, self.remedy)
    }
}

/// Sheets as CSV.
///
/// # Errors
/// A sentence, where a part of a sheet cannot be written.
pub fn as_csv(sheets: &[Sheet]) -> Result<String, String> {
    csv_file::write(sheets)
}

/// Sheets as JSON, one a line.
pub fn as_json_lines(sheets: &[Sheet]) -> String {
    json_lines::write(sheets)
}

/// The sheets of a file in either form.
///
/// # Errors
/// Every fault in it, in the order of its lines.
pub fn read(bytes: &[u8]) -> Result<Vec<Sheet>, Vec<Fault>> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let sound = String::from_utf8_lossy(&bytes[..error.valid_up_to()]);
        vec![Fault {
            line: sound.matches('\n').count() as u64 + 1,
            message: "it holds a sign that is not UTF-8".to_owned(),
            remedy: "save the file as UTF-8".to_owned(),
        }]
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim_start().is_empty() {
        return Ok(Vec::new());
    }
    let read = if text.trim_start().starts_with('{') {
        json_lines::read(text)
    } else {
        csv_file::read(text)
    };
    read.map_err(|mut faults| {
        faults.sort_by_key(|fault| fault.line);
        faults
    })
}

#[cfg(test)]
mod tests;
