//! An entry to rows of cells, and cells to the parts of an entry.

use std::str::FromStr;

use pumpwright_engine::cells::{harmless, perhaps, perhaps_text, text};
use pumpwright_engine::entries::{Entry, FORMAT, LineEntry, Place, Purpose};

use super::super::times;

/// The rows of an entry: one for each line, or one without a line.
pub fn of(entry: &Entry) -> Result<Vec<Vec<String>>, String> {
    let head = head(entry)?;
    let count = entry.lines.len();
    let row = |number: usize, cells: Vec<String>| {
        let mut row = head.clone();
        row.extend([count.to_string(), number.to_string()]);
        row.extend(cells);
        row
    };
    if count == 0 {
        let empty = vec![String::new(); super::columns::LINE.len() - 2];
        return Ok(vec![row(0, empty)]);
    }
    let lines = entry.lines.iter().enumerate();
    lines
        .map(|(at, line)| Ok(row(at + 1, cells_of(line)?)))
        .collect()
}

fn head(entry: &Entry) -> Result<Vec<String>, String> {
    Ok(vec![
        entry.format.to_string(),
        entry.id.to_string(),
        harmless(&entry.person),
        times::world(entry.at),
        entry.zone.to_string(),
        harmless(&entry.code),
        harmless(&entry.family),
        harmless(&entry.lesson),
        harmless(&entry.title),
        entry.level.to_string(),
        harmless(&entry.units),
        entry.purpose.name().to_owned(),
        perhaps(entry.sitting.as_deref()),
        perhaps(entry.area.as_deref()),
        entry.place.name().to_owned(),
        entry.seconds.to_string(),
        entry.marks.to_string(),
        entry.out_of.to_string(),
        harmless(&entry.program),
        serde_json::to_string(&entry.givens).map_err(|error| error.to_string())?,
    ])
}

fn cells_of(line: &LineEntry) -> Result<Vec<String>, String> {
    let yes_no = |truth| if truth { "yes" } else { "no" }.to_owned();
    let number = |number: Option<u32>| number.map(|number| number.to_string()).unwrap_or_default();
    Ok(vec![
        harmless(&line.id),
        harmless(&line.label),
        harmless(&line.typed),
        harmless(&line.expected),
        harmless(&line.verdict),
        line.right.map(yes_no).unwrap_or_default(),
        line.marks.to_string(),
        line.out_of.to_string(),
        line.helped.to_string(),
        yes_no(line.given),
        number(line.seconds),
        number(line.options.map(u32::from)),
        harmless(&line.skill),
        serde_json::to_string(&line.mistakes).map_err(|error| error.to_string())?,
    ])
}

/// A row of a file, asked for its cells by name.
pub struct Row<'a> {
    /// The cell of a column.
    pub cell: &'a dyn Fn(&str) -> &'a str,
}

impl Row<'_> {
    fn text(&self, column: &str) -> String {
        text((self.cell)(column)).to_owned()
    }

    /// What a cell holds, in words where it cannot be read.
    fn read<T: FromStr>(&self, column: &str, what: &str) -> Result<T, String> {
        let cell = (self.cell)(column).trim();
        cell.parse()
            .map_err(|_| format!("{column} is \"{}\", which is no {what}", short(cell)))
    }

    fn number<T: FromStr>(&self, column: &str) -> Result<T, String> {
        self.read(column, "whole number that fits here")
    }

    fn marks(&self, column: &str) -> Result<f64, String> {
        let number: f64 = self.read(column, "number with a decimal point")?;
        if number.is_finite() {
            Ok(number)
        } else {
            Err(format!("{column} is no number"))
        }
    }

    fn perhaps_number<T: FromStr>(&self, column: &str) -> Result<Option<T>, String> {
        if (self.cell)(column).trim().is_empty() {
            return Ok(None);
        }
        self.number(column).map(Some)
    }

    fn truth(&self, column: &str) -> Result<Option<bool>, String> {
        match (self.cell)(column).trim() {
            "" => Ok(None),
            "yes" => Ok(Some(true)),
            "no" => Ok(Some(false)),
            other => Err(format!("{column} is \"{}\", not yes or no", short(other))),
        }
    }

    fn list<T: serde::de::DeserializeOwned>(&self, column: &str) -> Result<Vec<T>, String> {
        let cell = (self.cell)(column);
        serde_json::from_str(cell)
            .map_err(|_| format!("{column} is \"{}\", which is no list in JSON", short(cell)))
    }

    fn word<T>(&self, column: &str, named: impl Fn(&str) -> Option<T>) -> Result<T, String> {
        let cell = (self.cell)(column).trim();
        named(cell).ok_or_else(|| format!("{column} is \"{}\", a word of no meaning", short(cell)))
    }

    /// The sheet that the row is about, without its lines.
    pub fn sheet(&self) -> Result<Entry, String> {
        let format: u32 = self.number("format")?;
        if format != FORMAT {
            return Err(format!(
                "it is of format {format}, this program knows {FORMAT}"
            ));
        }
        let at = (self.cell)("at");
        Ok(Entry {
            format,
            id: text((self.cell)("id"))
                .parse()
                .map_err(|fault: pumpwright_engine::entries::IdFault| fault.to_string())?,
            person: self.text("person"),
            at: times::read(text(at))
                .ok_or_else(|| format!("at is \"{}\", which is no time", short(at)))?,
            zone: self.number("zone")?,
            code: self.text("code"),
            family: self.text("family"),
            lesson: self.text("lesson"),
            title: self.text("title"),
            level: self.number("level")?,
            units: self.text("units"),
            purpose: self.word("purpose", Purpose::named)?,
            sitting: perhaps_text((self.cell)("sitting")),
            area: perhaps_text((self.cell)("area")),
            place: self.word("place", Place::named)?,
            seconds: self.number("seconds")?,
            givens: self.list("givens")?,
            lines: Vec::new(),
            marks: self.marks("marks")?,
            out_of: self.marks("out_of")?,
            program: self.text("program"),
        })
    }

    /// How many lines the sheet has, and which this is.
    pub fn place(&self) -> Result<(usize, usize), String> {
        let (lines, line) = (self.number("lines")?, self.number("line")?);
        if line > lines || (line == 0) != (lines == 0) {
            return Err(format!("it is line {line} of {lines}"));
        }
        Ok((lines, line))
    }

    /// The line that the row is about.
    pub fn line(&self) -> Result<LineEntry, String> {
        Ok(LineEntry {
            id: self.text("step"),
            label: self.text("label"),
            typed: self.text("typed"),
            expected: self.text("expected"),
            verdict: self.text("verdict"),
            right: self.truth("right")?,
            marks: self.marks("line_marks")?,
            out_of: self.marks("line_out_of")?,
            helped: self.number("helped")?,
            given: self.truth("given")?.unwrap_or(false),
            seconds: self.perhaps_number("line_seconds")?,
            options: self.perhaps_number("options")?,
            skill: self.text("skill"),
            mistakes: self.list("mistakes")?,
        })
    }
}

fn short(cell: &str) -> String {
    crate::failure::shown(cell)
}
