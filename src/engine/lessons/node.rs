//! A TOML document as nodes that know their place, and the choice of one of
//! its two faces: the one in feet and psi, or the one in metres and kilopascals.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::fault::{Fault, SourceFile};
use super::places::Places;
use crate::quantities::System;

/// As many faults of the notation as are told of one file.
const NOTATION: usize = 3;

/// What parts the two faces of a string.
const BAR: &str = " | ";

/// A value with its place.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Node {
    pub item: Item,
    pub span: Range<usize>,
}

/// The kinds of value that a lesson file may hold.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Item {
    /// A string, with the places of its characters in the file.
    Text { text: String, places: Places },
    /// A number with its digits as written.
    Number { value: f64, digits: String },
    /// `true` or `false`.
    Truth(bool),
    /// A list.
    List(Vec<Node>),
    /// A table.
    Block(Block),
    /// A date or time, for which no key has a use.
    Date,
}

impl Item {
    /// What it is, for a sentence.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Text { .. } => "a text",
            Self::Number { .. } => "a number",
            Self::Truth(_) => "true or false",
            Self::List(_) => "a list",
            Self::Block(_) => "a table",
            Self::Date => "a date",
        }
    }
}

/// A TOML table in the order of the file.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Block {
    pub entries: Vec<Entry>,
    pub span: Range<usize>,
}

/// A key with its value.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Entry {
    pub key: String,
    pub key_span: Range<usize>,
    pub node: Node,
}

impl Block {
    /// The value of a key.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entries
            .iter()
            .find(|entry| entry.key == key)
            .map(|entry| &entry.node)
    }
}

/// Reads a file as TOML.
pub(crate) fn document(source: &SourceFile) -> Result<Block, Vec<Fault>> {
    let (table, errors) = DeTable::parse_recoverable(&source.text);
    if !errors.is_empty() {
        return Err(not_toml(source, &errors));
    }
    if table.get_ref().is_empty() {
        let fault = Fault::at(source, &(0..0), "this file is empty")
            .remedy("take it out, or begin it with format = 1");
        return Err(vec![fault]);
    }
    Ok(block(source, table.get_ref(), table.span()))
}

/// The first faults of the notation, one for each line: what follows an open
/// bracket is no news.
fn not_toml(source: &SourceFile, errors: &[toml::de::Error]) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    let mut errors: Vec<_> = errors.iter().collect();
    errors.sort_by_key(|error| error.span().map_or(0, |span| span.start));
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        let said = error.message();
        let fault = Fault::at(source, &span, format!("this is not TOML: {said}"));
        if faults.len() < NOTATION && faults.iter().all(|known| known.line != fault.line) {
            faults.push(fault.remedy(notation(said, span.is_empty())));
        }
    }
    faults
}

/// What to do about a fault of the notation.
fn notation(said: &str, nothing: bool) -> &'static str {
    let about = |word: &str| said.contains(word);
    if about("must be quoted") && nothing {
        "write a value here: a text in \"quotes\", a number, a list in [ ]"
    } else if about("duplicate key") {
        "keep one of the two lines"
    } else if about("array table") || about("table header") {
        "write [[step]], in two brackets on each side"
    } else if about("array") {
        "part the values of a list by commas and close it with ]"
    } else if about("inline table") {
        "part the keys by commas and close with }"
    } else if about("unquoted key") || about("no value") {
        "write key = value; a text stands in \"quotes\""
    } else {
        "put a text in \"quotes\" and a formula in 'single quotes', and close them on the line"
    }
}

fn block(source: &SourceFile, table: &DeTable<'_>, span: Range<usize>) -> Block {
    let mut entries: Vec<Entry> = table
        .iter()
        .map(|(key, value)| Entry {
            key: key.get_ref().to_string(),
            key_span: key.span(),
            node: node(source, value),
        })
        .collect();
    entries.sort_by_key(|entry| entry.key_span.start);
    Block { entries, span }
}

