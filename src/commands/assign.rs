//! From a plan and a class list to everybody's paper.

use pumpwright_engine::classes::Drawing;
use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::printed::LessonText;
use pumpwright_engine::classes::roster::{Admitted, Person};
use pumpwright_engine::lessons::{Library, SourceFile};

use super::plan;
use crate::classroom::{ClassFolder, Made, read_list};
use crate::cli::Assign;
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
    let mut class = ClassFolder::open(&asked.out)?;
    let folder = class.papers(&plan, &source)?;
    let admitted = class.admit(&list)?;
    say(&admitted, console);
    folder.make()?;
    folder.keep_lessons(&text)?;
    let sum = text.sum();
    let refused = |error| Failure::Input(format!("the plan cannot be drawn: {error}"));
    let mut drawing = Drawing::new(library, &plan, &class.key).map_err(refused)?;
    let mut made = 0;
    let mut expected = Vec::new();
    let mut coincide = 0;
    // Everybody is drawn in the order of the kept list, so that each has the same
    // neighbors whoever is on the list of today.
    for (at, person) in class.roster.people.iter().enumerate() {
        let paper = drawing.paper(person).map_err(refused)?;
        if admitted.members.iter().all(|member| member.id != person.id) {
            continue;
        }
        expected.push(paper.expected);
        coincide += paper.coincide;
        match folder.keep_paper(&paper, &sum)? {
            Made::New => made += 1,
            Made::There => {}
            Made::Again(aside) => {
                made += 1;
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
        if (at + 1) % TELL_EVERY == 0 {
            console.note(format_args!(
                "note: {} of {} papers",
                at + 1,
                class.roster.people.len()
            ));
        }
    }
    let members = admitted.members.len();
    console.line(format_args!(
        "{members} {}, {made} new, in {}",
        if members == 1 { "paper" } else { "papers" },
        folder.path().display()
    ))?;
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
    console.line("screen/ may be handed out; printed/ and class.key are yours alone")
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
