//! A class's list as a spreadsheet saves it, read to people with the lines where they stand.
//!
//! Columns go by the names in the first line, capitals or not, in any order: `name`, or
//! `last name` and `first name`; `id` where the school has its own. Others are passed over.

use std::collections::BTreeMap;
use std::fmt;

use csv::{ReaderBuilder, StringRecord};

use super::same_name;
use crate::cells;
use crate::lessons::nearest;

/// The names that a column may have: common practice, no source.
const NAME: [&str; 3] = ["name", "full name", "student"];
const LAST: [&str; 4] = ["last name", "surname", "family name", "last"];
const FIRST: [&str; 4] = ["first name", "given name", "forename", "first"];
const ID: [&str; 4] = ["id", "no", "no.", "number"];

/// The longest name and id, so that a broken file is not taken for a person: our own
/// choice, no source.
const LONGEST: usize = 100;

/// Somebody on a list, with the line where the name stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// The id on the list, where it has one.
    pub id: Option<String>,
    /// The name.
    pub name: String,
    /// The line of the file.
    pub line: usize,
}

/// What is wrong with a list: where, what, and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterFault {
    /// The line; none where it is the whole file.
    pub line: Option<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub remedy: String,
}

impl fmt::Display for RosterFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "line {line} {}; {}", self.message, self.remedy),
            None => write!(f, "the roster {}; {}", self.message, self.remedy),
        }
    }
}

/// Reads a list.
///
/// # Errors
/// Every fault of the list, in the order of its lines.
pub fn read(text: &str) -> Result<Vec<Listed>, Vec<RosterFault>> {
    let text = text.trim_start_matches('\u{feff}');
    if text.trim().is_empty() {
        return Err(vec![whole("is empty", COLUMNS)]);
    }
    let mut reader = ReaderBuilder::new()
        .delimiter(cells::separator(text.trim_start()))
        .flexible(true)
        .from_reader(text.as_bytes());
    let head = reader.headers().cloned().unwrap_or_default();
    let columns = Columns::of(&head)?;
    let mut people = Vec::new();
    let mut faults = Vec::new();
    for record in reader.records() {
        // The text is UTF-8 and rows may be of any length: nothing else is refused.
        let Ok(record) = record else { continue };
        let start = record.position().map_or(0, |place| place.byte() as usize);
        let line = cells::line_of(text, start);
        match columns.person(&record, line) {
            Ok(Some(person)) => people.push(person),
            Ok(None) => {}
            Err(fault) => faults.push(fault),
        }
    }
    twice(&people, &mut faults);
    if people.is_empty() && faults.is_empty() {
        faults.push(whole(
            "has its first line and nobody under it",
            "write a line for each person",
        ));
    }
    faults.sort_by_key(|fault| fault.line);
    if faults.is_empty() {
        Ok(people)
    } else {
        Err(faults)
    }
}

const COLUMNS: &str = "its first line names the columns: name, or last name and first name, and id where you have ids of your own";

fn whole(message: &str, remedy: &str) -> RosterFault {
    RosterFault {
        line: None,
        message: message.to_owned(),
        remedy: remedy.to_owned(),
    }
}

pub(super) fn at(line: usize, message: impl Into<String>, remedy: &str) -> RosterFault {
    RosterFault {
        line: Some(line),
        message: message.into(),
        remedy: remedy.to_owned(),
    }
}

/// Where the columns stand.
struct Columns {
    name: Name,
    id: Option<usize>,
    /// How many columns the first line has.
    count: usize,
}

enum Name {
    Whole(usize),
    Parts { last: usize, first: Option<usize> },
}

impl Columns {
    fn of(head: &StringRecord) -> Result<Self, Vec<RosterFault>> {
        let words: Vec<String> = head.iter().map(|cell| plain(cell).to_lowercase()).collect();
        let find = |names: &[&str]| words.iter().position(|word| names.contains(&word.as_str()));
        for names in [&NAME[..], &LAST, &FIRST, &ID] {
            let same = words.iter().filter(|word| names.contains(&word.as_str()));
            if same.count() > 1 {
                let message = format!("has two columns for the {}", names[0]);
                return Err(vec![at(1, message, "give one of the two another name")]);
            }
        }
        let name = match (find(&NAME), find(&LAST)) {
            (Some(name), _) => Name::Whole(name),
            (None, Some(last)) => Name::Parts {
                last,
                first: find(&FIRST),
            },
            (None, None) => {
                let has: Vec<&str> = words.iter().map(String::as_str).collect();
                let near = has
                    .iter()
                    .find(|word| !nearest(word, NAME.into_iter().chain(LAST)).is_empty());
                let remedy = match near {
                    Some(near) => format!("write name in place of \"{near}\""),
                    None => COLUMNS.to_owned(),
                };
                return Err(vec![at(1, "names no column for the names", &remedy)]);
            }
        };
        Ok(Self {
            name,
            id: find(&ID),
            count: head.len(),
        })
    }

