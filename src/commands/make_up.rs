//! A further paper for one person of a class: who missed the day, or is to write again. Nothing
//! that is there for anybody changes.

use std::path::Path;

use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::make_up::{asked_before, is_make_up, nth, number};
use pumpwright_engine::classes::plan::Plan;
use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::classes::roster::{Listed, Person, Roster};
use pumpwright_engine::classes::{Drawing, Paper};
use pumpwright_engine::lessons::{Library, SourceFile};

use super::assign::{Printer, say_written};
use crate::classroom::{ClassFolder, PaperFolder, list_faults, no_papers};
use crate::cli::Assign;
use crate::console::Console;
use crate::failure::Failure;

/// What a further paper is drawn from.
pub struct From<'a> {
    /// The lessons, with the plan's house rules over them.
    pub library: &'a Library,
    /// The plan.
    pub plan: &'a Plan,
    /// Its file.
    pub source: &'a SourceFile,
    /// The lesson text to be kept.
    pub text: &'a LessonText,
}

/// Makes a further paper for the person that is meant, unless one is there and no other is
/// asked for.
///
/// # Errors
/// When it is not clear who is meant, or there is no first paper; nothing is written then.
pub fn run(
    (asked, whom): (&Assign, &str),
    from: &From<'_>,
    list: &[Listed],
    console: &mut Console,
) -> Result<(), Failure> {
    if !asked.out.join("roster.json").is_file() {
        return Err(no_papers(&asked.out));
    }
    let kept = ClassFolder::kept_list(&asked.out)?.unwrap_or_default();
    let person = person(&kept, whom, (list, &asked.roster))?;
    let folder = PaperFolder::at(asked.out.join(&from.plan.id));
    if !folder.path().join("printed").is_dir() || folder.is_empty() {
        return Err(Failure::Input(format!(
            "{} has no papers yet; leave --make-up out to make them",
            folder.path().display()
        )));
    }
    let records = folder.papers_of(&person.id)?;
    if records.first().is_none_or(|own| is_make_up(&own.person.id)) {
        return Err(Failure::Input(format!(
            "{} {} has no paper in {} yet; leave --make-up out to make it",
            person.id,
            person.name,
            folder.path().display()
        )));
    }
    let earlier = again(&folder, &records)?;
    let class = ClassFolder::open(&asked.out)?;
    class.papers(from.plan, from.source)?;
    let mut printer = Printer::of(asked, &folder, from.plan, console)?;
    if let Some(there) = records.iter().rfind(|own| is_make_up(&own.person.id))
        && !asked.one_more
    {
        mend(&folder, &mut printer, console)?;
        console.line(format_args!(
            "paper {} is there for {}; --one-more makes another",
            there.person.id, person.name
        ))?;
        let written = printer.end(console)?;
        return say_written(written.as_deref().filter(|own| !own.is_empty()), console);
    }
    let last = records.last().and_then(|own| nth(&own.person.id));
    let number = number(&person.id, last.unwrap_or(1).saturating_add(1));
    let refused = |error| Failure::Input(format!("the plan cannot be drawn: {error}"));
    let drawing = Drawing::new(from.library, from.plan, &class.key);
    let drawn = drawing.and_then(|mut drawing| drawing.make_up(&person, &number, &earlier));
    let paper = drawn.map_err(refused)?;
    folder.make()?;
    folder.keep_lessons(from.text)?;
    let (_, printed) = folder.keep_paper(&paper, &from.text.sum())?;
    mend(&folder, &mut printer, console)?;
    let written = printer.end(console)?;
    say(
        (&folder, from.plan, &printed),
        (&paper, &earlier),
        written.as_deref(),
        console,
    )
}

