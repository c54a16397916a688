//! House rules: values on which practice differs, each with its default, the
//! other values met, and a source. A class may set them; a problem prints them.

use super::fields::{Fields, Reader, text};
use super::node::{Block, Node, face_of_block};
use super::printed::show;
use super::source::Sources;
use super::table::{Tables, figure, quantity, read_unit, type_of_unit};
use crate::formulas::{Name, Rows, Type, Value};
use crate::quantities::{Dimension, Quantity, System, Unit, print};

/// A house rule as one system of units sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// Its dotted name, without the `rule.` of formulas.
    pub name: String,
    /// What it settles, in words.
    pub label: String,
    /// The type of its value.
    pub holds: Type,
    /// The unit of its value.
    pub unit: Option<Unit>,
    /// The values met, the default first.
    pub choices: Vec<Choice>,
    /// Why practice differs.
    pub why: String,
    /// Where the default comes from.
    pub source: String,
}

/// A value that a rule may take.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// As a person or a problem code writes it.
    pub text: String,
    /// The value.
    pub value: Value,
}

impl Rule {
    /// Its name as formulas see it.
    pub fn as_name(&self) -> Name {
        Name {
            name: format!("rule.{}", self.name),
            holds: self.holds.clone(),
            label: self.label.clone(),
            unit: self.unit.clone(),
            places: 0,
        }
    }

    /// The value of a choice; of the default where there is no such choice.
    pub fn value(&self, choice: usize) -> Option<Value> {
        self.choices
            .get(choice)
            .or_else(|| self.choices.first())
            .map(|choice| choice.value.clone())
    }
}

/// Reads one `[[rule]]` as one system of units sees it.
pub(super) fn read(
    reader: &mut Reader<'_>,
    block: &Block,
    system: System,
    tables: &Tables,
    sources: &Sources,
) -> Option<Rule> {
    let block = face_of_block(block, system);
    let mut fields = Fields::new(&block, "the house rule");
    let name = fields.needed(reader, "rule")?.text;
    fields.what = format!("house rule \"{name}\"");
    let unit = fields.text(reader, "unit");
    let words = fields.strings(reader, "words");
    let named_tables = fields.strings(reader, "tables");
    let others = fields.list(reader, "others").unwrap_or_default();
    let default = fields.node("default");
    let label = fields
        .string(reader, "label")
        .unwrap_or_else(|| name.replace(['.', '_'], " "));
    let why = fields
        .needed(reader, "why")
        .map_or_else(String::new, |text| text.text);
    let source = fields
        .needed(reader, "source")
        .map_or_else(String::new, |text| sources.cite(reader, &text));
    let is_part = |part: &str| super::compile::is_name(part);
    if !name.contains('.') || !name.split('.').all(is_part) {
        let message = format!("\"{name}\" cannot be the name of a house rule");
        let remedy = "write what it is about, a dot and what it settles, in small letters: tank.precharge_below";
        reader.refuse(&fields.place_of("rule"), message, remedy);
    }
    fields.knows(&[
        "unit", "words", "tables", "others", "label", "why", "source",
    ]);
    let plain = default.is_some_and(|node| figure(node).is_some());
    let listed = !words.is_empty() || !named_tables.is_empty();
    if unit.is_none() && !listed && !plain && !fields.has("unit") {
        let message = format!("{} does not say what its values are", fields.what);
        let remedy = "add unit = \"psi | kPa\", words = [\"one\", \"other\"] or tables = [\"one\"]";
        reader.refuse(&fields.place(), message, remedy);
        return None;
    }
    let Some(default) = default else {
        fields.missing(reader, "default");
        return None;
    };
    let unit = match unit {
        Some(text) => Some(read_unit(reader, &text)?),
        None => None,
    };
    let values = Values {
        unit: unit.as_ref(),
        words: &words,
        named: &named_tables,
        tables,
    };
    let mut choices = Vec::new();
    for node in std::iter::once(default).chain(others) {
        let choice = values.read(reader, node)?;
        if choices
            .iter()
            .any(|known: &Choice| known.value == choice.value)
        {
            let message = format!("{} has the value \"{}\" already", fields.what, choice.text);
            reader.refuse(&node.span, message, "take one of the two out");
        }
        choices.push(choice);
    }
    values.add_words(&mut choices);
    fields.finish(reader);
    let holds = match (&unit, choices.first().map(|choice| &choice.value)) {
        (Some(unit), _) => type_of_unit(unit),
        (None, Some(Value::Rows(rows))) => Type::Rows(rows.table.name.clone()),
        (None, Some(Value::Number(_))) => Type::Quantity(Dimension::NONE),
        _ => Type::Word,
    };
    Some(Rule {
        name,
        label,
        holds,
        unit,
        choices,
        why,
        source,
    })
}

/// How the values of a rule are written.
pub(super) struct Values<'a> {
    pub unit: Option<&'a Unit>,
    pub words: &'a [String],
    pub named: &'a [String],
    pub tables: &'a Tables,
}

impl Values<'_> {
    pub fn read(&self, reader: &mut Reader<'_>, node: &Node) -> Option<Choice> {
        if let Some(unit) = self.unit {
            let Some((number, _)) = figure(node) else {
                reader.refuse(
                    &node.span,
                    "the value of this house rule is a number, in its \"unit\"",
                    "write the number alone",
                );
                return None;
            };
            let value = quantity(number, unit);
            return Some(Choice {
                text: show(&value, Some(unit)),
                value,
            });
        }
        if self.words.is_empty()
            && self.named.is_empty()
            && let Some((number, places)) = figure(node)
        {
            return Some(Choice {
                text: print::at_least(number, places),
                value: Value::Number(Quantity::plain(number)),
            });
        }
        let Some(word) = text(node) else {
            reader.refuse(
                &node.span,
                "the value of this house rule is a word",
                "write it in quotes",
            );
            return None;
        };
        if self.named.contains(&word.text) {
            if let Some(table) = self.tables.get(word.text.as_str()) {
                return Some(Choice {
                    text: word.text,
                    value: Value::Rows(Rows::all(table)),
                });
            }
            let message = format!("there is no table \"{}\"", word.text);
            let has = self.tables.keys().map(ToString::to_string).collect();
            reader.unknown(&word.span, message, &word.text, has);
            return None;
        }
        if self.words.contains(&word.text) {
            return Some(Choice {
                value: Value::Word(word.text.as_str().into()),
                text: word.text,
            });
        }
        let message = format!("\"{}\" is none of its values", word.text);
        let has = self.words.iter().chain(self.named).cloned().collect();
        reader.unknown(&word.span, message, &word.text, has);
        None
    }

    /// The words or tables listed but not named as default stand as choices too.
    fn add_words(&self, choices: &mut Vec<Choice>) {
        for word in self.words {
            if choices.iter().all(|choice| choice.text != *word) {
                let value = Value::Word(word.as_str().into());
                choices.push(Choice {
                    text: word.clone(),
                    value,
                });
            }
        }
        for name in self.named {
            if choices.iter().all(|choice| choice.text != *name)
                && let Some(table) = self.tables.get(name.as_str())
            {
                choices.push(Choice {
                    text: name.clone(),
                    value: Value::Rows(Rows::all(table)),
                });
            }
        }
    }
}
