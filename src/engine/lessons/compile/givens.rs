//! Givens: how each is drawn or derived.

use super::Compiler;
use crate::formulas::{self, Name, Type, Value};
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::node::{Block, Item, Node};
use crate::lessons::table::{figure, quantity, read_unit, type_of_unit};
use crate::lessons::variant::{Condition, Draw, GivenPlan, Pool};
use crate::quantities::{Unit, print};

/// The most values that one draw may have.
const VALUES: f64 = 100_000.0;

/// How a given is drawn, with the type of its values and its last printed place.
struct Drawn {
    draw: Draw,
    holds: Type,
    last_place: Option<f64>,
    /// The decimals with which every value is printed.
    places: usize,
}

impl Compiler<'_, '_, '_> {
    pub(super) fn given(&mut self, block: &Block) -> Option<GivenPlan> {
        let mut fields = Fields::new(block, "the given");
        fields.node("levels");
        let id = fields.needed(self.reader, "name")?;
        fields.what = format!("given \"{}\"", id.text);
        let label = fields.string(self.reader, "label");
        let unit = fields
            .text(self.reader, "unit")
            .and_then(|text| read_unit(self.reader, &text));
        fields.cited(self.reader, "source", self.shelf.sources);
        self.training |= fields.truth(self.reader, "training").unwrap_or(false);
        self.finding = Some(id.text.clone());
        let drawn = if fields.has("unit") && unit.is_none() {
            fields.knows(&["is", "to", "draw"]);
            None
        } else {
            self.drawn(&mut fields, unit.as_ref())
        };
        fields.finish(self.reader);
        let (holds, drawn) = match drawn {
            Some(drawn) => (drawn.holds.clone(), Some(drawn)),
            None => {
                self.broken.insert(id.text.clone());
                (unit.as_ref().map_or(Type::Word, type_of_unit), None)
            }
        };
        let places = drawn.as_ref().map_or(0, |drawn| drawn.places);
        let shown = label.is_some();
        let label = label.unwrap_or_else(|| id.text.replace('_', " "));
        let slot = self.name(
            &id.span,
            Name {
                name: id.text,
                holds,
                label,
                unit,
                places,
            },
        );
        let drawn = drawn?;
        Some(GivenPlan {
            slot,
            shown,
            draw: drawn.draw,
            last_place: drawn.last_place,
        })
    }

    fn drawn(&mut self, fields: &mut Fields<'_>, unit: Option<&Unit>) -> Option<Drawn> {
        let derived = fields.text(self.reader, "is");
        let grid = fields.node("to");
        let draw = fields.block(self.reader, "draw");
        match (derived, draw) {
            (Some(formula), None) => self.derived(fields, &formula, grid, unit),
            (None, Some(draw)) => {
                if grid.is_some() {
                    let message = format!("{} is drawn, so \"to\" has no use", fields.what);
                    let place = fields.place_of_key("to");
                    self.reader.refuse(&place, message, "take the line out");
                }
                self.draw(fields, draw, unit)
            }
            (None, None) if fields.has("is") || fields.has("draw") => None,
            _ => {
                let message = format!("{} needs either \"draw\" or \"is\"", fields.what);
                self.reader
                    .refuse(&fields.place(), message, "write one of the two");
                None
            }
        }
    }

    fn derived(
        &mut self,
        fields: &Fields<'_>,
        formula: &Text,
        grid: Option<&Node>,
        unit: Option<&Unit>,
    ) -> Option<Drawn> {
        let visible = self.names.len();
        let formula = self.formula(formula, &fields.what, visible)?;
        let holds = formula.holds().clone();
        if !matches!(holds, Type::Quantity(_) | Type::Temperature) {
            return Some(Drawn {
                draw: Draw::Is {
                    formula,
                    grid: None,
                },
                holds,
                last_place: None,
                places: 0,
            });
        }
        let (Some(grid), Some(unit)) = (grid, unit) else {
            let message = format!(
                "{} is derived, so it needs \"unit\" and \"to\"",
                fields.what
            );
            let remedy = "write the grid to which the story prints it, as in to = \"1 ft | 0.1 m\"";
            self.reader.refuse(&fields.place(), message, remedy);
            return None;
        };
        self.same_kind(fields, &holds, unit)?;
        let grid = match &grid.item {
            Item::Number { value, .. } if *value > 0.0 => unit.to_si(*value) - unit.to_si(0.0),
            Item::Text { .. } => self.amount(&text(grid)?, "\"to\"", &fields.what, unit)?,
            _ => {
                let message = format!("\"to\" of {} must be an amount above zero", fields.what);
                let remedy = "write the last place that the story prints, as in \"1 ft | 0.1 m\"";
                self.reader.refuse(&grid.span, message, remedy);
                return None;
            }
        };
        Some(Drawn {
            draw: Draw::Is {
                formula,
                grid: Some(grid),
            },
            holds,
            last_place: Some(grid),
            places: print::decimals(grid / (unit.to_si(1.0) - unit.to_si(0.0))),
        })
    }

    /// A formula and the unit beside it must be of one kind.
    pub(super) fn same_kind(
        &mut self,
        fields: &Fields<'_>,
        holds: &Type,
        unit: &Unit,
    ) -> Option<()> {
        if *holds == type_of_unit(unit) {
            return Some(());
        }
        let message = format!(
            "{} is printed in {}, but its formula gives {}",
            fields.what,
            unit.symbol(),
            formulas::kind(holds)
        );
        let remedy = "mend the formula, or write the unit of what it gives";
        self.reader
            .refuse(&fields.place_of("unit"), message, remedy);
        None
    }

    fn draw(&mut self, fields: &Fields<'_>, block: &Block, unit: Option<&Unit>) -> Option<Drawn> {
        let mut draw = Fields::new(block, format!("the draw of {}", fields.what));
        let found = if draw.has("from") {
            self.span(&mut draw, unit)
        } else if draw.has("of") {
            self.one_of(&mut draw, unit)
        } else if draw.has("row") {
            self.row(&mut draw)
        } else if draw.has("some") {
            self.some(&mut draw)
        } else {
            let message = format!("{} does not say from what", draw.what);
            let remedy = "write { from, to, by }, { of = […] }, { row = TABLE } or { some = TABLE, count = [n, n] }";
            self.reader.refuse(&draw.place(), message, remedy);
            return None;
        };
        draw.finish(self.reader);
        found
    }

    fn span(&mut self, draw: &mut Fields<'_>, unit: Option<&Unit>) -> Option<Drawn> {
        draw.knows(&["from", "to", "by"]);
        let ends = ["from", "to", "by"].map(|key| {
            let Some(node) = draw.node(key) else {
                draw.missing(self.reader, key);
                return None;
            };
            let found = figure(node);
            if found.is_none() {
                draw.wrong_kind(self.reader, key, node, "a number");
            }
            found
        });
        let [Some(from), Some(to), Some(by)] = ends else {
            return None;
        };
        let unit = self.needs_unit(draw, unit)?;
        let decimals = from.1.max(to.1).max(by.1).min(9);
        let scale: f64 = (0..decimals).map(|_| 10.0).product();
        let [from, to, by] = [from.0, to.0, by.0].map(|value| (value * scale).round());
        let count = (to - from) / by;
        if !(by > 0.0 && (0.0..VALUES).contains(&count) && count.fract() == 0.0) {
            let message = format!(
                "{} does not arrive at {} from {} in steps of {}",
                draw.what,
                to / scale,
                from / scale,
                by / scale
            );
            let remedy = "let \"to\" be \"from\" and a whole number of steps \"by\"";
            self.reader.refuse(&draw.place_of("to"), message, remedy);
            return None;
        }
        let values = (0..=count as u64)
            .map(|step| quantity((step as f64).mul_add(by, from) / scale, unit))
            .collect();
        let last_place = unit.to_si(1.0 / scale) - unit.to_si(0.0);
        Some(Drawn {
            draw: Draw::Of(values),
            holds: type_of_unit(unit),
            last_place: Some(last_place),
            places: decimals,
        })
    }

    fn one_of(&mut self, draw: &mut Fields<'_>, unit: Option<&Unit>) -> Option<Drawn> {
        let list = draw.list(self.reader, "of")?;
        if list.is_empty() {
            self.reader.refuse(
                &draw.place(),
                format!("{} has no value", draw.what),
                "write at least one",
            );
            return None;
        }
        let Some(unit) = unit else {
            let words: Vec<_> = list.iter().filter_map(text).collect();
            if words.len() != list.len() {
                self.needs_unit(draw, None)?;
            }
            let values = words
                .iter()
                .map(|word| Value::Word(word.text.as_str().into()))
                .collect();
            return Some(Drawn {
                draw: Draw::Of(values),
                holds: Type::Word,
                last_place: None,
                places: 0,
            });
        };
        let mut values = Vec::new();
        let mut decimals = 0;
        let mut even = true;
        for node in list {
            let Some((value, places)) = figure(node) else {
                let message = format!("{} lists figures in {}", draw.what, unit.symbol());
                let remedy = "write a number; for words take the given's unit out";
                self.reader.refuse(&node.span, message, remedy);
                return None;
            };
            even &= values.is_empty() || places == decimals;
            decimals = decimals.max(places);
            values.push(quantity(value, unit));
        }
        let scale: f64 = (0..decimals.min(9)).map(|_| 10.0).product();
        let last_place = unit.to_si(1.0 / scale) - unit.to_si(0.0);
        Some(Drawn {
            draw: Draw::Of(values),
            holds: type_of_unit(unit),
            last_place: Some(last_place),
            places: if even { decimals } else { 0 },
        })
    }

    fn needs_unit<'u>(&mut self, draw: &Fields<'_>, unit: Option<&'u Unit>) -> Option<&'u Unit> {
        if unit.is_none() {
            let message = format!("{} gives figures, so the given needs a \"unit\"", draw.what);
            self.reader
                .refuse(&draw.place(), message, "add unit = \"…\" to the given");
        }
        unit
    }

    fn row(&mut self, draw: &mut Fields<'_>) -> Option<Drawn> {
        draw.knows(&["row", "where"]);
        let from = draw.text(self.reader, "row")?;
        let (rows, table) = self.pool(&from)?;
        let where_ = self.where_of(draw, &table)?;
        Some(Drawn {
            draw: Draw::Row { rows, where_ },
            holds: Type::Row(table),
            last_place: None,
            places: 0,
        })
    }

    fn some(&mut self, draw: &mut Fields<'_>) -> Option<Drawn> {
        draw.knows(&["some", "where", "count"]);
        let from = draw.text(self.reader, "some")?;
        let (rows, table) = self.pool(&from)?;
        let where_ = self.where_of(draw, &table)?;
        let (least, most) = self.least_and_most(draw, "count")?;
        if let Pool::Table(table) = &rows
            && most > table.rows.len()
        {
            let message = format!(
                "{} takes up to {most} rows, but {} has {}",
                draw.what,
                table.name,
                table.rows.len()
            );
            let remedy = "take fewer, or add rows to the table";
            self.reader.refuse(&draw.place_of("count"), message, remedy);
            return None;
        }
        let draw = Draw::Some {
            rows,
            where_,
            least,
            most,
        };
        Some(Drawn {
            draw,
            holds: Type::Rows(table),
            last_place: None,
            places: 0,
        })
    }

    /// Nothing where the condition is at fault; `Some(None)` where there is none.
    #[allow(clippy::option_option)]
    fn where_of(
        &mut self,
        draw: &mut Fields<'_>,
        table: &std::sync::Arc<str>,
    ) -> Option<Option<Condition>> {
        match draw.text(self.reader, "where") {
            Some(text) => {
                let what = draw.what.clone();
                self.condition(&text, table, &what).map(Some)
            }
            None => Some(None),
        }
    }

    /// Two whole numbers, the first not above the second.
    pub(super) fn least_and_most(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
    ) -> Option<(usize, usize)> {
        let list = fields.list(self.reader, key);
        let found: Option<Vec<usize>> = list.map(|list| {
            let whole = |node: &Node| {
                figure(node).filter(|(value, _)| value.fract() == 0.0 && *value >= 1.0)
            };
            list.iter()
                .filter_map(|node| whole(node).map(|(value, _)| value as usize))
                .collect()
        });
        if let Some([least, most]) = found.as_deref()
            && least <= most
        {
            return Some((*least, *most));
        }
        let message = format!(
            "{} needs \"{key}\" with the least and the greatest number",
            fields.what
        );
        let place = fields.place_of(key);
        self.reader
            .refuse(&place, message, &format!("write {key} = [4, 6]"));
        None
    }
}
