//! From a family's file to one [`Variant`] for each level and system: names get
//! their slots, formulas are parsed and checked, texts get their slots.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use super::faulty::Faulty;
use super::fields::{Fields, Reader, Said, Text};
use super::figure::FigureColumn;
use super::kind::Kind;
use super::node::{Block, Item, Node};
use super::rule::Rule;
use super::source::Sources;
use super::table::{TableNote, Tables};
use super::template::{SlotScope, Template};
use super::variant::{Condition, Pool, Requirement, StepPlan, Variant};
use crate::formulas::{self, Formula, Name, Scope, Table, Type, Value};
use crate::quantities::{Quantity, System};

mod arrange;
mod figure;
mod givens;
mod mistakes;
mod report;
mod scene;
mod steps;

pub(super) use report::rests_on;

/// The most givens, steps and mistakes of a family.
const GIVENS: usize = 40;
const STEPS: usize = 20;
const MISTAKES: usize = 20;

/// What a family's file is compiled against.
#[derive(Clone, Copy)]
pub(super) struct Shelf<'a> {
    pub tables: &'a Tables,
    pub notes: &'a [TableNote],
    pub rules: &'a [Rule],
    pub sources: &'a Sources,
    pub faulty: &'a Faulty,
    pub system: System,
    pub level: u8,
}

/// The state of compiling one variant.
struct Compiler<'a, 'r, 's> {
    shelf: Shelf<'a>,
    reader: &'r mut Reader<'s>,
    names: Vec<Name>,
    /// Names whose own formula is at fault, so that what follows from it is not reported too.
    broken: BTreeSet<String>,
    /// The names that the file gives and that do not stand yet.
    later: Vec<String>,
    /// The name that is being found.
    finding: Option<String>,
    /// Where each name is given.
    named_at: BTreeMap<usize, Range<usize>>,
    used: BTreeSet<usize>,
    tables_used: BTreeSet<Arc<str>>,
    texts_use: BTreeSet<usize>,
    training: bool,
    /// The columns of the figure, where there is one.
    figure: Vec<FigureColumn>,
    figure_broken: bool,
}

/// Compiles a family's file, already turned to one system, for one level.
pub(super) fn compile(shelf: Shelf<'_>, reader: &mut Reader<'_>, file: &Block) -> Option<Variant> {
    let before = reader.faults.len();
    let mut compiler = Compiler {
        shelf,
        reader,
        names: shelf.rules.iter().map(Rule::as_name).collect(),
        broken: BTreeSet::new(),
        later: Vec::new(),
        finding: None,
        named_at: BTreeMap::new(),
        used: BTreeSet::new(),
        tables_used: BTreeSet::new(),
        texts_use: BTreeSet::new(),
        training: false,
        figure: Vec::new(),
        figure_broken: false,
    };
    let variant = compiler.family(file);
    if reader.faults.len() > before {
        None
    } else {
        variant
    }
}

