//! What is told of a family that no single key shows: names before their time,
//! givens and cards that nothing uses.

use std::collections::BTreeSet;
use std::ops::Range;

use super::Compiler;
use crate::formulas::{self, Formula, Name, Scope, Type};
use crate::lessons::fields::{Said, Text, text};
use crate::lessons::node::Block;
use crate::lessons::variant::{Body, CardPlan, StepPlan};

impl Compiler<'_, '_, '_> {
    /// What is said about a faulty formula: that it rests on a faulty rule or table,
    /// that it is before its time, or what the formula itself says.
    pub(super) fn said(
        &self,
        text: &Text,
        what: &str,
        fault: formulas::Fault,
        check: impl Fn(&Scope<'_>, &formulas::Expression) -> Result<Formula, formulas::Fault>,
    ) -> (Range<usize>, Said) {
        if let Some(name) = self.shelf.faulty.named_in(&text.text) {
            return (0..text.text.len(), rests_on(&name));
        }
        let named = text.text.get(fault.span.clone()).unwrap_or_default();
        let own = |name: &str| self.finding.as_deref() == Some(name);
        if own(named.split('.').next().unwrap_or_default()) {
            let said = Said {
                message: format!("{what}: uses \"{named}\", which is what it finds"),
                has: Vec::new(),
                remedy: Some("use what stands above".into()),
            };
            return (fault.span, said);
        }
        let later = self.later.iter().filter(|name| !own(name));
        let mut names = self.names.clone();
        names.extend(later.map(|later| Name {
            name: later.clone(),
            holds: Type::Word,
            label: String::new(),
            unit: None,
            places: 0,
        }));
        let scope = Scope {
            names: &names,
            ..self.scope(self.names.len())
        };
        let again = formulas::parse(&text.text).and_then(|read| check(&scope, &read));
        let fault = match again {
            Err(again) if again.message.ends_with("stands later") => again,
            _ => fault,
        };
        let said = Said {
            message: format!("{what}: {}", fault.message),
            has: fault.has,
            remedy: fault.remedy,
        };
        (fault.span, said)
    }

    /// Cards without an order would never be seen; an order without enough cards
    /// cannot be shown.
    pub(super) fn cards_of_an_order(
        &mut self,
        steps: &[StepPlan],
        cards: &[CardPlan],
        first: Option<Range<usize>>,
    ) {
        let order = steps.iter().find_map(|step| match step.body {
            Body::Order { most, .. } => Some((step, most)),
            _ => None,
        });
        match (order, first) {
            (None, Some(place)) => {
                let remedy = "add a step with order = { cards = \"below\", show = [4, 6] }, or take the cards out";
                self.reader.refuse(&place, "nothing uses the cards", remedy);
            }
            (Some((step, most)), _) if most > cards.len() => {
                let there = match cards.len() {
                    0 => "none".to_owned(),
                    more => more.to_string(),
                };
                let message = format!(
                    "step \"{}\" shows up to {most} cards; there are {there}",
                    step.id
                );
                let place = step.slot.and_then(|slot| self.named_at.get(&slot).cloned());
                self.reader.refuse(
                    &place.unwrap_or(0..0),
                    message,
                    "show fewer, or add a [[card]]",
                );
            }
            _ => {}
        }
    }

    /// Two mistakes of one name could not be told apart in a record.
    pub(super) fn named_twice(&mut self, blocks: &[&Block]) {
        let mut seen = BTreeSet::new();
        for node in blocks.iter().filter_map(|block| block.get("name")) {
            let Some(name) = text(node) else {
                continue;
            };
            if !seen.insert(name.text.clone()) {
                let message = format!("two mistakes are called \"{}\"", name.text);
                self.reader
                    .refuse(&name.span, message, "give one of them another name");
            }
        }
    }

    /// Givens that nothing uses are slips of the pen.
    pub(super) fn report_unused(&mut self, rules: usize, givens: usize, steps: &[StepPlan]) {
        let arranged = steps
            .iter()
            .any(|step| matches!(step.body, Body::Order { .. } | Body::Match(_)));
        if self.reader.faults.iter().any(|_| true) || arranged {
            return;
        }
        for slot in rules..givens {
            if self.used.contains(&slot) || self.texts_use.contains(&slot) {
                continue;
            }
            let Some(name) = self.names.get(slot).map(|name| name.name.clone()) else {
                continue;
            };
            let message = format!("nothing uses the given \"{name}\"");
            let place = self.named_at.get(&slot).cloned().unwrap_or(0..0);
            self.reader.refuse(
                &place,
                message,
                "use it in the story or a formula, or take it out",
            );
        }
    }
}

/// What is said where a rule or a table that could not be read is named.
pub(in crate::lessons) fn rests_on(what: &str) -> Said {
    Said {
        message: format!("this rests on {what}, which has a fault of its own"),
        has: Vec::new(),
        remedy: Some("mend that first".into()),
    }
}
