//! Papers to write on: one, or several in one file for the printer.

use serde::Serialize;

use super::head::{Dated, Head, HeadData};
use super::item::Item;
use super::text::clean;
use super::typesetter::{Pages, PdfFault, Template, printable};

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

    /// The title of its own file.
    fn title(&self) -> String {
        let Head { title, number, .. } = &self.head;
        clean(&if number.is_empty() {
            title.clone()
        } else {
            format!("{title}, paper {number}")
        })
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
    PaperPages::set(papers)?.together()
}

/// Papers that are set, for files of all and of each.
pub struct PaperPages {
    pages: Pages,
    /// The title of each paper's own file.
    titles: Vec<String>,
}

impl PaperPages {
    /// Sets papers, each on a sheet of its own. Paper and day are those of the first.
    ///
    /// # Errors
    /// [`PdfFault`]: a name that cannot be printed, none or more than [`MOST_TOGETHER`], or
    /// a fault of this program.
    pub fn set(papers: &[Paper]) -> Result<Self, PdfFault> {
        let Some(first) = papers.first().filter(|_| papers.len() <= MOST_TOGETHER) else {
            return Err(PdfFault::TooMany(MOST_TOGETHER));
        };
        printable(papers.iter().flat_map(Paper::texts))?;
        let head = &first.head;
        let titles: Vec<String> = papers.iter().map(Paper::title).collect();
        let title = match titles.as_slice() {
            [only] => only.clone(),
            _ => clean(&format!("{}, {} papers", head.title, papers.len())),
        };
        let pages = Pages::set(
            Template::Paper,
            &Data {
                title,
                author: "pumpwright",
                format: head.format.name(),
                day: Dated::of(head.day),
                papers: papers.iter().map(Paper::data).collect(),
            },
        )?;
        Ok(Self { pages, titles })
    }

    /// How many pages they have together, those that stay white with them.
    pub fn count(&self) -> usize {
        self.pages.count()
    }

    /// All in one file for the printer.
    ///
    /// # Errors
    /// [`PdfFault::Refused`]: a fault of this program.
    pub fn together(&self) -> Result<Vec<u8>, PdfFault> {
        self.pages.file()
    }

    /// One of them in a file of its own, the same as if it were set alone.
    ///
    /// # Errors
    /// [`PdfFault::Refused`]: there is no such paper, or a fault of this program.
    pub fn alone(&self, at: usize) -> Result<Vec<u8>, PdfFault> {
        let title = self.titles.get(at).map_or("", String::as_str);
        let labels = (format!("start-{at}"), format!("end-{at}"));
        self.pages.part((&labels.0, &labels.1), title)
    }
}
