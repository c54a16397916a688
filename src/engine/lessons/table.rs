//! Tables of a lesson library: read from their files, one face for each system.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::compile::is_name;
use super::fields::{Fields, Reader, text};
use super::node::{Block, Item, Node, face, face_of_block};
use super::source::Sources;
use crate::formulas::{Column, Table, Type, Value};
use crate::quantities::{Dimension, Quantity, System, Unit};

/// What the name of a table or a column may be.
const NAME: &str = "write small letters, digits and _, beginning with a letter";

/// What stands in place of a unit over a column of words.
pub(super) const WORD: &str = "word";

/// What stands in place of a unit over a column of plain numbers.
const NUMBER: &str = "number";

/// The most rows that a table may have.
const ROWS: usize = 500;

/// The tables as one system of units sees them.
pub type Tables = BTreeMap<Arc<str>, Arc<Table>>;

/// What is said about a table beside its rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableNote {
    /// Its name in formulas.
    pub name: String,
    /// The heading over it.
    pub title: String,
    /// Where its figures come from.
    pub source: String,
    /// Whether it is quoted from memory.
    pub from_memory: bool,
    /// Whether its figures are made for training.
    pub training: bool,
    /// What of it the book leaves out.
    pub hidden: Hidden,
}

/// What of a table the book leaves out: it would give an answer away.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Hidden {
    /// Whether the whole table is left out.
    pub whole: bool,
    /// The names of columns.
    pub columns: Vec<String>,
}

/// Reads one `[[table]]` as one system of units sees it.
pub(super) fn read(
    reader: &mut Reader<'_>,
    block: &Block,
    system: System,
    sources: &Sources,
) -> Option<(Table, TableNote)> {
    let block = face_of_block(block, system);
    let mut fields = Fields::new(&block, "the table");
    let name = fields.needed(reader, "table")?;
    if !is_name(&name.text) {
        let message = format!("\"{}\" cannot be the name of a table", name.text);
        reader.refuse(&name.span, message, NAME);
    }
    fields.what = format!("table \"{}\"", name.text);
    let key = fields.needed(reader, "names");
    let columns = read_columns(reader, &mut fields)?;
    let mut rows = read_rows(reader, &mut fields, &columns, system);
    let decoys = fields.list(reader, "decoys").unwrap_or_default();
    let decoys: Vec<Row> = (decoys.iter())
        .filter_map(|row| read_row(reader, row, &columns))
        .collect();
    let decoy_count = decoys.len();
    rows.extend(decoys);
    if rows.len() > ROWS {
        let message = format!(
            "{} has {} rows with its decoys; a table has 1 to {ROWS}",
            fields.what,
            rows.len()
        );
        reader.refuse(&fields.place_of("decoys"), message, "write fewer");
    }
    let (rows, places) = rows.into_iter().unzip();
    let hidden = read_hidden(reader, &mut fields, &columns);
    let source = fields
        .needed(reader, "source")
        .map_or_else(String::new, |text| sources.cite(reader, &text));
    let note = TableNote {
        title: fields
            .string(reader, "title")
            .unwrap_or_else(|| name.text.replace('_', " ")),
        name: name.text.clone(),
        source,
        from_memory: fields.truth(reader, "from_memory").unwrap_or(false),
        training: fields.truth(reader, "training").unwrap_or(false),
        hidden,
    };
    fields.string(reader, "note");
    fields.finish(reader);
    let key = key?;
    let Some(at) = columns.iter().position(|column| column.name == key.text) else {
        let message = format!(
            "table \"{}\" goes by \"{}\", which is no column",
            name.text, key.text
        );
        let has = columns.into_iter().map(|column| column.name).collect();
        reader.unknown(&key.span, message, &key.text, has);
        return None;
    };
    if columns.get(at).is_some_and(Column::is_number) {
        let message = format!(
            "table \"{}\" goes by \"{}\", which holds plain numbers",
            name.text, key.text
        );
        let remedy = "give the column a unit, such as a noun of what it counts, or make it words";
        reader.refuse(&key.span, message, remedy);
        return None;
    }
    Some((
        Table {
            name: name.text.as_str().into(),
            key: at,
            columns,
            rows,
            places,
            decoys: decoy_count,
        },
        note,
    ))
}

