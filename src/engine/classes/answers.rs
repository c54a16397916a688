//! The file in which a paper that was answered on screen is handed in: what was written
//! on each line, and a sum by which a damaged file is known.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::printed::FORMAT;
use super::sit::SitPaper;
use crate::problems::random::hex;

/// What the file says it is.
const KIND: &str = "pumpwright answers";

/// What somebody handed in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answers {
    /// The plan of the paper.
    pub plan: String,
    /// The number of the paper: the person's id.
    pub paper: String,
    /// The name on the paper.
    pub name: String,
    /// The sum of the paper that was answered.
    pub sum: String,
    /// When it was handed in: milliseconds since 1970, UTC.
    pub at: i64,
    /// How far the clock there was ahead of UTC, in minutes.
    pub zone: i32,
    /// What was written, item by item in the order of the paper.
    pub items: Vec<Vec<String>>,
}

/// The file around them.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    kind: String,
    format: u32,
    answers: Answers,
    sha256: String,
}

impl Answers {
    /// A blank hand-in of a paper.
    pub fn to(paper: &SitPaper) -> Self {
        let blank = |count: usize| vec![String::new(); count];
        Self {
            plan: paper.head.plan.clone(),
            paper: paper.person.id.clone(),
            name: paper.person.name.clone(),
            sum: paper.sum(),
            at: 0,
            zone: 0,
            items: paper
                .items
                .iter()
                .map(|item| blank(item.lines.len()))
                .collect(),
        }
    }

    /// The text of the file.
    pub fn text(&self) -> String {
        super::json(&File {
            kind: KIND.to_owned(),
            format: FORMAT,
            answers: self.clone(),
            sha256: self.checksum(),
        })
    }

    /// The sum of everything in it.
    fn checksum(&self) -> String {
        hex(&Sha256::digest(super::json(self).as_bytes()))
    }

    /// Reads the text of a file.
    ///
    /// # Errors
    /// A sentence without the name of the file: what is wrong with it, and what to do.
    pub fn read(text: &str) -> Result<Self, String> {
        let file: File = super::read_json(text, KIND, "file of answers")?;
        if file.kind != KIND {
            return Err("is no file of answers; name one that was handed in".to_owned());
        }
        if file.sha256 != file.answers.checksum() {
            return Err(DAMAGED.to_owned());
        }
        Ok(file.answers)
    }
}

/// Said of a file whose sum is another.
const DAMAGED: &str =
    "is damaged: its checksum is not that of its answers; ask for the file once more";

#[cfg(test)]
mod tests {
    use super::*;

    fn answers() -> Answers {
        Answers {
            plan: "week-6".into(),
            paper: "019".into(),
            name: "D'Arcy, Léa".into(),
            sum: "0".repeat(32),
            at: 1_795_000_000_000,
            zone: -300,
            items: vec![vec!["430 ft".into(), "1.07".into()], vec![String::new()]],
        }
    }

    #[test]
    fn a_file_reads_back_and_a_changed_one_is_damaged() {
        let text = answers().text();
        assert_eq!(Answers::read(&text), Ok(answers()));
        let changed = text.replace("430 ft", "431 ft");
        assert_eq!(Answers::read(&changed), Err(DAMAGED.to_owned()));
        assert_eq!(
            Answers::read(&text[..40]).unwrap_err(),
            "breaks off or is damaged in line 3; ask for the file once more"
        );
    }

    #[test]
    fn other_files_are_told_from_answers() {
        for (text, said) in [
            (
                "hello",
                "is no file of answers of this program; name one that it wrote",
            ),
            (
                "{\"kind\":\"pumpwright answers\",\"format\":2}",
                "is written in format 2; this program reads format 1: use a newer program",
            ),
        ] {
            assert_eq!(Answers::read(text).unwrap_err(), said);
        }
    }
}
