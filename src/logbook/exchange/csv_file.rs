//! The CSV file: its head, its rows, and rows back to sheets in whatever order they
//! come. Columns go by their names; others, and their order, do not matter.

use std::collections::BTreeMap;

use csv::{ReaderBuilder, StringRecord, WriterBuilder};
use pumpwright_engine::cells::separator;
use pumpwright_engine::entries::{Entry, Id, LineEntry};

use super::{Fault, Sheet, columns, rows};

/// What a file of these begins with. The mark before it tells a spreadsheet that
/// accents are UTF-8.
pub const BEGINS: &str = "\u{feff}format,id,person,";

/// The file.
pub fn write(sheets: &[Sheet]) -> Result<String, String> {
    let mut writer = WriterBuilder::new().from_writer(Vec::new());
    let failed = |error: csv::Error| error.to_string();
    writer.write_record(columns::all()).map_err(failed)?;
    for sheet in sheets {
        for row in rows::of(&sheet.entry)? {
            writer.write_record(&row).map_err(failed)?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    let text = String::from_utf8(bytes).map_err(|error| error.to_string())?;
    Ok(format!("\u{feff}{text}"))
}

/// The sheets, in the order of their ids.
pub fn read(text: &str) -> Result<Vec<Sheet>, Vec<Fault>> {
    let mut reader = ReaderBuilder::new()
        .delimiter(separator(text))
        .flexible(true)
        .from_reader(text.as_bytes());
    let head = reader.headers().map_err(|error| vec![unread(1, &error)])?;
    let places = places(head)?;
    let mut reading = Reading::default();
    for record in reader.records() {
        match record {
            Ok(record) => reading.take(&record, &places),
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                reading.faults.push(unread(line, &error));
            }
        }
    }
    reading.finish()
}

/// Where each column stands.
fn places(head: &StringRecord) -> Result<BTreeMap<&'static str, usize>, Vec<Fault>> {
    let mut places = BTreeMap::new();
    let mut missing = Vec::new();
    for name in columns::all() {
        match head.iter().position(|cell| cell.trim() == name) {
            Some(place) => {
                places.insert(name, place);
            }
            None => missing.push(name),
        }
    }
    if missing.is_empty() {
        return Ok(places);
    }
    Err(vec![Fault {
        line: 1,
        message: format!("it has no column {}", missing.join(", ")),
        remedy: "use a file that `pumpwright logbook export` wrote, with its first line".to_owned(),
    }])
}

fn unread(line: u64, error: &csv::Error) -> Fault {
    Fault {
        line,
        message: format!("it is no row of cells ({error})"),
        remedy: REMEDY.to_owned(),
    }
}

const REMEDY: &str = "mend it, or take the rows of this sheet out";

/// A sheet of which rows came.
struct Begun {
    entry: Entry,
    count: usize,
    first: u64,
    lines: BTreeMap<usize, LineEntry>,
}

#[derive(Default)]
struct Reading {
    begun: BTreeMap<Id, Begun>,
    faults: Vec<Fault>,
}

impl Reading {
    fn take(&mut self, record: &StringRecord, places: &BTreeMap<&'static str, usize>) {
        let line = record.position().map_or(0, csv::Position::line);
        let widest = places.values().max().copied().unwrap_or(0);
        let done = if record.len() <= widest {
            Err("cells are missing at its end".to_owned())
        } else {
            let cell = |name: &str| {
                let place = places.get(name).copied().unwrap_or(usize::MAX);
                record.get(place).unwrap_or_default()
            };
            self.row(&rows::Row { cell: &cell }, line)
        };
        if let Err(message) = done {
            self.faults.push(Fault {
                line,
                message,
                remedy: REMEDY.to_owned(),
            });
        }
    }

    fn row(&mut self, row: &rows::Row, at: u64) -> Result<(), String> {
        let entry = row.sheet()?;
        let (count, number) = row.place()?;
        let line = match number {
            0 => None,
            _ => Some(row.line()?),
        };
        let begun = self.begun.entry(entry.id).or_insert_with(|| Begun {
            entry: entry.clone(),
            count,
            first: at,
            lines: BTreeMap::new(),
        });
        let differs = begun.entry != entry || begun.count != count;
        if differs {
            return Err(format!(
                "it has the id of line {}, but differs from it",
                begun.first
            ));
        }
        let Some(line) = line else { return Ok(()) };
        match begun.lines.insert(number, line.clone()) {
            Some(before) if before != line => {
                Err(format!("line {number} of this sheet came before"))
            }
            _ => Ok(()),
        }
    }

    fn finish(mut self) -> Result<Vec<Sheet>, Vec<Fault>> {
        let mut sheets = Vec::new();
        for begun in self.begun.into_values() {
            let fault = |message: String| Fault {
                line: begun.first,
                message,
                remedy: REMEDY.to_owned(),
            };
            // Where a row of it was refused, that it is missing needs no saying.
            if begun.lines.len() != begun.count && self.faults.is_empty() {
                let (has, of) = (begun.lines.len(), begun.count);
                let message = format!("its sheet has {has} of its {of} lines here");
                self.faults.push(fault(message));
                continue;
            }
            let mut entry = begun.entry.clone();
            entry.lines = begun.lines.values().cloned().collect();
            match Sheet::known(entry) {
                Ok(sheet) => sheets.push(sheet),
                Err(message) => self.faults.push(fault(message)),
            }
        }
        if self.faults.is_empty() {
            Ok(sheets)
        } else {
            Err(self.faults)
        }
    }
}
