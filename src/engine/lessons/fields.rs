//! Taking the keys of a TOML table one by one; what is left over is misspelt.

use std::ops::{Range, RangeInclusive};

use super::fault::{Fault, SourceFile, nearest};
use super::node::{Block, Item, Node};
use super::places::Places;
use super::source::Sources;

/// A key this much like a missing one is that key, misspelt; our own choice.
const MISSPELT: f64 = 0.85;

/// Collects the faults of one file while it is read.
#[derive(Debug)]
pub(crate) struct Reader<'s> {
    pub source: &'s SourceFile,
    pub faults: Vec<Fault>,
}

impl<'s> Reader<'s> {
    pub const fn new(source: &'s SourceFile) -> Self {
        Self {
            source,
            faults: Vec::new(),
        }
    }

    /// Notes a fault at a place.
    pub fn fault(&mut self, span: &Range<usize>, message: impl Into<String>) -> &mut Fault {
        let fault = Fault::at(self.source, span, message);
        self.add(fault)
    }

    /// Notes a fault with its remedy.
    pub fn refuse(&mut self, span: &Range<usize>, message: impl Into<String>, remedy: &str) {
        self.fault(span, message).remedy = Some(remedy.to_owned());
    }

    /// Notes what is wrong with a formula or a slot; whoever reads it is told what to do in any case.
    pub fn note(&mut self, text: &Text, span: &Range<usize>, said: Said) {
        let fault = self.fault(&text.place(span), said.message);
        fault.remedy = said.remedy.or_else(|| {
            let remedy = if said.has.is_empty() {
                "mend the formula here"
            } else {
                "write one of these"
            };
            Some(remedy.to_owned())
        });
        fault.has = said.has;
    }

    /// Notes a name that is none of those that there are.
    pub fn unknown(&mut self, span: &Range<usize>, message: String, wrong: &str, has: Vec<String>) {
        let near = nearest(wrong, has.iter().map(String::as_str));
        let fault = self.fault(span, message);
        fault.remedy = Some(match (near.first(), has.is_empty()) {
            (Some(best), _) => format!("write \"{best}\""),
            (None, false) => "write one of these".to_owned(),
            (None, true) => "add it first".to_owned(),
        });
        fault.has = has;
    }

    fn add(&mut self, fault: Fault) -> &mut Fault {
        self.faults.push(fault);
        let last = self.faults.len() - 1;
        &mut self.faults[last]
    }
}

/// What is wrong with a formula or a slot, without its place.
pub(crate) struct Said {
    pub message: String,
    pub has: Vec<String>,
    pub remedy: Option<String>,
}

/// A text with the places of its characters.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(clippy::struct_field_names)]
pub(crate) struct Text {
    pub text: String,
    pub places: Places,
    pub span: Range<usize>,
}

impl Text {
    /// The place in the file of a part of the text.
    pub fn place(&self, part: &Range<usize>) -> Range<usize> {
        self.places.part(part)
    }

    /// The text from a byte on.
    pub fn rest(&self, from: usize) -> Self {
        Self {
            text: self.text.get(from..).unwrap_or_default().to_owned(),
            places: self.places.from(from),
            span: self.places.part(&(from..self.text.len())),
        }
    }

    /// The text as a node again.
    pub fn node(&self) -> Node {
        Node {
            item: Item::Text {
                text: self.text.clone(),
                places: self.places.clone(),
            },
            span: self.span.clone(),
        }
    }
}

/// The keys of one table while they are taken.
pub(crate) struct Fields<'b> {
    block: &'b Block,
    /// What the table is, for a sentence: `step "stages"`.
    pub what: String,
    known: Vec<&'static str>,
}

impl<'b> Fields<'b> {
    pub fn new(block: &'b Block, what: impl Into<String>) -> Self {
        Self {
            block,
            what: what.into(),
            known: Vec::new(),
        }
    }

    /// Where the table stands: its first key, so that an excerpt shows something.
    pub fn place(&self) -> Range<usize> {
        self.block
            .entries
            .first()
            .map_or_else(|| self.block.span.clone(), |entry| entry.key_span.clone())
    }