/// The person that is meant, as today's list has the name.
fn person(kept: &Roster, whom: &str, (list, file): (&[Listed], &Path)) -> Result<Person, Failure> {
    let deleted = kept.deleted_on(list);
    if !deleted.is_empty() {
        return Err(list_faults(file, &deleted));
    }
    let mut today = kept.clone();
    let admitted = today.admit(list);
    let person = today.whom(whom).map_err(Failure::Input)?.clone();
    let Person { id, name } = &person;
    let file = file.display();
    if admitted.joined.contains(&person) {
        return Err(Failure::Input(format!(
            "{name} is new on {file} and has no paper yet; leave --make-up out to make it"
        )));
    }
    if !admitted.members.contains(&person) {
        return Err(Failure::Input(format!(
            "{id} {name} is not on {file}; who has left the class gets no paper: put the name back there first"
        )));
    }
    Ok(person)
}

/// Somebody's earlier papers: without them nothing could be held apart from them.
fn again(folder: &PaperFolder, records: &[PrintedPaper]) -> Result<Vec<Paper>, Failure> {
    let paper = |record: &PrintedPaper| {
        folder.again(record).map_err(|why| {
            Failure::Input(format!(
                "paper {} cannot be looked at, so no other can be held apart from it: {why}",
                record.person.id
            ))
        })
    };
    records.iter().map(paper).collect()
}

/// Makes what is missing of make-up papers that are there, of their records.
///
/// # Errors
/// When a file cannot be written.
pub fn mend(
    folder: &PaperFolder,
    printer: &mut Printer,
    console: &mut Console,
) -> Result<(), Failure> {
    for number in folder.make_ups()? {
        // What cannot be read is told by marking, and is nothing to print.
        let Ok(Some(printed)) = folder.printed(&number) else {
            continue;
        };
        let sum = printed.sum();
        if folder.has_screen(&number) && printer.is_there_alone(&number, &sum) {
            continue;
        }
        match folder.again(&printed) {
            Ok(paper) => {
                folder.mend_screen(&paper, &printed)?;
                printer.alone(paper, sum, console)?;
            }
            Err(why) => console.note(format_args!("note: paper {number} has no PDF: {why}")),
        }
    }
    Ok(())
}

/// Says what was made, how hard it is beside the others, and what of it was asked before.
fn say(
    (folder, plan, printed): (&PaperFolder, &Plan, &PrintedPaper),
    (paper, earlier): (&Paper, &[Paper]),
    written: Option<&[String]>,
    console: &mut Console,
) -> Result<(), Failure> {
    let number = &printed.person.id;
    console.line(format_args!(
        "paper {number} for {}, in {}",
        printed.person.name,
        folder.path().display()
    ))?;
    say_written(written, console)?;
    let numbers = folder.numbers()?;
    let all = numbers
        .iter()
        .filter_map(|number| folder.printed(number).ok()?);
    if let Some(spread) = Spread::of(all.map(|own| own.expected), plan.marks()) {
        console.line(spread)?;
    }
    console.line(format_args!(
        "expected marks of paper {number}: {:.1} of {}",
        printed.expected,
        plan.marks()
    ))?;
    let before = asked_before(paper, earlier);
    let told: Vec<String> = before.iter().map(ToString::to_string).collect();
    match told.as_slice() {
        [] => {}
        [one] => console.note(format_args!(
            "note: item {one} asks what an earlier paper did, for the family has nothing else"
        )),
        several => console.note(format_args!(
            "note: items {} ask what an earlier paper did, for the families have nothing else",
            several.join(", ")
        )),
    }
    match (paper.coincide as usize).saturating_sub(before.len()) {
        0 => {}
        1 => console
            .note("note: 1 item has the answer of an earlier paper, for the family has few others"),
        count => console.note(format_args!(
            "note: {count} items have answers of an earlier paper, for the families have few others"
        )),
    }
    if written.is_some() {
        return console.line(format_args!(
            "papers/{number}.pdf and screen/{number}.json may be handed out; key-{number}.pdf, strip-{number}.pdf and printed/ are yours alone"
        ));
    }
    console.line(format_args!(
        "screen/{number}.json may be handed out; printed/ is yours alone"
    ))
}
