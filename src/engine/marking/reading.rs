//! Reading what was typed at a line, as the line asks for it.

use super::choices::{read_match, read_order, read_pick};
use crate::formulas::{Row, Table, Value};
use crate::problems::judge::row_by_figure;
use crate::problems::{Asks, Line, Problem};
use crate::quantities::{DecimalSign, Quantity, Reading, Unit, echo, print, read_for};

/// How answers are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Manner {
    /// The sign that parts the decimals.
    pub decimal: DecimalSign,
}

/// The longest answer that is read.
const LONGEST: usize = 400;

/// What a typed answer says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Said {
    /// A figure; `unit` is the one written.
    Figure {
        quantity: Quantity,
        bare: f64,
        unit: Option<Unit>,
    },
    /// A row of the table that the step finds.
    Row(Row),
    /// An offer, by its place.
    Pick(usize),
    /// For each job shown its number; none for one left out.
    Order(Vec<Option<usize>>),
    /// For each part the place of its meaning; none for one left open.
    Match(Vec<Option<usize>>),
}

/// What a response says in values, each with the place of its step: figures, rows and
/// offers. Lines left empty, arrangements and what cannot be read are left out, and so
/// is a figure of a wrong kind.
pub fn written_values(
    problem: &Problem,
    response: &super::Response,
    manner: Manner,
) -> Vec<(usize, Value)> {
    let typed = |id: &str| {
        let found = response.answers.iter().find(|(line, _)| line == id);
        found.map(|(_, typed)| typed.trim())
    };
    let value = |line: &Line| {
        let typed = typed(&line.id).filter(|typed| !typed.is_empty())?;
        match read(problem, line, typed, manner).ok()? {
            Said::Figure { quantity, .. } => {
                let right = problem.value(line.step)?;
                let alike = match right {
                    Value::Number(right) => right.dimension == quantity.dimension,
                    _ => true,
                };
                alike.then_some(Value::Number(quantity))
            }
            Said::Row(row) => Some(Value::Row(row)),
            Said::Pick(place) => match &line.asks {
                Asks::Pick { offers, .. } => Some(offers.get(place)?.value.clone()),
                _ => None,
            },
            Said::Order(_) | Said::Match(_) => None,
        }
    };
    let lines = problem.lines.iter();
    lines
        .filter_map(|line| Some((line.step, value(line)?)))
        .collect()
}

/// Reads an answer, or says what can be read.
pub(super) fn read(
    problem: &Problem,
    line: &Line,
    typed: &str,
    manner: Manner,
) -> Result<Said, String> {
    if typed.len() > LONGEST {
        return Err("cannot read this: it is too long for a line of the sheet".to_owned());
    }
    match &line.asks {
        Asks::Nothing => Err("this line is not asked".to_owned()),
        Asks::Figure => read_figure(line, typed, manner),
        Asks::Row => read_row(problem, line, typed, manner),
        Asks::Pick { offers, .. } => {
            let offers = offers
                .iter()
                .map(|own| (own.mark.as_str(), own.text.as_str()));
            read_pick(typed, &offers.collect::<Vec<_>>()).map(Said::Pick)
        }
        Asks::Order { cards } => read_order(typed, cards.len()).map(Said::Order),
        Asks::Match { parts, meanings } => {
            let marks: Vec<&str> = meanings.iter().map(|offer| offer.mark.as_str()).collect();
            read_match(typed, parts.len(), &marks).map(Said::Match)
        }
    }
}

fn read_figure(line: &Line, typed: &str, manner: Manner) -> Result<Said, String> {
    let Some(unit) = &line.unit else {
        return Err("this line has no unit to read a figure in".to_owned());
    };
    let reading = read_for(typed, manner.decimal, unit).map_err(|cannot| cannot.to_string())?;
    Ok(figure(&reading, unit))
}

fn figure(reading: &Reading, asked: &Unit) -> Said {
    Said::Figure {
        quantity: reading.quantity(asked),
        bare: reading.number,
        unit: reading.unit.clone(),
    }
}

