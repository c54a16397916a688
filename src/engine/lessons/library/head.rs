//! What heads a family's file: its id, lesson, levels and sources.

use super::super::fields::{Fields, Reader};
use super::super::format_of;
use super::super::node::{Block, Item, blocks_of};
use super::super::source::Sources;
use super::super::variant::Family;

/// What heads a family's file, and its misspelt keys.
pub(super) fn read_head(
    reader: &mut Reader<'_>,
    file: &Block,
    sources: &Sources,
) -> Option<Family> {
    let mut fields = Fields::new(file, "the family");
    format_of(reader, &mut fields);
    let id = fields.needed(reader, "family");
    let lesson = fields.needed(reader, "lesson");
    let title = fields.needed(reader, "title");
    let levels = read_levels(reader, &mut fields);
    let home = fields.whole(reader, "home");
    let minutes = fields.whole(reader, "minutes");
    let quick = fields.whole(reader, "quick");
    let sources = fields.all_cited(reader, "sources", sources);
    if sources.is_empty() {
        fields.missing(reader, "sources");
    }
    for key in ["caution", "varies", "only_if", "on_the_job", "kind"] {
        fields.node(key);
    }
    for key in [
        "story", "given", "require", "step", "card", "mistake", "scene",
    ] {
        fields.node(key);
        for block in blocks_of(file, key) {
            foreign_levels(reader, block, &levels);
        }
    }
    if let Some(Item::Block(figure)) = fields.node("figure").map(|node| &node.item) {
        foreign_levels(reader, figure, &levels);
    }
    fields.finish(reader);
    let (id, lesson, title) = (id?, lesson?, title?);
    if lesson.text != folder(&reader.source.path) {
        let message = format!(
            "the family stands in the folder \"{}\", but names the lesson \"{}\"",
            folder(&reader.source.path),
            lesson.text
        );
        reader.refuse(&lesson.span, message, "write the name of the folder");
    }
    if !is_id(&id.text) {
        let message = format!("\"{}\" cannot be the name of a family", id.text);
        let remedy = "write small letters, digits and hyphens, as problem codes do";
        reader.refuse(&id.span, message, remedy);
    }
    let home = match home {
        Some(home) => home as u8,
        None => *levels.first()?,
    };
    if !levels.contains(&home) {
        let message = format!("the home level {home} is none of the levels");
        let place = Fields::new(file, "").place_of("home");
        reader.refuse(&place, message, "write one of the levels");
    }
    Some(Family {
        id: id.text,
        lesson: lesson.text,
        title: title.text,
        levels,
        home,
        minutes,
        quick,
        sources,
        file: reader.source.path.clone(),
    })
}

/// Whether problem codes can carry the name.
fn is_id(name: &str) -> bool {
    let letter = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    name.starts_with(|c: char| c.is_ascii_lowercase()) && name.chars().all(letter)
}

fn read_levels(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Vec<u8> {
    if !fields.has("levels") {
        fields.missing(reader, "levels");
    }
    let mut levels = Vec::new();
    for node in fields.list(reader, "levels").unwrap_or_default() {
        match node.item {
            Item::Number { value, .. } if [1.0, 2.0, 3.0].contains(&value) => {
                levels.push(value as u8);
            }
            _ => reader.refuse(&node.span, "a level is 1, 2 or 3", "write 1, 2 or 3"),
        }
    }
    levels.sort_unstable();
    levels.dedup();
    levels
}

/// A level that the family does not have would leave its item out in silence.
fn foreign_levels(reader: &mut Reader<'_>, block: &Block, levels: &[u8]) {
    let Some(node) = block.get("levels") else {
        return;
    };
    let Item::List(own) = &node.item else {
        let message = format!(
            "\"levels\" is {}; it must be a list in [ ]",
            node.item.kind()
        );
        reader.refuse(&node.span, message, "write levels = [2]");
        return;
    };
    for node in own {
        let known = matches!(node.item, Item::Number { value, .. } if levels.iter().any(|level| f64::from(*level) == value));
        if !known {
            reader.refuse(
                &node.span,
                "the family has no such level",
                "write a level that \"levels\" at the top names",
            );
        }
    }
}

pub(super) fn folder(path: &str) -> &str {
    let mut parts = path.rsplit('/');
    parts.next();
    parts.next().unwrap_or_default()
}
