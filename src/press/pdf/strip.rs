//! Strips for marking with a pen: one for each paper, four on a page, as wide as the
//! answer column, so that a strip is laid beside the answers and read across.

use serde::Serialize;

use super::head::{Dated, Head, HeadData};
use super::text::clean;
use super::typesetter::{PdfFault, Template, printable, typeset};

/// The strips of a class.
#[derive(Debug, Clone, PartialEq)]
pub struct Strips {
    /// Title, day and format; a name and a number are not printed.
    pub head: Head,
    /// The strips, in the order of the papers.
    pub strips: Vec<Strip>,
}

/// The strip of one paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Strip {
    /// The number of the paper: "019".
    pub number: String,
    /// Whose paper it is.
    pub name: String,
    /// Its problems, in the order of the paper.
    pub items: Vec<StripItem>,
}

/// A problem on a strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StripItem {
    /// Its number on the paper.
    pub number: usize,
    /// What it is, short: the family.
    pub title: String,
    /// Its marks.
    pub marks: u32,
    /// Its lines.
    pub rows: Vec<StripRow>,
    /// What stands under it, a line each: what follows after a letter, which second letter
    /// then earns nothing, which pair ends the item.
    pub after: Vec<String>,
}

/// A line on a strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StripRow {
    /// The number of the line.
    pub line: usize,
    /// What is accepted there: "429 to 431", "5 2 - 6", "d f a b c".
    pub span: String,
    /// Each known mistake: its letter, and the figure that it gives.
    pub letters: Vec<(String, String)>,
}

#[derive(Serialize)]
struct Data<'a> {
    title: String,
    author: &'static str,
    format: &'static str,
    day: Option<Dated>,
    head: HeadData,
    strips: &'a [Strip],
}

/// The strips as a file.
///
/// # Errors
/// [`PdfFault`]: a name that cannot be printed, or a fault of this program.
pub fn strips(strips: &Strips) -> Result<Vec<u8>, PdfFault> {
    let names = strips.strips.iter();
    let names = names.flat_map(|strip| [strip.name.as_str(), strip.number.as_str()]);
    printable(names.chain([strips.head.title.as_str()]))?;
    typeset(
        Template::Strips,
        &Data {
            title: format!("Strips: {}", clean(&strips.head.title)),
            author: "pumpwright",
            format: strips.head.format.name(),
            day: Dated::of(strips.head.day),
            head: HeadData::of(&strips.head, 0, false),
            strips: &strips.strips,
        },
    )
}
