//! The scene of a family: its kind, and a formula for each port that is bound.

use super::Compiler;
use crate::formulas::{self, Type};
use crate::lessons::fields::{Fields, Text};
use crate::lessons::node::{Block, Item};
use crate::lessons::scene::{Binding, Bound, SceneKind, ScenePlan, ScenePort, Takes};

impl Compiler<'_, '_, '_> {
    /// The scene, which decides no number: a rule or a table that it alone uses is no
    /// part of the problem and of its revision.
    pub(super) fn scene_aside(
        &mut self,
        fields: &mut Fields<'_>,
        rule_count: usize,
    ) -> Option<ScenePlan> {
        let (used, tables) = (self.used.clone(), self.tables_used.clone());
        let scene = self.scene_here(fields);
        self.used
            .retain(|slot| *slot >= rule_count || used.contains(slot));
        self.tables_used = tables;
        scene
    }

    /// The scene of this level: one table, or one of several that name their levels.
    fn scene_here(&mut self, fields: &mut Fields<'_>) -> Option<ScenePlan> {
        let node = fields.node("scene")?;
        let blocks = match &node.item {
            Item::Block(block) => vec![block],
            Item::List(_) => fields.blocks(self.reader, "scene"),
            _ => {
                fields.wrong_kind(self.reader, "scene", node, "a table under [scene]");
                return None;
            }
        };
        let here: Vec<&Block> = blocks
            .into_iter()
            .filter(|block| self.at_this_level(block))
            .collect();
        if let [_, second, ..] = here.as_slice() {
            let message = format!(
                "level {} has {} scenes; a level has one at most",
                self.shelf.level,
                here.len()
            );
            let place = Fields::new(second, "").place();
            self.reader
                .refuse(&place, message, "give each [[scene]] levels of its own");
            return None;
        }
        let block = here.first()?;
        self.scene_of(block)
    }

    fn scene_of(&mut self, block: &Block) -> Option<ScenePlan> {
        let mut fields = Fields::new(block, "the scene");
        fields.node("levels");
        let name = fields.needed(self.reader, "kind");
        let name = name?;
        let Some(kind) = SceneKind::of(&name.text) else {
            let message = format!("there is no kind of scene \"{}\"", name.text);
            let has = SceneKind::ALL.map(|kind| kind.name().to_owned());
            self.reader
                .unknown(&name.span, message, &name.text, has.to_vec());
            return None;
        };
        fields.what = format!("the scene \"{}\"", kind.name());
        let mut bindings = Vec::new();
        for port in kind.ports() {
            if port.needed && !fields.has(port.name) {
                fields.missing(self.reader, port.name);
            }
            if let Some(text) = fields.text(self.reader, port.name)
                && let Some(bound) = self.bound(&text, kind, port)
            {
                bindings.push(Binding { port, bound });
            }
        }
        if !kind.ports().iter().any(|port| fields.has(port.name)) {
            let named = kind.ports().iter().map(|port| port.name);
            let has = named.map(str::to_owned).collect();
            let fault = self
                .reader
                .fault(&name.span, format!("{} binds nothing", fields.what));
            fault.remedy = Some("bind one of these at least".to_owned());
            fault.has = has;
        }
        fields.finish(self.reader);
        Some(ScenePlan { kind, bindings })
    }

    fn bound(&mut self, text: &Text, kind: SceneKind, port: &ScenePort) -> Option<Bound> {
        let what = format!("\"{}\" of the scene \"{}\"", port.name, kind.name());
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
            .refuse(&text.span, message, "bind what the scene can show there");
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
