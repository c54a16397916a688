//! Sources as data: which document a figure comes from, and whether it was opened.
//! Lessons, tables and rules name one by its id in braces, `{psu}`; people read its words.

use std::collections::BTreeMap;
use std::ops::Range;

use super::fields::{Fields, Reader, Text};
use super::node::Block;

/// A document that figures come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Its id, as lesson files name it.
    pub id: String,
    /// Who put it out.
    pub publisher: String,
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: Option<String>,
    /// What is known of the age of the text that was read.
    pub dated: Option<String>,
    /// The section, table or page.
    pub place: Option<String>,
    /// Where it was seen, if not in print by its publisher: "in a copy".
    pub seen: Option<String>,
    /// When it was read; none where it was not.
    pub read: Option<String>,
    /// Whether it was opened; else it is quoted from memory.
    pub opened: bool,
}

impl Source {
    /// In words that a reader can look up.
    pub fn words(&self) -> String {
        let mut parts = Vec::new();
        if !self.title.contains(&self.publisher) {
            parts.push(self.publisher.as_str());
        }
        parts.push(&self.title);
        parts.extend(self.edition.as_deref());
        parts.extend(self.place.as_deref());
        parts.extend(self.seen.as_deref());
        if !self.opened {
            parts.push("from memory");
        }
        parts.join(", ")
    }

    /// Age of the text and day of reading, for whoever goes after it.
    pub fn dates(&self) -> Option<String> {
        let read = self.read.as_ref().map(|read| format!("read {read}"));
        let dates: Vec<String> = self.dated.iter().cloned().chain(read).collect();
        (!dates.is_empty()).then(|| dates.join("; "))
    }
}

/// All sources, by their ids.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sources {
    known: BTreeMap<String, Source>,
    /// Whether one could not be read, so that an unknown id may be that one.
    faulty: bool,
}

impl Sources {
    /// The sources in the order of their ids.
    pub fn all(&self) -> impl Iterator<Item = &Source> {
        self.known.values()
    }

    /// Whether there is one of this id.
    pub fn has(&self, id: &str) -> bool {
        self.known.contains_key(id)
    }

    /// Takes one in.
    pub fn add(&mut self, source: Source) {
        self.known.insert(source.id.clone(), source);
    }

    /// Notes that one could not be read.
    pub const fn add_faulty(&mut self) {
        self.faulty = true;
    }

    /// A text with the words of each source in place of its id.
    pub fn cite(&self, reader: &mut Reader<'_>, text: &Text) -> String {
        if let Some(tag) = bare_tag(&text.text) {
            let message = format!(
                "\"{}\" is a bare tag, which nobody can look up",
                &text.text[tag.clone()]
            );
            let remedy = "write the id of a source in braces, as the files in sources/ have it";
            reader.refuse(&text.place(&tag), message, remedy);
        }
        let mut words = String::new();
        let mut at = 0;
        while let Some(open) = text.text[at..].find('{').map(|found| at + found) {
            words.push_str(&text.text[at..open]);
            let Some(close) = text.text[open..].find('}').map(|found| open + found) else {
                let message = "this brace is not closed";
                let remedy = "write the id of a source between { and }";
                reader.refuse(&text.place(&(open..open + 1)), message, remedy);
                at = text.text.len();
                break;
            };
            let id = open + 1..close;
            match self.known.get(&text.text[id.clone()]) {
                Some(source) => words.push_str(&source.words()),
                None => self.unknown(reader, text, id),
            }
            at = close + 1;
        }
        words.push_str(&text.text[at..]);
        words
    }

    fn unknown(&self, reader: &mut Reader<'_>, text: &Text, id: Range<usize>) {
        let wrong = &text.text[id.clone()];
        let message = format!("there is no source \"{wrong}\"");
        let place = text.place(&id);
        let near = super::nearest(wrong, self.known.keys().map(String::as_str));
        let fault = reader.fault(&place, message);
        fault.remedy = Some(match near.first() {
            _ if self.faulty => "mend the sources that cannot be read first".to_owned(),
            Some(best) => format!("write \"{best}\""),
            None => {
                "add it to a file in sources/, or write \"common practice, no source\"".to_owned()
            }
        });
        fault.has = near;
    }
}

/// A tag such as `S-PSU`: a capital S, a hyphen, two capitals or more.
fn bare_tag(text: &str) -> Option<Range<usize>> {
    text.match_indices("S-").find_map(|(start, lead)| {
        let alone = text[..start]
            .chars()
            .next_back()
            .is_none_or(|c| !c.is_alphanumeric());
        let tail = &text[start + lead.len()..];
        let end = tail
            .find(|c: char| !c.is_ascii_uppercase() && !c.is_ascii_digit())
            .unwrap_or(tail.len());
        let letters = tail[..end].chars().take_while(char::is_ascii_uppercase);
        (alone && letters.count() >= 2).then(|| start..start + lead.len() + end)
    })
}

