//! Taking in what came, and the marks of a class. What is odd has its own line and stops
//! nothing else.

mod take;

use std::collections::BTreeMap;
use std::path::Path;

use pumpwright_engine::classes::make_up;
use pumpwright_engine::classes::marks::{
    ClassMarks, Decisions, Dropped, HandIn, Judged, MarkedItem, Ready, Sorted, State,
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
use crate::failure::{Failure, shown};
use crate::own_file;
use crate::parts::in_parts;

/// More half marks than any item bears, so that no figure runs over.
const HALVES: f64 = 1e6;

/// Takes in what is named, marks everything, writes the mark sheet.
///
/// # Errors
/// [`Failure::Found`] where something was left out; when folder or options are not in
/// order.
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
    let decisions = decided(asked, &folder, items, &ready)?;
    let mut out = 0;
    let shapes = Shapes::of(&ready);
    for file in &asked.answers {
        out += take::take(file, &folder, (&head.plan, &shapes), console)?;
    }
    let (hand_ins, unread) = folder.hand_ins()?;
    notes.extend(unread);
    let faulty = out > 0 || !notes.is_empty();
    notes.extend(changed(&folder, &ready, lessons));
    // Who has a paper of this plan: the list of the class may have grown since.
    let people = make_up::papers_of(&roster.people, ready.keys());
    let manner = Manner { decimal };
    let class = marked(&people, &ready, (&hand_ins, &decisions), manner);
    for note in notes.iter().chain(&class.notes) {
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
    let mut unwritten = usize::from(!told(own, &path, console)?);
    unwritten += report::beside(&folder, (&class, &ready), form, lessons.library, console)?;
    if !asked.no_pdf {
        unwritten += give_back(&folder, (&class, &ready), written, console)?;
    }
    let open = class.people.iter().any(|person| match &person.state {
        State::Marked(items) => items.iter().any(MarkedItem::is_open),
        State::NotIn => false,
    });
    if faulty || open || unwritten > 0 {
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

/// Says that a file is written, or why it is not: a file that is not this program's stops no
/// other from being written. Whether it is written.
///
/// # Errors
/// When the output is closed.
pub fn told(
    written: Result<(), Failure>,
    path: &Path,
    console: &mut Console,
) -> Result<bool, Failure> {
    let is_written = written.is_ok();
    match written {
        Ok(()) => console.line(format_args!("{} is written", path.display()))?,
        Err(failure) => {
            let why = failure.sentence().unwrap_or_default();
            console.note(format_args!("note: {why}"));
        }
    }
    Ok(is_written)
}

/// Writes the slips of those whose papers are in; how many files could not be written.
#[cfg(feature = "pdf")]
fn give_back(
    folder: &PaperFolder,
    (class, ready): (&ClassMarks, &BTreeMap<String, Ready>),
    decimal: DecimalSign,
    console: &mut Console,
) -> Result<usize, Failure> {
    let format = prints::format_of(folder, ready)?;
    let (slips, unprinted) = slips::slips(class, ready, (format, decimal));
    for name in unprinted {
        console.note(format_args!(
            "note: {name} has a sign that the program's letters lack; the slip has the number alone"
        ));
    }
    if slips.slips.is_empty() {
        return Ok(0);
    }
    let path = folder.path().join("slips.pdf");
    let bytes = pumpwright_press::pdf::slips(&slips);
    let bytes = bytes.map_err(|fault| Failure::Input(fault.to_string()));
    let written = bytes.and_then(|bytes| own_file::write_pdf(&path, &bytes));
    Ok(usize::from(!told(written, &path, console)?))
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
    console: &mut Console,
) -> Result<usize, Failure> {
    console.note(
        "note: this build has no typesetter, so there is no slips.pdf; everything else is made",
    );
    Ok(0)
}

/// What was decided before, with what is asked for now.
fn decided(
    asked: &Mark,
    folder: &PaperFolder,
    items: usize,
    ready: &BTreeMap<String, Ready>,
) -> Result<Decisions, Failure> {
    let mut decisions = folder.decisions()?;
    let item = |text: &str| {
        let number = text.trim().parse::<usize>().ok();
        number
            .filter(|number| (1..=items).contains(number))
            .ok_or_else(|| {
                Failure::Input(format!(
                    "there is no item \"{}\"; the plan has items 1 to {items}",
                    shown(text)
                ))
            })
    };
    for drop in &asked.drop {
        let form = "ITEM=REASON";
        let (number, reason) = super::pair(drop, form)?;
        let item = item(number)?;
        let reason = reasoned(reason, drop, form)?;
        decisions.dropped.retain(|known| known.item != item);
        decisions.dropped.push(Dropped { item, reason });
    }
    for judge in &asked.judge {
        let form = "PAPER.ITEM=MARKS REASON";
        let (place, rest) = super::pair(judge, form)?;
        let (paper, number) = place.rsplit_once('.').unwrap_or((place, ""));
        let Some(of_paper) = ready.get(paper) else {
            return Err(Failure::Input(format!(
                "there is no paper \"{}\" in this class",
                shown(paper)
            )));
        };
        let item = item(number)?;
        let bears = of_paper.printed.bears(item);
        let (marks, reason) = rest.trim().split_once(' ').unwrap_or((rest.trim(), ""));
        let halves = marks
            .replace(',', ".")
            .parse::<f64>()
            .ok()
            .map(|marks| marks * 2.0);
        let halves =
            halves.filter(|halves| halves.fract() == 0.0 && (0.0..=HALVES).contains(halves));
        let halves = halves.ok_or_else(|| {
            Failure::Input(format!(
                "\"{}\" are no marks; write whole or half ones, as in 2.5",
                shown(marks)
            ))
        })?;
        if halves > f64::from(bears) * 2.0 {
            return Err(Failure::Input(format!(
                "item {item} of paper {paper} bears {bears} marks; {marks} are more"
            )));
        }
        let reason = reasoned(reason, judge, form)?;
        let same = |known: &Judged| known.paper == paper && known.item == item;
        decisions.judged.retain(|known| !same(known));
        decisions.judged.push(Judged {
            paper: paper.to_owned(),
            item,
            halves: halves as u32,
            reason,
        });
    }
    if !asked.drop.is_empty() || !asked.judge.is_empty() {
        folder.keep_decisions(&decisions)?;
    }
    Ok(decisions)
}

fn reasoned(reason: &str, given: &str, form: &str) -> Result<String, Failure> {
    let reason = reason.trim();
    if reason.is_empty() {
        return Err(Failure::Input(format!(
            "\"{}\" gives no reason; write it as {form}",
            shown(given)
        )));
    }
    Ok(reason.to_owned())
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
