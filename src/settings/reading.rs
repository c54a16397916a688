//! From the tables of a settings file to settings, every fault with its place.

use std::ops::Range;

use pumpwright_engine::lessons::{Fault, SourceFile, nearest};
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{Checked, Date, SetUp, Signs};
use toml_edit::{Item, Key, Table};

use super::file::{FORMAT, HouseRule, Read, Settings};

/// The names that the file may hold.
const NAMES: [&str; 9] = [
    "format", "name", "units", "decimal", "signs", "checked", "exam", "class", "rules",
];

/// The systems of units, as the file writes them.
pub const UNITS: [(&str, System); 2] = [("US", System::Us), ("SI", System::Si)];
/// The decimal signs, as the file writes them.
pub const DECIMALS: [(&str, DecimalSign); 2] =
    [(".", DecimalSign::Point), (",", DecimalSign::Comma)];
/// The signs on the screen, as the file writes them.
pub const SIGNS: [(&str, Signs); 2] = [
    (Signs::Drawn.words(), Signs::Drawn),
    (Signs::Ascii.words(), Signs::Ascii),
];
/// When a sheet is checked, as the file writes it.
pub const CHECKED: [(&str, Checked); 2] = [
    (Checked::Whole.words(), Checked::Whole),
    (Checked::LineByLine.words(), Checked::LineByLine),
];

/// Reads the tables of one file.
pub struct Reader<'a> {
    /// The file.
    pub source: &'a SourceFile,
}

impl Reader<'_> {
    /// Everything that the file sets.
    pub fn settings(&self, table: &Table) -> Read<Settings> {
        self.format(table)?;
        self.known(table)?;
        let set = SetUp {
            name: self.text(table, "name")?,
            units: self.one_of(table, "units", &UNITS)?,
            decimal: self.one_of(table, "decimal", &DECIMALS)?,
            signs: self.one_of(table, "signs", &SIGNS)?,
            checked: self.one_of(table, "checked", &CHECKED)?,
            exam: self.date(table, "exam")?,
            class: self.text(table, "class")?,
        };
        let mut rules = Vec::new();
        match table.get("rules") {
            None => {}
            Some(Item::Table(under)) => self.rules("", under, &mut rules)?,
            Some(item) => {
                let remedy = "write [rules], and each rule on a line under it";
                return Err(self.refuse(item, "the setting \"rules\" is no table", remedy));
            }
        }
        Ok(Settings { set, rules })
    }

    fn fault(&self, span: Option<Range<usize>>, message: impl Into<String>) -> Fault {
        Fault::at(self.source, &span.unwrap_or(0..0), message)
    }

    fn refuse(&self, item: &Item, message: impl Into<String>, remedy: &str) -> Box<Fault> {
        Box::new(self.fault(item.span(), message).remedy(remedy))
    }

    fn format(&self, table: &Table) -> Read<()> {
        let Some(item) = table.get("format") else {
            let fault = self.fault(None, "the file does not say its format");
            return Err(Box::new(fault.remedy("write format = 1 as its first line")));
        };
        match item.as_integer() {
            Some(FORMAT) => Ok(()),
            Some(other) => Err(self.refuse(
                item,
                format!(
                    "this file is written in format {other}; this program reads format {FORMAT}"
                ),
                "use a newer program, or name another file with --settings",
            )),
            None => Err(self.refuse(item, "the format is no whole number", "write format = 1")),
        }
    }

    fn known(&self, table: &Table) -> Read<()> {
        let Some((name, _)) = table.iter().find(|(name, _)| !NAMES.contains(name)) else {
            return Ok(());
        };
        let span = table.key(name).and_then(Key::span);
        let has = NAMES.iter().map(|name| (*name).to_owned()).collect();
        let fault = self.fault(span, format!("there is no setting \"{name}\""));
        let remedy = match nearest(name, NAMES).first() {
            Some(near) => format!("write \"{near}\""),
            None => "take the line out".to_owned(),
        };
        Err(Box::new(fault.having(has).remedy(remedy)))
    }

    fn text(&self, table: &Table, name: &str) -> Read<Option<String>> {
        let Some(item) = table.get(name) else {
            return Ok(None);
        };
        let text = item.as_str().map(str::to_owned);
        text.map(Some).ok_or_else(|| {
            let message = format!("the setting \"{name}\" is no text");
            self.refuse(item, message, "write it in quotes")
        })
    }

    fn date(&self, table: &Table, name: &str) -> Read<Option<Date>> {
        let Some(text) = self.text(table, name)? else {
            return Ok(None);
        };
        let read = pumpwright_screens::read_date(&text);
        read.map(Some).ok_or_else(|| {
            let item = table.get(name).unwrap_or(&Item::None);
            let message = format!("the setting \"{name}\" is no day");
            self.refuse(
                item,
                message,
                "write year, month, day, as in \"2027-03-15\"",
            )
        })
    }

    fn one_of<T: Copy>(&self, table: &Table, name: &str, all: &[(&str, T)]) -> Read<Option<T>> {
        let Some(text) = self.text(table, name)? else {
            return Ok(None);
        };
        let found = all.iter().find(|(words, _)| alike(words, &text));
        if let Some((_, value)) = found {
            return Ok(Some(*value));
        }
        let span = table.get(name).and_then(Item::span);
        let has = all.iter().map(|(words, _)| (*words).to_owned()).collect();
        let fault = self.fault(span, format!("the setting {name} has no value \"{text}\""));
        let fault = fault.having(has);
        Err(Box::new(
            fault.remedy("write one of them, or take the line out"),
        ))
    }

    /// House rules: `"tank.precharge_below" = "3 psi"`, or with the dot as TOML's own.
    fn rules(&self, before: &str, table: &Table, rules: &mut Vec<HouseRule>) -> Read<()> {
        for (name, item) in table {
            let name = match before {
                "" => name.to_owned(),
                _ => format!("{before}.{name}"),
            };
            if let Item::Table(under) = item {
                self.rules(&name, under, rules)?;
                continue;
            }
            let Some(value) = item.as_str().map(str::to_owned) else {
                let message = format!("the house rule {name} is no text");
                let remedy = "write its value in quotes, as in \"3 psi\"";
                return Err(self.refuse(item, message, remedy));
            };
            let place = item.span().unwrap_or(0..0);
            rules.push(HouseRule { name, value, place });
        }
        Ok(())
    }
}

/// Capitals, blanks and hyphens do not count.
fn alike(one: &str, other: &str) -> bool {
    let plain = |text: &str| -> String {
        let signs = text.trim().chars();
        signs
            .filter(|sign| !matches!(sign, ' ' | '-' | '_'))
            .flat_map(char::to_lowercase)
            .collect()
    };
    plain(one) == plain(other)
}
