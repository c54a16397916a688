//! Arrangements: jobs to be put in order, and parts to be matched.

use super::Compiler;
use crate::formulas::Table;
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::node::{Block, Node};
use crate::lessons::variant::{Body, CardPlan, MatchPlan};

impl Compiler<'_, '_, '_> {
    /// The cards in right order, with the places of those that must come before each.
    pub(super) fn cards(&mut self, blocks: &[&Block]) -> Vec<CardPlan> {
        let ids: Vec<Option<String>> = blocks
            .iter()
            .map(|block| match block.get("card").map(|node| &node.item) {
                Some(crate::lessons::node::Item::Text { text, .. }) => Some(text.clone()),
                _ => None,
            })
            .collect();
        let before = self.reader.faults.len();
        let mut above = None;
        let mut cards = Vec::new();
        for (at, block) in blocks.iter().enumerate() {
            let Some(card) = self.card((at, block), &ids, above, &cards) else {
                continue;
            };
            if !card.decoy {
                above = Some(at);
            }
            cards.push(card);
        }
        if self.reader.faults.len() > before {
            Vec::new()
        } else {
            cards
        }
    }

    fn card(
        &mut self,
        (at, block): (usize, &Block),
        ids: &[Option<String>],
        above: Option<usize>,
        earlier: &[CardPlan],
    ) -> Option<CardPlan> {
        let mut fields = Fields::new(block, "the card");
        fields.node("levels");
        let id = fields.needed(self.reader, "card")?;
        fields.what = format!("card \"{}\"", id.text);
        let text = fields.needed(self.reader, "text");
        let always = fields.truth(self.reader, "always").unwrap_or(false);
        let decoy = fields.truth(self.reader, "decoy").unwrap_or(false);
        let after = match fields.list(self.reader, "after") {
            Some(list) => self.after(&fields.what, list, ids, (at, earlier)),
            None if decoy => Vec::new(),
            None => above.into_iter().collect(),
        };
        let visible = self.names.len();
        let when = fields
            .text(self.reader, "when")
            .and_then(|text| self.truth(&text, &format!("card \"{}\"", id.text), visible));
        fields.finish(self.reader);
        if ids.iter().take(at).flatten().any(|known| *known == id.text) {
            let message = format!("two cards are called \"{}\"", id.text);
            self.reader
                .refuse(&id.span, message, "give one of them another name");
        }
        Some(CardPlan {
            id: id.text,
            text: text?.text,
            after,
            always,
            decoy,
            when,
        })
    }

    /// The cards that one stands after: they stand above it, and belong in the order.
    fn after(
        &mut self,
        what: &str,
        list: &[Node],
        ids: &[Option<String>],
        (at, earlier): (usize, &[CardPlan]),
    ) -> Vec<usize> {
        let mut found = Vec::new();
        for node in list {
            let Some(name) = text(node) else {
                self.reader.refuse(
                    &node.span,
                    format!("\"after\" of {what} lists the names of cards"),
                    "write them in quotes",
                );
                continue;
            };
            let position = ids.iter().position(|id| id.as_ref() == Some(&name.text));
            let is_decoy = |place: usize| earlier.get(place).is_some_and(|card| card.decoy);
            match position {
                Some(place) if place < at && !is_decoy(place) => found.push(place),
                Some(place) if place < at => {
                    let message = format!("{what} stands after \"{}\", a decoy", name.text);
                    let remedy = "name a card that belongs in the order";
                    self.reader.refuse(&name.span, message, remedy);
                }
                Some(_) => {
                    let message = format!(
                        "{what} stands after \"{}\", which is not above it",
                        name.text
                    );
                    let remedy = "let the cards stand in right order, and name one above";
                    self.reader.refuse(&name.span, message, remedy);
                }
                None => {
                    let message =
                        format!("{what} stands after \"{}\", which is no card", name.text);
                    let has = ids.iter().flatten().cloned().collect();
                    self.reader.unknown(&name.span, message, &name.text, has);
                }
            }
        }
        found
    }

    pub(super) fn order(&mut self, block: &Block) -> Option<Body> {
        let mut fields = Fields::new(block, "the order");
        let cards = fields.needed(self.reader, "cards");
        if let Some(cards) = cards
            && cards.text != "below"
        {
            self.reader.refuse(
                &cards.span,
                "the cards stand below, as [[card]]",
                "write cards = \"below\"",
            );
        }
        let (least, most) = self.least_and_most(&mut fields, "show")?;
        fields.finish(self.reader);
        Some(Body::Order { least, most })
    }

    pub(super) fn matching(&mut self, block: &Block) -> Option<Body> {
        let mut fields = Fields::new(block, "the match");
        let name = fields.needed(self.reader, "table")?;
        let left = fields.needed(self.reader, "left")?;
        let right = fields.needed(self.reader, "right")?;
        let spare = fields.whole(self.reader, "spare").unwrap_or(0) as usize;
        let (least, most) = self.least_and_most(&mut fields, "show")?;
        let Some(table) = self.shelf.tables.get(name.text.as_str()).cloned() else {
            fields.knows(&["where"]);
            fields.finish(self.reader);
            self.pool(&name);
            return None;
        };
        self.tables_used.insert(std::sync::Arc::clone(&table.name));
        let where_ = match fields.text(self.reader, "where") {
            Some(text) => Some(self.condition(&text, &table.name, "the match")?),
            None => None,
        };
        fields.finish(self.reader);
        let left = self.column(&table, &left)?;
        let right = self.column(&table, &right)?;
        if most + spare > table.rows.len() {
            let message = format!(
                "the match shows up to {most} parts and {spare} more meanings, but {} has {} rows",
                table.name,
                table.rows.len()
            );
            self.reader
                .refuse(&fields_place(block), message, "show fewer, or add rows");
            return None;
        }
        Some(Body::Match(MatchPlan {
            table,
            where_,
            left,
            right,
            least,
            most,
            spare,
        }))
    }

    pub(super) fn column(&mut self, table: &Table, name: &Text) -> Option<usize> {
        let found = table.column(&name.text);
        if found.is_none() {
            let message = format!("the table {} has no column \"{}\"", table.name, name.text);
            let columns = table.columns.iter();
            let has = columns.map(|column| column.name.clone()).collect();
            self.reader.unknown(&name.span, message, &name.text, has);
        }
        found
    }
}

fn fields_place(block: &Block) -> std::ops::Range<usize> {
    block.span.clone()
}