/// Reads one `[[source]]`.
pub(super) fn read(reader: &mut Reader<'_>, block: &Block) -> Option<Source> {
    let before = reader.faults.len();
    let mut fields = Fields::new(block, "the source");
    let id = fields.needed(reader, "id")?;
    fields.what = format!("source \"{}\"", id.text);
    if !is_id(&id.text) {
        let message = format!("\"{}\" cannot be the id of a source", id.text);
        let remedy = "write small letters, digits and hyphens, beginning with a letter";
        reader.refuse(&id.span, message, remedy);
    }
    let publisher = fields.needed(reader, "publisher");
    let title = fields.needed(reader, "title");
    let edition = fields.string(reader, "edition");
    let dated = fields.string(reader, "dated");
    let place = fields.string(reader, "place");
    let seen = fields.string(reader, "seen");
    let known = fields.needed(reader, "known");
    let read = fields.text(reader, "read");
    let opened = known.as_ref().map(|known| known.text.as_str()) == Some("opened");
    if let Some(known) = known.filter(|known| !["opened", "memory"].contains(&known.text.as_str()))
    {
        let has = vec!["opened".to_owned(), "memory".to_owned()];
        let message = format!(
            "a source is opened or quoted from memory, not \"{}\"",
            known.text
        );
        reader.unknown(&known.span, message, &known.text, has);
    } else {
        dates(reader, &fields, opened, read.as_ref());
    }
    fields.finish(reader);
    let source = Source {
        id: id.text,
        publisher: publisher?.text,
        title: title?.text,
        edition,
        dated,
        place,
        seen,
        read: read.map(|read| read.text),
        opened,
    };
    (reader.faults.len() == before).then_some(source)
}

/// What was opened has its day; what is quoted from memory has none.
fn dates(reader: &mut Reader<'_>, fields: &Fields<'_>, opened: bool, read: Option<&Text>) {
    match (opened, read) {
        (true, None) => fields.missing(reader, "read"),
        (false, Some(read)) => reader.refuse(
            &read.span,
            "a source quoted from memory has no day of reading",
            "take the line out, or write known = \"opened\"",
        ),
        (_, Some(read)) if !is_day(&read.text) => reader.refuse(
            &read.span,
            format!("\"{}\" is no day of reading", read.text),
            "write the day as 2026-11-25, or before 2026-11-25 where it was not kept",
        ),
        _ => {}
    }
}

/// `2026-11-25`, or `before 2026-11-25`: a day that the calendar has.
pub(crate) fn is_day(text: &str) -> bool {
    let day = text.strip_prefix("before ").unwrap_or(text);
    let parts: Vec<&str> = day.split('-').collect();
    let figure = |part: &str, long: usize| {
        let plain = part.len() == long && part.bytes().all(|c| c.is_ascii_digit());
        part.parse::<u32>().ok().filter(|_| plain)
    };
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    let (Some(year), Some(month), Some(day)) = (figure(year, 4), figure(month, 2), figure(day, 2))
    else {
        return false;
    };
    year > 0 && (1..=days_of(year, month)).contains(&day)
}

/// The days of a month of the Gregorian calendar; none where there is no such month.
fn days_of(year: u32, month: u32) -> u32 {
    match month {
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => {
            29
        }
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

fn is_id(id: &str) -> bool {
    let letter = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    id.starts_with(|c: char| c.is_ascii_lowercase()) && id.chars().all(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_told_from_other_words() {
        for day in [
            "2026-11-25",
            "before 2026-11-25",
            "2028-02-29",
            "2000-02-29",
        ] {
            assert!(is_day(day), "{day}");
        }
        for word in [
            "2026",
            "2026-13-01",
            "25-11-2026",
            "last week",
            "2026-1-5",
            "2026-02-30",
            "2026-02-29",
            "2100-02-29",
            "2026-11-31",
            "2026-11-00",
            "2026-00-10",
            "2026-01-+1",
        ] {
            assert!(!is_day(word), "{word}");
        }
    }

    #[test]
    fn a_tag_is_found_and_other_hyphens_are_not() {
        assert_eq!(bare_tag("a page (S-PSU)"), Some(8..13));
        assert_eq!(bare_tag("S-4 and US-METRIC, MIL-HDBK-1164"), None);
        assert_eq!(bare_tag("S-Bahn"), None);
    }

    #[test]
    fn the_publisher_is_not_said_twice() {
        let mut source = Source {
            id: "x".into(),
            publisher: "Ohio".into(),
            title: "Ohio Rules".into(),
            edition: None,
            dated: None,
            place: Some("rule 5".into()),
            seen: None,
            read: None,
            opened: false,
        };
        assert_eq!(source.words(), "Ohio Rules, rule 5, from memory");
        assert_eq!(source.dates(), None);
        source.publisher = "a county".into();
        source.opened = true;
        source.read = Some("2026-11-25".into());
        source.edition = Some("third edition".into());
        source.dated = Some("copy of 2024".into());
        assert_eq!(
            source.words(),
            "a county, Ohio Rules, third edition, rule 5"
        );
        assert_eq!(
            source.dates().as_deref(),
            Some("copy of 2024; read 2026-11-25")
        );
    }
}
