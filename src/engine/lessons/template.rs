//! Texts with slots: `{name}`, `{name.column}`, `{name:figure}`, `{name:side}`,
//! `{a name}`, `{list name}`. No conditions: a table column says what varies.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::ops::Range;
use std::sync::Arc;

use super::fault::nearest;
use super::printed::{Printed, and};
use crate::formulas::{Name, Table, Type, Value};
use crate::quantities::print;

/// A text whose slots are resolved.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Template {
    pieces: Vec<Piece>,
}

#[derive(Debug, Clone, PartialEq)]
enum Piece {
    Plain(String),
    Slot(Slot),
}

#[derive(Debug, Clone, PartialEq)]
struct Slot {
    names: Vec<Place>,
    form: Form,
    article: Option<Article>,
}

/// A value that a slot prints: a name, or a column of the row that it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Place {
    slot: usize,
    column: Option<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Full,
    Figure,
    Side,
    List,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Article {
    Small,
    Capital,
}

/// What is wrong with a slot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct SlotFault {
    pub span: Range<usize>,
    pub message: String,
    pub has: Vec<String>,
    pub remedy: String,
}

/// What slots may name.
#[derive(Clone, Copy)]
pub(super) struct SlotScope<'a> {
    pub names: &'a [Name],
    pub tables: &'a BTreeMap<Arc<str>, Arc<Table>>,
}

impl Template {
    /// A text without slots.
    pub fn plain(text: &str) -> Self {
        Self {
            pieces: vec![Piece::Plain(text.to_owned())],
        }
    }

    pub(super) fn parse(text: &str, scope: SlotScope<'_>) -> Result<Self, SlotFault> {
        let mut pieces = Vec::new();
        let mut at = 0;
        while let Some(open) = text.get(at..).and_then(|rest| rest.find(['{', '}'])) {
            let open = at + open;
            let close = text
                .get(open..)
                .and_then(|rest| rest.find('}'))
                .map(|end| open + end);
            let (true, Some(close)) = (text.get(open..).is_some_and(|r| r.starts_with('{')), close)
            else {
                return Err(SlotFault {
                    span: open..open + 1,
                    message: "a brace stands alone".into(),
                    has: Vec::new(),
                    remedy: "write a slot as {name}, or take the brace out".into(),
                });
            };
            push_plain(&mut pieces, text.get(at..open).unwrap_or_default());
            let inside = text.get(open + 1..close).unwrap_or_default();
            pieces.push(Piece::Slot(parse_slot(inside, open + 1, scope)?));
            at = close + 1;
        }
        push_plain(&mut pieces, text.get(at..).unwrap_or_default());
        Ok(Self { pieces })
    }

    /// The slots that it prints.
    pub fn slots(&self) -> impl Iterator<Item = usize> + '_ {
        self.places().map(|place| place.slot)
    }

    /// The columns that it prints of the row in a slot, in the order of the text.
    pub fn columns(&self, slot: usize) -> impl Iterator<Item = usize> + '_ {
        let of_row = self.places().filter(move |place| place.slot == slot);
        of_row.filter_map(|place| place.column)
    }

    fn places(&self) -> impl Iterator<Item = &Place> + '_ {
        self.pieces
            .iter()
            .filter_map(|piece| match piece {
                Piece::Slot(slot) => Some(slot.names.iter()),
                Piece::Plain(_) => None,
            })
            .flatten()
    }

    /// The text with the values put in.
    pub fn render(&self, names: &[Name], values: &[Option<Value>]) -> String {
        let mut out = String::new();
        for piece in &self.pieces {
            match piece {
                Piece::Plain(text) => out.push_str(text),
                Piece::Slot(slot) => {
                    let text = render_slot(slot, names, values);
                    match slot.article {
                        Some(Article::Small) => {
                            let _ = write!(out, "{} {text}", print::article(&text));
                        }
                        Some(Article::Capital) => {
                            let _ = write!(out, "{} {text}", capital(print::article(&text)));
                        }
                        None => out.push_str(&text),
                    }
                }
            }
        }
        out
    }
}

