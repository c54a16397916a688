//! Mistakes: what each does, where, and when it can be made.

use std::collections::BTreeSet;

use super::Compiler;
use super::steps::{dimension, is_figure};
use crate::formulas::{self, Formula, Type, Value};
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::node::{Block, Node};
use crate::lessons::variant::{Body, CardPlan, MistakePlan, StepPlan, Way};

/// The ways in which a mistake is made.
const WAYS: [&str; 6] = ["is", "figures", "early", "uses", "omits", "pair"];

impl Compiler<'_, '_, '_> {
    pub(super) fn mistake(
        &mut self,
        block: &Block,
        steps: &[StepPlan],
        cards: Option<&[CardPlan]>,
    ) -> Option<MistakePlan> {
        let mut fields = Fields::new(block, "the mistake");
        fields.node("levels");
        let id = fields.needed(self.reader, "name")?;
        fields.what = format!("mistake \"{}\"", id.text);
        self.finding = None;
        let step = fields.needed(self.reader, "step");
        let did = fields
            .needed(self.reader, "did")
            .and_then(|text| self.template(&text));
        let says = fields
            .needed(self.reader, "says")
            .and_then(|text| self.template(&text));
        let look = fields
            .text(self.reader, "look")
            .and_then(|text| self.template(&text));
        let fatal = fields.truth(self.reader, "fatal").unwrap_or(false);
        let all = self.names.len();
        let when = fields
            .text(self.reader, "when")
            .map(|text| self.truth(&text, &format!("mistake \"{}\"", id.text), all));
        let at = step.and_then(|step| self.step_of(&step, steps));
        fields.knows(&WAYS);
        let way = match at.and_then(|at| steps.get(at)) {
            Some(step) => self.way(&mut fields, step, cards),
            None => None,
        };
        if let Some(Way::Is(_) | Way::Figures(_)) = way
            && fatal
        {
            let message = format!(
                "{} is made at a figure, where \"fatal\" has no use",
                fields.what
            );
            let remedy =
                "take the line out; what could hurt someone goes into \"unsafe\" of the step";
            self.reader
                .refuse(&fields.place_of("fatal"), message, remedy);
        }
        fields.finish(self.reader);
        let when = match when {
            Some(when) => Some(when?),
            None => None,
        };
        Some(MistakePlan {
            id: id.text,
            step: at?,
            way: way?,
            did: did?,
            says: says?,
            look,
            when,
            fatal,
        })
    }

    fn step_of(&mut self, step: &Text, steps: &[StepPlan]) -> Option<usize> {
        let found = steps
            .iter()
            .position(|known| known.slot.is_some() && known.id == step.text);
        if found.is_none() && !self.broken.contains(&step.text) {
            let message = format!("there is no step \"{}\"", step.text);
            let named = steps.iter().filter(|known| known.slot.is_some());
            let has = named.map(|known| known.id.clone()).collect();
            self.reader.unknown(&step.span, message, &step.text, has);
        }
        found
    }

    fn way(
        &mut self,
        fields: &mut Fields<'_>,
        step: &StepPlan,
        cards: Option<&[CardPlan]>,
    ) -> Option<Way> {
        let written: Vec<&str> = WAYS.into_iter().filter(|key| fields.has(key)).collect();
        let [only] = written.as_slice() else {
            let message = format!("{} is made in one way: {}", fields.what, WAYS.join(", "));
            self.reader
                .refuse(&fields.place(), message, "write one of them");
            return None;
        };
        let (fit, kind) = match step.body {
            Body::Order { .. } => (["early", "uses", "omits"].as_slice(), "an order"),
            Body::Match(_) => (["pair"].as_slice(), "a match"),
            _ => (["is", "figures"].as_slice(), "found by a formula"),
        };
        if !fit.contains(only) {
            let message = format!(
                "{} has \"{only}\", but the step \"{}\" is {kind}",
                fields.what, step.id
            );
            let remedy = format!("write {}", fit.join(" or "));
            self.reader.refuse(&fields.place_of(only), message, &remedy);
            return None;
        }
        let is = fields.text(self.reader, "is");
        let figures = fields.text(self.reader, "figures");
        let early = fields.node("early");
        let uses = fields.text(self.reader, "uses");
        let omits = fields.text(self.reader, "omits");
        let pair = fields.node("pair");
        let visible = step.slot.map_or(0, |slot| slot + 1);
        if let Some(text) = is {
            let formula = self.formula(&text, &fields.what, visible)?;
            return self.fits(fields, &text, formula, step).map(Way::Is);
        }
        if let Some(text) = figures {
            let formula = self.figures(&text, &fields.what, visible)?;
            if step.unit.is_none() {
                let message = format!(
                    "{} reads its figure in the unit of the step, which has none",
                    fields.what
                );
                self.reader
                    .refuse(&text.span, message, "write it with \"is\"");
                return None;
            }
            return Some(Way::Figures(formula));
        }
        if let Some(node) = early {
            let (first, second) = self.two(fields, node)?;
            return self.early(&first, &second, cards?);
        }
        if let Some(text) = uses {
            let at = self.card_of(&text, cards?)?;
            return self.decoy(&text, cards?, at, true).map(|()| Way::Uses(at));
        }
        if let Some(text) = omits {
            let at = self.card_of(&text, cards?)?;
            return self
                .decoy(&text, cards?, at, false)
                .map(|()| Way::Omits(at));
        }
        let (part, meaning) = self.two(fields, pair?)?;
        self.pair(step, &part, &meaning)
    }

    /// A mistake's formula must give what the step gives; at a row also the figure that the row goes by.
    fn fits(
        &mut self,
        fields: &Fields<'_>,
        text: &Text,
        formula: Formula,
        step: &StepPlan,
    ) -> Option<Formula> {
        let wanted = step.body.formula().map(|formula| formula.holds().clone())?;
        let fits = match (&wanted, formula.holds()) {
            (Type::Row(table), figure) if is_figure(figure) => {
                let key = self
                    .shelf
                    .tables
                    .get(table)
                    .and_then(|table| table.columns.get(table.key));
                key.is_some_and(|key| dimension(&key.holds) == dimension(figure))
            }
            (wanted, found) => wanted == found,
        };
        if fits {
            return Some(formula);
        }
        let message = format!(
            "{} gives {}; the step \"{}\" finds {}",
            fields.what,
            formulas::kind(formula.holds()),
            step.id,
            formulas::kind(&wanted)
        );
        self.reader.refuse(
            &text.span,
            message,
            "let it give what the step finds, or use \"figures\"",
        );
        None
    }

    fn two(&mut self, fields: &Fields<'_>, node: &Node) -> Option<(Text, Text)> {
        let found: Vec<Text> = match &node.item {
            crate::lessons::node::Item::List(items) => items.iter().filter_map(text).collect(),
            _ => Vec::new(),
        };
        if let [first, second] = found.as_slice() {
            return Some((first.clone(), second.clone()));
        }
        let message = format!("{} needs a list of two names here", fields.what);
        self.reader
            .refuse(&node.span, message, "write [\"first\", \"second\"]");
        None
    }

    /// One card before another that must come before it.
    fn early(&mut self, first: &Text, second: &Text, cards: &[CardPlan]) -> Option<Way> {
        let (one, two) = (self.card_of(first, cards)?, self.card_of(second, cards)?);
        let mut open = vec![one];
        let mut before = BTreeSet::new();
        while let Some(at) = open.pop() {
            if before.insert(at) {
                open.extend(cards.get(at).iter().flat_map(|card| &card.after));
            }
        }
        if one != two && before.contains(&two) {
            return Some(Way::Early(one, two));
        }
        let message = format!(
            "\"{}\" need not come after \"{}\", so early is no mistake",
            first.text, second.text
        );
        let remedy =
            "write the card that comes too early first, then one that must stand before it";
        self.reader.refuse(&first.span, message, remedy);
        None
    }

    /// Only a decoy is used wrongly, and only a card that belongs is left out wrongly.
    fn decoy(&mut self, name: &Text, cards: &[CardPlan], at: usize, wanted: bool) -> Option<()> {
        if cards.get(at).is_some_and(|card| card.decoy == wanted) {
            return Some(());
        }
        let (message, remedy) = if wanted {
            (
                format!(
                    "\"{}\" belongs in the order, so using it is no mistake",
                    name.text
                ),
                "name a decoy",
            )
        } else {
            (
                format!(
                    "\"{}\" is a decoy, so leaving it out is no mistake",
                    name.text
                ),
                "name a card that belongs in the order",
            )
        };
        self.reader.refuse(&name.span, message, remedy);
        None
    }

    fn card_of(&mut self, name: &Text, cards: &[CardPlan]) -> Option<usize> {
        let found = cards.iter().position(|card| card.id == name.text);
        if found.is_none() {
            let message = format!("there is no card \"{}\"", name.text);
            let has = cards.iter().map(|card| card.id.clone()).collect();
            self.reader.unknown(&name.span, message, &name.text, has);
        }
        found
    }

    fn pair(&mut self, step: &StepPlan, part: &Text, meaning: &Text) -> Option<Way> {
        let Body::Match(plan) = &step.body else {
            let message = format!("the step \"{}\" is no match, so it has no pairs", step.id);
            self.reader
                .refuse(&part.span, message, "write another kind of mistake");
            return None;
        };
        let row = |column: usize, wanted: &Text| {
            plan.table.rows.iter().position(
                |row| matches!(row.get(column), Some(Value::Word(word)) if **word == *wanted.text),
            )
        };
        let (left, right) = (row(plan.left, part), row(plan.right, meaning));
        for (found, wanted, column) in [(left, part, plan.left), (right, meaning, plan.right)] {
            if found.is_none() {
                let message = format!("the table {} has no \"{}\"", plan.table.name, wanted.text);
                let cells = plan.table.rows.iter().filter_map(|row| row.get(column));
                let words = cells.filter_map(|cell| match cell {
                    Value::Word(word) => Some(word.to_string()),
                    _ => None,
                });
                self.reader
                    .unknown(&wanted.span, message, &wanted.text, words.collect());
            }
        }
        let (left, right) = (left?, right?);
        let meaning_of = |row: usize| plan.table.rows.get(row)?.get(plan.right);
        if meaning_of(left) == meaning_of(right) {
            let message = format!(
                "\"{}\" is what the table says of it, so the pair is no mistake",
                meaning.text
            );
            self.reader
                .refuse(&meaning.span, message, "write the meaning of another part");
            return None;
        }
        Some(Way::Pair(left, right))
    }
}
