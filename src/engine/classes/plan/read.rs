//! A plan's file to a plan: every fault with line, column, excerpt and remedy, as
//! lesson files have them.

use super::items::{Shelf, item};
use super::{Item, MarksBy, Order, Plan, Versions};
use crate::classes::day::number_of;
use crate::lessons::fields::{Fields, Reader, Text};
use crate::lessons::node::{Block, Item as Node, document};
use crate::lessons::{Fault, Library, SourceFile, format_of, is_day};
use crate::problems::Settings;
use crate::quantities::System;

/// As many jobs as a paper may have; our own choice, no source.
const MOST_JOBS: u32 = 60;

/// Whether a file says that it is a plan. Read by line, not as TOML, so that a file
/// with a fault further down is still known for what it is.
pub fn is_plan(text: &str) -> bool {
    text.trim_start_matches('\u{feff}')
        .lines()
        .map(str::trim)
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.strip_prefix("plan"))
        .any(|rest| rest.trim_start().starts_with('='))
}

/// Reads a plan. Its house rules become choices of the library, so that a figure that
/// no lesson lists can be drawn and marked.
pub fn read(library: &mut Library, source: &SourceFile) -> Result<Plan, Vec<Fault>> {
    let source = &SourceFile {
        path: source.path.clone(),
        text: source.text.trim_start_matches('\u{feff}').to_owned(),
    };
    let file = document(source)?;
    let mut reader = Reader::new(source);
    let plan = whole(library, &mut reader, &file);
    reader.faults.sort();
    reader.faults.dedup();
    match plan {
        Some(plan) if reader.faults.is_empty() => Ok(plan),
        _ => Err(reader.faults),
    }
}

fn whole(library: &mut Library, reader: &mut Reader<'_>, file: &Block) -> Option<Plan> {
    let mut fields = Fields::new(file, "the plan");
    format_of(reader, &mut fields);
    let id = fields.needed(reader, "plan");
    let title = fields.needed(reader, "title");
    let date = fields.text(reader, "date");
    let due = fields.text(reader, "due");
    let units = fields.text(reader, "units");
    let tables = tables(library, reader, &mut fields);
    let marks = fields.text(reader, "marks");
    let order = fields.text(reader, "order");
    let pass = fields.whole_in(reader, "pass", &(0..=100));
    let versions = versions(reader, &mut fields);
    let items = fields.blocks(reader, "item");
    let rules = fields.blocks(reader, "rule");
    if items.is_empty() && !fields.has("item") {
        fields.missing(reader, "item");
    } else if items.is_empty() && reader.faults.is_empty() {
        let place = fields.place_of("item");
        reader.refuse(&place, "the plan has no item", "add an [[item]]");
    }
    fields.finish(reader);
    if let Some(id) = &id {
        check_id(reader, id);
    }
    if let Some(title) = title.as_ref().filter(|own| own.text.trim().is_empty()) {
        let remedy = "write what the paper is, as in \"Week 6: cable, tank, relief\"";
        reader.refuse(&title.span, "the title is empty", remedy);
    }
    days(reader, date.as_ref(), due.as_ref());
    let system = match &units {
        None => System::Us,
        Some(units) => one_of(
            reader,
            units,
            "the units",
            &[("us", System::Us), ("si", System::Si)],
        )
        .unwrap_or(System::Us),
    };
    let by = [("steps", MarksBy::Steps), ("answer", MarksBy::Answer)];
    let marks_by = match &marks {
        None => Some(MarksBy::Steps),
        Some(marks) => one_of(reader, marks, "what earns marks", &by),
    };
    let orders = [
        ("as written", Order::AsWritten),
        ("shuffled", Order::Shuffled),
    ];
    let order = match &order {
        None => Some(Order::AsWritten),
        Some(order) => one_of(reader, order, "the order", &orders),
    };
    let mut settings = Settings::of_class(library);
    for (name, choice) in library.read_plan_rules(reader, &rules) {
        settings.choose(&name, choice);
    }
    let shelf = Shelf {
        library,
        settings: &settings,
        system,
        marks_by: marks_by.unwrap_or(MarksBy::Steps),
    };
    let items: Vec<Option<Item>> = items
        .iter()
        .enumerate()
        .map(|(at, block)| item(reader, block, at + 1, &shelf))
        .collect();
    let plan = Plan {
        id: id?.text,
        title: title?.text,
        date: date.map(|date| date.text),
        due: due.map(|due| due.text),
        system,
        tables,
        marks_by: marks_by?,
        order: order?,
        pass,
        versions: versions?,
        settings,
        items: items.into_iter().collect::<Option<_>>()?,
    };
    if plan.count() > MOST_JOBS {
        let message = format!(
            "the plan has {} jobs; a paper has {MOST_JOBS} at most",
            plan.count()
        );
        let place = Fields::new(file, "").place_of_key("item");
        reader.refuse(&place, message, "take items out, or lower a count");
    }
    Some(plan)
}

