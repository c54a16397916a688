//! A lesson's teaching text: what one can do after it, its parts, what varies.

use super::compile::{is_name, rests_on};
use super::example::Example;
use super::fault::nearest;
use super::faulty::Faulty;
use super::fields::{Fields, Reader, Said, Text};
use super::node::{Block, Item, face_of_block};
use super::rule::Rule;
use super::source::Sources;
use super::table::{TableNote, Tables, read_unit};
use super::template::{SlotScope, Template};
use crate::formulas::{self, Formula, Name, Scope, Type, Value};
use crate::quantities::{System, Unit};

/// A lesson.
#[derive(Debug, Clone)]
pub struct Lesson {
    /// Its id, which is the name of its folder.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Lessons to be read before it.
    pub before: Vec<String>,
    /// What one can do after it.
    pub can_do: Vec<String>,
    /// Where its contents come from.
    pub sources: Vec<String>,
    /// What has no source, and says so.
    pub note: Option<String>,
    /// The words of the glossary that it marks, in their order.
    pub terms: Vec<String>,
    /// Its families, in the order of their ids.
    pub families: Vec<String>,
    /// The worked example with which it ends.
    pub example: Option<Example>,
    faces: [Face; 2],
}

/// A lesson as one system of units sees it.
#[derive(Debug, Clone)]
struct Face {
    names: Vec<Name>,
    values: Vec<LessonValue>,
    varies: Option<Template>,
    parts: Vec<PartPlan>,
}

#[derive(Debug, Clone)]
enum LessonValue {
    Formula(Formula),
    Words(String),
}

#[derive(Debug, Clone)]
struct PartPlan {
    head: String,
    text: Template,
    caution: Option<Template>,
    law: Option<&'static pumpwright_calc::registry::Function>,
    table: Option<String>,
}

/// A part of a lesson with its figures put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its heading.
    pub head: String,
    /// Its paragraphs.
    pub text: Vec<String>,
    /// The act that keeps one safe here.
    pub caution: Option<String>,
    /// The law that stands under it.
    pub law: Option<String>,
    /// The name of the table that stands under it.
    pub table: Option<String>,
}

impl Lesson {
    /// The parts as one system of units reads them, under these house rules.
    pub fn parts(&self, system: System, rules: &[Option<Value>]) -> Vec<Part> {
        let face = &self.faces[usize::from(system == System::Si)];
        let values = face.values(system, rules);
        let render = |text: &Template| unmark(&text.render(&face.names, &values));
        face.parts
            .iter()
            .map(|part| Part {
                head: part.head.clone(),
                text: paragraphs(&render(&part.text)),
                caution: part.caution.as_ref().map(render),
                law: part.law.map(|law| formulas::law_words(law, system)),
                table: part.table.clone(),
            })
            .collect()
    }

    /// What varies by place or maker.
    pub fn varies(&self, system: System, rules: &[Option<Value>]) -> Option<String> {
        let face = &self.faces[usize::from(system == System::Si)];
        let values = face.values(system, rules);
        let text = face.varies.as_ref()?.render(&face.names, &values);
        Some(paragraphs(&unmark(&text)).join(" "))
    }
}

impl Face {
    fn values(&self, system: System, rules: &[Option<Value>]) -> Vec<Option<Value>> {
        let mut values = rules.to_vec();
        for value in &self.values {
            values.push(match value {
                LessonValue::Formula(formula) => {
                    formula.evaluate(&values, super::basis(system)).ok()
                }
                LessonValue::Words(words) => Some(Value::Word(words.as_str().into())),
            });
        }
        values
    }
}

/// Splits a text at its blank lines.
pub fn paragraphs(text: &str) -> Vec<String> {
    let joined = |part: &str| part.split_whitespace().collect::<Vec<_>>().join(" ");
    text.split("\n\n")
        .map(joined)
        .filter(|part| !part.is_empty())
        .collect()
}

/// The words that the parts of a file mark for the glossary.
fn marked(file: &Block) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let parts = match file.get("part").map(|node| &node.item) {
        Some(Item::List(parts)) => parts.as_slice(),
        _ => &[],
    };
    for part in parts {
        let Item::Block(block) = &part.item else {
            continue;
        };
        let text = block.get("text").and_then(super::fields::text);
        let mut rest = text.as_ref().map_or("", |text| text.text.as_str());
        while let Some((_, after)) = rest.split_once('[') {
            let Some((term, tail)) = after.split_once(']') else {
                break;
            };
            if !found.iter().any(|known| known == term) {
                found.push(term.to_owned());
            }
            rest = tail;
        }
    }
    found
}

/// Takes the marks off glossary terms: `[drawdown (tank)]` reads "drawdown".
fn unmark(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('[') {
        out.push_str(before);
        let Some((term, tail)) = after.split_once(']') else {
            out.push('[');
            rest = after;
            continue;
        };
        out.push_str(term.split_once(" (").map_or(term, |(word, _)| word));
        rest = tail;
    }
    out.push_str(rest);
    out
}

