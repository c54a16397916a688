//! Papers to write on: one, or several in one file for the printer.

use serde::Serialize;

use super::head::{Dated, Head, HeadData};
use super::item::Item;
use super::typesetter::{PdfFault, Template, count, printable, typeset};

/// As many papers as one file holds: a class. The typesetter has a whole file in memory
/// at once, some five megabytes a paper.
pub const MOST_TOGETHER: usize = 24;

/// One person's paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Paper {
    /// What stands over every page.
    pub head: Head,
    /// The problems, in order.
    pub items: Vec<Item>,
}

#[derive(Serialize)]
struct PaperData<'a> {
    head: HeadData,
    items: &'a [Item],
}

#[derive(Serialize)]
struct Data<'a> {
    title: String,
    author: &'static str,
    format: &'static str,
    day: Option<Dated>,
    papers: Vec<PaperData<'a>>,
}

impl Paper {
    fn data(&self) -> PaperData<'_> {
        let total = self.items.iter().map(|item| item.marks).sum();
        let training = self.items.iter().any(|item| item.training);
        PaperData {
            head: HeadData::of(&self.head, total, training),
            items: &self.items,
        }
    }

    /// The texts that people outside the lessons wrote.
    fn texts(&self) -> [&str; 3] {
        [&self.head.title, &self.head.name, &self.head.number]
    }
}

/// A paper as a file.
///
/// # Errors
/// [`PdfFault`]: a name that cannot be printed, or a fault of this program.
pub fn paper(paper: &Paper) -> Result<Vec<u8>, PdfFault> {
    papers(std::slice::from_ref(paper))
}

/// Several papers in one file for the printer: each starts on a sheet of its own, also
/// where both sides are printed. Paper and day are those of the first.
///
/// # Errors
/// [`PdfFault`]: as of one paper; none or more than [`MOST_TOGETHER`].
pub fn papers(papers: &[Paper]) -> Result<Vec<u8>, PdfFault> {
    typeset(Template::Paper, &data(papers)?)
}

/// How many pages one paper has.
///
/// # Errors
/// As of [`papers`].
pub fn pages(paper: &Paper) -> Result<usize, PdfFault> {
    count(Template::Paper, &data(std::slice::from_ref(paper))?)
}

/// What the template prints of papers.
fn data(papers: &[Paper]) -> Result<Data<'_>, PdfFault> {
    let Some(first) = papers.first().filter(|_| papers.len() <= MOST_TOGETHER) else {
        return Err(PdfFault::TooMany(MOST_TOGETHER));
    };
    printable(papers.iter().flat_map(Paper::texts))?;
    let head = &first.head;
    let title = match papers {
        [_] if !head.number.is_empty() => format!("{}, paper {}", head.title, head.number),
        [_] => head.title.clone(),
        _ => format!("{}, {} papers", head.title, papers.len()),
    };
    Ok(Data {
        title: super::text::clean(&title),
        author: "pumpwright",
        format: head.format.name(),
        day: Dated::of(head.day),
        papers: papers.iter().map(Paper::data).collect(),
    })
}
