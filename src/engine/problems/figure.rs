//! The figure of a drawn problem: its points with their numbers, and the plain list
//! that says what a drawing shows. No drawing is made here.

use crate::formulas::{NoValue, Value};
use crate::lessons::{FigureColumn, FigurePlan, Template, Variant, basis, show};
use crate::quantities::Quantity;
use crate::quantities::print::{Direction, on_grid, rounded, with_unit};

/// A figure with its numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Which drawing it is.
    pub kind: String,
    /// What stands over it.
    pub title: String,
    /// What each point has.
    pub columns: Vec<FigureColumn>,
    /// The curves, or the things drawn side by side.
    pub series: Vec<Series>,
    /// Values marked on an axis.
    pub marks: Vec<FigureMark>,
    /// Further values that the drawing needs, by name.
    pub values: Vec<(String, Value)>,
}

/// A curve, or one of several things drawn side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Its name.
    pub name: String,
    /// Its points: for each column its value, as fine as it is printed.
    pub points: Vec<Vec<Value>>,
}

/// A value marked on an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureMark {
    /// What it is.
    pub label: String,
    /// The place of the column on whose axis it stands.
    pub column: usize,
    /// The value, as fine as it is printed.
    pub at: Value,
}

impl Figure {
    /// The figure of a draw.
    pub(super) fn of(
        plan: &FigurePlan,
        variant: &Variant,
        values: &[Option<Value>],
    ) -> Result<Self, NoValue> {
        let worked =
            |formula: &crate::formulas::Formula| formula.evaluate(values, basis(variant.system));
        let told = |text: &Template| text.render(&variant.names, values);
        let mut series = Vec::new();
        for own in &plan.series {
            let mut points = Vec::new();
            for point in &own.points {
                let cells = point.iter().zip(&plan.columns);
                let cells = cells.map(|(cell, column)| Ok(as_printed(column, worked(cell)?)));
                points.push(cells.collect::<Result<_, NoValue>>()?);
            }
            series.push(Series {
                name: told(&own.name),
                points,
            });
        }
        let mut marks = Vec::new();
        for mark in &plan.marks {
            let column = plan.columns.get(mark.column);
            let at = worked(&mark.at)?;
            marks.push(FigureMark {
                label: told(&mark.label),
                column: mark.column,
                at: column.map_or_else(|| at.clone(), |column| as_printed(column, at.clone())),
            });
        }
        let further = plan.values.iter();
        let further = further.map(|(name, formula)| Ok((name.clone(), worked(formula)?)));
        Ok(Self {
            kind: plan.kind.clone(),
            title: told(&plan.title),
            columns: plan.columns.clone(),
            series,
            marks,
            values: further.collect::<Result<_, NoValue>>()?,
        })
    }

    /// The points as a table: the heads, then a row for each point. The names of the
    /// series stand in front where there are several.
    pub fn table(&self) -> Vec<Vec<String>> {
        let named = self.series.len() > 1;
        let lead = |name: &str| named.then(|| name.to_owned());
        let heads = self.columns.iter().map(|column| match &column.unit {
            Some(unit) => format!("{}, {}", column.label, unit.symbol()),
            None => column.label.clone(),
        });
        let mut rows: Vec<Vec<String>> = vec![lead("").into_iter().chain(heads).collect()];
        for series in &self.series {
            for point in &series.points {
                rows.push(
                    lead(&series.name)
                        .into_iter()
                        .chain(self.cells(point))
                        .collect(),
                );
            }
        }
        rows
    }

    /// The cells of a point without their units, as the table has them.
    pub fn cells(&self, point: &[Value]) -> Vec<String> {
        let cells = point.iter().zip(&self.columns);
        cells.map(|(value, column)| figure(column, value)).collect()
    }

    /// The points as sentences, each with its units: `flow 5 gpm, head 320 ft`.
    pub fn sentences(&self) -> Vec<String> {
        let named = self.series.len() > 1;
        let point = |series: &Series, point: &Vec<Value>| {
            let cells = point.iter().zip(&self.columns);
            let cells: Vec<String> = cells
                .map(|(value, column)| format!("{} {}", column.label, text(column, value)))
                .collect();
            let lead = if named {
                format!("{}: ", series.name)
            } else {
                String::new()
            };
            format!("{lead}{}", cells.join(", "))
        };
        let each = |series: &Series| -> Vec<String> {
            series.points.iter().map(|own| point(series, own)).collect()
        };
        let mut said: Vec<String> = self.series.iter().flat_map(each).collect();
        said.extend(self.marked());
        said
    }

    /// What is marked, in words: `cut-in: 40 psi`.
    pub fn marked(&self) -> Vec<String> {
        let said = |mark: &FigureMark| {
            let column = self.columns.get(mark.column)?;
            Some(format!("{}: {}", mark.label, text(column, &mark.at)))
        };
        self.marks.iter().filter_map(said).collect()
    }
}

/// A value on the grid to which its column is printed.
fn as_printed(column: &FigureColumn, value: Value) -> Value {
    match (&value, &column.unit, column.to) {
        (Value::Number(quantity), Some(unit), Some(to)) => {
            let shown = rounded(unit.from_si(quantity.si), to, Direction::Nearest);
            Value::Number(Quantity::new(unit.to_si(shown), quantity.dimension))
        }
        _ => value,
    }
}

/// A value without its unit.
fn figure(column: &FigureColumn, value: &Value) -> String {
    match (value, &column.unit, column.to) {
        (Value::Number(quantity), Some(unit), Some(to)) => on_grid(unit.from_si(quantity.si), to),
        _ => show(value, None),
    }
}

/// A value with its unit.
fn text(column: &FigureColumn, value: &Value) -> String {
    match (value, &column.unit) {
        (Value::Number(quantity), Some(unit)) => {
            with_unit(&figure(column, value), unit, unit.from_si(quantity.si))
        }
        _ => show(value, None),
    }
}