fn check_id(reader: &mut Reader<'_>, id: &Text) {
    let letter = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    let begins = id
        .text
        .starts_with(|c: char| c.is_ascii_lowercase() || c.is_ascii_digit());
    if !begins || !id.text.chars().all(letter) || id.text.len() > 40 {
        let message = format!("\"{}\" cannot be the name of a plan", id.text);
        let remedy = "write small letters, digits and hyphens, 40 at most: it names a folder";
        reader.refuse(&id.span, message, remedy);
    }
}

/// The meaning of a word out of a few.
fn one_of<T: Copy>(
    reader: &mut Reader<'_>,
    text: &Text,
    what: &str,
    words: &[(&str, T)],
) -> Option<T> {
    let found = words.iter().find(|(word, _)| *word == text.text);
    if found.is_none() {
        let message = format!("{what} cannot be \"{}\"", text.text);
        let has = words.iter().map(|(word, _)| (*word).to_owned()).collect();
        reader.unknown(&text.span, message, &text.text, has);
    }
    found.map(|(_, meaning)| *meaning)
}

fn versions(reader: &mut Reader<'_>, fields: &mut Fields<'_>) -> Option<Versions> {
    let Some(node) = fields.node("versions") else {
        return Some(Versions::OneEach);
    };
    match &node.item {
        Node::Number { value, .. } if [1.0, 2.0, 4.0].contains(value) => {
            Some(Versions::Some(*value as u32))
        }
        Node::Text { text, .. } if text == "one each" => Some(Versions::OneEach),
        _ => {
            let message = "\"versions\" of the plan says no number of papers that there can be";
            reader.refuse(&node.span, message, "write 1, 2, 4 or \"one each\"");
            None
        }
    }
}

/// The day of a paper, and the last on which it may come in.
fn days(reader: &mut Reader<'_>, date: Option<&Text>, due: Option<&Text>) {
    let mut number = |day: &Text| {
        let number = number_of(&day.text).filter(|_| is_day(&day.text));
        if number.is_none() {
            let message = format!("\"{}\" is no day", day.text);
            reader.refuse(&day.span, message, "write the day as 2026-11-18");
        }
        number
    };
    let (own, last) = (date.map(&mut number), due.map(&mut number));
    if let (Some(date), Some(due)) = (date, due)
        && let (Some(Some(own)), Some(Some(last))) = (own, last)
        && last < own
    {
        let message = format!("the paper is due before its day, {}", date.text);
        let remedy = format!("write due = \"{}\" or later", date.text);
        reader.refuse(&due.span, message, &remedy);
    }
}

fn tables(
    library: &Library,
    reader: &mut Reader<'_>,
    fields: &mut Fields<'_>,
) -> Option<Vec<String>> {
    let list = fields.list(reader, "tables")?;
    let mut names = Vec::new();
    for node in list {
        let Some(name) = crate::lessons::fields::text(node) else {
            fields.wrong_kind(reader, "tables", node, "texts in quotes");
            continue;
        };
        let known = library.tables(System::Us);
        if known.contains_key(name.text.as_str()) {
            names.push(name.text);
        } else {
            let message = format!("there is no table \"{}\"", name.text);
            let open = library.table_notes().iter();
            let has: Vec<String> = open.map(|note| note.name.clone()).collect();
            near_only(reader, &name, message, &has);
        }
    }
    Some(names)
}

/// A name that there is not, with the nearest ones; all of them where none is near and
/// they are few.
pub(super) fn near_only(reader: &mut Reader<'_>, name: &Text, message: String, has: &[String]) {
    let near = crate::lessons::nearest(&name.text, has.iter().map(String::as_str));
    let fault = reader.fault(&name.span, message);
    fault.remedy = Some(match near.first() {
        Some(best) => format!("write \"{best}\""),
        None => "pumpwright lessons lists what there is".to_owned(),
    });
    fault.has = near;
}

/// Lays the house rules of a plan over a library, so that papers drawn under them are
/// made again; what is faulty was refused when the plan was read first.
pub fn lay_rules(library: &mut Library, source: &SourceFile) {
    let text = source.text.trim_start_matches('\u{feff}').to_owned();
    let source = SourceFile {
        path: source.path.clone(),
        text,
    };
    let Ok(file) = document(&source) else { return };
    let mut reader = Reader::new(&source);
    let rules = Fields::new(&file, "the plan").blocks(&mut reader, "rule");
    library.read_plan_rules(&mut reader, &rules);
}
