//! Jurisdiction sheets: what one state, county or province asks, as of a day. The rows
//! stand in a table; here is whose they are. The text in force decides, never the sheet.

use super::fields::{Fields, Reader};
use super::node::{Block, Item, Node, face};
use super::source::{Sources, is_day};
use super::table::{self, Tables};
use crate::quantities::System;

/// The column by which a table says from which sheet a row is.
pub const SHEET: &str = "sheet";

/// The table that rows of a sheet go into where it names none.
const TABLE: &str = "setbacks";

/// Whose rows they are, and as of when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Jurisdiction {
    /// Its name, as the column `sheet` of a table has it.
    pub name: String,
    /// The place in full.
    pub place: String,
    /// The system of units that its law is written in.
    pub law: System,
    /// The day as of which its text was read; none where it is made up for training.
    pub as_of: Option<String>,
    /// Where its rows come from.
    pub source: String,
}

impl Jurisdiction {
    /// What stands with every problem that takes a row of it.
    pub fn caution(&self) -> String {
        match &self.as_of {
            Some(day) => format!(
                "Sheet: {}, as of {day}. Check the current text.",
                self.place
            ),
            None => format!("Sheet: {}, made up for training.", self.place),
        }
    }
}

/// Reads one `[[sheet]]`, without its rows.
pub(super) fn read(
    reader: &mut Reader<'_>,
    block: &Block,
    sources: &Sources,
) -> Option<Jurisdiction> {
    let before = reader.faults.len();
    let mut fields = Fields::new(block, "the sheet");
    let name = fields.needed(reader, "sheet")?;
    fields.what = format!("sheet \"{}\"", name.text);
    let place = fields.needed(reader, "place");
    let law = fields.needed(reader, "law");
    let training = fields.truth(reader, "training").unwrap_or(false);
    let as_of = fields.text(reader, "as_of");
    let source = fields
        .needed(reader, "source")
        .map(|text| sources.cite(reader, &text));
    fields.knows(&["table", "rows"]);
    let law = law.and_then(|law| match law.text.as_str() {
        "us" => Some(System::Us),
        "si" => Some(System::Si),
        other => {
            let message = format!("a law is written in us or si units, not in \"{other}\"");
            let has = vec!["us".to_owned(), "si".to_owned()];
            reader.unknown(&law.span, message, other, has);
            None
        }
    });
    match &as_of {
        None if !training => fields.missing(reader, "as_of"),
        Some(day) if !is_day(&day.text) => reader.refuse(
            &day.span,
            format!("\"{}\" is no day", day.text),
            "write the day as of which the text was read, as 2026-11-25",
        ),
        _ => {}
    }
    fields.finish(reader);
    let sheet = Jurisdiction {
        name: name.text,
        place: place?.text,
        law: law?,
        as_of: as_of.map(|day| day.text),
        source: source?,
    };
    (reader.faults.len() == before).then_some(sheet)
}

/// Adds the rows of a `[[sheet]]` to its table, as each system of units sees them.
pub(super) fn add_rows(
    reader: &mut Reader<'_>,
    block: &Block,
    name: &str,
    tables: &mut [Tables; 2],
) {
    let mut fields = Fields::new(block, format!("sheet \"{name}\""));
    let named = fields.text(reader, "table");
    let Some(rows) = fields.list(reader, "rows") else {
        return;
    };
    let wanted = named.as_ref().map_or(TABLE, |named| named.text.as_str());
    let place = named
        .as_ref()
        .map_or_else(|| fields.place_of("rows"), |named| named.span.clone());
    for (tables, system) in tables.iter_mut().zip([System::Us, System::Si]) {
        let has: Vec<String> = tables.keys().map(ToString::to_string).collect();
        let Some(table) = tables.get_mut(wanted) else {
            let message = format!("there is no table \"{wanted}\"");
            reader.unknown(&place, message, wanted, has);
            return;
        };
        let mut grown = (**table).clone();
        if grown
            .columns
            .first()
            .is_none_or(|first| first.name != SHEET)
        {
            let message = format!("the table \"{wanted}\" does not go by sheets");
            let remedy = "name a table whose first column is \"sheet\"";
            reader.refuse(&place, message, remedy);
            return;
        }
        let beside: Vec<&str> = (grown.columns.iter().skip(1))
            .map(|column| column.name.as_str())
            .collect();
        let fits = |row: &&Node| match &row.item {
            Item::List(cells) => cells.len() == beside.len(),
            _ => true,
        };
        for row in rows.iter().filter(|row| !fits(row)) {
            let message = "this row does not have a cell for each column beside the sheet";
            let remedy = format!("write {}", beside.join(", "));
            reader.refuse(&row.span, message, &remedy);
        }
        let rows: Vec<Node> = rows
            .iter()
            .filter(fits)
            .map(|row| under(name, face(row, system)))
            .collect();
        table::add_rows(reader, &mut grown, &rows);
        *table = grown.into();
    }
}

/// A row with the name of its sheet before its cells.
fn under(name: &str, row: Node) -> Node {
    let Item::List(cells) = row.item else {
        return row;
    };
    let first = Node {
        item: Item::Text {
            text: name.to_owned(),
            places: super::places::Places::of("", &row.span, ""),
        },
        span: row.span.clone(),
    };
    Node {
        item: Item::List(std::iter::once(first).chain(cells).collect()),
        span: row.span,
    }
}
