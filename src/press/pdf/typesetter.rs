//! The typesetter: one of the templates and the data that it prints, to the bytes of a
//! PDF file.

use std::fmt;
use std::sync::LazyLock;

use serde::Serialize;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Label, Smart};
use typst::introspection::Introspector as _;
use typst::model::{Document as _, DocumentInfo};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::{LazyHash, PicoStr};
use typst::{Library, LibraryExt, World};
use typst_layout::{Page, PagedDocument};
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use super::fonts::{BOOK, FONTS, unknown_sign};

/// Why a PDF is not made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PdfFault {
    /// A sign that the fonts in the program do not have.
    Sign {
        /// The text in which it stands.
        text: String,
        /// The sign.
        sign: char,
    },
    /// More papers in one file than one run takes.
    TooMany(usize),
    /// The typesetter refused; a fault of this program.
    Refused(String),
}

impl fmt::Display for PdfFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sign { text, sign } => write!(
                f,
                "\"{text}\" cannot be printed: the program's letters have no {sign:?}; \
                 write it in Latin, Greek or Cyrillic letters"
            ),
            Self::TooMany(most) => write!(
                f,
                "one file holds {most} papers at most; make several files"
            ),
            Self::Refused(why) => write!(
                f,
                "the page cannot be set: {why}; this is a fault of the program, please report it"
            ),
        }
    }
}

impl std::error::Error for PdfFault {}

/// What is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Template {
    /// Papers to write on.
    Paper,
    /// The key with worked solutions.
    Key,
    /// The strips for marking with a pen.
    Strips,
    /// What a person gets back.
    Slips,
}

/// The texts of the templates, each under a path of its own, and the path of the data. The
/// typesetter keeps every path that it ever met, so there are these and no others.
struct Shelf {
    templates: [Source; 5],
    data: FileId,
}

impl Shelf {
    /// The texts under their paths; nothing where a path is none.
    fn filled() -> Option<Self> {
        let [common, paper, key, strips, slips] = [
            (COMMON, include_str!("templates/common.typ")),
            ("paper.typ", include_str!("templates/paper.typ")),
            ("key.typ", include_str!("templates/key.typ")),
            ("strips.typ", include_str!("templates/strips.typ")),
            ("slips.typ", include_str!("templates/slips.typ")),
        ]
        .map(|(name, text)| Some(Source::new(id(name)?, text.to_owned())));
        Some(Self {
            templates: [common?, paper?, key?, strips?, slips?],
            data: id(DATA)?,
        })
    }
}

static SHELF: LazyLock<Option<Shelf>> = LazyLock::new(Shelf::filled);

const COMMON: &str = "common.typ";
const DATA: &str = "data.json";

static LIBRARY: LazyLock<LazyHash<Library>> =
    LazyLock::new(|| LazyHash::new(Library::builder().build()));

/// The path of a file in no folder; nothing where the name is none.
fn id(name: &str) -> Option<FileId> {
    let path = VirtualPath::new(name).ok()?;
    Some(RootedPath::new(VirtualRoot::Project, path).intern())
}

/// What the typesetter can see: a template, and the data.
struct Desk {
    shelf: &'static Shelf,
    main: FileId,
    data: Bytes,
}

