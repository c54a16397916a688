//! A problem as a sheet to read, or as JSON; with its working where it is asked for.

use pumpwright_engine::formulas::break_at_signs;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{self, Asks, Figure, Line, Offer, Problem, TRAINING};

use super::{drawing, shapes};
use crate::cli;
use crate::console::{Console, WIDTH};
use crate::failure::Failure;
use crate::telling;

/// Prints a problem.
///
/// # Errors
/// When it cannot be drawn.
pub fn run(asked: &cli::Problem, library: &Library, console: &mut Console) -> Result<(), Failure> {
    let problem = drawing::of_either(&asked.what, &asked.drawn, library)?;
    if asked.json {
        return console.json(&shapes::problem(&problem, asked.worked));
    }
    sheet(&problem, console)?;
    if asked.worked {
        working(&problem, console)?;
    }
    foot(&problem, console)
}

/// Prints a problem with its working, to be read.
///
/// # Errors
/// When the output is closed or full.
pub fn example(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    job(problem, console)?;
    steps(problem, console)
}

/// Head, caution and job.
fn job(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    console.line(&problem.family.title)?;
    console.line(&problem.code)?;
    if let Some(caution) = problem.caution() {
        console.gap()?;
        console.hanging("CAUTION: ", &caution)?;
    }
    for paragraph in &problem.story {
        console.gap()?;
        console.prose(paragraph)?;
    }
    if let Some(figure) = &problem.figure {
        console.gap()?;
        self::figure(figure, console)?;
    }
    if !problem.rules.is_empty() {
        console.gap()?;
        problem
            .rules
            .iter()
            .try_for_each(|rule| console.hanging("House rule: ", &rule.text))?;
    }
    Ok(())
}

/// The job, and the lines with their blanks.
fn sheet(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    job(problem, console)?;
    console.gap()?;
    let widest = problem
        .asked()
        .map(|(_, line)| line.label.chars().count())
        .max()
        .unwrap_or(0);
    for (number, line) in problem.asked() {
        console.hanging(
            &format!("{number:>2}  {:widest$}  ", line.label),
            &blank(line),
        )?;
        choices(line, console)?;
    }
    Ok(())
}

/// The points of a figure in columns, and what is marked on it.
fn figure(figure: &Figure, console: &mut Console) -> Result<(), Failure> {
    console.prose(&figure.title)?;
    let table = figure.table();
    let width = |at: usize| {
        let texts = table.iter().filter_map(|row| row.get(at));
        texts.map(|text| text.chars().count()).max().unwrap_or(0)
    };
    for row in &table {
        let texts = row.iter().enumerate();
        let texts: Vec<String> = texts
            .map(|(at, text)| format!("{text:<0$}", width(at)))
            .collect();
        console.line(format!("  {}", texts.join("   ")).trim_end())?;
    }
    let mut marks = figure.marked().into_iter();
    marks.try_for_each(|mark| console.line(format_args!("  {mark}")))
}

fn blank(line: &Line) -> String {
    let mut blank = "__________".to_owned();
    if let Some(unit) = &line.unit {
        blank = format!("{blank} {unit}");
    }
    if !line.form.is_empty() {
        blank = format!("{blank}, {}", line.form);
    }
    let noun = if line.marks == 1 { "mark" } else { "marks" };
    format!("{blank} ({} {noun})", line.marks)
}

fn choices(line: &Line, console: &mut Console) -> Result<(), Failure> {
    let list = |offers: &[Offer], console: &mut Console| {
        offers
            .iter()
            .try_for_each(|offer| console.hanging(&format!("      {}  ", offer.mark), &offer.text))
    };
    match &line.asks {
        Asks::Nothing | Asks::Figure | Asks::Row => Ok(()),
        Asks::Pick { offers, .. } => list(offers, console),
        Asks::Order { cards } => cards.iter().enumerate().try_for_each(|(at, card)| {
            console.hanging(&format!("     {:>2}  ", at + 1), &card.text)
        }),
        Asks::Match { parts, meanings } => {
            for (at, (part, _)) in parts.iter().enumerate() {
                console.hanging(&format!("     {:>2}  ", at + 1), part)?;
            }
            list(meanings, console)
        }
    }
}

fn working(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    console.gap()?;
    console.line("WORKING")?;
    steps(problem, console)?;
    if !problem.mistakes.is_empty() {
        console.gap()?;
        console.line("KNOWN MISTAKES")?;
    }
    for mistake in shapes::mistakes(problem) {
        console.gap()?;
        console.line(format_args!(
            "{} at {}: {}",
            mistake.id, mistake.step, mistake.text
        ))?;
        console.hanging("  ", &mistake.hint)?;
    }
    Ok(())
}

/// Each step of the working.
fn steps(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    for line in problems::working(problem) {
        console.gap()?;
        if line.id.is_empty() {
            console.hanging("", &line.says)?;
        } else if line.words.is_empty() && line.numbers.is_empty() {
            console.hanging(&format!("{}: ", line.label), &line.text)?;
        } else {
            console.line(&line.label)?;
        }
        for lines in [&line.words, &line.numbers] {
            for (at, text) in lines.iter().enumerate() {
                formula(if at == 0 { "  = " } else { "    " }, text, console)?;
            }
        }
        if let Some(aloud) = &line.aloud {
            console.hanging("  in words: ", aloud)?;
        }
        for keys in problems::pressed(&line) {
            console.hanging("  ", &keys)?;
        }
        if !line.id.is_empty() && !line.says.is_empty() {
            console.hanging("  ", &line.says)?;
        }
        if let Some(why) = &line.why {
            console.hanging("  ", why)?;
        }
    }
    Ok(())
}

/// A line of the working; one that is too long is cut before its signs.
fn formula(lead: &str, text: &str, console: &mut Console) -> Result<(), Failure> {
    let mut lead = lead;
    for piece in break_at_signs(text, WIDTH - lead.len()) {
        console.hanging(lead, &piece)?;
        lead = "      ";
    }
    Ok(())
}

fn foot(problem: &Problem, console: &mut Console) -> Result<(), Failure> {
    console.gap()?;
    if let Some(varies) = problem.varies() {
        console.hanging("What varies: ", &varies)?;
    }
    if let Some(use_) = problem.on_the_job() {
        console.hanging("On the job: ", &use_)?;
    }
    for source in telling::sources(problem) {
        console.hanging("Source: ", &source)?;
    }
    if problem.training {
        console.prose(TRAINING)?;
    }
    Ok(())
}
