//! The revision of a variant: a hash of whatever decides a number or a verdict.
//! Stories, hints, labels and sources are not in it, so mending a spelling does
//! not spoil a printed paper.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::sync::Arc;

use sha2::{Digest, Sha256};

use super::compile::Shelf;
use super::figure::FigurePlan;
use super::variant::{
    Body, CardPlan, Condition, Draw, MatchPlan, MistakePlan, Pool, StepPlan, Variant, Way,
};
use crate::formulas::{Formula, Table, Value};
use crate::quantities::Unit;

/// Raised when the sampling rules or the language change what a code draws.
const EDITION: u32 = 3;

/// How many bits of the hash a code carries.
const BITS: u32 = 25;

/// The revision of a variant.
pub(super) fn of(variant: &Variant, shelf: Shelf<'_>) -> u32 {
    let mut page = Page {
        text: format!("edition {EDITION}\n"),
        tables: BTreeSet::new(),
    };
    page.variant(variant, shelf);
    let tables: Vec<Arc<str>> = page.tables.iter().cloned().collect();
    for name in tables {
        if let Some(table) = shelf.tables.get(&name) {
            page.table(table);
        }
    }
    let hash = Sha256::digest(page.text.as_bytes());
    let first = hash
        .iter()
        .take(4)
        .fold(0_u32, |sum, byte| (sum << 8) | u32::from(*byte));
    first >> (u32::BITS - BITS)
}

/// The canonical print that is hashed.
struct Page {
    text: String,
    tables: BTreeSet<Arc<str>>,
}

impl Page {
    fn line(&mut self, what: &str, of: impl std::fmt::Debug) {
        let _ = writeln!(self.text, "{what} {of:?}");
    }

    fn variant(&mut self, variant: &Variant, shelf: Shelf<'_>) {
        let rules = variant.rules_used.iter();
        let mut rules: Vec<_> = rules.filter_map(|slot| shelf.rules.get(*slot)).collect();
        rules.sort_by(|a, b| a.name.cmp(&b.name));
        for rule in rules {
            let unit = rule.unit.as_ref().map(Unit::written);
            let default = rule.choices.first().map(|choice| &choice.value);
            self.line("rule", (&rule.name, unit, default));
            if let Some(Value::Rows(rows)) = rule.value(0) {
                self.tables.insert(Arc::clone(&rows.table.name));
            }
        }
        for given in &variant.givens {
            let name = variant.names.get(given.slot);
            let unit = name.and_then(|name| name.unit.as_ref()).map(Unit::written);
            let name = name.map(|name| &name.name);
            self.line("given", (name, unit, given.last_place));
            self.draw(variant, &given.draw);
        }
        for require in &variant.requires {
            self.formula("require", &require.that);
        }
        for step in &variant.steps {
            self.step(step);
        }
        if let Some(figure) = &variant.figure {
            self.figure(figure);
        }
        for card in &variant.cards {
            self.card(card);
        }
        for mistake in &variant.mistakes {
            self.mistake(mistake);
        }
        if let Some(formula) = &variant.only_if {
            self.formula("only if", formula);
        }
    }

    fn formula(&mut self, what: &str, formula: &Formula) {
        self.line(what, formula.canonical());
        for function in formula.calls() {
            self.line("calls", (function.name, function.edition));
        }
        self.tables.extend(formula.tables().iter().cloned());
    }

    /// A table with the units in which its bare figures are read.
    fn table(&mut self, table: &Table) {
        let columns = table.columns.iter();
        let columns = columns.map(|column| (&column.name, column.unit.as_ref().map(Unit::written)));
        let columns: Vec<_> = columns.collect();
        self.line("table", (&table.name, table.key, columns));
        self.line("rows", &table.rows);
    }

    fn draw(&mut self, variant: &Variant, draw: &Draw) {
        match draw {
            Draw::Of(values) => self.line("of", values),
            Draw::Row { rows, where_ } => {
                self.line("row", ());
                self.pool(variant, rows);
                self.condition(where_.as_ref());
            }
            Draw::Some {
                rows,
                where_,
                least,
                most,
            } => {
                self.line("some", (least, most));
                self.pool(variant, rows);
                self.condition(where_.as_ref());
            }
            Draw::Is { formula, grid } => {
                self.formula("is", formula);
                self.line("to", grid);
            }
        }
    }

    fn pool(&mut self, variant: &Variant, pool: &Pool) {
        match pool {
            Pool::Table(table) => {
                self.line("from", &table.name);
                self.tables.insert(Arc::clone(&table.name));
            }
            // By its name: its place hangs on house rules that have no say here.
            Pool::Slot(slot) => {
                self.line("from", variant.names.get(*slot).map(|name| &name.name));
            }
        }
    }

    fn condition(&mut self, condition: Option<&Condition>) {
        if let Some(condition) = condition {
            self.formula("where", &condition.formula);
        }
    }

    fn step(&mut self, step: &StepPlan) {
        let Some(_) = step.slot else { return };
        let unit = step.unit.as_ref().map(Unit::written);
        self.line(
            "step",
            (
                &step.id,
                unit,
                step.write,
                step.within,
                step.ask,
                step.marks,
            ),
        );
        match &step.body {
            Body::Is(formula) => self.formula("is", formula),
            Body::Offer {
                formula,
                column,
                count,
                where_,
                shows: _,
            } => {
                self.formula("is", formula);
                self.line("offer", (column, count));
                self.condition(where_.as_ref());
            }
            Body::Order { least, most } => self.line("order", (least, most)),
            Body::Match(plan) => self.matching(plan),
            Body::Does(_) => {}
        }
        if let Some(formula) = &step.unsafe_if {
            self.formula("unsafe", formula);
        }
    }

    /// What can be read off a figure, and how finely.
    fn figure(&mut self, figure: &FigurePlan) {
        for column in &figure.columns {
            let unit = column.unit.as_ref().map(Unit::written);
            self.line("column", (&column.name, unit, column.to, column.scale));
        }
        for series in &figure.series {
            self.line("series", series.points.len());
            for formula in series.points.iter().flatten() {
                self.formula("point", formula);
            }
        }
        for mark in &figure.marks {
            self.line("mark", mark.column);
            self.formula("at", &mark.at);
        }
    }

    fn matching(&mut self, plan: &MatchPlan) {
        self.line(
            "match",
            (
                &plan.table.name,
                plan.left,
                plan.right,
                plan.least,
                plan.most,
                plan.spare,
            ),
        );
        self.tables.insert(Arc::clone(&plan.table.name));
        self.condition(plan.where_.as_ref());
    }

    fn card(&mut self, card: &CardPlan) {
        self.line("card", (&card.id, &card.after, card.always, card.decoy));
        if let Some(formula) = &card.when {
            self.formula("when", formula);
        }
    }

    fn mistake(&mut self, mistake: &MistakePlan) {
        self.line("mistake", (&mistake.id, mistake.step, mistake.fatal));
        match &mistake.way {
            Way::Is(formula) => self.formula("is", formula),
            Way::Figures(formula) => self.formula("figures", formula),
            Way::Early(first, second) => self.line("early", (first, second)),
            Way::Uses(card) => self.line("uses", card),
            Way::Omits(card) => self.line("omits", card),
            Way::Pair(left, right) => self.line("pair", (left, right)),
        }
        if let Some(formula) = &mistake.when {
            self.formula("when", formula);
        }
    }
}