    /// The person of a row; none where it is empty.
    fn person(&self, record: &StringRecord, line: usize) -> Result<Option<Listed>, RosterFault> {
        if record.iter().all(|cell| plain(cell).is_empty()) {
            return Ok(None);
        }
        if record.iter().any(|cell| cell.trim().contains('\n')) {
            let message = "begins a cell in quotes that runs over the end of the line";
            return Err(at(line, message, "close the quotes"));
        }
        // Else a name would lose what stands behind its comma, without a word.
        if (record.iter().skip(self.count)).any(|cell| !plain(cell).is_empty()) {
            let message = "has more cells than the first line has columns";
            let remedy = "put a name with a comma in quotes: \"D'Arcy, L.\"";
            return Err(at(line, message, remedy));
        }
        let cell = |at: usize| plain(cells::text(record.get(at).unwrap_or_default().trim()));
        let name = match self.name {
            Name::Whole(name) => cell(name),
            Name::Parts { last, first } => {
                let first = first.map(cell).unwrap_or_default();
                let parts = [cell(last), first];
                let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
                let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
                parts.join(", ")
            }
        };
        if name.is_empty() {
            return Err(at(line, "has no name", "write it, or take the line out"));
        }
        let id = self.id.map(cell).filter(|id| !id.is_empty());
        let long = |text: &str| text.chars().count() > LONGEST;
        if long(&name) || id.as_deref().is_some_and(long) {
            let message = format!("has a cell of more than {LONGEST} characters");
            return Err(at(
                line,
                message,
                "look whether a quote or a line end is missing",
            ));
        }
        let letter = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
        if let Some(odd) = id.as_ref().filter(|id| !id.chars().all(letter)) {
            let message = format!("has the id \"{odd}\"");
            let remedy = "write letters, digits and hyphens: papers are filed by it";
            return Err(at(line, message, remedy));
        }
        Ok(Some(Listed { id, name, line }))
    }
}

/// A cell as one line: blanks of every sort are one blank.
fn plain(cell: &str) -> String {
    let blank = |c: char| c.is_whitespace() || c.is_control() || c == '\u{feff}';
    let words = cell.split(blank).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}

/// Ids that stand twice, and names that stand twice without an id to tell them apart.
fn twice(people: &[Listed], faults: &mut Vec<RosterFault>) {
    let mut ids: BTreeMap<String, usize> = BTreeMap::new();
    let mut names: BTreeMap<String, &Listed> = BTreeMap::new();
    for person in people {
        let id = person.id.as_ref().map(|id| id.to_lowercase());
        let first = id.map(|id| *ids.entry(id).or_insert(person.line));
        if let Some(first) = first.filter(|first| *first != person.line) {
            let message = format!("has the id of line {first}");
            faults.push(at(person.line, message, "give one of the two another"));
            continue;
        }
        let before = *names.entry(same_name(&person.name)).or_insert(person);
        let apart = person.id.is_some() && before.id.is_some();
        if before.line != person.line && !apart {
            let message = format!("has the name of line {}: {}", before.line, person.name);
            let remedy = "take one of the two out, or tell them apart in a column id";
            faults.push(at(person.line, message, remedy));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> Vec<(Option<String>, String, usize)> {
        let people = read(text).unwrap();
        let people = people.into_iter();
        people.map(|one| (one.id, one.name, one.line)).collect()
    }

    fn said(text: &str) -> Vec<String> {
        let faults = read(text).unwrap_err();
        faults.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn every_spreadsheet_is_read_the_same() {
        let wanted = [
            (None, "D'Arcy, Léa".to_owned(), 2),
            (None, "Gale, O.".to_owned(), 4),
        ];
        for text in [
            "name\n\"D'Arcy, Léa\"\n\n\"Gale, O.\"\n",
            "\u{feff}Group;NAME\r\nA;D'Arcy, Léa\r\n;\r\nB;Gale, O.\r\n",
            "first name,Last Name\nLéa,D'Arcy\n,\nO.,Gale",
            "\u{feff}last name\tfirst name\nD'Arcy\tLéa\n\t\nGale\tO.\n",
        ] {
            assert_eq!(names(text), wanted, "{text:?}");
        }
    }

    #[test]
    fn odd_lists_are_told_with_their_lines() {
        let columns = format!("the roster is empty; {COLUMNS}");
        for (text, faults) in [
            ("", vec![columns.as_str()]),
            ("\u{feff}\r\n", vec![&columns]),
            (
                "name\n\n",
                vec![
                    "the roster has its first line and nobody under it; write a line for each person",
                ],
            ),
            (
                "nmae;x\nAsh;1\n",
                vec!["line 1 names no column for the names; write name in place of \"nmae\""],
            ),
            (
                "a;b\nAsh;1\n",
                vec![&format!("line 1 names no column for the names; {COLUMNS}")],
            ),
            (
                "name,name\nAsh,1\n",
                vec!["line 1 has two columns for the name; give one of the two another name"],
            ),
            (
                "name,id\nAsh,1\nBirch,2\n\nash,\nCole,2\n,7\n",
                vec![
                    "line 5 has the name of line 2: ash; take one of the two out, or tell them apart in a column id",
                    "line 6 has the id of line 3; give one of the two another",
                    "line 7 has no name; write it, or take the line out",
                ],
            ),
            (
                "name\n\"Ash\nBirch\n",
                vec![
                    "line 2 begins a cell in quotes that runs over the end of the line; close the quotes",
                ],
            ),
            (
                "name\nAsh, R.\n",
                vec![
                    "line 2 has more cells than the first line has columns; put a name with a comma in quotes: \"D'Arcy, L.\"",
                ],
            ),
            (
                "name,id\nAsh,../x\n",
                vec![
                    "line 2 has the id \"../x\"; write letters, digits and hyphens: papers are filed by it",
                ],
            ),
        ] {
            assert_eq!(said(text), faults, "{text:?}");
        }
    }
}
