//! Mistakes: what each does, where, and when it can be made.

use super::Compiler;
use super::steps::{dimension, is_figure};
use crate::formulas::{Formula, Type, Value};
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::node::{Block, Node};
use crate::lessons::variant::{Body, CardPlan, MistakePlan, StepPlan, Way};

impl Compiler<'_, '_, '_> {
    pub(super) fn mistake(
        &mut self,
        block: &Block,
        steps: &[StepPlan],
        cards: &[CardPlan],
    ) -> Option<MistakePlan> {
        let mut fields = Fields::new(block, "the mistake");
        fields.node("levels");
        let id = fields.needed(self.reader, "name")?;
        fields.what = format!("mistake \"{}\"", id.text);
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
        let way = match at.and_then(|at| steps.get(at)) {
            Some(step) => self.way(&mut fields, step, cards),
            None => {
                for key in ["is", "figures", "early", "uses", "omits", "pair"] {
                    fields.node(key);
                }
                None
            }
        };
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
            let fault = self.reader.fault(&step.span, message);
            fault.has = steps
                .iter()
                .filter(|s| s.slot.is_some())
                .map(|s| s.id.clone())
                .collect();
            fault.remedy = Some("write the name of a step".into());
        }
        found
    }

    fn way(&mut self, fields: &mut Fields<'_>, step: &StepPlan, cards: &[CardPlan]) -> Option<Way> {
        let is = fields.text(self.reader, "is");
        let figures = fields.text(self.reader, "figures");
        let early = fields.node("early");
        let uses = fields.text(self.reader, "uses");
        let omits = fields.text(self.reader, "omits");
        let pair = fields.node("pair");
        let count = usize::from(is.is_some())
            + usize::from(figures.is_some())
            + usize::from(early.is_some())
            + usize::from(uses.is_some())
            + usize::from(omits.is_some())
            + usize::from(pair.is_some());
        if count != 1 {
            let message = format!(
                "{} needs one of is, figures, early, uses, omits and pair",
                fields.what
            );
            self.reader
                .refuse(&fields.place(), message, "write one of them");
            return None;
        }
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
            return Some(Way::Early(
                self.card_of(&first, cards)?,
                self.card_of(&second, cards)?,
            ));
        }
        if let Some(text) = uses {
            return self.card_of(&text, cards).map(Way::Uses);
        }
        if let Some(text) = omits {
            return self.card_of(&text, cards).map(Way::Omits);
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
            "{} gives {}, but the step \"{}\" finds another kind of thing",
            fields.what,
            crate::formulas::kind(formula.holds()),
            step.id
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

    fn card_of(&mut self, name: &Text, cards: &[CardPlan]) -> Option<usize> {
        let found = cards.iter().position(|card| card.id == name.text);
        if found.is_none() {
            let fault = self
                .reader
                .fault(&name.span, format!("there is no card \"{}\"", name.text));
            fault.has = cards.iter().map(|card| card.id.clone()).collect();
            fault.remedy = Some("write the name of a card".into());
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
                let has = plan
                    .table
                    .rows
                    .iter()
                    .filter_map(|row| match row.get(column) {
                        Some(Value::Word(word)) => Some(word.to_string()),
                        _ => None,
                    });
                let fault = self.reader.fault(&wanted.span, message);
                fault.has = has.collect();
                fault.remedy = Some("write it as the table does".into());
            }
        }
        Some(Way::Pair(left?, right?))
    }
}