/// Reads a lesson's file.
pub(super) fn read(
    reader: &mut Reader<'_>,
    file: &Block,
    shelves: [(&Tables, &[Rule]); 2],
    (notes, sources): (&[TableNote], &Sources),
    faulty: &Faulty,
) -> Option<Lesson> {
    let before = reader.faults.len();
    let mut fields = Fields::new(file, "the lesson");
    super::format_of(reader, &mut fields);
    let id = fields.needed(reader, "lesson");
    let title = fields.needed(reader, "title");
    let prior = fields.strings(reader, "before");
    let can_do = fields.strings(reader, "can_do");
    if can_do.is_empty() {
        fields.missing(reader, "can_do");
    }
    let note = fields.cited(reader, "note", sources);
    let sources = fields.all_cited(reader, "sources", sources);
    for key in ["varies", "values", "part", "example"] {
        fields.node(key);
    }
    fields.finish(reader);
    let faces = [System::Us, System::Si].map(|system| {
        let (tables, rules) = shelves[usize::from(system == System::Si)];
        let block = face_of_block(file, system);
        let names = rules.iter().map(Rule::as_name).collect();
        FaceReader {
            reader,
            system,
            tables,
            notes,
            faulty,
            names,
            values: Vec::new(),
        }
        .read(&block)
    });
    if reader.faults.len() > before {
        return None;
    }
    Some(Lesson {
        id: id?.text,
        title: title?.text,
        before: prior,
        can_do,
        sources,
        note,
        terms: marked(file),
        families: Vec::new(),
        example: None,
        faces,
    })
}

struct FaceReader<'a, 'r, 's> {
    reader: &'r mut Reader<'s>,
    system: System,
    tables: &'a Tables,
    notes: &'a [TableNote],
    faulty: &'a Faulty,
    names: Vec<Name>,
    values: Vec<LessonValue>,
}