impl Compiler<'_, '_, '_> {
    fn family(&mut self, file: &Block) -> Option<Variant> {
        let mut fields = Fields::new(file, "the family");
        let stories = self.items(&mut fields, "story");
        let givens = self.items(&mut fields, "given");
        let requires = self.items(&mut fields, "require");
        let steps = self.items(&mut fields, "step");
        let cards = self.items(&mut fields, "card");
        let mistakes = self.items(&mut fields, "mistake");
        let rule_count = self.names.len();
        self.limit(&fields, "givens", givens.len(), GIVENS);
        self.limit(&fields, "steps", steps.len(), STEPS);
        self.limit(&fields, "mistakes", mistakes.len(), MISTAKES);
        self.later = givens
            .iter()
            .filter_map(|block| block.get("name"))
            .chain(steps.iter().filter_map(|block| block.get("finds")))
            .filter_map(|node| super::fields::text(node).map(|text| text.text))
            .collect();
        let step_count = steps.len();
        let card_blocks = cards.len();
        let givens: Vec<_> = givens
            .iter()
            .filter_map(|block| self.given(block))
            .collect();
        let story = self.story(&fields, &stories);
        let given_names = self.names.len();
        let first_card = cards.first().map(|block| Fields::new(block, "").place());
        let cards = self.cards(&cards);
        let cards_broken = cards.len() < card_blocks;
        let figure = self.figure_block(&mut fields);
        if let Some(block) = figure {
            self.figure_columns(block);
        }
        let steps: Vec<_> = steps.iter().filter_map(|block| self.step(block)).collect();
        let figure = figure.and_then(|block| self.figure(block));
        let requires: Vec<_> = requires
            .iter()
            .filter_map(|block| self.require(block))
            .collect();
        let mistake_blocks = mistakes;
        let mistakes: Vec<_> = mistake_blocks
            .iter()
            .filter_map(|block| {
                self.mistake(block, &steps, (!cards_broken).then_some(cards.as_slice()))
            })
            .collect();
        if !cards_broken && steps.len() == step_count {
            self.cards_of_an_order(&steps, &cards, first_card);
        }
        self.named_twice(&mistake_blocks);
        let caution = self.own_text(&mut fields, "caution");
        let varies = self.own_text(&mut fields, "varies");
        let on_the_job = self.own_text(&mut fields, "on_the_job");
        let only_if = fields
            .text(self.reader, "only_if")
            .and_then(|text| self.only_if(&text, rule_count));
        let scene = self.scene_aside(&mut fields, rule_count);
        let whole = steps.len() == step_count;
        if whole && steps.iter().all(|step| step.slot.is_none() || !step.ask) {
            self.reader.refuse(
                &fields.place(),
                "the family asks nothing",
                "add a [[step]] that is asked",
            );
        }
        self.training |= self.training_tables();
        self.report_unused(rule_count, given_names, &steps);
        let kind = fields.text(self.reader, "kind");
        let rules_used = self
            .used
            .iter()
            .copied()
            .filter(|slot| *slot < rule_count)
            .collect();
        let mut variant = Variant {
            level: self.shelf.level,
            system: self.shelf.system,
            kind: Kind::Single,
            names: std::mem::take(&mut self.names),
            rule_count,
            rules_used,
            only_if,
            story: story?,
            caution,
            varies,
            on_the_job,
            figure,
            givens,
            requires,
            row_tables: self.row_tables(&steps),
            steps,
            cards,
            mistakes,
            scene,
            training: self.training,
            revision: 0,
        };
        variant.kind = self.kind(kind.as_ref(), &variant);
        variant.revision = super::revision::of(&variant, self.shelf);
        Some(variant)
    }

    /// The kind that the file says, if it fits, else the one that the steps show.
    fn kind(&mut self, said: Option<&Text>, variant: &Variant) -> Kind {
        let shown = Kind::shown(variant);
        let Some(said) = said else {
            return shown;
        };
        let Some(kind) = Kind::of_word(&said.text) else {
            let has = Kind::ALL.map(|kind| kind.word().to_owned()).to_vec();
            let message = format!("there is no kind \"{}\"", said.text);
            self.reader.unknown(&said.span, message, &said.text, has);
            return shown;
        };
        if let Some(why) = kind.unfit(variant) {
            let message = format!("the family is of kind \"{}\", but {why}", said.text);
            let remedy = format!("write \"{}\", or take the line out", shown.word());
            self.reader.refuse(&said.span, message, &remedy);
        }
        kind
    }

    /// The tables of an array that belong to this level.
    fn items<'b>(&mut self, fields: &mut Fields<'b>, key: &'static str) -> Vec<&'b Block> {
        let blocks = fields.blocks(self.reader, key);
        blocks
            .into_iter()
            .filter(|block| self.at_this_level(block))
            .collect()
    }

    fn at_this_level(&self, block: &Block) -> bool {
        match block.get("levels").map(|node| &node.item) {
            Some(Item::List(levels)) => levels.iter().any(|level| {
                matches!(level.item, Item::Number { value, .. } if value == f64::from(self.shelf.level))
            }),
            _ => true,
        }
    }

    fn limit(&mut self, fields: &Fields<'_>, what: &str, count: usize, most: usize) {
        if count > most {
            let message = format!("the family has {count} {what}; it may have {most}");
            self.reader
                .refuse(&fields.place(), message, "make two families of it");
        }
    }

    fn story(&mut self, fields: &Fields<'_>, stories: &[&Block]) -> Option<Template> {
        let [block] = stories else {
            let count = match stories.len() {
                0 => "no story".to_owned(),
                more => format!("{more} stories"),
            };
            let message = format!("level {} has {count}; a level has one", self.shelf.level);
            let place = stories
                .last()
                .map_or_else(|| fields.place(), |block| Fields::new(block, "").place());
            self.reader
                .refuse(&place, message, "write one [[story]] for each level");
            return None;
        };
        let mut fields = Fields::new(block, "the story");
        fields.node("levels");
        let text = fields.needed(self.reader, "text");
        fields.finish(self.reader);
        self.template(&text?)
    }

    fn require(&mut self, block: &Block) -> Option<Requirement> {
        let mut fields = Fields::new(block, "the requirement");
        fields.node("levels");
        let that = fields.needed(self.reader, "that");
        let why = fields.needed(self.reader, "why");
        fields.finish(self.reader);
        let all = self.names.len();
        let that = self.truth(&that?, "a requirement", all)?;
        Some(Requirement {
            that,
            why: why?.text,
        })
    }

    /// A text of the family that may have slots.
    fn own_text(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<Template> {
        let text = fields.text(self.reader, key)?;
        self.template(&text)
    }

    fn template(&mut self, text: &Text) -> Option<Template> {
        let scope = SlotScope {
            names: &self.names,
            tables: self.shelf.tables,
        };
        match Template::parse(&text.text, scope) {
            Ok(template) => {
                self.texts_use.extend(template.slots());
                Some(template)
            }
            Err(fault) => {
                let named = text.text.get(fault.span.clone()).unwrap_or_default();
                let said = if let Some(what) = self.shelf.faulty.named_in(named) {
                    rests_on(&what)
                } else if self.later.iter().any(|later| later == named) {
                    Said {
                        message: format!("the slot names \"{named}\", which a step finds later"),
                        has: fault.has,
                        remedy: Some("print a given here".into()),
                    }
                } else {
                    Said {
                        message: fault.message,
                        has: fault.has,
                        remedy: Some(fault.remedy),
                    }
                };
                if !self.broken.contains(named) {
                    self.reader.note(text, &fault.span, said);
                }
                None
            }
        }
    }

    /// What is asked before anything is drawn: house rules only.
    fn only_if(&mut self, text: &Text, rule_count: usize) -> Option<Formula> {
        let before = self.reader.faults.len();
        let formula = self.truth(text, "only_if", rule_count);
        if formula.is_none()
            && let Some(fault) = self.reader.faults.get_mut(before)
            && fault.message.ends_with("stands later")
        {
            fault.remedy = Some("name house rules only: nothing is drawn yet".into());
        }
        formula
    }

    /// A formula over the first `visible` names.
    fn formula(&mut self, text: &Text, what: &str, visible: usize) -> Option<Formula> {
        self.checked(text, what, visible, |scope, expression| {
            formulas::check(expression, scope)
        })
    }

    /// A formula over bare printed figures.
    fn figures(&mut self, text: &Text, what: &str, visible: usize) -> Option<Formula> {
        self.checked(text, what, visible, |scope, expression| {
            formulas::check_figures(expression, scope)
        })
    }

    fn scope(&self, visible: usize) -> Scope<'_> {
        Scope {
            names: &self.names,
            visible,
            tables: self.shelf.tables,
            system: self.shelf.system,
        }
    }

    fn checked(
        &mut self,
        text: &Text,
        what: &str,
        visible: usize,
        check: impl Fn(&Scope<'_>, &formulas::Expression) -> Result<Formula, formulas::Fault>,
    ) -> Option<Formula> {
        let scope = self.scope(visible);
        let found = formulas::parse(&text.text).and_then(|read| check(&scope, &read));
        match found {
            Ok(formula) => {
                self.used.extend(formula.slots().iter().copied());
                self.tables_used.extend(formula.tables().iter().cloned());
                Some(formula)
            }
            Err(fault) => {
                if !self.follows_from_broken(&text.text) {
                    let (span, said) = self.said(text, what, fault, check);
                    self.reader.note(text, &span, said);
                }
                None
            }
        }
    }

    fn follows_from_broken(&self, formula: &str) -> bool {
        let words = formula.split(|c: char| !c.is_ascii_alphanumeric() && c != '_');
        words.into_iter().any(|word| self.broken.contains(word))
    }

    /// A formula that gives yes or no.
    fn truth(&mut self, text: &Text, what: &str, visible: usize) -> Option<Formula> {
        let formula = self.formula(text, what, visible)?;
        if *formula.holds() == Type::Truth {
            return Some(formula);
        }
        let message = format!(
            "{what}: this gives {}, not yes or no",
            formulas::kind(formula.holds())
        );
        self.reader.refuse(
            &text.span,
            message,
            "compare it with something, as in 'x > 3 ft'",
        );
        None
    }

    /// A constant quantity, written as a number or as a text with its unit.
    fn constant(&mut self, node: &Node, what: &str) -> Option<Quantity> {
        match &node.item {
            Item::Number { value, .. } => Some(Quantity::plain(*value)),
            Item::Text { .. } => {
                let text = super::fields::text(node)?;
                let formula = self.formula(&text, what, 0)?;
                match formula.evaluate(&[], super::basis(self.shelf.system)) {
                    Ok(Value::Number(quantity)) => Some(quantity),
                    _ => {
                        self.reader.refuse(
                            &node.span,
                            format!("{what}: this is no figure"),
                            "write a figure with its unit",
                        );
                        None
                    }
                }
            }
            other => {
                let message = format!("{what}: this is {}, not a figure", other.kind());
                self.reader.refuse(
                    &node.span,
                    message,
                    "write a figure with its unit, in quotes",
                );
                None
            }
        }
    }

    /// Rows to choose among: a name that holds rows, else a table.
    fn pool(&mut self, text: &Text) -> Option<(Pool, Arc<str>)> {
        let found = self.names.iter().position(|name| name.name == text.text);
        if let Some(slot) = found
            && let Some(Type::Rows(table)) = self.names.get(slot).map(|name| name.holds.clone())
        {
            self.used.insert(slot);
            self.tables_used.insert(Arc::clone(&table));
            return Some((Pool::Slot(slot), table));
        }
        if let Some(table) = self.shelf.tables.get(text.text.as_str()) {
            self.tables_used.insert(Arc::clone(&table.name));
            return Some((Pool::Table(Arc::clone(table)), Arc::clone(&table.name)));
        }
        if let Some(what) = self.shelf.faulty.named_in(&text.text) {
            self.reader
                .note(text, &(0..text.text.len()), rests_on(&what));
            return None;
        }
        let has = self.shelf.tables.keys().map(ToString::to_string).collect();
        let message = format!("there is no table \"{}\"", text.text);
        self.reader.unknown(&text.span, message, &text.text, has);
        None
    }

    /// A condition on a candidate row, which the formula calls `row`.
    fn condition(&mut self, text: &Text, table: &Arc<str>, what: &str) -> Option<Condition> {
        let slot = self.names.len();
        self.names.push(Name {
            name: "row".into(),
            holds: Type::Row(Arc::clone(table)),
            label: "the row".into(),
            unit: None,
            places: 0,
        });
        let formula = self.truth(text, what, slot + 1);
        self.names.pop();
        self.used.remove(&slot);
        Some(Condition {
            formula: formula?,
            slot,
        })
    }

    /// Adds a name; a second one of the same name is a fault.
    fn name(&mut self, place: &Range<usize>, name: Name) -> usize {
        let taken = self.names.iter().any(|known| known.name == name.name);
        if taken {
            let message = format!("the name \"{}\" is taken", name.name);
            self.reader.refuse(place, message, "give it another name");
        }
        if !is_name(&name.name) || name.name == "row" || name.name == "rule" {
            let message = format!("\"{}\" cannot be a name", name.name);
            let remedy =
                "write small letters, digits and _, beginning with a letter; not row or rule";
            self.reader.refuse(place, message, remedy);
        }
        self.later.retain(|later| *later != name.name);
        self.names.push(name);
        let slot = self.names.len() - 1;
        self.named_at.insert(slot, place.clone());
        slot
    }

    fn row_tables(&self, steps: &[StepPlan]) -> BTreeMap<usize, Arc<Table>> {
        let table = |step: &StepPlan| match step.body.formula()?.holds() {
            Type::Row(name) => self.shelf.tables.get(name).cloned(),
            _ => None,
        };
        let found = steps.iter().enumerate();
        found
            .filter_map(|(at, step)| table(step).map(|table| (at, table)))
            .collect()
    }

    fn training_tables(&self) -> bool {
        let rows = self.names.iter().filter_map(|name| match &name.holds {
            Type::Row(table) | Type::Rows(table) => Some(Arc::clone(table)),
            _ => None,
        });
        let used: BTreeSet<Arc<str>> = rows.chain(self.tables_used.iter().cloned()).collect();
        let notes = self
            .shelf
            .notes
            .iter()
            .filter(|note| used.contains(note.name.as_str()));
        notes
            .into_iter()
            .any(|note| note.training || note.from_memory)
    }
}

/// Whether formulas can call something so.
pub(in crate::lessons) fn is_name(name: &str) -> bool {
    name.starts_with(|c: char| c.is_ascii_lowercase())
        && name
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
}