fn read_row(problem: &Problem, line: &Line, typed: &str, manner: Manner) -> Result<Said, String> {
    let Some(table) = problem.variant.row_tables.get(&line.step) else {
        return Err("this line has no table to read an answer in".to_owned());
    };
    if let Some(row) = row_by_name(table, typed) {
        return Ok(Said::Row(row));
    }
    let unit = table
        .columns
        .get(table.key)
        .and_then(|column| column.unit.as_ref());
    let Some(unit) = unit else {
        let names: Vec<String> = keys(table).map(|(_, name)| name).take(8).collect();
        return Err(format!(
            "cannot read {} as one of {}",
            echo(typed),
            names.join(", ")
        ));
    };
    let reading = read_for(typed, manner.decimal, unit).map_err(|cannot| cannot.to_string())?;
    let said = figure(&reading, unit);
    if let Said::Figure { quantity, .. } = &said
        && let Some(row) = row_by_figure(Some(table), *quantity)
    {
        return Ok(Said::Row(row));
    }
    Ok(said)
}

/// The rows of a table by the words that they go by.
fn keys(table: &std::sync::Arc<Table>) -> impl Iterator<Item = (usize, String)> + '_ {
    table
        .rows
        .iter()
        .enumerate()
        .filter_map(|(at, row)| match row.get(table.key) {
            Some(Value::Word(word)) => Some((at, word.to_string())),
            _ => None,
        })
}

/// A row by its name, or by the figures in its name where only one row has them.
fn row_by_name(table: &std::sync::Arc<Table>, typed: &str) -> Option<Row> {
    let row = |index| Row {
        table: std::sync::Arc::clone(table),
        index,
    };
    let wanted = letters(typed);
    if wanted.is_empty() {
        return None;
    }
    if let Some((at, _)) = keys(table).find(|(_, name)| letters(name) == wanted) {
        return Some(row(at));
    }
    let figures = |text: &str| -> String {
        text.chars()
            .filter(|c| c.is_ascii_digit() || matches!(c, '.' | '/'))
            .collect()
    };
    let wanted = figures(typed);
    let plain = typed.trim().trim_start_matches(['#', ' ']);
    if wanted.is_empty() || plain != wanted {
        return None;
    }
    let mut found = keys(table).filter(|(_, name)| figures(name) == wanted);
    match (found.next(), found.next()) {
        (Some((at, _)), None) => Some(row(at)),
        _ => None,
    }
}

fn letters(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_whitespace() && *c != '#')
        .flat_map(char::to_lowercase)
        .collect()
}

/// What a typed answer was read as, in words: `262 kPa = 38 psi`, or an offer's text.
pub(super) fn read_as(problem: &Problem, line: &Line, said: &Said) -> String {
    match said {
        Said::Figure {
            quantity,
            bare,
            unit,
        } => {
            let key = problem.variant.row_tables.get(&line.step);
            let key = key.and_then(|table| table.columns.get(table.key)?.unit.as_ref());
            let Some(asked) = line.unit.as_ref().or(key) else {
                return print::shortest(*bare);
            };
            let own = unit.as_ref().unwrap_or(asked);
            let typed = print::with_unit(&print::shortest(*bare), own, *bare);
            if own.same_size(asked) || own.dimension() != asked.dimension() {
                return typed;
            }
            let number = asked.from_si(quantity.si);
            let converted = print::figures(number, CONVERTED);
            let converted = converted.parse().map_or(converted, print::shortest);
            format!("{typed} = {}", print::with_unit(&converted, asked, number))
        }
        Said::Row(row) => crate::lessons::show(&Value::Row(row.clone()), None),
        Said::Pick(place) => match &line.asks {
            Asks::Pick { offers, .. } => offers
                .get(*place)
                .map_or_else(String::new, |offer| offer.text.clone()),
            _ => String::new(),
        },
        Said::Order(numbers) => places(numbers.iter().map(|n| n.map(|n| n.to_string()))),
        Said::Match(letters) => places(
            letters
                .iter()
                .map(|place| place.map(crate::problems::letter)),
        ),
    }
}

/// A converted figure is shown to this many figures.
const CONVERTED: usize = 4;

fn places(marks: impl Iterator<Item = Option<String>>) -> String {
    marks
        .map(|mark| mark.unwrap_or_else(|| "-".to_owned()))
        .collect::<Vec<_>>()
        .join(" ")
}
