//! Names and tables that the tests of this folder share. All are invented.

use std::collections::BTreeMap;
use std::fmt::Debug;
use std::sync::Arc;

use pumpwright_calc::registry::Basis;

use crate::quantities::{Dimension, Quantity, System, Unit};

use super::{
    Column, Expression, Fault, Formula, Name, NoValue, Row, Rows, Scope, Table, Type, Value, check,
    check_figures, parse,
};

/// A made-up problem: names with values, tables, and what stands later.
pub struct Bench {
    pub names: Vec<Name>,
    pub values: Vec<Option<Value>>,
    pub tables: BTreeMap<Arc<str>, Arc<Table>>,
    pub visible: usize,
    pub system: System,
}

pub fn unit(text: &str) -> Unit {
    Unit::parse(text).expect(text)
}

fn number(value: f64, text: &str) -> Value {
    if text.is_empty() {
        return Value::Number(Quantity::plain(value));
    }
    let unit = unit(text);
    Value::Number(Quantity::new(unit.to_si(value), unit.dimension()))
}

fn column(name: &str, label: &str, written: &str) -> Column {
    let unit = (written != "word").then(|| unit(written));
    let holds = unit
        .as_ref()
        .map_or(Type::Word, |unit| Type::Quantity(unit.dimension()));
    Column {
        name: name.into(),
        label: label.into(),
        holds,
        unit,
    }
}

/// A table out of lines: cells parted by `|`, a figure where its column has a unit.
fn table(name: &str, columns: Vec<Column>, lines: &[&str]) -> Arc<Table> {
    let cell = |(column, text): (&Column, &str)| match &column.unit {
        Some(unit) => {
            let value = text.trim().parse().expect(text);
            Value::Number(Quantity::new(unit.to_si(value), unit.dimension()))
        }
        None => Value::Word(text.trim().into()),
    };
    let rows = lines
        .iter()
        .map(|line| columns.iter().zip(line.split('|')).map(cell).collect());
    Arc::new(Table {
        name: name.into(),
        key: 0,
        rows: rows.collect(),
        places: Vec::new(),
        decoys: 0,
        columns,
    })
}

fn tables() -> BTreeMap<Arc<str>, Arc<Table>> {
    let copper = table(
        "copper",
        vec![
            column("name", "size", "word"),
            column("pair", "ohms per 100 ft", "ohm/100ft"),
            column("ampacity", "ampacity", "A"),
        ],
        &[
            "AWG 14|0.544|15",
            "AWG 12|0.338|20",
            "AWG 10|0.214|30",
            "AWG 8|0.135|40",
        ],
    );
    let motors = table(
        "motors",
        vec![
            column("name", "motor", "word"),
            column("plate", "plate amps", "A"),
            column("full", "amps", "A"),
        ],
        &["1/2 hp|5|6", "3/4 hp|6.8|8", "1 hp|8.2|9.8"],
    );
    let setbacks = table(
        "setbacks",
        vec![
            column("sheet", "sheet", "word"),
            column("from", "measured from", "word"),
            column("required", "required distance", "ft"),
        ],
        &[
            "hill county|drainfield|100",
            "hill county|septic tank|50",
            "lake county|drainfield|75",
            "lake county|septic tank|50",
        ],
    );
    let ratings = table(
        "ratings",
        vec![column("limit", "rating", "psi")],
        &["100", "125", "150"],
    );
    let valves = table(
        "valves",
        vec![column("setting", "setting", "psi")],
        &["60", "75", "80", "90", "100", "125"],
    );
    let bands = table(
        "bands",
        vec![
            column("verdict", "verdict", "word"),
            column("place", "where", "word"),
            column("least", "at least", "megohm"),
        ],
        &[
            "fit to set|used, on the bench|10",
            "not fit to set|used, on the bench|0",
            "as good as new|in the well|2",
            "in good order|in the well|0.5",
            "mend it|in the well|0",
            "pull it today|nowhere|0",
        ],
    );
    let list = [copper, motors, setbacks, ratings, valves, bands];
    list.into_iter()
        .map(|table| (Arc::clone(&table.name), table))
        .collect()
}

/// Checks a file of refusals, each of three lines, and says how many there were.
pub fn refuses<T: Debug>(file: &str, read: impl Fn(&str) -> Result<T, Fault>) -> usize {
    let part = |key: &str, line: Option<&str>| {
        let line = line.and_then(|line| line.strip_prefix(key));
        line.unwrap_or_else(|| panic!("wants a line of {key}"))
            .trim_start()
            .to_owned()
    };
    let mut lines = file
        .lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'));
    let mut cases = 0;
    while let Some(line) = lines.next() {
        let source = part("formula:", Some(line));
        let (at, says) = (part("at:", lines.next()), part("says:", lines.next()));
        let fault = read(&source).expect_err(&source);
        let pointed = source.get(fault.span.clone()).unwrap_or("no part of it");
        assert_eq!(
            (pointed, fault.to_string()),
            (at.as_str(), says),
            "{source}"
        );
        cases += 1;
    }
    cases
}

impl Bench {
    /// An empty bench with the tables.
    pub fn new() -> Self {
        let (names, values) = (Vec::new(), Vec::new());
        Self {
            names,
            values,
            tables: tables(),
            visible: 0,
            system: System::Us,
        }
    }

