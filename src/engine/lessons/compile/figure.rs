//! The figure of a family: its columns, points, marks and further values.

use super::{Compiler, is_name};
use crate::formulas::{self, Formula, Type};
use crate::lessons::fault::nearest;
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::figure::{DRAWINGS, FigureColumn, FigurePlan, MarkPlan, SeriesPlan};
use crate::lessons::node::{Block, Item, Node};
use crate::lessons::table::{WORD, read_unit, type_of_unit};
use crate::quantities::Unit;

/// The most points of a figure, over all its series.
const POINTS: usize = 60;

impl Compiler<'_, '_, '_> {
    /// The figure's table, where this level has one.
    pub(super) fn figure_block<'b>(&mut self, fields: &mut Fields<'b>) -> Option<&'b Block> {
        let block = fields.block(self.reader, "figure")?;
        self.at_this_level(block).then_some(block)
    }

    /// The columns, before the steps: a step may be judged by the scale of one.
    pub(super) fn figure_columns(&mut self, block: &Block) {
        let mut fields = Fields::new(block, "the figure");
        let blocks = fields.blocks(self.reader, "columns");
        if !fields.has("columns") {
            fields.missing(self.reader, "columns");
        }
        let count = blocks.len();
        for block in blocks {
            if let Some(column) = self.figure_column(block) {
                self.figure.push(column);
            }
        }
        // What rests on broken columns is not reported too.
        if count == 0 || self.figure.len() < count {
            self.figure_broken = true;
            self.figure.clear();
        }
    }

    fn figure_column(&mut self, block: &Block) -> Option<FigureColumn> {
        let mut fields = Fields::new(block, "the column of the figure");
        let name = fields.needed(self.reader, "name")?;
        fields.what = format!("column \"{}\" of the figure", name.text);
        let taken = self.figure.iter().any(|column| column.name == name.text);
        if taken || !is_name(&name.text) {
            let why = if taken {
                "is the name of two columns"
            } else {
                "cannot be a name"
            };
            let message = format!("\"{}\" {why}", name.text);
            let remedy = "write small letters, digits and _, each name once";
            self.reader.refuse(&name.span, message, remedy);
            return None;
        }
        let label = fields.string(self.reader, "label");
        let unit = fields.needed(self.reader, "unit")?;
        let label = label.unwrap_or_else(|| name.text.replace('_', " "));
        if unit.text == WORD {
            fields.finish(self.reader);
            return Some(FigureColumn {
                name: name.text,
                label,
                unit: None,
                to: None,
                scale: None,
            });
        }
        let unit = read_unit(self.reader, &unit)?;
        let to = fields.needed(self.reader, "to");
        let scale = fields.text(self.reader, "scale");
        let what = fields.what.clone();
        fields.finish(self.reader);
        let to = self.amount(&to?, "\"to\"", &what, &unit)?;
        let scale = match scale {
            Some(scale) => self.amount(&scale, "\"scale\"", &what, &unit)?,
            None => to,
        };
        Some(FigureColumn {
            name: name.text,
            label,
            to: Some(super::steps::clean(
                to / (unit.to_si(1.0) - unit.to_si(0.0)),
            )),
            scale: Some(scale),
            unit: Some(unit),
        })
    }

    /// How finely a column of the figure can be read, for a step in this unit.
    pub(super) fn scale(&mut self, name: &Text, unit: &Unit, what: &str) -> Option<f64> {
        self.reads(name, Some(unit), what)?.1
    }

    /// What the column is called off which a step is read; of a step with a unit, how
    /// finely.
    pub(super) fn reads(
        &mut self,
        name: &Text,
        unit: Option<&Unit>,
        what: &str,
    ) -> Option<(String, Option<f64>)> {
        let column = self.figure.iter().find(|column| column.name == name.text);
        let Some(column) = column else {
            if self.figure_broken {
                return None;
            }
            let has = self.figure.iter().map(|column| column.name.clone());
            let has = has.collect();
            let message = format!("{what}: the figure has no column \"{}\"", name.text);
            self.reader.unknown(&name.span, message, &name.text, has);
            return None;
        };
        let dimension = |unit: &Unit| unit.dimension();
        let Some(unit) = unit else {
            return Some((column.label.clone(), None));
        };
        if column.unit.as_ref().map(dimension) == Some(unit.dimension()) {
            return Some((column.label.clone(), column.scale));
        }
        let message = format!(
            "{what}: column \"{}\" of the figure holds another kind of thing",
            name.text
        );
        let remedy = "name the column that is read here";
        self.reader.refuse(&name.span, message, remedy);
        None
    }

    /// The whole figure, after the steps: its points may show what they find.
    pub(super) fn figure(&mut self, block: &Block) -> Option<FigurePlan> {
        if self.figure_broken {
            return None;
        }
        let mut fields = Fields::new(block, "the figure");
        fields.knows(&["columns", "levels"]);
        let kind = fields.needed(self.reader, "kind");
        let title = fields.needed(self.reader, "title");
        let blocks = fields.blocks(self.reader, "series");
        if !fields.has("series") {
            let message = "the figure has no series";
            let remedy = "add [[figure.series]] with its points";
            self.reader.refuse(&fields.place(), message, remedy);
        }
        let series: Vec<_> = blocks
            .iter()
            .filter_map(|block| self.series(block))
            .collect();
        let marks = fields.blocks(self.reader, "mark");
        let marks = marks
            .iter()
            .filter_map(|block| self.figure_mark(block))
            .collect();
        let values = fields.block(self.reader, "values");
        let values = values.map_or_else(Vec::new, |block| self.figure_values(block));
        fields.finish(self.reader);
        let count: usize = series.iter().map(|series| series.points.len()).sum();
        if count > POINTS {
            let message = format!("the figure has {count} points; it may have {POINTS}");
            self.reader
                .refuse(&fields_place(block), message, "show fewer");
        }
        let kind = kind?;
        if !DRAWINGS.contains(&kind.text.as_str()) {
            let message = format!("there is no drawing \"{}\"", kind.text);
            let near = nearest(&kind.text, DRAWINGS);
            let fault = self.reader.fault(&kind.span, message);
            fault.remedy = Some(match near.first() {
                Some(best) => format!("write \"{best}\""),
                None => "write one of these".into(),
            });
            fault.has = DRAWINGS.map(str::to_owned).to_vec();
        }
        let title = title.and_then(|title| self.template(&title))?;
        Some(FigurePlan {
            kind: kind.text,
            title,
            columns: std::mem::take(&mut self.figure),
            series,
            marks,
            values,
        })
    }

    fn series(&mut self, block: &Block) -> Option<SeriesPlan> {
        let mut fields = Fields::new(block, "the series");
        let name = fields.needed(self.reader, "name");
        let list = fields.list(self.reader, "points");
        if list.is_none_or(<[Node]>::is_empty) {
            fields.missing(self.reader, "points");
        }
        let mut points = Vec::new();
        for node in list.unwrap_or_default() {
            points.extend(self.point(node));
        }
        fields.finish(self.reader);
        let name = self.template(&name?)?;
        Some(SeriesPlan { name, points })
    }

    fn point(&mut self, node: &Node) -> Option<Vec<Formula>> {
        let columns = self.figure.clone();
        let Item::List(cells) = &node.item else {
            let message = "a point is a list with a formula for each column";
            self.reader.refuse(&node.span, message, "write ['…', '…']");
            return None;
        };
        if cells.len() != columns.len() {
            let message = format!(
                "this point has {} formulas for {} columns",
                cells.len(),
                columns.len()
            );
            self.reader
                .refuse(&node.span, message, "write one for each column");
            return None;
        }
        let cells = cells.iter().zip(&columns);
        cells
            .map(|(cell, column)| self.cell(cell, column))
            .collect()
    }

    fn cell(&mut self, cell: &Node, column: &FigureColumn) -> Option<Formula> {
        let Some(text) = text(cell) else {
            let message = format!(
                "a point is written with formulas; this is {}",
                cell.item.kind()
            );
            self.reader
                .refuse(&cell.span, message, "write the formula in quotes");
            return None;
        };
        self.of_column(&text, column)
    }

    /// A formula that gives what a column holds.
    fn of_column(&mut self, text: &Text, column: &FigureColumn) -> Option<Formula> {
        let what = format!("column \"{}\" of the figure", column.name);
        let all = self.names.len();
        let formula = self.formula(text, &what, all)?;
        let wanted = column.unit.as_ref().map_or(Type::Word, type_of_unit);
        if *formula.holds() == wanted {
            return Some(formula);
        }
        let message = format!(
            "{what}: this gives {}, not {}",
            formulas::kind(formula.holds()),
            formulas::kind(&wanted)
        );
        self.reader.refuse(
            &text.span,
            message,
            "write a formula for what the column holds",
        );
        None
    }

    fn figure_mark(&mut self, block: &Block) -> Option<MarkPlan> {
        let mut fields = Fields::new(block, "the mark");
        let label = fields.needed(self.reader, "label");
        let name = fields.needed(self.reader, "column");
        let at = fields.needed(self.reader, "at");
        fields.finish(self.reader);
        let label = label.and_then(|label| self.template(&label));
        let name = name?;
        let found = self
            .figure
            .iter()
            .position(|column| column.name == name.text);
        let Some(column) = found else {
            let has = self
                .figure
                .iter()
                .map(|column| column.name.clone())
                .collect();
            let message = format!("the figure has no column \"{}\"", name.text);
            self.reader.unknown(&name.span, message, &name.text, has);
            return None;
        };
        let holds = self.figure.get(column)?.clone();
        let at = self.of_column(&at?, &holds)?;
        Some(MarkPlan {
            label: label?,
            column,
            at,
        })
    }

    fn figure_values(&mut self, block: &Block) -> Vec<(String, Formula)> {
        let mut values = Vec::new();
        for entry in &block.entries {
            if !is_name(&entry.key) {
                let message = format!("\"{}\" cannot be a name", entry.key);
                let remedy = "write small letters, digits and _, beginning with a letter";
                self.reader.refuse(&entry.key_span, message, remedy);
            }
            let Some(text) = text(&entry.node) else {
                let message = format!(
                    "value \"{}\" of the figure is {}",
                    entry.key,
                    entry.node.item.kind()
                );
                self.reader
                    .refuse(&entry.node.span, message, "write a formula in quotes");
                continue;
            };
            let what = format!("value \"{}\" of the figure", entry.key);
            let all = self.names.len();
            values.extend(
                self.formula(&text, &what, all)
                    .map(|formula| (entry.key.clone(), formula)),
            );
        }
        values
    }
}

fn fields_place(block: &Block) -> std::ops::Range<usize> {
    Fields::new(block, "").place()
}