impl Desk {
    fn new(template: Template, data: Vec<u8>) -> Result<Self, PdfFault> {
        let unnamed = || PdfFault::Refused("a template has no name".to_owned());
        let shelf = SHELF.as_ref().ok_or_else(unnamed)?;
        let [_, paper, key, strips, slips] = &shelf.templates;
        let main = match template {
            Template::Paper => paper,
            Template::Key => key,
            Template::Strips => strips,
            Template::Slips => slips,
        };
        Ok(Self {
            shelf,
            main: main.id(),
            data: Bytes::new(data),
        })
    }
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let mut all = self.shelf.templates.iter();
        let known = all.find(|source| source.id() == id);
        known.cloned().ok_or(FileError::AccessDenied)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if id == self.shelf.data {
            Ok(self.data.clone())
        } else {
            Err(FileError::AccessDenied)
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

/// The bytes of the file.
pub fn typeset(template: Template, data: &impl Serialize) -> Result<Vec<u8>, PdfFault> {
    Pages::set(template, data)?.file()
}

/// Drops what the typesetter remembers. Whoever makes many files calls it now and then, so
/// that a thousand papers take no more memory than a class.
pub fn forget() {
    typst::comemo::evict(0);
}

/// Reads the letters and the typesetter's own library, which the first file waits for
/// otherwise.
pub fn warm_up() {
    LazyLock::force(&LIBRARY);
    LazyLock::force(&BOOK);
    LazyLock::force(&SHELF);
}

/// Pages that are set, of which files can be made: setting takes most of the time, so what
/// stands in two files is set once.
pub struct Pages {
    desk: Desk,
    document: PagedDocument,
}

impl Pages {
    /// Sets the pages.
    pub fn set(template: Template, data: &impl Serialize) -> Result<Self, PdfFault> {
        let data =
            serde_json::to_vec(data).map_err(|fault| PdfFault::Refused(fault.to_string()))?;
        let desk = Desk::new(template, data)?;
        let set = typst::compile::<PagedDocument>(&desk);
        let document = set.output.map_err(|faults| refused(&desk, &faults))?;
        Ok(Self { desk, document })
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.document.pages().len()
    }

    /// All pages in one file.
    pub fn file(&self) -> Result<Vec<u8>, PdfFault> {
        self.written(&self.document)
    }

    /// Those from one label of the template to another, in a file with a title of its own.
    /// The bytes are those that the same pages have which are set alone.
    pub fn part(&self, (first, last): (&str, &str), title: &str) -> Result<Vec<u8>, PdfFault> {
        let pages = self.document.pages();
        let pages = self
            .page_of(first)
            .zip(self.page_of(last))
            .and_then(|(first, last)| pages.get(first..=last))
            .ok_or_else(|| PdfFault::Refused(format!("no pages from {first} to {last}")))?;
        let pages = pages.iter().zip(1..).map(|(page, number)| Page {
            number,
            ..page.clone()
        });
        let info = DocumentInfo {
            title: Some(title.into()),
            ..self.document.info().clone()
        };
        self.written(&PagedDocument::new(pages.collect(), info))
    }

    /// The page on which a label stands, from 0.
    fn page_of(&self, label: &str) -> Option<usize> {
        let introspector = self.document.introspector();
        let label = Label::new(PicoStr::intern(label))?;
        let place = introspector.query_label(label).ok()?.location()?;
        introspector.page(place).map(|page| page.get() - 1)
    }

    fn written(&self, document: &PagedDocument) -> Result<Vec<u8>, PdfFault> {
        let standards = PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|fault| PdfFault::Refused(fault.message().to_string()))?;
        let options = PdfOptions {
            creator: Smart::Custom(Some("pumpwright".to_owned())),
            standards,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(document, &options).map_err(|faults| refused(&self.desk, &faults))
    }
}

/// The faults in words, each with its line in the template.
fn refused(desk: &Desk, faults: &[SourceDiagnostic]) -> PdfFault {
    use typst::WorldExt as _;
    let told = faults.iter().take(3).map(|fault| {
        let place = fault.span.id().and_then(|id| {
            let source = desk.source(id).ok()?;
            let range = desk.range(fault.span)?;
            let line = source.lines().byte_to_line(range.start)? + 1;
            Some(format!("{}:{line}: ", id.get().vpath().get_without_slash()))
        });
        format!("{}{}", place.unwrap_or_default(), fault.message)
    });
    PdfFault::Refused(told.collect::<Vec<_>>().join("; "))
}

/// Whether every sign of these texts can be printed.
pub fn printable<'a>(texts: impl IntoIterator<Item = &'a str>) -> Result<(), PdfFault> {
    for text in texts {
        if let Some(sign) = unknown_sign(text) {
            return Err(PdfFault::Sign {
                text: text.to_owned(),
                sign,
            });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