    /// One of everything.
    pub fn full() -> Self {
        let mut bench = Self::new();
        bench.figure("rule.stage.pressure", "psi a stage", 9.0, "psi");
        bench.figure("rule.drop.most", "drop allowed", 5.0, "%");
        bench.word("rule.sheet", "sheet that counts", "any");
        bench.rows("rule.bands", "band table", "bands", &[0, 1, 2, 3, 4, 5]);
        bench.figure("needed", "pressure to make", 90.0, "psi");
        bench.figure("cut_out", "tank pressure", 50.0, "psi");
        bench.figure("total_head", "total head", 300.0, "ft");
        bench.figure("run", "run", 320.0, "ft");
        bench.figure("east", "east leg", 30.0, "ft");
        bench.figure("north", "north leg", 40.0, "ft");
        bench.figure("flow", "flow", 10.0, "gpm");
        bench.figure("supply", "supply", 230.0, "V");
        bench.figure("loop_ohms", "ohms in the loop", 1.267, "ohm");
        bench.figure("allowed", "ohms allowed", 0.228, "ohm/100ft");
        bench.figure("need", "ampacity needed", 22.0, "A");
        bench.figure("ratio", "stages before rounding", 13.48, "");
        bench.figure("reading", "reading", 1.2, "megohm");
        bench.temperature("water", "water", 50.0, "degF");
        bench.temperature("air", "air", 90.0, "degF");
        bench.figure("rise", "rise", 18.0, "Fdeg");
        bench.word("place", "where", "in the well");
        bench.row("motor", "motor", "motors", 1);
        bench.row("wire", "cable", "copper", 1);
        bench.row("tank", "tank rating", "ratings", 0);
        bench.row("piping", "piping rating", "ratings", 1);
        bench.row("field", "field", "setbacks", 0);
        bench.rows("truck", "valves on the truck", "valves", &[0, 2, 3, 5]);
        bench.truth("holds", "does it hold", true);
        bench.figure("last_step", "last step", 1.0, "ft");
        bench.visible -= 1;
        bench
    }

    fn add(&mut self, name: &str, label: &str, holds: Type, value: Value) {
        let name = Name {
            name: name.into(),
            holds,
            label: label.into(),
            unit: None,
            places: 0,
        };
        self.names.push(name);
        self.values.push(Some(value));
        self.visible = self.names.len();
    }

    fn in_unit(&mut self, text: &str) {
        if let (Some(name), false) = (self.names.last_mut(), text.is_empty()) {
            name.unit = Some(unit(text));
        }
    }

    pub fn figure(&mut self, name: &str, label: &str, value: f64, text: &str) {
        let value = number(value, text);
        let dimension = value
            .number()
            .map_or(Dimension::NONE, |quantity| quantity.dimension);
        self.add(name, label, Type::Quantity(dimension), value);
        self.in_unit(text);
    }

    fn temperature(&mut self, name: &str, label: &str, value: f64, text: &str) {
        self.add(name, label, Type::Temperature, number(value, text));
        self.in_unit(text);
    }

    fn word(&mut self, name: &str, label: &str, word: &str) {
        self.add(name, label, Type::Word, Value::Word(word.into()));
    }

    fn truth(&mut self, name: &str, label: &str, truth: bool) {
        self.add(name, label, Type::Truth, Value::Truth(truth));
    }

    pub fn row(&mut self, name: &str, label: &str, table: &str, index: usize) {
        let table = Arc::clone(&self.tables[table]);
        let holds = Type::Row(Arc::clone(&table.name));
        self.add(name, label, holds, Value::Row(Row { table, index }));
    }

    fn rows(&mut self, name: &str, label: &str, table: &str, indices: &[usize]) {
        let table = Arc::clone(&self.tables[table]);
        let holds = Type::Rows(Arc::clone(&table.name));
        self.add(
            name,
            label,
            holds,
            Value::Rows(Rows {
                table,
                indices: indices.into(),
            }),
        );
    }

    fn scope(&self) -> Scope<'_> {
        let Self {
            names,
            tables,
            visible,
            system,
            ..
        } = self;
        Scope {
            names,
            visible: *visible,
            tables,
            system: *system,
        }
    }

    pub fn check_tree(&self, expression: &Expression) -> Result<Formula, Fault> {
        check(expression, &self.scope())
    }

    pub fn check(&self, source: &str) -> Result<Formula, Fault> {
        self.check_tree(&parse(source)?)
    }

    pub fn figures(&self, source: &str) -> Result<Formula, Fault> {
        check_figures(&parse(source)?, &self.scope())
    }

    pub fn basis(&self) -> Basis {
        match self.system {
            System::Us => Basis::UsTrade,
            System::Si => Basis::SiTrade,
        }
    }

    pub fn run(&self, formula: &Formula) -> Result<Value, NoValue> {
        formula.evaluate(&self.values, self.basis())
    }

    pub fn value(&self, source: &str) -> Value {
        let formula = self
            .check(source)
            .unwrap_or_else(|fault| panic!("{source}: {fault}"));
        self.run(&formula)
            .unwrap_or_else(|reason| panic!("{source}: {reason}"))
    }

    /// The value as a figure in a unit; a plain number for an empty unit.
    pub fn in_figures(&self, source: &str, text: &str) -> f64 {
        let quantity = self.value(source).number().expect(source);
        if text.is_empty() {
            assert_eq!(quantity.dimension, Dimension::NONE, "{source}");
            return quantity.si;
        }
        assert_eq!(quantity.dimension, unit(text).dimension(), "{source}");
        unit(text).from_si(quantity.si)
    }
}
