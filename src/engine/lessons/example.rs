//! The worked example with which a lesson ends: of which family it is drawn.

use super::fault::{Fault, SourceFile};
use super::fields::{Fields, Reader};
use super::node::Block;
use std::ops::Range;

/// The worked example of a lesson: other numbers at each reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Example {
    /// The family that it is drawn from.
    pub family: String,
    /// The level; none for the family's home level.
    pub level: Option<u8>,
}

/// An example as it stands in a file, to be held against the families when they are read.
#[derive(Debug, Clone)]
pub(super) struct Claim {
    pub example: Example,
    source: SourceFile,
    family_at: Range<usize>,
    level_at: Range<usize>,
}

/// Reads the example of a lesson's file.
pub(super) fn read(reader: &mut Reader<'_>, file: &Block) -> Option<Claim> {
    let mut fields = Fields::new(file, "the lesson");
    let block = fields.block(reader, "example")?;
    let mut fields = Fields::new(block, "the example");
    let family = fields.needed(reader, "family");
    let level = fields.whole(reader, "level");
    let level_at = fields.place_of("level");
    fields.finish(reader);
    let family = family?;
    Some(Claim {
        example: Example {
            family: family.text,
            level: level.map(|level| level as u8),
        },
        source: reader.source.clone(),
        family_at: family.span,
        level_at,
    })
}

impl Claim {
    /// What is wrong with it, beside the levels of the family of that name in the
    /// lesson, or the families that the lesson has.
    pub fn fault(&self, levels: Option<&[u8]>, families: &[String]) -> Option<Fault> {
        let Example { family, level } = &self.example;
        let Some(levels) = levels else {
            let message = format!("the lesson has no family \"{family}\" for its example");
            let fault = Fault::at(&self.source, &self.family_at, message);
            return Some(
                fault
                    .having(families.to_vec())
                    .remedy("write one of its own families"),
            );
        };
        let level = level.filter(|level| !levels.contains(level))?;
        let message = format!("{family} has no level {level} for the example");
        let has = levels.iter().map(u8::to_string).collect();
        let fault = Fault::at(&self.source, &self.level_at, message);
        Some(
            fault
                .having(has)
                .remedy("write one of these, or leave the level out"),
        )
    }
}
