//! Slips: what a person gets back, a page each. Marks by problem, which known mistakes
//! were made, what to practice. No comparison with anybody.

use serde::Serialize;

use super::head::{Dated, Format, Head, HeadData};
use super::text::clean;
use super::typesetter::{PdfFault, Template, printable, typeset};

/// The slips of a class, or of one person.
#[derive(Debug, Clone, PartialEq)]
pub struct Slips {
    /// What the paper was.
    pub title: String,
    /// Its day, from 1 January 1970, where it has one.
    pub day: Option<i32>,
    /// The paper that the slips are printed on.
    pub format: Format,
    /// The slips, a page each.
    pub slips: Vec<Slip>,
}

/// One person's slip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Slip {
    /// Whose it is.
    pub name: String,
    /// The number of the paper.
    pub number: String,
    /// The marks earned, as they are written: "31", "31.5".
    pub marks: String,
    /// The marks that could be earned.
    pub out_of: String,
    /// Passed or not, in words; empty where there is no pass mark.
    pub verdict: String,
    /// Problem by problem.
    pub items: Vec<SlipItem>,
    /// What to practice, the most useful first.
    pub practice: Vec<String>,
    /// What the instructor adds: a mark that was changed, with its reason.
    pub notes: Vec<String>,
}

/// A problem on a slip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SlipItem {
    /// Its number on the paper.
    pub number: usize,
    /// What it was.
    pub title: String,
    /// The marks earned; empty where it is left out for the whole class.
    pub marks: String,
    /// The marks that it bears.
    pub out_of: String,
    /// What went wrong, a sentence each.
    pub mistakes: Vec<String>,
}

#[derive(Serialize)]
struct Data<'a> {
    title: String,
    author: &'static str,
    format: &'static str,
    day: Option<Dated>,
    head: HeadData,
    slips: &'a [Slip],
}

/// The slips as a file.
///
/// # Errors
/// [`PdfFault`]: a name or a note that cannot be printed, or a fault of this program.
pub fn slips(slips: &Slips) -> Result<Vec<u8>, PdfFault> {
    let own = slips.slips.iter().flat_map(|slip| {
        let notes = slip.notes.iter().map(String::as_str);
        notes.chain([slip.name.as_str(), slip.number.as_str()])
    });
    printable(own.chain([slips.title.as_str()]))?;
    let head = Head {
        title: slips.title.clone(),
        day: slips.day,
        name: String::new(),
        number: String::new(),
        format: slips.format,
        tables: String::new(),
    };
    let title = match slips.slips.as_slice() {
        [slip] => format!("{}: {}", slips.title, slip.name),
        _ => format!("Slips: {}", slips.title),
    };
    typeset(
        Template::Slips,
        &Data {
            title: clean(&title),
            author: "pumpwright",
            format: slips.format.name(),
            day: Dated::of(slips.day),
            head: HeadData::of(&head, 0, false),
            slips: &slips.slips,
        },
    )
}
