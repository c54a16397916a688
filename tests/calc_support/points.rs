//! Inputs of a row, `name=figure unit; name=word`, as values of a function.

use pumpwright_calc::registry::{Basis, Function, Kind, Value, find};

use super::csv::{Row, rows};
use super::units::to_si;

/// One function at fixed inputs.
pub struct Point {
    pub function: &'static Function,
    pub edition: u16,
    pub basis: Basis,
    pub inputs: String,
    pub values: Vec<Value>,
    pub recorded: String,
}

/// The points of the file of recorded values.
pub fn points(text: &str) -> Vec<Point> {
    rows(text).iter().map(point).collect()
}

fn point(row: &Row) -> Point {
    let name = row["function"].as_str();
    let function = find(name).unwrap_or_else(|| panic!("no function {name}"));
    let basis = match row["basis"].as_str() {
        "UsTrade" => Basis::UsTrade,
        "SiTrade" => Basis::SiTrade,
        "Physical" => Basis::Physical,
        other => panic!("no basis {other}"),
    };
    Point {
        function,
        edition: row["edition"].parse().expect("an edition"),
        basis,
        inputs: row["inputs"].clone(),
        values: values(function, &row["inputs"]),
        recorded: row["value"].clone(),
    }
}

fn values(function: &Function, inputs: &str) -> Vec<Value> {
    let given: Vec<&str> = inputs.split("; ").collect();
    assert_eq!(given.len(), function.inputs.len(), "{}", function.name);
    let pairs = given.iter().zip(function.inputs);
    pairs
        .map(|(input, port)| {
            let (name, text) = input.split_once('=').expect("name=figure");
            assert_eq!(name, port.name, "{}", function.name);
            match port.kind {
                Kind::Word(words) => {
                    let word = words.iter().find(|word| **word == text);
                    Value::Word(word.unwrap_or_else(|| panic!("{text}: not one of {words:?}")))
                }
                Kind::Quantity(_) | Kind::Temperature => {
                    let (figure, unit) = text.split_once(' ').unwrap_or((text, ""));
                    let figure = figure.parse().expect("a figure");
                    Value::Number(to_si(figure, unit).expect("a unit"))
                }
            }
        })
        .collect()
}
