//! The settings file: TOML text to settings, and settings laid into the text
//! that stands there, so that comments and house rules stay.

use std::fs;
use std::io::{self, Read as _};
use std::ops::Range;
use std::path::Path;

use pumpwright_engine::lessons::{Fault, SourceFile, nearest};
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{Checked, SetUp, Signs};
use toml_edit::{Document, DocumentMut, Item, Table, value};

/// The format of the file that is read and written here.
const FORMAT: i64 = 1;
/// A larger file holds no settings.
const LARGEST: u64 = 1024 * 1024;
/// What stands over a file that is made new.
const HEAD: &str = "\
# Settings of pumpwright. Set-up in the trainer writes them: ? then U.
# House rules may be set under [rules], as in \"tank.precharge_below\" = \"3 psi\".
";
/// The names that the file may hold.
const NAMES: [&str; 7] = [
    "format", "name", "units", "decimal", "signs", "checked", "rules",
];

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
    place: Range<usize>,
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
pub fn text(path: &Path) -> Result<Option<String>, Fault> {
    let shown = path.display().to_string();
    let fault = |message: String, remedy: &str| {
        Fault::at(&source(&shown, ""), &(0..0), message).remedy(remedy)
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
            return Err(fault(message, "see that it is a file and that you may read it"));
        }
        Ok(_) if bytes.len() as u64 > LARGEST => {
            let message = "the settings file is larger than 1 MiB".to_owned();
            return Err(fault(message, "settings need a few lines; move this file away"));
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
            Err(fault.remedy("save the file as UTF-8"))
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
    pub fn read(path: &str, text: &str) -> Result<Self, Fault> {
        let source = source(path, text);
        let reader = Reader { source: &source };
        let document = Document::parse(text).map_err(|error| {
            let span = error.span().unwrap_or(0..0);
            let message = format!("this is no TOML: {}", error.message());
            Fault::at(&source, &span, message)
                .remedy("mend the line, or move the file away to start anew")
        })?;
        reader.settings(document.as_table())
    }

    /// The text with what set-up asks for laid into it; all else stays as it is.
    ///
    /// # Errors
    /// The first fault in the text that stands there; then it is to be left alone.
    pub fn laid_into(path: &str, old: Option<&str>, set: &SetUp) -> Result<String, Fault> {
        let old = old.unwrap_or(HEAD);
        if old != HEAD {
            Self::read(path, old)?;
        }
        let mut document: DocumentMut = old.parse().map_err(|error: toml_edit::TomlError| {
            Fault::at(&source(path, old), &(0..0), error.message().to_owned())
        })?;
        let table = document.as_table_mut();
        if !table.contains_key("format") {
            table.insert("format", value(FORMAT));
        }
        let units = set.units.map(|units| units.letters().to_uppercase());
        let decimal = set.decimal.map(|decimal| match decimal {
            DecimalSign::Point => ".".to_owned(),
            DecimalSign::Comma => ",".to_owned(),
        });
        let signs = set.signs.map(|signs| signs.words().to_owned());
        let checked = set.checked.map(|checked| checked.words().to_owned());
        lay(table, "name", set.name.clone());
        lay(table, "units", units);
        lay(table, "decimal", decimal);
        lay(table, "signs", signs);
        lay(table, "checked", checked);
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

/// Sets a line, in the place where it stands, or takes it out.
fn lay(table: &mut Table, name: &str, text: Option<String>) {
    let Some(text) = text else {
        table.remove(name);
        return;
    };
    match table.get_mut(name).and_then(Item::as_value_mut) {
        Some(stands) if stands.as_str() == Some(text.as_str()) => {}
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

struct Reader<'a> {
    source: &'a SourceFile,
}

impl Reader<'_> {
    fn settings(&self, table: &Table) -> Result<Settings, Fault> {
        self.format(table)?;
        for (name, _) in table {
            if !NAMES.contains(&name) {
                let span = table.key(name).and_then(toml_edit::Key::span);
                let near = nearest(name, NAMES);
                let has = NAMES.iter().map(|name| (*name).to_owned()).collect();
                let fault = self
                    .fault(span, format!("there is no setting \"{name}\""))
                    .having(has);
                return Err(match near.first() {
                    Some(near) => fault.remedy(format!("write \"{near}\"")),
                    None => fault.remedy("take the line out"),
                });
            }
        }
        let decimal = |sign: &str| match sign {
            "." => Some(DecimalSign::Point),
            "," => Some(DecimalSign::Comma),
            _ => None,
        };
        let set = SetUp {
            name: self.text(table, "name")?.map(|(name, _)| name),
            units: self.one(table, "units", ("US, SI", &|text| text.parse::<System>().ok()))?,
            decimal: self.one(table, "decimal", (". or ,", &decimal))?,
            signs: self.one(
                table,
                "signs",
                ("line drawing, ASCII", &|text| {
                    Signs::ALL.into_iter().find(|sign| alike(sign.words(), text))
                }),
            )?,
            checked: self.one(
                table,
                "checked",
                ("whole, line by line", &|text| {
                    Checked::ALL
                        .into_iter()
                        .find(|checked| alike(checked.words(), text))
                }),
            )?,
        };
        let mut rules = Vec::new();
        match table.get("rules") {
            None => {}
            Some(Item::Table(under)) => self.rules("", under, &mut rules)?,
            Some(item) => {
                return Err(self
                    .fault(item.span(), "the setting \"rules\" is no table".to_owned())
                    .remedy("write [rules], and each rule on a line under it"));
            }
        }
        Ok(Settings { set, rules })
    }

    fn fault(&self, span: Option<Range<usize>>, message: String) -> Fault {
        Fault::at(self.source, &span.unwrap_or(0..0), message)
    }

    fn format(&self, table: &Table) -> Result<(), Fault> {
        let Some(item) = table.get("format") else {
            return Err(self
                .fault(None, "the file does not say its format".to_owned())
                .remedy("write format = 1 as its first line"));
        };
        match item.as_integer() {
            Some(FORMAT) => Ok(()),
            Some(newer) => Err(self
                .fault(
                    item.span(),
                    format!(
                        "this file is written in format {newer}; this program reads format {FORMAT}"
                    ),
                )
                .remedy("use a newer program, or name another file with --settings")),
            None => Err(self
                .fault(item.span(), "the format is no whole number".to_owned())
                .remedy("write format = 1")),
        }
    }

    fn text(
        &self,
        table: &Table,
        name: &str,
    ) -> Result<Option<(String, Option<Range<usize>>)>, Fault> {
        let Some(item) = table.get(name) else {
            return Ok(None);
        };
        match item.as_str() {
            Some(text) => Ok(Some((text.to_owned(), item.span()))),
            None => Err(self
                .fault(item.span(), format!("the setting \"{name}\" is no text"))
                .remedy("write it in quotes")),
        }
    }

    fn one<T>(
        &self,
        table: &Table,
        name: &str,
        (has, read): (&str, &dyn Fn(&str) -> Option<T>),
    ) -> Result<Option<T>, Fault> {
        let Some((text, span)) = self.text(table, name)? else {
            return Ok(None);
        };
        match read(text.trim()) {
            Some(value) => Ok(Some(value)),
            None => Err(self
                .fault(span, format!("the setting {name} has no value \"{text}\""))
                .having(vec![has.to_owned()])
                .remedy("write one of them, or take the line out")),
        }
    }

    /// House rules: `"tank.precharge_below" = "3 psi"`, or with the dot as TOML's own.
    fn rules(&self, before: &str, table: &Table, rules: &mut Vec<HouseRule>) -> Result<(), Fault> {
        for (name, item) in table {
            let name = if before.is_empty() {
                name.to_owned()
            } else {
                format!("{before}.{name}")
            };
            match item {
                Item::Table(under) => self.rules(&name, under, rules)?,
                item => match item.as_str() {
                    Some(value) => rules.push(HouseRule {
                        name,
                        value: value.to_owned(),
                        place: item.span().unwrap_or(0..0),
                    }),
                    None => {
                        return Err(self
                            .fault(item.span(), format!("the house rule {name} is no text"))
                            .remedy("write its value in quotes, as in \"3 psi\""));
                    }
                },
            }
        }
        Ok(())
    }
}

/// Capitals, blanks and hyphens do not count.
fn alike(one: &str, other: &str) -> bool {
    let plain = |text: &str| -> String {
        text.chars()
            .filter(|c| !matches!(c, ' ' | '-' | '_'))
            .flat_map(char::to_lowercase)
            .collect()
    };
    plain(one) == plain(other)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn any_set_up() -> impl Strategy<Value = SetUp> {
        let choice = |count: usize| prop::option::of(0..count);
        (
            prop::option::of("\\PC{0,20}"),
            choice(2),
            choice(2),
            choice(2),
            choice(2),
        )
            .prop_map(|(name, units, decimal, signs, checked)| SetUp {
                name,
                units: units.map(|at| System::BOTH[at]),
                decimal: decimal.map(|at| [DecimalSign::Point, DecimalSign::Comma][at]),
                signs: signs.map(|at| Signs::ALL[at]),
                checked: checked.map(|at| Checked::ALL[at]),
            })
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
            ("format = 1\nunits = \"metric\"\n", "no value \"metric\"", 2, 9),
            ("format = 1\nname = 3\n", "is no text", 2, 8),
            ("format = 1\nname = \"Ina\n", "no TOML", 2, 12),
            ("format = 1\nrules = 3\n", "is no table", 2, 9),
            ("format = 1\n[rules]\na = 3\n", "rule a is no text", 3, 5),
        ] {
            let fault = Settings::read("f", text).expect_err(text);
            assert!(fault.message.contains(message), "{text}: {fault}");
            assert_eq!((fault.line, fault.column), (line, column), "{fault}");
            assert!(fault.remedy.is_some(), "{fault}");
            assert!(Settings::laid_into("f", Some(text), &SetUp::default()).is_err() || text.is_empty());
        }
    }
}