fn read_columns(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Vec<Column>> {
    if !fields.has("columns") {
        fields.missing(reader, "columns");
    }
    let list = fields.list(reader, "columns")?;
    let mut columns: Vec<Column> = Vec::new();
    for node in list {
        let column = read_column(reader, node)?;
        let taken = columns.iter().any(|known| known.name == column.name);
        if taken || !is_name(&column.name) {
            let why = if taken {
                "is the name of two columns"
            } else {
                "cannot be the name of a column"
            };
            let message = format!("\"{}\" {why}", column.name);
            let remedy = if taken {
                "give one of them another name"
            } else {
                NAME
            };
            reader.refuse(&node.span, message, remedy);
            return None;
        }
        columns.push(column);
    }
    Some(columns)
}

fn read_column(reader: &mut Reader<'_>, node: &Node) -> Option<Column> {
    let parts: Vec<_> = match &node.item {
        Item::List(items) => items.iter().filter_map(text).collect(),
        _ => Vec::new(),
    };
    let [name, unit, label @ ..] = parts.as_slice() else {
        reader.refuse(
            &node.span,
            "a column is a list of its name, its unit, \"word\" or \"number\", and a label if it has one",
            "write [\"name\", \"unit\"]",
        );
        return None;
    };
    let label = label
        .first()
        .map_or_else(|| name.text.replace('_', " "), |label| label.text.clone());
    if unit.text == WORD {
        return Some(Column {
            name: name.text.clone(),
            label,
            holds: Type::Word,
            unit: None,
        });
    }
    if unit.text == NUMBER {
        return Some(Column {
            name: name.text.clone(),
            label,
            holds: Type::Quantity(Dimension::NONE),
            unit: None,
        });
    }
    let unit = read_unit(reader, unit)?;
    Some(Column {
        name: name.text.clone(),
        label,
        holds: type_of_unit(&unit),
        unit: Some(unit),
    })
}

/// Reads a unit where the lesson names one.
pub(super) fn read_unit(reader: &mut Reader<'_>, text: &super::fields::Text) -> Option<Unit> {
    match Unit::parse(&text.text) {
        Ok(unit) => Some(unit),
        Err(unknown) => {
            let message = format!("\"{}\" is no unit known here", text.text);
            let place = text.place(&(0..text.text.len()));
            let fault = reader.fault(&place, message);
            fault.remedy = Some("write a unit as the trade does: psi, gal/min, ohm/100ft".into());
            fault.has = unknown.near;
            None
        }
    }
}

/// Refuses a pair of units for two kinds of thing; an unknown unit is told of where it is read.
pub(super) fn one_kind_of_unit(reader: &mut Reader<'_>, node: &Node) {
    let faces = [System::Us, System::Si].map(|system| {
        let text = text(&face(node, system))?;
        // Not even tried: looking for the units nearest to a word takes long.
        if text.text == WORD || text.text == NUMBER {
            return None;
        }
        Unit::parse(&text.text).ok()
    });
    let [Some(us), Some(si)] = faces else {
        return;
    };
    if type_of_unit(&us) != type_of_unit(&si) {
        let message = format!(
            "{} and {} are units of two kinds of thing",
            us.symbol(),
            si.symbol()
        );
        let remedy = "write one unit, or two for the same kind of thing";
        reader.refuse(&node.span, message, remedy);
    }
}

/// The type of a figure written in a unit.
pub(super) fn type_of_unit(unit: &Unit) -> Type {
    if unit.is_point() {
        Type::Temperature
    } else {
        Type::Quantity(unit.dimension())
    }
}

/// The cells of a row, and the decimals with which each is written.
type Row = (Vec<Value>, Vec<usize>);

fn read_rows(
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
    columns: &[Column],
    system: System,
) -> Vec<Row> {
    let own = if system == System::Us {
        "rows_us"
    } else {
        "rows_si"
    };
    let shared = fields.list(reader, "rows");
    let faces = (
        fields.list(reader, "rows_us"),
        fields.list(reader, "rows_si"),
    );
    let beside = match system {
        System::Us => faces.0,
        System::Si => faces.1,
    };
    let list = match (shared, beside) {
        (Some(_), Some(_)) => {
            let message = format!("{} has both \"rows\" and \"{own}\"", fields.what);
            reader.refuse(&fields.place_of(own), message, "keep one of the two");
            return Vec::new();
        }
        (Some(list), None) | (None, Some(list)) => list,
        (None, None) if fields.has("rows") || fields.has(own) => return Vec::new(),
        (None, None) if fields.has("rows_us") || fields.has("rows_si") => {
            fields.missing(reader, own);
            return Vec::new();
        }
        (None, None) => {
            fields.missing(reader, "rows");
            return Vec::new();
        }
    };
    if list.is_empty() || list.len() > ROWS {
        let message = format!(
            "{} has {} rows; a table has 1 to {ROWS}",
            fields.what,
            list.len()
        );
        let place = fields.place_of(if fields.has("rows") { "rows" } else { own });
        reader.refuse(&place, message, "write its rows, or make two tables of it");
        return Vec::new();
    }
    list.iter()
        .filter_map(|row| read_row(reader, row, columns))
        .collect()
}

/// Adds rows to a table that was read before.
pub(super) fn add_rows(reader: &mut Reader<'_>, table: &mut Table, rows: &[Node]) {
    for node in rows {
        if table.rows.len() >= ROWS {
            let message = format!("the table \"{}\" has {ROWS} rows already", table.name);
            reader.refuse(&node.span, message, "take rows out");
            return;
        }
        if let Some((cells, places)) = read_row(reader, node, &table.columns) {
            table.rows.push(cells);
            table.places.push(places);
        }
    }
}

fn read_row(reader: &mut Reader<'_>, node: &Node, columns: &[Column]) -> Option<Row> {
    let Item::List(cells) = &node.item else {
        reader.refuse(&node.span, "a row is a list of its cells", "write [ … ]");
        return None;
    };
    if cells.len() != columns.len() {
        let message = format!(
            "this row has {} cells for {} columns",
            cells.len(),
            columns.len()
        );
        reader.refuse(&node.span, message, "write one cell for each column");
        return None;
    }
    let places = cells
        .iter()
        .map(|cell| figure(cell).map_or(0, |(_, places)| places));
    let places = places.collect();
    let values: Option<Vec<Value>> = cells
        .iter()
        .zip(columns)
        .map(|(cell, column)| read_cell(reader, cell, column))
        .collect();
    values.map(|values| (values, places))
}

fn read_cell(reader: &mut Reader<'_>, cell: &Node, column: &Column) -> Option<Value> {
    if column.holds == Type::Word {
        let word = text(cell);
        if word.is_none() {
            let message = format!("the column \"{}\" holds words", column.name);
            reader.refuse(&cell.span, message, "write the word in quotes");
        }
        return word.map(|word| Value::Word(word.text.as_str().into()));
    }
    let Some((value, _)) = figure(cell) else {
        let message = format!("the column \"{}\" holds figures", column.name);
        let remedy = match column.unit {
            Some(_) => "write a number alone; its unit stands in the head of the column",
            None => "write a number alone",
        };
        reader.refuse(&cell.span, message, remedy);
        return None;
    };
    Some(match &column.unit {
        Some(unit) => quantity(value, unit),
        None => Value::Number(Quantity::plain(value)),
    })
}

/// Reads what the book leaves out: all of the table, or some of its columns.
fn read_hidden(reader: &mut Reader<'_>, fields: &mut Fields<'_>, columns: &[Column]) -> Hidden {
    let Some(node) = fields.node("hidden") else {
        return Hidden::default();
    };
    let mut hidden = Hidden::default();
    let names = match &node.item {
        Item::Truth(whole) => {
            hidden.whole = *whole;
            return hidden;
        }
        Item::List(names) => names,
        other => {
            let message = format!("\"hidden\" of {} is {}", fields.what, other.kind());
            let remedy = "write true for the whole table, or a list of its columns";
            reader.refuse(&node.span, message, remedy);
            return hidden;
        }
    };
    for item in names {
        let name = text(item).map(|name| name.text).unwrap_or_default();
        if columns.iter().any(|column| column.name == name) {
            hidden.columns.push(name);
        } else {
            let has = columns.iter().map(|column| column.name.clone()).collect();
            let message = format!("{} has no column \"{name}\" to hide", fields.what);
            reader.unknown(&item.span, message, &name, has);
        }
    }
    hidden
}

/// A value of so many of a unit.
pub(super) fn quantity(value: f64, unit: &Unit) -> Value {
    Value::Number(Quantity::new(unit.to_si(value), unit.dimension()))
}

/// A figure, written as a number or as one face of a pair, with its decimals.
pub(super) fn figure(node: &Node) -> Option<(f64, usize)> {
    let digits = match &node.item {
        Item::Number { digits, .. } => digits.replace('_', ""),
        Item::Text { text, .. } => text.clone(),
        _ => return None,
    };
    let plain = digits.trim_start_matches(['-', '+']);
    if plain.is_empty() || !plain.chars().all(|c| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let value: f64 = digits.parse().ok()?;
    let decimals = digits
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    Some((value, decimals))
}
