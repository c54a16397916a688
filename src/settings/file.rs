//! The settings file: TOML text to settings, and settings laid into the text
//! that stands there, so that comments and house rules stay.

use std::fs;
use std::io::{self, Read as _};
use std::ops::Range;
use std::path::Path;

use pumpwright_engine::lessons::{Fault, SourceFile};
use pumpwright_screens::SetUp;
use toml_edit::{Document, DocumentMut, Item, Table, value};

use super::reading::{CHECKED, DECIMALS, Reader, SIGNS, UNITS};

/// The format of the file that is read and written here.
pub const FORMAT: i64 = 1;
/// A larger file holds no settings.
const LARGEST: u64 = 1024 * 1024;
/// What stands over a file that is made new.
const HEAD: &str = "\
# Settings of pumpwright. Set-up in the trainer writes them: ? then U.
# House rules may be set under [rules], as in \"tank.precharge_below\" = \"3 psi\".
";
/// What is read, or the first fault in it.
pub type Read<T> = Result<T, Box<Fault>>;

/// What the file sets.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Settings {
    /// What set-up asks for.
    pub set: SetUp,
    /// House rules off their default.
    pub rules: Vec<HouseRule>,
}

/// A house rule as the file sets it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HouseRule {
    /// Its dotted name.
    pub name: String,
    /// Its value, as a person writes it.
    pub value: String,
    pub(super) place: Range<usize>,
}

impl HouseRule {
    /// The fault that this rule is, in the text that it stands in.
    pub fn fault(&self, path: &str, text: &str, message: &str) -> Fault {
        let source = source(path, text);
        Fault::at(&source, &self.place, message)
            .remedy("mend this line, or take it out: the rule is then at its default")
    }
}

/// The text of a file; none where there is no file.
///
/// # Errors
/// A fault where something stands there that cannot be read.
pub fn text(path: &Path) -> Read<Option<String>> {
    let shown = path.display().to_string();
    let fault = |message: String, remedy: &str| {
        Box::new(Fault::at(&source(&shown, ""), &(0..0), message).remedy(remedy))
    };
    let mut bytes = Vec::new();
    let read = fs::metadata(path).and_then(|about| {
        if !about.is_file() {
            return Err(io::Error::other("it is no file"));
        }
        let file = fs::File::open(path)?;
        file.take(LARGEST + 1).read_to_end(&mut bytes)
    });
    match read {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => {
            let message = format!("the settings file cannot be read: {error}");
            return Err(fault(
                message,
                "see that it is a file and that you may read it",
            ));
        }
        Ok(_) if bytes.len() as u64 > LARGEST => {
            let message = "the settings file is larger than 1 MiB".to_owned();
            return Err(fault(
                message,
                "settings need a few lines; move this file away",
            ));
        }
        Ok(_) => {}
    }
    match String::from_utf8(bytes) {
        Ok(text) => Ok(Some(text)),
        Err(error) => {
            let sound = error.utf8_error().valid_up_to();
            let bytes = error.into_bytes();
            let text = String::from_utf8_lossy(&bytes);
            let message = "the settings file holds a sign that is not UTF-8";
            let fault = Fault::at(&source(&shown, &text), &(sound..sound), message);
            Err(Box::new(fault.remedy("save the file as UTF-8")))
        }
    }
}

fn source(path: &str, text: &str) -> SourceFile {
    SourceFile {
        path: path.to_owned(),
        text: text.to_owned(),
    }
}

impl Settings {
    /// Reads the text of a file.
    ///
    /// # Errors
    /// The first fault in it; then nothing of it holds.
    pub fn read(path: &str, text: &str) -> Read<Self> {
        let source = source(path, text);
        let reader = Reader { source: &source };
        let document = Document::parse(text).map_err(|error| {
            let span = error.span().unwrap_or(0..0);
            let message = format!("this is no TOML: {}", error.message());
            let fault = Fault::at(&source, &span, message);
            Box::new(fault.remedy("mend the line, or move the file away to start anew"))
        })?;
        reader.settings(document.as_table())
    }

    /// The text with what set-up asks for laid into it; all else stays as it is.
    ///
    /// # Errors
    /// The first fault in the text that stands there; then it is to be left alone.
    pub fn laid_into(path: &str, old: Option<&str>, set: &SetUp) -> Read<String> {
        let old = old.unwrap_or(HEAD);
        if old != HEAD {
            Self::read(path, old)?;
        }
        let mut document: DocumentMut = old.parse().map_err(|error: toml_edit::TomlError| {
            let message = error.message().to_owned();
            Box::new(Fault::at(&source(path, old), &(0..0), message))
        })?;
        let table = document.as_table_mut();
        if !table.contains_key("format") {
            table.insert("format", value(FORMAT));
        }
        lay(table, "name", set.name.as_deref());
        lay(table, "units", words(set.units, &UNITS));
        lay(table, "decimal", words(set.decimal, &DECIMALS));
        lay(table, "signs", words(set.signs, &SIGNS));
        lay(table, "checked", words(set.checked, &CHECKED));
        let exam = set.exam.map(|date| date.to_string());
        lay(table, "exam", exam.as_deref());
        lay(table, "class", set.class.as_deref());
        let text = document.to_string();
        // A comment over the first line moves behind it when the file holds nothing
        // else; there it would say nothing.
        Ok(if old == HEAD && !text.starts_with(HEAD) {
            format!("{HEAD}{}", text.replace(HEAD, ""))
        } else {
            text
        })
    }
}

