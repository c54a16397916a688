//! A plan to start from, and a plan shown with samples before anything is printed.

use std::fs;
use std::io::Write as _;
use std::path::Path;

use pumpwright_engine::classes::difficulty::Spread;
use pumpwright_engine::classes::plan::{self, Item, Plan};
use pumpwright_engine::classes::roster::Person;
use pumpwright_engine::classes::seal::ClassKey;
use pumpwright_engine::classes::{Drawing, Paper};
use pumpwright_engine::lessons::{Fault, Library, SourceFile};
use pumpwright_engine::problems::working;
use pumpwright_screens::SAMPLES;

use crate::classroom::text_of;
use crate::console::Console;
use crate::failure::Failure;

/// How many papers are drawn to see how alike they are.
const TRIAL: usize = 24;
/// As much of a sample as is shown.
const WIDEST: usize = 14;

/// Writes a new plan, or prints it.
///
/// # Errors
/// When the file is there, or cannot be written.
pub fn new(file: Option<&Path>, console: &mut Console) -> Result<(), Failure> {
    written(file, plan::NEW, console)
}

/// Writes the text of a plan into a file that must not be there, or prints it.
///
/// # Errors
/// As [`new`].
pub fn written(file: Option<&Path>, text: &str, console: &mut Console) -> Result<(), Failure> {
    let Some(path) = file else {
        write!(console.out, "{text}")?;
        return Ok(());
    };
    let shown = path.display();
    let made = fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .and_then(|mut file| file.write_all(text.as_bytes()));
    match made {
        Ok(()) => console.line(format_args!(
            "{shown} is written; change it, then: pumpwright plan show {shown}"
        )),
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => Err(Failure::Input(
            format!("{shown} is there; name another file, or take it away first"),
        )),
        Err(error) => Err(Failure::World(format!(
            "{shown} cannot be written: {error}"
        ))),
    }
}

/// Reads a plan.
///
/// # Errors
/// Its faults, one under the other.
pub fn read(path: &Path, library: &mut Library) -> Result<(Plan, SourceFile), Failure> {
    let source = SourceFile {
        path: path.display().to_string(),
        text: text_of(path)?,
    };
    match plan::read(library, &source) {
        Ok(plan) => Ok((plan, source)),
        Err(faults) => {
            let all = said(&faults);
            Err(Failure::Input(
                all.strip_prefix("error: ").unwrap_or(&all).to_owned(),
            ))
        }
    }
}

/// Faults one under the other.
fn said(faults: &[Fault]) -> String {
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    said.join("\n\n")
}

