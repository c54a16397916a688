//! From a plan and a class list to everybody's paper.

use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::plan::Plan;
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::roster::{Admitted, Person};
use pumpwright_engine::classes::{Drawing, Paper};
use pumpwright_engine::lessons::{Library, SourceFile};
#[cfg(feature = "pdf")]
use pumpwright_engine::quantities::System;
#[cfg(feature = "pdf")]
use pumpwright_press::pdf::Format;

use super::whose::whose;
use super::{make_up, plan};
#[cfg(feature = "pdf")]
use crate::classroom::prints;
use crate::classroom::{ClassFolder, Made, PaperFolder, list_faults, read_list};
use crate::cli::Assign;
#[cfg(feature = "pdf")]
use crate::cli::Size;
use crate::console::Console;
use crate::failure::Failure;

/// After so many papers it is said how far the work is.
const TELL_EVERY: usize = 100;

/// What papers are drawn from.
pub struct Lessons<'a> {
    /// The lessons; a plan's house rules are laid over them.
    pub library: &'a mut Library,
    /// Their files.
    pub files: &'a [SourceFile],
    /// The class's own rules file.
    pub class: Option<&'a SourceFile>,
}

/// Makes what is missing of a class's papers.
///
/// # Errors
/// When plan, list or folder are not in order; nothing that was there is changed.
pub fn run(
    asked: &Assign,
    lessons: &mut Lessons<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let (plan, source) = plan::read(&asked.plan, lessons.library)?;
    let library = &*lessons.library;
    let text = LessonText::of(lessons.files, library, (&plan, &source), lessons.class);
    let list = read_list(&asked.roster)?;
    if let Some(whom) = &asked.make_up {
        let drawn_from = make_up::From {
            library,
            plan: &plan,
            source: &source,
            text: &text,
        };
        return make_up::run((asked, whom), &drawn_from, &list, console);
    }
    let mut class = ClassFolder::open(&asked.out)?;
    let deleted = class.roster.deleted_on(&list);
    if !deleted.is_empty() {
        return Err(list_faults(&asked.roster, &deleted));
    }
    let folder = class.papers(&plan, &source)?;
    let admitted = class.admit(&list)?;
    say(&admitted, console);
    folder.make()?;
    folder.keep_lessons(&text)?;
    let sum = text.sum();
    let refused = |error| Failure::Input(format!("the plan cannot be drawn: {error}"));
    let mut drawing = Drawing::new(library, &plan, &class.key).map_err(refused)?;
    let mut printer = Printer::of(asked, &folder, &plan, console)?;
    let mut made = Vec::new();
    let mut expected = Vec::new();
    let mut coincide = 0;
    // Everybody is drawn in the order of the kept list, so that each has the same
    // neighbors whoever is on the list of today.
    for (at, person) in class.roster.people.iter().enumerate() {
        let paper = drawing.paper(person).map_err(refused)?;
        if admitted.members.iter().all(|member| member.id != person.id) {
            // Who is not on today's list has a paper all the same.
            if let Ok(Some(printed)) = folder.printed(&person.id) {
                printer.add(&folder, (&paper, printed), console)?;
            }
            continue;
        }
        expected.push(paper.expected);
        coincide += paper.coincide;
        let (became, printed) = folder.keep_paper(&paper, &sum)?;
        match became {
            Made::New => made.push(person.id.clone()),
            Made::There => {}
            Made::Again(aside) => {
                made.push(person.id.clone());
                console.note(format_args!(
                    "note: the record of paper {} could not be read and is now {}; the paper is drawn again: hold it against the one that was handed out",
                    person.id,
                    aside.display()
                ));
            }
            Made::Stays => console.note(format_args!(
                "note: paper {} stays as it was printed; key, lessons or program would draw it otherwise now",
                person.id
            )),
        }
        printer.add(&folder, (&paper, printed), console)?;
        if (at + 1) % TELL_EVERY == 0 {
            console.note(format_args!(
                "note: {} of {} papers",
                at + 1,
                class.roster.people.len()
            ));
        }
    }
    make_up::mend(&folder, &mut printer, console)?;
    let pdfs = printer.end(console)?;
    let members = admitted.members.len();
    console.line(format_args!(
        "{members} {}, {} new, in {}",
        if members == 1 { "paper" } else { "papers" },
        made.len(),
        folder.path().display()
    ))?;
    say_written(pdfs.as_deref(), console)?;
    if let Some(spread) = Spread::of(expected, plan.marks()) {
        console.line(spread)?;
    }
    if coincide > 0 {
        console.note(format_args!(
            "note: {coincide} {} the answer of a neighbor's, for the family has few others",
            if coincide == 1 {
                "item has"
            } else {
                "items have"
            }
        ));
    }
    console.line(whose(pdfs.as_deref().unwrap_or_default(), &made))
}

