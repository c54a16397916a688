//! What stands at the top of a file, above its first block, read without the rest: as
//! much as a list needs. For files that were checked before; where the top does not read
//! by itself, the whole file has to be read.

use super::super::fault::SourceFile;
use super::super::fields::{Fields, Reader};
use super::super::node::{Block, Item, blocks_of, document};
use super::super::source::Sources;
use super::super::variant::Family;
use super::LessonHead;
use super::head::read_head;

/// The head of a family's file.
pub(super) fn family(source: &SourceFile, sources: &Sources) -> Option<Family> {
    let (top, block) = top(source)?;
    let mut reader = Reader::new(&top);
    let family = read_head(&mut reader, &block, sources);
    family.filter(|_| reader.faults.is_empty())
}

/// The head of a lesson's file.
pub(super) fn lesson(source: &SourceFile) -> Option<LessonHead> {
    let (top, block) = top(source)?;
    let mut reader = Reader::new(&top);
    let mut fields = Fields::new(&block, "the lesson");
    let head = LessonHead {
        id: fields.string(&mut reader, "lesson")?,
        title: fields.string(&mut reader, "title")?,
        before: fields.strings(&mut reader, "before"),
        families: Vec::new(),
    };
    reader.faults.is_empty().then_some(head)
}

/// The families whose skills the steps of a family exercise at a level, beside its own:
/// only the steps that name one are read.
pub(super) fn skills(source: &SourceFile, level: u8) -> Option<Vec<String>> {
    let named = blocks(&source.text).filter(|block| {
        let mut lines = block.lines();
        lines
            .next()
            .is_some_and(|head| head.trim_end() == "[[step]]")
            && lines.any(|line| line.starts_with("skill"))
    });
    let text: String = named.collect();
    if text.is_empty() {
        return Some(Vec::new());
    }
    let source = SourceFile {
        path: source.path.clone(),
        text,
    };
    let file = document(&source).ok()?;
    let steps = blocks_of(&file, "step").filter(|step| counts(step, level));
    let skills = steps.map(|step| match step.get("skill").map(|node| &node.item) {
        Some(Item::Text { text, .. }) => Some(text.clone()),
        _ => None,
    });
    skills.collect()
}

/// Whether a step is there at a level, is asked and bears marks.
fn counts(step: &Block, level: u8) -> bool {
    let item = |key: &str| step.get(key).map(|node| &node.item);
    let there = match item("levels") {
        Some(Item::List(levels)) => levels
            .iter()
            .any(|own| matches!(own.item, Item::Number { value, .. } if value == f64::from(level))),
        _ => true,
    };
    let asked = !matches!(item("ask"), Some(Item::Truth(false)));
    let bears = !matches!(item("marks"), Some(Item::Number { value, .. }) if *value == 0.0);
    there && asked && bears
}

/// The text above the first block, as a file.
fn top(source: &SourceFile) -> Option<(SourceFile, Block)> {
    let text = blocks(&source.text).next()?.to_owned();
    let top = SourceFile {
        path: source.path.clone(),
        text,
    };
    let block = document(&top).ok()?;
    Some((top, block))
}

/// A text cut before each line that opens a block.
fn blocks(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let from = rest?;
        let next = from.match_indices("\n[").map(|(at, _)| at + 1).next();
        rest = next.map(|at| &from[at..]);
        Some(next.map_or(from, |at| &from[..at]))
    })
}
