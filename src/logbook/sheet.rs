//! An entry as the file holds it: its JSON, the sum over it, and the order in which
//! one of two with the same id stays.

use pumpwright_engine::entries::{Entry, FORMAT};
use pumpwright_engine::learner::Response;
use sha2::{Digest as _, Sha256};

/// So many bytes of the SHA-256 of a payload stand before it: enough to tell it from
/// noise. Our own choice.
pub const SUM: usize = 8;

/// Stands for the version of the program in an entry that is what was left of a sheet
/// in a damaged file.
pub const REMAINS: &str = "what was left of a damaged file";

/// An entry with its JSON.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The entry.
    pub entry: Entry,
    /// The entry as JSON, in the one way in which it is written here.
    pub payload: String,
}

/// Why a text is no entry.
pub type Unread = String;

impl Sheet {
    /// The sheet of an entry.
    ///
    /// # Errors
    /// Where it holds marks that are no number: JSON has none such.
    pub fn of(entry: Entry) -> Result<Self, Unread> {
        let marks = entry
            .lines
            .iter()
            .flat_map(|line| [line.marks, line.out_of]);
        if !marks.chain([entry.marks, entry.out_of]).all(f64::is_finite) {
            return Err("its marks are no numbers".to_owned());
        }
        let payload = serde_json::to_string(&entry).map_err(|error| error.to_string())?;
        Ok(Self { entry, payload })
    }

    /// Reads JSON, whoever wrote it.
    ///
    /// # Errors
    /// A sentence where it is no entry, or one of a newer program.
    pub fn read(json: &str) -> Result<Self, Unread> {
        let entry: Entry = serde_json::from_str(json).map_err(|error| {
            // Where in the text it is, whoever read the text knows better.
            let sentence = error.to_string();
            let end = sentence.find(" at line ").unwrap_or(sentence.len());
            sentence[..end].to_owned()
        })?;
        Self::known(entry)
    }

    /// The sheet of an entry that came from elsewhere.
    ///
    /// # Errors
    /// Where it is of another format than this program knows.
    pub fn known(entry: Entry) -> Result<Self, Unread> {
        if entry.format != FORMAT {
            return Err(format!(
                "it is of format {}, this program knows {FORMAT}",
                entry.format
            ));
        }
        Self::of(entry)
    }

    /// The sum over the payload.
    pub fn sum(&self) -> [u8; SUM] {
        sum(self.payload.as_bytes())
    }

    /// The order of sheets with one id: the lesser stays. First as a history orders
    /// responses, so that the standing of a union is the union's; then whole sheets
    /// before what is left of one.
    pub fn rank(&self) -> (Response, bool, &str) {
        let remains = self.entry.program == REMAINS;
        (self.entry.response(), remains, &self.payload)
    }
}

/// The start of the SHA-256 of some bytes.
pub fn sum(bytes: &[u8]) -> [u8; SUM] {
    let mut start = [0; SUM];
    let whole = Sha256::digest(bytes);
    start.copy_from_slice(&whole[..SUM]);
    start
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::{any_entry, sheet};
    use proptest::prelude::*;
    use pumpwright_engine::entries::{Place, Purpose};

    #[test]
    fn the_words_of_purpose_and_place_are_those_that_are_written_down() {
        for purpose in Purpose::ALL {
            assert_eq!(serde_json::json!(purpose), purpose.name());
            assert_eq!(Purpose::named(purpose.name()), Some(purpose));
        }
        for place in Place::ALL {
            assert_eq!(serde_json::json!(place), place.name());
            assert_eq!(Place::named(place.name()), Some(place));
        }
    }

    #[test]
    fn a_newer_format_and_marks_that_are_no_numbers_are_refused() {
        let mut entry = sheet("Ina", 1);
        entry.format = 2;
        let json = serde_json::to_string(&entry).unwrap();
        assert!(Sheet::read(&json).unwrap_err().contains("format 2"));
        entry.marks = f64::NAN;
        assert!(Sheet::of(entry).is_err());
        assert!(Sheet::read("{}").is_err());
    }

    proptest! {
        #[test]
        fn json_gives_the_entry_again(entry in any_entry()) {
            let sheet = Sheet::of(entry).unwrap();
            prop_assert_eq!(Sheet::read(&sheet.payload), Ok(sheet));
        }
    }
}
