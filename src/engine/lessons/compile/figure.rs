//! The figure of a family: its kind, and a formula for each port that is bound.

use super::Compiler;
use crate::formulas::{self, Type};
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::figure::{Binding, Bound, FigureKind, FigurePlan, FigurePort, Takes};
use crate::lessons::node::{Block, Item};

impl Compiler<'_, '_, '_> {
    /// The figure, which decides no number: a rule or a table that it alone uses is no
    /// part of the problem and of its revision.
    pub(super) fn figure_aside(
        &mut self,
        fields: &mut Fields<'_>,
        rule_count: usize,
    ) -> Option<FigurePlan> {
        let (used, tables) = (self.used.clone(), self.tables_used.clone());
        let figure = self.figure(fields);
        self.used
            .retain(|slot| *slot >= rule_count || used.contains(slot));
        self.tables_used = tables;
        figure
    }

    /// The figure of this level: one table, or one of several that name their levels.
    fn figure(&mut self, fields: &mut Fields<'_>) -> Option<FigurePlan> {
        let node = fields.node("figure")?;
        let blocks = match &node.item {
            Item::Block(block) => vec![block],
            _ => fields.blocks(self.reader, "figure"),
        };
        let here: Vec<&Block> = blocks
            .into_iter()
            .filter(|block| self.at_this_level(block))
            .collect();
        if let [_, second, ..] = here.as_slice() {
            let message = format!(
                "level {} has {} figures; a level has one at most",
                self.shelf.level,
                here.len()
            );
            let place = Fields::new(second, "").place();
            self.reader
                .refuse(&place, message, "give each [[figure]] levels of its own");
            return None;
        }
        let block = here.first()?;
        self.figure_of(block)
    }

    fn figure_of(&mut self, block: &Block) -> Option<FigurePlan> {
        let mut fields = Fields::new(block, "the figure");
        fields.node("levels");
        let name = fields.needed(self.reader, "kind");
        let name = name?;
        let Some(kind) = FigureKind::of(&name.text) else {
            let message = format!("there is no kind of figure \"{}\"", name.text);
            let has = FigureKind::ALL.map(|kind| kind.name().to_owned());
            self.reader
                .unknown(&name.span, message, &name.text, has.to_vec());
            return None;
        };
        fields.what = format!("the figure \"{}\"", kind.name());
        let read = self.read_off(&mut fields, kind);
        let mut bindings = Vec::new();
        for port in kind.ports() {
            if port.needed && !fields.has(port.name) {
                fields.missing(self.reader, port.name);
            }
            if let Some(text) = fields.text(self.reader, port.name)
                && let Some(bound) = self.bound(&text, kind, port)
            {
                let read = read.iter().any(|name| name == port.name);
                bindings.push(Binding { port, bound, read });
            }
        }
        fields.finish(self.reader);
        Some(FigurePlan { kind, bindings })
    }

    /// The ports that the sheet asks to read off.
    fn read_off(&mut self, fields: &mut Fields<'_>, kind: FigureKind) -> Vec<String> {
        let mut found = Vec::new();
        for node in fields.list(self.reader, "read").unwrap_or_default() {
            let Some(name) = text(node) else {
                fields.wrong_kind(self.reader, "read", node, "texts in quotes");
                continue;
            };
            let is_figure = |port: &FigurePort| matches!(port.takes, Takes::Quantity(_));
            match kind.port(&name.text).map(is_figure) {
                Some(true) if fields.has(&name.text) => found.push(name.text),
                _ => {
                    let message = format!(
                        "{} binds no figure to \"{}\", so nothing can be read off there",
                        fields.what, name.text
                    );
                    let remedy = "name a port that is bound to a figure";
                    self.reader.refuse(&name.span, message, remedy);
                }
            }
        }
        found
    }

    fn bound(&mut self, text: &Text, kind: FigureKind, port: &FigurePort) -> Option<Bound> {
        let what = format!("\"{}\" of the figure \"{}\"", port.name, kind.name());
        if let Takes::Rows(columns) = port.takes {
            return self.rows_bound(text, &what, columns);
        }
        let all = self.names.len();
        self.finding = None;
        let formula = self.formula(text, &what, all)?;
        let fits = match port.takes {
            Takes::Quantity(dimension) => *formula.holds() == Type::Quantity(dimension),
            Takes::Text => !matches!(formula.holds(), Type::Rows(_) | Type::Truth),
            Takes::Rows(_) => false,
        };
        if fits {
            return Some(Bound::Formula(formula));
        }
        let wanted = match port.takes {
            Takes::Quantity(dimension) => formulas::kind(&Type::Quantity(dimension)),
            _ => "words, a row or a figure".to_owned(),
        };
        let message = format!(
            "{what} takes {wanted}; this gives {}",
            formulas::kind(formula.holds())
        );
        self.reader
            .refuse(&text.span, message, "bind what the figure can show there");
        None
    }

    /// Rows are named, not worked out, and must have the columns that are drawn.
    fn rows_bound(&mut self, text: &Text, what: &str, columns: &[&str]) -> Option<Bound> {
        let (pool, table) = self.pool(text)?;
        let table = self.shelf.tables.get(&table)?;
        let Some(lacks) = columns.iter().find(|column| table.column(column).is_none()) else {
            return Some(pool.into());
        };
        let message = format!(
            "{what} takes rows with a column \"{lacks}\", which the table {} lacks",
            table.name
        );
        let remedy = format!("name rows with the columns {}", columns.join(", "));
        self.reader.refuse(&text.span, message, &remedy);
        None
    }
}