/// Shows a plan.
///
/// # Errors
/// When it is faulty, or cannot be drawn.
pub fn show(path: &Path, library: &mut Library, console: &mut Console) -> Result<(), Failure> {
    let (plan, _) = read(path, library)?;
    console.line(&plan.title)?;
    let pass = plan.pass_marks().map_or_else(String::new, |pass| {
        format!("; pass {pass} of {}", plan.marks())
    });
    console.prose(&format!(
        "Versions {}; marks by {}; order {}{pass}. {}",
        plan.versions,
        plan.marks_by.word(),
        plan.order.word(),
        plan.tables_allowed()
    ))?;
    console.gap()?;
    let key = ClassKey::of([0; 32]);
    let papers = trial(&plan, &key, library)?;
    let mut rows = vec![
        [
            "item",
            "job",
            "level",
            "marks",
            "min",
            "answers of three samples",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    for (place, (at, item)) in plan.places().enumerate() {
        rows.push(row((place, at, item), &papers));
    }
    rows.push(vec![
        String::new(),
        String::new(),
        String::new(),
        plan.marks().to_string(),
        plan.minutes().to_string(),
    ]);
    for row in aligned(&rows) {
        console.line(row)?;
    }
    console.gap()?;
    if let Some(spread) = Spread::of(papers.iter().map(|paper| paper.expected), plan.marks()) {
        let spread = spread.to_string();
        let (first, rest) = spread.split_at(1);
        console.prose(&format!(
            "{}{rest}, tried on {TRIAL} papers drawn for this page.",
            first.to_uppercase()
        ))?;
    }
    console.prose(&pages(&papers))
}

/// What the printer will need, reckoned from the samples that are shown.
#[cfg(feature = "pdf")]
fn pages(papers: &[Paper]) -> String {
    use crate::classroom::page_count::{PageCount, pages_of};

    let mut count = PageCount::default();
    for paper in papers.iter().take(SAMPLES) {
        match pages_of(paper) {
            Ok(pages) => count.add(pages),
            Err(why) => return format!("No pages: {why}."),
        }
    }
    let one = match count.of_one() {
        Some((1, 1)) => "1 page".to_owned(),
        Some((least, most)) if least == most => format!("{most} pages"),
        Some((least, most)) => format!("{least} to {most} pages"),
        None => return String::new(),
    };
    format!(
        "{one} a paper, as the three samples come out; {TRIAL} people take about {}, each on a leaf of its own.",
        count.about(TRIAL)
    )
}

/// A build without the typesetter prints nothing.
#[cfg(not(feature = "pdf"))]
fn pages(_: &[Paper]) -> String {
    "Pages come with papers; this build has no typesetter for them.".to_owned()
}

/// Papers under a key that no class has, to look at.
///
/// # Errors
/// When the plan cannot be drawn.
pub fn trial(plan: &Plan, key: &ClassKey, library: &Library) -> Result<Vec<Paper>, Failure> {
    let refused = |error| Failure::Input(format!("the plan cannot be drawn: {error}"));
    let mut drawing = Drawing::new(library, plan, key).map_err(refused)?;
    (1..=TRIAL)
        .map(|at| {
            let person = Person {
                id: format!("sample {at}"),
                name: String::new(),
            };
            drawing.paper(&person).map_err(refused)
        })
        .collect()
}

fn row((place, at, item): (usize, usize, &Item), papers: &[Paper]) -> Vec<String> {
    let levels: std::collections::BTreeSet<u8> =
        item.families.iter().map(|family| family.level).collect();
    let levels: Vec<String> = levels.iter().map(u8::to_string).collect();
    let job = match (&item.lesson, item.families.first()) {
        (Some(lesson), _) => format!("{lesson}, one of {}", item.families.len()),
        (None, Some(family)) => family.family.clone(),
        (None, None) => String::new(),
    };
    let samples = papers.iter().take(SAMPLES).map(|paper| {
        let own = paper.items.iter().find(|own| own.place == place);
        own.map_or_else(String::new, |own| {
            let last = own.problem.asked().last().map(|(_, line)| line.id.clone());
            let worked = working(&own.problem);
            let answer = worked
                .into_iter()
                .find(|line| Some(&line.id) == last.as_ref());
            short(&answer.map_or_else(String::new, |line| line.text))
        })
    });
    [
        (at + 1).to_string(),
        job,
        levels.join(", "),
        item.marks.to_string(),
        item.minutes.to_string(),
    ]
    .into_iter()
    .chain(samples)
    .collect()
}

fn short(text: &str) -> String {
    if text.chars().count() <= WIDEST {
        return text.to_owned();
    }
    let kept: String = text.chars().take(WIDEST - 3).collect();
    format!("{}...", kept.trim_end())
}

/// Rows with their columns under one another.
pub fn aligned(rows: &[Vec<String>]) -> Vec<String> {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let wide = |column: usize| {
        // The last cell of a row needs no room behind it.
        let cells = rows.iter().filter(|row| column + 1 < row.len());
        let cells = cells.filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(wide).collect();
    rows.iter()
        .map(|row| {
            let cells = row.iter().zip(&widths).map(|(cell, width)| {
                format!(
                    "{cell}{}",
                    " ".repeat(width.saturating_sub(cell.chars().count()))
                )
            });
            let line: Vec<String> = cells.collect();
            line.join("  ").trim_end().to_owned()
        })
        .collect()
}