fn node(source: &SourceFile, value: &Spanned<DeValue<'_>>) -> Node {
    let span = value.span();
    let item = match value.get_ref() {
        DeValue::String(text) => Item::Text {
            text: text.to_string(),
            places: Places::of(&source.text, &span, text),
        },
        DeValue::Integer(integer) => {
            let value = i64::from_str_radix(integer.as_str(), integer.radix());
            number(
                value.map_or(f64::NAN, |value| value as f64),
                integer.as_str(),
            )
        }
        DeValue::Float(float) => number(float.as_str().parse().unwrap_or(f64::NAN), float.as_str()),
        DeValue::Boolean(truth) => Item::Truth(*truth),
        DeValue::Datetime(_) => Item::Date,
        DeValue::Array(array) => Item::List(array.iter().map(|item| node(source, item)).collect()),
        DeValue::Table(table) => Item::Block(block(source, table, span.clone())),
    };
    Node { item, span }
}

fn number(value: f64, digits: &str) -> Item {
    Item::Number {
        value,
        digits: digits.to_owned(),
    }
}

/// The document as one system of units sees it.
pub(crate) fn face(node: &Node, system: System) -> Node {
    let item = match &node.item {
        Item::Text { text, places } => match text.split_once(BAR) {
            Some((us, si)) => return face_of_text((us, si), places, system),
            None => node.item.clone(),
        },
        Item::List(items) => Item::List(items.iter().map(|item| face(item, system)).collect()),
        Item::Block(block) => match two_faces(block) {
            Some((us, si)) => return face(if system == System::Us { us } else { si }, system),
            None => Item::Block(face_of_block(block, system)),
        },
        other => other.clone(),
    };
    Node {
        item,
        span: node.span.clone(),
    }
}

/// One face of a text; its place is that of the face alone.
fn face_of_text((us, si): (&str, &str), places: &Places, system: System) -> Node {
    let (text, start) = match system {
        System::Us => (us.trim_end(), 0),
        System::Si => {
            let blanks = si.len() - si.trim_start().len();
            (si.trim_start(), us.len() + BAR.len() + blanks)
        }
    };
    let places = places.from(start);
    Node {
        span: places.part(&(0..text.len())),
        item: Item::Text {
            text: text.to_owned(),
            places,
        },
    }
}

/// A whole table as one system of units sees it.
pub(crate) fn face_of_block(block: &Block, system: System) -> Block {
    let entries = block.entries.iter().map(|entry| Entry {
        key: entry.key.clone(),
        key_span: entry.key_span.clone(),
        node: face(&entry.node, system),
    });
    Block {
        entries: entries.collect(),
        span: block.span.clone(),
    }
}

fn two_faces(block: &Block) -> Option<(&Node, &Node)> {
    let [first, second] = block.entries.as_slice() else {
        return None;
    };
    match (first.key.as_str(), second.key.as_str()) {
        ("us", "si") => Some((&first.node, &second.node)),
        ("si", "us") => Some((&second.node, &first.node)),
        _ => None,
    }
}

/// The tables of an array, as in `[[step]]`, without a word about others.
pub(crate) fn blocks_of<'b>(
    file: &'b Block,
    key: &str,
) -> impl Iterator<Item = &'b Block> + use<'b> {
    let list = match file.get(key).map(|node| &node.item) {
        Some(Item::List(items)) => items.as_slice(),
        _ => &[],
    };
    list.iter().filter_map(|item| match &item.item {
        Item::Block(block) => Some(block),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (SourceFile, Block) {
        let source = SourceFile {
            path: "x.toml".into(),
            text: text.into(),
        };
        let block = document(&source).expect("TOML");
        (source, block)
    }

    #[test]
    fn each_face_of_a_text_knows_its_place() {
        let (source, block) = read("is = '2.31 * p | p / 9.81'\n");
        let node = face(block.get("is").unwrap(), System::Si);
        let Item::Text { text, .. } = node.item else {
            panic!("a text")
        };
        assert_eq!(text, "p / 9.81");
        assert_eq!(source.text[node.span], text);
    }

    #[test]
    fn a_table_of_us_and_si_has_two_faces() {
        let (_, block) = read("draw = { us = { of = [1] }, si = { of = [2] } }\n");
        let node = face(block.get("draw").unwrap(), System::Us);
        let Item::Block(inner) = node.item else {
            panic!("a table")
        };
        assert_eq!(inner.entries[0].key, "of");
    }

    #[test]
    fn faults_of_the_notation_are_reported_a_line_each() {
        let source = SourceFile {
            path: "x.toml".into(),
            text: "a = \nb = 'x\nc = 3\n".into(),
        };
        assert_eq!(document(&source).unwrap_err().len(), 2);
    }
}