/// Says how many PDFs were written, where any were wanted.
pub(super) fn say_written(pdfs: Option<&[String]>, console: &mut Console) -> Result<(), Failure> {
    match pdfs {
        Some([_]) => console.line("1 PDF written"),
        Some(written) => console.line(format_args!("{} PDFs written", written.len())),
        None => Ok(()),
    }
}

/// The PDFs of the papers; none where none are wanted.
#[cfg(feature = "pdf")]
pub struct Printer(Option<prints::Printer>);

#[cfg(feature = "pdf")]
impl Printer {
    pub(super) fn of(
        asked: &Assign,
        folder: &PaperFolder,
        plan: &Plan,
        _: &mut Console,
    ) -> Result<Self, Failure> {
        if asked.no_pdf {
            return Ok(Self(None));
        }
        let usual = match plan.system {
            System::Us => Format::Letter,
            System::Si => Format::A4,
        };
        let formats = (asked.size.map(Size::format), usual);
        let own = prints::Printer::open(folder, formats, (&plan.title, plan.versions))?;
        Ok(Self(Some(own)))
    }

    /// Prints a paper as its record has it: one that would be drawn otherwise now is made
    /// again of what was printed.
    fn add(
        &mut self,
        folder: &PaperFolder,
        (drawn, printed): (&Paper, PrintedPaper),
        console: &mut Console,
    ) -> Result<(), Failure> {
        let Some(printer) = &mut self.0 else {
            return Ok(());
        };
        let now = PrintedPaper::of(drawn, &printed.lessons, &printed.sit);
        let paper = if now.items == printed.items && now.head == printed.head {
            Ok(drawn.clone())
        } else {
            folder.again(&printed)
        };
        match paper {
            Ok(mut paper) => {
                // The name that was printed.
                paper.person.clone_from(&printed.person);
                printer.add(paper, printed.sum(), console)
            }
            Err(why) => {
                console.note(format_args!(
                    "note: paper {} has no PDF: {why}",
                    printed.person.id
                ));
                Ok(())
            }
        }
    }

    /// Prints a paper with key and strip of its own.
    pub(super) fn alone(
        &mut self,
        paper: Paper,
        sum: String,
        console: &mut Console,
    ) -> Result<(), Failure> {
        let printer = self.0.as_mut();
        printer.map_or(Ok(()), |printer| printer.alone(paper, sum, console))
    }

    /// Whether that is done.
    pub(super) fn is_there_alone(&self, number: &str, sum: &String) -> bool {
        let printer = self.0.as_ref();
        printer.is_none_or(|printer| printer.is_there_alone(number, sum))
    }

    pub(super) fn end(self, console: &mut Console) -> Result<Option<Vec<String>>, Failure> {
        self.0.map(|printer| printer.end(console)).transpose()
    }
}

/// A build without the typesetter makes no PDFs, and says so.
#[cfg(not(feature = "pdf"))]
pub struct Printer;

#[cfg(not(feature = "pdf"))]
#[expect(
    clippy::unnecessary_wraps,
    clippy::unused_self,
    reason = "with the typesetter there is something to do, and there are faults"
)]
impl Printer {
    pub(super) fn of(
        asked: &Assign,
        _: &PaperFolder,
        _: &Plan,
        console: &mut Console,
    ) -> Result<Self, Failure> {
        if !asked.no_pdf {
            console.note(
                "note: this build has no typesetter, so there are no PDFs; everything else is made",
            );
        }
        Ok(Self)
    }

    fn add(
        &mut self,
        _: &PaperFolder,
        _: (&Paper, PrintedPaper),
        _: &mut Console,
    ) -> Result<(), Failure> {
        Ok(())
    }

    pub(super) fn alone(&mut self, _: Paper, _: String, _: &mut Console) -> Result<(), Failure> {
        Ok(())
    }

    pub(super) fn is_there_alone(&self, _: &str, _: &String) -> bool {
        true
    }

    pub(super) fn end(self, _: &mut Console) -> Result<Option<Vec<String>>, Failure> {
        Ok(None)
    }
}

/// What the list did.
fn say(admitted: &Admitted, console: &mut Console) {
    let called = |person: &Person| format!("{} {}", person.id, person.name);
    let of = |people: &[Person]| people.iter().map(called).collect::<Vec<_>>().join("; ");
    // Whoever is new with the whole class needs no line.
    let late = admitted.joined.len() < admitted.members.len();
    if late && !admitted.joined.is_empty() {
        console.note(format_args!(
            "note: new on the list: {}",
            of(&admitted.joined)
        ));
    }
    for (person, before) in &admitted.renamed {
        console.note(format_args!(
            "note: {} was {before}; the paper stays the same",
            called(person)
        ));
    }
    if !admitted.absent.is_empty() {
        console.note(format_args!(
            "note: not on this list, kept all the same: {}",
            of(&admitted.absent)
        ));
    }
}
