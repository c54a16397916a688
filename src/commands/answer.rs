//! Marking one response from the command line.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{self, Manner, Marked, MarkedLine, Response};
use pumpwright_engine::problems::{Line, Problem, first_half};
use pumpwright_engine::quantities::DecimalSign;

use super::logbook::Desk;
use super::{drawing, pair, paper, shapes};
use crate::cli::Answer;
use crate::console::Console;
use crate::failure::{self, Failure, shown};
use crate::telling;

/// Marks a response and prints what marking says.
///
/// # Errors
/// When the code cannot be drawn, an answer names no step of the problem, or what was
/// done on paper cannot be kept.
pub fn run(
    asked: &Answer,
    decimal: DecimalSign,
    (library, desk): (&Library, &Desk),
    console: &mut Console,
) -> Result<(), Failure> {
    let problem = drawing::of_code(&asked.code, library)?;
    let mut response = response(&problem, &asked.answers)?;
    let given = given(&problem, asked.given.map_or(0, usize::from), &response)?;
    if asked.paper
        && response
            .answers
            .iter()
            .all(|(_, typed)| typed.trim().is_empty())
    {
        return Err(Failure::Input(
            "nothing is answered, so nothing is kept; write STEP=ANSWER for each line that stands \
             on your paper"
                .to_owned(),
        ));
    }
    for (at, typed) in &given {
        let typed = match decimal {
            DecimalSign::Point => typed.clone(),
            DecimalSign::Comma => typed.replace('.', ","),
        };
        response
            .answers
            .push((problem.lines[*at].id.clone(), typed));
    }
    let ids: Vec<&str> = given
        .iter()
        .map(|(at, _)| problem.lines[*at].id.as_str())
        .collect();
    let marked = marking::mark(&problem, &response, Manner { decimal }).with_given(&ids);
    // What is shown as kept is on the disk.
    if asked.paper {
        let lines = 0..problem.lines.len();
        let given = lines.map(|line| given.iter().any(|(at, _)| *at == line));
        paper::keep(asked, (&problem, &marked, given.collect()), desk, console)?;
    }
    if asked.json {
        return console.json(&shapes::answer(&marked));
    }
    print(&problem, &marked, console)?;
    if asked.paper {
        console.line("Kept in the logbook, as done on paper.")?;
    }
    Ok(())
}

/// The first lines of a page that gave them, by their places, with what stood there.
///
/// # Errors
/// When a page gives fewer, or one of them is answered.
fn given(
    problem: &Problem,
    count: usize,
    response: &Response,
) -> Result<Vec<(usize, String)>, Failure> {
    let mut lines = first_half(problem);
    if lines.len() < count {
        return Err(Failure::Input(format!(
            "no page gives {count} lines of this problem; at most {}",
            lines.len()
        )));
    }
    lines.truncate(count);
    for (at, _) in &lines {
        let id = &problem.lines[*at].id;
        if response.answers.iter().any(|(own, _)| own == id) {
            return Err(Failure::Input(format!(
                "the step {id} was given on the page; leave it out, or leave --given out"
            )));
        }
    }
    Ok(lines)
}

/// The response that was typed.
///
/// # Errors
/// When an answer names no step, or a step is answered twice.
pub fn response(problem: &Problem, typed: &[String]) -> Result<Response, Failure> {
    let mut response = Response::default();
    for answer in typed {
        let (step, answer) = pair(answer, "STEP=ANSWER")?;
        let line = find(problem, step)?;
        if response.answers.iter().any(|(id, _)| *id == line.id) {
            let message = format!("the step {} is answered twice; answer it once", line.id);
            return Err(Failure::Input(message));
        }
        response.answers.push((line.id.clone(), answer.to_owned()));
    }
    Ok(response)
}

/// A line by its id, or by its number among the lines that are asked.
fn find<'a>(problem: &'a Problem, step: &str) -> Result<&'a Line, Failure> {
    let asked = || problem.asked().map(|(_, line)| line);
    let by_number = || {
        step.parse::<usize>()
            .ok()?
            .checked_sub(1)
            .and_then(|at| asked().nth(at))
    };
    asked()
        .find(|line| line.id == step)
        .or_else(by_number)
        .ok_or_else(|| {
            let has: Vec<_> = asked().map(|line| line.id.as_str()).collect();
            let nearest = failure::nearest(step, has.iter().copied());
            let near = match nearest.first() {
                Some(near) => format!("; near it: {near}"),
                None => String::new(),
            };
            let (step, has) = (shown(step), has.join(", "));
            Failure::Input(format!(
                "this problem asks for no step \"{step}\"{near}; it asks for: {has}"
            ))
        })
}

fn print(problem: &Problem, marked: &Marked, console: &mut Console) -> Result<(), Failure> {
    for line in &marked.lines {
        let label = problem
            .lines
            .iter()
            .find(|own| own.id == line.id)
            .map(|own| &own.label);
        let label = label.unwrap_or(&line.id);
        console.hanging(&format!("{:>2}  {label}: ", line.number), &verdict(line))?;
        for turn in &line.turns {
            console.hanging("      ", &format!("Likely \"{}\"", turn.did))?;
            console.hanging("      ", &turn.says)?;
            if let Some(look) = &turn.look {
                console.hanging("      ", look)?;
            }
        }
        if let Some(note) = &line.note {
            console.hanging("      ", note)?;
        }
    }
    console.gap()?;
    console.hanging("Marks: ", &telling::score(marked))
}

fn verdict(line: &MarkedLine) -> String {
    let read_as = line
        .read_as
        .as_deref()
        .map(|read_as| format!(" ({read_as})"));
    let noun = if line.marks.number() == 1.0 {
        "mark"
    } else {
        "marks"
    };
    format!(
        "{}{}, {} {noun} of {}",
        line.words.trim_end_matches('.'),
        read_as.unwrap_or_default(),
        line.marks,
        line.out_of
    )
}
