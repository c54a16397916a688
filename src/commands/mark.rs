//! Taking in what came, and the marks of a class. What is odd has its own line and stops
//! nothing else.

mod decide;
mod take;
mod written;

use std::collections::BTreeMap;

use pumpwright_engine::classes::make_up;
use pumpwright_engine::classes::marks::{
    ClassMarks, Decisions, HandIn, MarkedItem, PersonMarks, Ready, Sorted, State,
};
use pumpwright_engine::classes::plan;
use pumpwright_engine::classes::printed::LessonText;
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::sheet::{self, SheetForm, mark_sheet};
use pumpwright_engine::classes::typed::Shapes;
use pumpwright_engine::marking::{Manner, Marks};
use pumpwright_engine::quantities::DecimalSign;

use super::assign::Lessons;
use super::plan::aligned;
use super::report;
use crate::classroom::{Form, PaperFolder, find_paper};
#[cfg(feature = "pdf")]
use crate::classroom::{prints, slips};
use crate::cli::Mark;
use crate::console::Console;
use crate::failure::Failure;
use crate::own_file;
use crate::parts::in_parts;
use decide::Decided;

pub use written::Unwritten;

/// Takes in what is named, marks everything, writes the mark sheet.
///
/// # Errors
/// [`Failure::Found`] where something was left out; when folder or options are not in
/// order, or a result cannot be written.
pub fn run(
    asked: &Mark,
    decimal: DecimalSign,
    lessons: &mut Lessons<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let folder = find_paper(&asked.folder)?;
    let roster = folder.roster()?;
    let (ready, mut notes) = folder.ready()?;
    let Some(first) = ready.values().next() else {
        let path = folder.path().display();
        notes.push(format!("{path} has no paper that can be read"));
        return Err(Failure::Input(notes.join("\n")));
    };
    let head = first.printed.head.clone();
    let items = ready
        .values()
        .map(|own| own.printed.items.len())
        .max()
        .unwrap_or(0);
    let decided = Decided::of(asked, &folder, items, &ready)?;
    let mut out = 0;
    let shapes = Shapes::of(&ready);
    for arrived in take::in_order(&asked.answers) {
        out += arrived.take(&folder, (&head.plan, &shapes), console)?;
    }
    let (hand_ins, unread) = folder.hand_ins()?;
    notes.extend(unread);
    let faulty = out > 0 || !notes.is_empty();
    notes.extend(changed(&folder, &ready, lessons));
    // Who has a paper of this plan: the list of the class may have grown since.
    let people = make_up::papers_of(&roster.people, ready.keys());
    let manner = Manner { decimal };
    let class = marked(&people, &ready, (&hand_ins, &decided.decisions), manner);
    notes.extend(class.notes.iter().cloned());
    notes.extend(decided.notes.iter().cloned());
    notes.extend(decided.waiting(&class));
    notes.extend(unread_answers(&class));
    for note in notes {
        console.note(format_args!("note: {note}"));
    }
    print(&class, &head.title, console)?;
    let path = folder.path().join("marks.csv");
    let written = if asked.decimal_comma {
        DecimalSign::Comma
    } else {
        decimal
    };
    folder.keep_form(Form {
        semicolons: asked.semicolons,
        decimal_comma: asked.decimal_comma,
    })?;
    let form = SheetForm {
        separator: if asked.semicolons { ';' } else { ',' },
        decimal: written,
    };
    let marks = mark_sheet(&class, items, form);
    let own = own_file::write(&path, &marks, sheet::BEGINS, "mark sheet");
    let mut unwritten = Unwritten::default();
    unwritten.told(own, &path, console)?;
    let results = (&class, &ready);
    report::beside(
        &folder,
        results,
        form,
        lessons.library,
        (&mut unwritten, console),
    )?;
    if !asked.no_pdf {
        give_back(&folder, results, written, (&mut unwritten, console))?;
    }
    let in_the_way = unwritten.end(folder.path())?;
    let open = class.people.iter().any(|person| match &person.state {
        State::Marked(items) => items.iter().any(MarkedItem::is_open),
        State::NotIn => false,
    });
    if faulty || open || in_the_way {
        return Err(Failure::Found);
    }
    Ok(())
}

/// The marks of a class, worked on all cores.
pub fn marked(
    people: &[Person],
    ready: &BTreeMap<String, Ready>,
    (hand_ins, decisions): (&[HandIn], &Decisions),
    manner: Manner,
) -> ClassMarks {
    let sorted = Sorted::of(people, ready, hand_ins);
    let marks = in_parts(people, |part| sorted.mark(part, decisions, manner));
    sorted.class(marks)
}