fn push_plain(pieces: &mut Vec<Piece>, text: &str) {
    if !text.is_empty() {
        pieces.push(Piece::Plain(text.to_owned()));
    }
}

fn parse_slot(inside: &str, start: usize, scope: SlotScope<'_>) -> Result<Slot, SlotFault> {
    let mut rest = inside;
    let mut form = Form::Full;
    let mut article = None;
    for (word, small) in [("a ", Article::Small), ("A ", Article::Capital)] {
        if let Some(after) = rest.strip_prefix(word) {
            article = Some(small);
            rest = after;
        }
    }
    if let Some(after) = rest.strip_prefix("list ") {
        form = Form::List;
        rest = after;
    }
    if let Some((path, wanted)) = rest.rsplit_once(':') {
        form = match wanted {
            "figure" => Form::Figure,
            "side" => Form::Side,
            _ => {
                return Err(SlotFault {
                    span: start..start + inside.len(),
                    message: format!("a slot has no form \"{wanted}\""),
                    has: vec!["figure".into(), "side".into()],
                    remedy: "write {name}, {name:figure} or {name:side}".into(),
                });
            }
        };
        rest = path;
    }
    let mut names = Vec::new();
    for path in rest.split(',') {
        let path = path.trim();
        let offset = start + (path.as_ptr() as usize).saturating_sub(inside.as_ptr() as usize);
        names.push(find(path, offset, scope)?);
    }
    Ok(Slot {
        names,
        form,
        article,
    })
}

fn find(path: &str, offset: usize, scope: SlotScope<'_>) -> Result<Place, SlotFault> {
    let span = offset..offset + path.len();
    let position = |wanted: &str| scope.names.iter().position(|name| name.name == wanted);
    if let Some(slot) = position(path) {
        return Ok(Place { slot, column: None });
    }
    if let Some((name, column)) = path.split_once('.')
        && let Some(slot) = position(name)
    {
        let Some(Type::Row(table)) = scope.names.get(slot).map(|name| &name.holds) else {
            return Err(SlotFault {
                span,
                message: format!("\"{name}\" is no row, so it has no column \"{column}\""),
                has: Vec::new(),
                remedy: format!("write {{{name}}}"),
            });
        };
        let columns = scope
            .tables
            .get(table)
            .map(|table| table.columns.as_slice());
        let columns = columns.unwrap_or_default();
        let found = columns.iter().position(|known| known.name == column);
        return match found {
            Some(column) => Ok(Place {
                slot,
                column: Some(column),
            }),
            None => Err(SlotFault {
                span,
                message: format!("the table {table} has no column \"{column}\""),
                has: columns.iter().map(|known| known.name.clone()).collect(),
                remedy: "write the name of a column".into(),
            }),
        };
    }
    if path.is_empty() {
        return Err(SlotFault {
            span,
            message: "the slot names nothing".into(),
            has: Vec::new(),
            remedy: "write the name of a given between the braces".into(),
        });
    }
    let near = nearest(path, scope.names.iter().map(|name| name.name.as_str()));
    let givens = scope
        .names
        .iter()
        .filter(|name| !name.name.starts_with("rule."));
    Err(SlotFault {
        span,
        message: format!("the slot names \"{path}\", which this text does not have"),
        has: givens.map(|name| name.name.clone()).collect(),
        remedy: match near.first() {
            Some(best) => format!("write {{{best}}}"),
            None => "write the name of a given".into(),
        },
    })
}

fn render_slot(slot: &Slot, names: &[Name], values: &[Option<Value>]) -> String {
    let printed = |place: &Place| Printed::of(place.slot, place.column, names, values);
    if slot.form == Form::List {
        let parts = slot.names.iter().filter_map(printed);
        let parts = parts
            .filter(|part| !part.is_nothing())
            .map(|part| part.text());
        return and(&parts.collect::<Vec<_>>());
    }
    let Some(printed) = slot.names.first().and_then(printed) else {
        return String::new();
    };
    match slot.form {
        Form::Figure => printed.figure(),
        Form::Side => printed.side(),
        Form::Full | Form::List => printed.text(),
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