/// A value as the file writes it.
fn words<'a, T: PartialEq>(value: Option<T>, all: &[(&'a str, T)]) -> Option<&'a str> {
    let value = value?;
    let found = all.iter().find(|(_, other)| *other == value);
    found.map(|(words, _)| *words)
}

/// Sets a line, in the place where it stands, or takes it out.
fn lay(table: &mut Table, name: &str, text: Option<&str>) {
    let Some(text) = text else {
        table.remove(name);
        return;
    };
    match table.get_mut(name).and_then(Item::as_value_mut) {
        Some(stands) if stands.as_str() == Some(text) => {}
        Some(stands) => {
            let around = stands.decor().clone();
            *stands = text.into();
            *stands.decor_mut() = around;
        }
        None => {
            table.insert(name, value(text));
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use pumpwright_engine::quantities::{DecimalSign, System};
    use pumpwright_screens::{Checked, Signs};

    use super::*;

    fn any_set_up() -> impl Strategy<Value = SetUp> {
        let choice = |count: usize| prop::option::of(0..count);
        (
            prop::option::of("\\PC{0,20}"),
            choice(2),
            choice(2),
            choice(2),
            choice(2),
            prop::option::of((1990_i16..2200, 1_i8..13, 1_i8..29)),
            prop::option::of("\\PC{0,20}"),
        )
            .prop_map(
                |(name, units, decimal, signs, checked, exam, class)| SetUp {
                    name,
                    units: units.map(|at| System::BOTH[at]),
                    decimal: decimal.map(|at| [DecimalSign::Point, DecimalSign::Comma][at]),
                    signs: signs.map(|at| Signs::ALL[at]),
                    checked: checked.map(|at| Checked::ALL[at]),
                    exam: exam.and_then(|(year, month, day)| {
                        pumpwright_screens::read_date(&format!("{year}-{month}-{day}"))
                    }),
                    class,
                },
            )
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(first in any_set_up(), second in any_set_up()) {
            let text = Settings::laid_into("f", None, &first).expect("nothing stands there");
            prop_assert_eq!(&Settings::read("f", &text).expect("sound").set, &first);
            prop_assert!(text.starts_with(HEAD), "{}", text);
            let text = Settings::laid_into("f", Some(&text), &second).expect("sound");
            prop_assert_eq!(Settings::read("f", &text).expect("sound").set, second);
        }

        #[test]
        fn no_text_is_a_panic(text in "\\PC*", more in "[a-z\\[\\]=\"'.\n ]{0,40}") {
            for text in [text.clone(), format!("format = 1\n{text}"), format!("format = 1\n{more}")] {
                let _ = Settings::read("f", &text);
                let _ = Settings::laid_into("f", Some(&text), &SetUp::default());
            }
        }
    }

    #[test]
    fn comments_and_house_rules_stay() {
        let old = "# mine\nformat = 1\nunits = 'SI' # at work\n\n[rules] # of the shop\ntank.precharge_below = \"3 psi\"\n";
        let set = SetUp {
            units: Some(System::Us),
            name: Some("Ina".into()),
            ..SetUp::default()
        };
        let text = Settings::laid_into("f", Some(old), &set).expect("sound");
        assert_eq!(
            text,
            "# mine\nformat = 1\nunits = \"US\" # at work\nname = \"Ina\"\n\n[rules] # of the shop\ntank.precharge_below = \"3 psi\"\n"
        );
        let read = Settings::read("f", &text).expect("sound");
        assert_eq!(read.set, set);
        assert_eq!(read.rules[0].name, "tank.precharge_below");
        assert_eq!(read.rules[0].value, "3 psi");
    }

    #[test]
    fn each_fault_has_its_place_and_its_remedy() {
        for (text, message, line, column) in [
            ("", "does not say its format", 1, 1),
            ("format = 2\n", "written in format 2", 1, 10),
            ("format = 1\nunit = \"SI\"\n", "no setting \"unit\"", 2, 1),
            (
                "format = 1\nunits = \"metric\"\n",
                "no value \"metric\"",
                2,
                9,
            ),
            ("format = 1\nname = 3\n", "is no text", 2, 8),
            ("format = 1\nname = \"Ina\n", "no TOML", 2, 12),
            ("format = 1\nrules = 3\n", "is no table", 2, 9),
            ("format = 1\n[rules]\na = 3\n", "rule a is no text", 3, 5),
        ] {
            let fault = Settings::read("f", text).expect_err(text);
            assert!(fault.message.contains(message), "{text}: {fault}");
            assert_eq!((fault.line, fault.column), (line, column), "{fault}");
            assert!(fault.remedy.is_some(), "{fault}");
            assert!(
                Settings::laid_into("f", Some(text), &SetUp::default()).is_err() || text.is_empty()
            );
        }
    }
}