/// A sentence for each answer that cannot be read, with paper, item and line.
fn unread_answers(class: &ClassMarks) -> Vec<String> {
    let of = |own: &PersonMarks| {
        let said = own.unread().into_iter();
        said.map(|what| format!("{}, {what}", own.person.id))
            .collect::<Vec<_>>()
    };
    class.people.iter().flat_map(of).collect()
}

/// Writes the slips of those whose papers are in.
#[cfg(feature = "pdf")]
fn give_back(
    folder: &PaperFolder,
    (class, ready): (&ClassMarks, &BTreeMap<String, Ready>),
    decimal: DecimalSign,
    (unwritten, console): (&mut Unwritten, &mut Console),
) -> Result<(), Failure> {
    let format = prints::format_of(folder, ready)?;
    let (slips, unprinted) = slips::slips(class, ready, (format, decimal));
    for name in unprinted {
        console.note(format_args!(
            "note: {name} has a sign that the program's letters lack; the slip has the number alone"
        ));
    }
    if slips.slips.is_empty() {
        return Ok(());
    }
    let path = folder.path().join("slips.pdf");
    let bytes = pumpwright_press::pdf::slips(&slips);
    let bytes = bytes.map_err(|fault| Failure::Input(fault.to_string()));
    let written = bytes.and_then(|bytes| own_file::write_pdf(&path, &bytes));
    unwritten.told(written, &path, console)
}

/// A build without the typesetter writes none, and says so.
#[cfg(not(feature = "pdf"))]
#[expect(
    clippy::unnecessary_wraps,
    reason = "with the typesetter there are faults"
)]
fn give_back(
    _: &PaperFolder,
    _: (&ClassMarks, &BTreeMap<String, Ready>),
    _: DecimalSign,
    (_, console): (&mut Unwritten, &mut Console),
) -> Result<(), Failure> {
    console.note(
        "note: this build has no typesetter, so there is no slips.pdf; everything else is made",
    );
    Ok(())
}

/// Says how many papers were drawn from lesson text that is not today's.
fn changed(
    folder: &PaperFolder,
    ready: &BTreeMap<String, Ready>,
    lessons: &mut Lessons<'_>,
) -> Option<String> {
    let source = folder.plan().ok()?;
    let today = plan::read(lessons.library, &source).ok().map(|plan| {
        let own = (&plan, &source);
        LessonText::of(lessons.files, lessons.library, own, lessons.class).sum()
    });
    let other = ready
        .values()
        .filter(|own| Some(&own.printed.lessons) != today.as_ref());
    match other.count() {
        0 => None,
        1 => Some(
            "1 paper was drawn from other lessons than today's; it is marked by what was printed"
                .to_owned(),
        ),
        count => Some(format!(
            "{count} papers were drawn from other lessons than today's; they are marked by what was printed"
        )),
    }
}

/// The marks in the order of the list.
fn print(class: &ClassMarks, title: &str, console: &mut Console) -> Result<(), Failure> {
    console.line(title)?;
    let rows: Vec<Vec<String>> = class
        .people
        .iter()
        .map(|person| {
            let marks = match (person.total(), &person.state) {
                (Some((score, out_of)), State::Marked(_)) => format!("{score} of {out_of}"),
                _ => "not in".to_owned(),
            };
            let odd: Vec<String> = person.notes.clone();
            let judged = match &person.state {
                State::Marked(items) => items
                    .iter()
                    .flat_map(|item| {
                        // What was dropped is the same for all and stands below.
                        let own = item
                            .notes
                            .iter()
                            .filter(|note| !note.starts_with("dropped"));
                        own.map(|note| format!("item {}: {note}", item.item))
                            .collect::<Vec<_>>()
                    })
                    .collect(),
                State::NotIn => Vec::new(),
            };
            let notes: Vec<String> = odd.into_iter().chain(judged).collect();
            vec![
                person.person.id.clone(),
                person.person.name.clone(),
                marks,
                notes.join("; "),
            ]
        })
        .collect();
    for row in aligned(&rows) {
        console.line(row)?;
    }
    let zero = Marks::default();
    let dropped: std::collections::BTreeSet<(usize, String)> = class
        .people
        .iter()
        .filter_map(|person| match &person.state {
            State::Marked(items) => Some(items),
            State::NotIn => None,
        })
        .flatten()
        .filter(|item| item.out_of == zero)
        .flat_map(|item| item.notes.iter().map(|note| (item.item, note.clone())))
        .filter(|(_, note)| note.starts_with("dropped"))
        .collect();
    for (item, note) in dropped {
        console.line(format_args!("item {item} {note}"))?;
    }
    let (marked, all) = make_up::counted(class);
    console.line(format_args!("{marked} of {all} marked"))
}