impl FaceReader<'_, '_, '_> {
    fn read(mut self, file: &Block) -> Face {
        let mut fields = Fields::new(file, "the lesson");
        if let Some(values) = fields.block(self.reader, "values") {
            for entry in &values.entries {
                if !is_name(&entry.key) {
                    let message = format!("\"{}\" cannot be a name", entry.key);
                    let remedy = "write small letters, digits and _, beginning with a letter";
                    self.reader.refuse(&entry.key_span, message, remedy);
                }
                self.value(&entry.key, &entry.node);
            }
        }
        let varies = fields
            .text(self.reader, "varies")
            .and_then(|text| self.template(&text));
        let blocks = fields.blocks(self.reader, "part");
        let parts = blocks
            .into_iter()
            .filter_map(|block| self.part(block))
            .collect();
        Face {
            names: self.names,
            values: self.values,
            varies,
            parts,
        }
    }

    fn part(&mut self, block: &Block) -> Option<PartPlan> {
        let mut fields = Fields::new(block, "the part");
        let head = fields.needed(self.reader, "head");
        let text = fields
            .needed(self.reader, "text")
            .and_then(|text| self.template(&text));
        let caution = fields
            .text(self.reader, "caution")
            .and_then(|text| self.template(&text));
        let law = fields
            .text(self.reader, "law")
            .and_then(|name| self.law(&name));
        let table = fields
            .text(self.reader, "table")
            .and_then(|name| self.table(&name));
        fields.finish(self.reader);
        Some(PartPlan {
            head: head?.text,
            text: text?,
            caution,
            law,
            table,
        })
    }

    fn law(&mut self, name: &Text) -> Option<&'static pumpwright_calc::registry::Function> {
        let found = pumpwright_calc::registry::find(&name.text);
        if found.is_none() {
            let all = pumpwright_calc::registry::functions().map(|function| function.name);
            let near = nearest(&name.text, all);
            let message = format!("there is no law \"{}\"", name.text);
            let fault = self.reader.fault(&name.span, message);
            fault.remedy = Some(match near.first() {
                Some(best) => format!("write \"{best}\""),
                None => "write the name of a calculation, as pumpwright calc lists them".into(),
            });
            fault.has = near;
        }
        found
    }

    fn table(&mut self, name: &Text) -> Option<String> {
        let hidden = |note: &TableNote| note.name == name.text && note.hidden.whole;
        if self.notes.iter().any(hidden) {
            let message = format!("the table \"{}\" is hidden from learners", name.text);
            let remedy = "print another, or take \"hidden\" out of that table";
            self.reader.refuse(&name.span, message, remedy);
            return None;
        }
        if self.tables.contains_key(name.text.as_str()) {
            return Some(name.text.clone());
        }
        if let Some(what) = self.faulty.named_in(&name.text) {
            self.reader
                .note(name, &(0..name.text.len()), rests_on(&what));
            return None;
        }
        let has = self.tables.keys().map(ToString::to_string).collect();
        let message = format!("there is no table \"{}\"", name.text);
        self.reader.unknown(&name.span, message, &name.text, has);
        None
    }

    fn template(&mut self, text: &Text) -> Option<Template> {
        let scope = SlotScope {
            names: &self.names,
            tables: self.tables,
        };
        Template::parse(&text.text, scope)
            .map_err(|fault| {
                let named = text.text.get(fault.span.clone()).unwrap_or_default();
                let said = match self.faulty.named_in(named) {
                    Some(what) => rests_on(&what),
                    None => Said {
                        message: fault.message,
                        has: fault.has,
                        remedy: Some(fault.remedy),
                    },
                };
                self.reader.note(text, &fault.span, said);
            })
            .ok()
    }

    /// A figure of the lesson's own: a formula, or words such as `3 to 5 psi`.
    fn value(&mut self, key: &str, node: &super::node::Node) {
        let (text, stated) = match &node.item {
            Item::Block(block) => {
                let mut fields = Fields::new(block, format!("value \"{key}\""));
                let text = fields.needed(self.reader, "is");
                let unit = fields
                    .text(self.reader, "unit")
                    .and_then(|text| read_unit(self.reader, &text));
                fields.finish(self.reader);
                (text, unit)
            }
            _ => (super::fields::text(node), None),
        };
        let Some(text) = text else {
            let message = format!("the value \"{key}\" is {}", node.item.kind());
            self.reader.refuse(
                &node.span,
                message,
                "write a figure with its unit in quotes, or a formula",
            );
            self.stand_in(key);
            return;
        };
        let scope = Scope {
            names: &self.names,
            visible: self.names.len(),
            tables: self.tables,
            system: self.system,
        };
        let formula = formulas::parse(&text.text).and_then(|read| formulas::check(&read, &scope));
        let (value, holds, unit) = match formula {
            Ok(formula) => {
                let unit = stated.or_else(|| unit_of(&formula, &self.names));
                let holds = formula.holds().clone();
                (LessonValue::Formula(formula), holds, unit)
            }
            Err(_) if is_words(&text.text) => {
                (LessonValue::Words(text.text.clone()), Type::Word, None)
            }
            Err(fault) => {
                let said = match self.faulty.named_in(&text.text) {
                    Some(what) => rests_on(&what),
                    None => Said {
                        message: format!("value \"{key}\": {}", fault.message),
                        has: fault.has,
                        remedy: fault.remedy,
                    },
                };
                self.reader.note(&text, &fault.span, said);
                (LessonValue::Words(String::new()), Type::Word, None)
            }
        };
        let label = key.replace('_', " ");
        self.names.push(Name {
            name: key.to_owned(),
            holds,
            label,
            unit,
            places: literal_places(&text.text),
        });
        self.values.push(value);
    }

    /// Something of that name, so that the texts which print it are not reported too.
    fn stand_in(&mut self, key: &str) {
        self.names.push(Name {
            name: key.to_owned(),
            holds: Type::Word,
            label: String::new(),
            unit: None,
            places: 0,
        });
        self.values.push(LessonValue::Words(String::new()));
    }
}

/// The unit in which a value is printed; a plain number is a share.
fn unit_of(formula: &Formula, names: &[Name]) -> Option<Unit> {
    let share = || {
        let plain = *formula.holds() == Type::Quantity(crate::quantities::Dimension::NONE);
        plain.then(|| Unit::parse("%").ok()).flatten()
    };
    formula.unit_shown(names).or_else(share)
}

/// Whether a value is words, such as `3 to 5 psi` or `1-inch pipe`, and no figure with its unit.
fn is_words(text: &str) -> bool {
    let parts: Vec<&str> = text.split_whitespace().collect();
    let figure = |part: &str| part.chars().all(|c| c.is_ascii_digit() || c == '.');
    match parts.as_slice() {
        [first, _] | [first] if figure(first) => false,
        _ => text.starts_with(|c: char| c.is_ascii_digit()),
    }
}

/// The decimals of a figure that stands alone with its unit: `6.40 m` has two.
fn literal_places(text: &str) -> usize {
    let first = text.split_whitespace().next().unwrap_or_default();
    let figure = first.chars().all(|c| c.is_ascii_digit() || c == '.');
    let alone = text.split_whitespace().count() <= 2;
    match first.split_once('.') {
        Some((_, decimals)) if figure && alone => decimals.len(),
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn terms_lose_their_marks() {
        assert_eq!(
            unmark("the [drawdown (tank)] of a [bladder]."),
            "the drawdown of a bladder."
        );
        assert_eq!(unmark("a [ alone"), "a [ alone");
    }

    #[test]
    fn blank_lines_part_paragraphs() {
        assert_eq!(
            paragraphs("one\ntwo\n\n three \n\n\n"),
            ["one two", "three"]
        );
    }
}
