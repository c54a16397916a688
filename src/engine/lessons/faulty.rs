//! House rules and tables that could not be read: what rests on one is told so,
//! not that there is no such thing.

use std::collections::BTreeSet;

use super::node::{Block, Item};

/// What stands before the name of a house rule in formulas.
const RULE: &str = "rule.";

/// The names of what could not be read.
#[derive(Debug, Clone, Default)]
pub(super) struct Faulty {
    names: BTreeSet<String>,
    /// Not even the names of the house rules could be read.
    rules: bool,
}

impl Faulty {
    /// Notes the name under a key of a block, if it has one.
    pub fn add(&mut self, block: &Block, key: &str) {
        if let Some(Item::Text { text, .. }) = block.get(key).map(|node| &node.item) {
            let lead = if key == "rule" { RULE } else { "" };
            self.names.insert(format!("{lead}{text}"));
        }
    }

    /// Notes that the file of house rules could not be read at all.
    pub const fn add_all_rules(&mut self) {
        self.rules = true;
    }

    /// The first faulty name in a formula or a slot.
    pub fn named_in(&self, text: &str) -> Option<String> {
        let part = |c: char| !c.is_ascii_alphanumeric() && c != '_' && c != '.';
        text.split(part)
            .find(|word| self.names.contains(*word) || (self.rules && word.starts_with(RULE)))
            .map(|name| match name.strip_prefix(RULE) {
                Some(rule) => format!("the house rule \"{rule}\""),
                None => format!("the table \"{name}\""),
            })
    }
}