    pub fn node(&mut self, key: &'static str) -> Option<&'b Node> {
        self.known.push(key);
        self.block.get(key)
    }

    pub fn has(&self, key: &str) -> bool {
        self.block.get(key).is_some()
    }

    pub fn text(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Text> {
        let node = self.node(key)?;
        let found = text(node);
        if found.is_none() {
            self.wrong_kind(reader, key, node, "a text in quotes");
        }
        found
    }

    pub fn string(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<String> {
        self.text(reader, key).map(|found| found.text)
    }

    /// A text that must be there.
    pub fn needed(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Text> {
        if !self.has(key) {
            self.missing(reader, key);
            self.known.push(key);
            return None;
        }
        self.text(reader, key)
    }

    pub fn truth(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<bool> {
        let node = self.node(key)?;
        if let Item::Truth(truth) = node.item {
            return Some(truth);
        }
        self.wrong_kind(reader, key, node, "true or false");
        None
    }

    pub fn whole(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<u32> {
        let node = self.node(key)?;
        match &node.item {
            Item::Number { value, .. } if value.fract() == 0.0 && (0.0..1e6).contains(value) => {
                Some(*value as u32)
            }
            Item::Number { digits, .. } => {
                let message = format!(
                    "\"{key}\" of {} is {digits}; it must be a whole number, 0 or more",
                    self.what
                );
                reader.refuse(&node.span, message, "write a whole number, 0 or more");
                None
            }
            _ => {
                self.wrong_kind(reader, key, node, "a whole number");
                None
            }
        }
    }

    /// A whole number of a range; another one is told with what there can be.
    pub fn whole_in(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        range: &RangeInclusive<u32>,
    ) -> Option<u32> {
        let node = self.node(key)?;
        let (least, most) = (range.start(), range.end());
        match &node.item {
            Item::Number { value, .. }
                if value.fract() == 0.0
                    && (f64::from(*least)..=f64::from(*most)).contains(value) =>
            {
                Some(*value as u32)
            }
            Item::Number { digits, .. } => {
                let message = format!(
                    "\"{key}\" of {} is {digits}; it can be a whole number from {least} to {most}",
                    self.what
                );
                let remedy = format!("write {key} = {least}, or more, up to {most}");
                reader.refuse(&node.span, message, &remedy);
                None
            }
            _ => {
                let right = format!("a whole number from {least} to {most}");
                self.wrong_kind(reader, key, node, &right);
                None
            }
        }
    }

    pub fn list(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<&'b [Node]> {
        let node = self.node(key)?;
        if let Item::List(items) = &node.item {
            return Some(items);
        }
        self.wrong_kind(reader, key, node, "a list in [ ]");
        None
    }

    pub fn strings(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Vec<String> {
        let mut found = Vec::new();
        for item in self.list(reader, key).unwrap_or_default() {
            match text(item) {
                Some(text) => found.push(text.text),
                None => self.wrong_kind(reader, key, item, "texts in quotes"),
            }
        }
        found
    }

    /// A text that names where something comes from, in words.
    pub fn cited(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        sources: &Sources,
    ) -> Option<String> {
        let text = self.text(reader, key)?;
        Some(sources.cite(reader, &text))
    }

    /// The same for a list of them.
    pub fn all_cited(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        sources: &Sources,
    ) -> Vec<String> {
        let mut found = Vec::new();
        for item in self.list(reader, key).unwrap_or_default() {
            match text(item) {
                Some(text) => found.push(sources.cite(reader, &text)),
                None => self.wrong_kind(reader, key, item, "texts in quotes"),
            }
        }
        found
    }

    pub fn block(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<&'b Block> {
        let node = self.node(key)?;
        if let Item::Block(block) = &node.item {
            return Some(block);
        }
        self.wrong_kind(reader, key, node, "a table in { }");
        None
    }

    /// The tables of an array of tables, as in `[[step]]`.
    pub fn blocks(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Vec<&'b Block> {
        let mut found = Vec::new();
        for item in self.list(reader, key).unwrap_or_default() {
            match &item.item {
                Item::Block(block) => found.push(block),
                _ => self.wrong_kind(reader, key, item, "tables, each under its own [[…]]"),
            }
        }
        found
    }

    pub fn wrong_kind(&self, reader: &mut Reader<'_>, key: &str, node: &Node, wanted: &str) {
        let message = format!(
            "\"{key}\" of {} is {}; it must be {wanted}",
            self.what,
            node.item.kind()
        );
        reader.refuse(&node.span, message, &format!("write {wanted}"));
    }

    /// Reports a key that must be there: at the key that looks like it, if one does.
    pub fn missing(&self, reader: &mut Reader<'_>, key: &str) {
        let looks_like = |wrong: &str| strsim::jaro_winkler(wrong, key) > MISSPELT;
        let misspelt = self
            .block
            .entries
            .iter()
            .find(|entry| !self.known.contains(&entry.key.as_str()) && looks_like(&entry.key));
        if let Some(entry) = misspelt {
            let message = format!("{} has no key \"{}\"", self.what, entry.key);
            reader.refuse(&entry.key_span, message, &format!("write \"{key}\""));
            return;
        }
        let message = format!("{} has no \"{key}\"", self.what);
        reader.refuse(&self.place(), message, &format!("add {key} = …"));
    }

    /// The place of a key's value, or of the table where it does not have the key.
    pub fn place_of(&self, key: &str) -> Range<usize> {
        self.block
            .get(key)
            .map_or_else(|| self.place(), |node| node.span.clone())
    }

    /// The place of a key, or of the table where it does not have the key.
    pub fn place_of_key(&self, key: &str) -> Range<usize> {
        let entry = self.block.entries.iter().find(|entry| entry.key == key);
        entry.map_or_else(|| self.place(), |entry| entry.key_span.clone())
    }

    /// Counts keys as known, where the reading ends before it comes to them.
    pub fn knows(&mut self, keys: &[&'static str]) {
        self.known.extend(keys);
    }

    /// Reports the keys that nobody took.
    pub fn finish(self, reader: &mut Reader<'_>) {
        for entry in &self.block.entries {
            if self.known.contains(&entry.key.as_str()) {
                continue;
            }
            let message = format!("{} has no key \"{}\"", self.what, entry.key);
            let near = nearest(&entry.key, self.known.iter().copied());
            let fault = reader.fault(&entry.key_span, message);
            fault.remedy = Some(match near.first() {
                Some(best) => format!("write \"{best}\""),
                None => "take the line out".to_owned(),
            });
            if near.is_empty() {
                let mut has: Vec<String> = Vec::new();
                for key in &self.known {
                    if has.iter().all(|known| known != key) {
                        has.push((*key).to_owned());
                    }
                }
                fault.has = has;
            }
        }
    }
}

/// A node as a text.
pub(crate) fn text(node: &Node) -> Option<Text> {
    match &node.item {
        Item::Text { text, places } => Some(Text {
            text: text.clone(),
            places: places.clone(),
            span: node.span.clone(),
        }),
        _ => None,
    }
}
