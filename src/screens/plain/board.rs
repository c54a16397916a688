//! The board as plain lines: Enter shows a line, `?V` a known turn, `?N` other numbers.

use std::io::{self, BufRead, Write};
use std::rc::Rc;

use pumpwright_engine::figures::{self, Frame};
use pumpwright_engine::problems::Problem;

use super::lines::{Came, Lines};
use super::spoken::spoken;
use crate::board::Board;
use crate::words;

/// What the caller decides for the board in plain lines.
pub struct BoardPlain<'a> {
    /// The first problem.
    pub problem: Problem,
    /// A known mistake to begin with, by its name.
    pub mistake: Option<&'a str>,
    /// The same job with other numbers, or what stands against it.
    pub again: &'a mut dyn FnMut(&Problem) -> Result<Problem, String>,
    /// Print ASCII signs only.
    pub ascii: bool,
    /// Write down what is read, where no terminal shows it.
    pub echo: bool,
}

/// Shows a problem line by line until it, or the input, ends.
///
/// # Errors
/// What input or output refuse.
pub fn board_plain(
    asked: BoardPlain<'_>,
    (input, output): (&mut dyn BufRead, &mut dyn Write),
) -> io::Result<()> {
    let BoardPlain {
        problem,
        mistake,
        again,
        ascii,
        echo,
    } = asked;
    let mut lines = Lines::new(input, output, (ascii, echo));
    lines.say(
        "note",
        "Enter shows the next line. ?V brings a known turn, ?N other numbers, ?Q stops.",
    )?;
    let mut board = Board::new(Rc::new(problem), mistake, lines.look);
    head(&board, &mut lines)?;
    for at in 0..board.shown {
        line(&board, at, &mut lines)?;
    }
    turn(&board, &mut lines)?;
    loop {
        if board.shown < board.lines.len() {
            lines.say("next", &board.next())?;
        } else {
            lines.say("next", "every line is shown: ?N other numbers, ?Q stops")?;
        }
        match lines.read()? {
            Came::End | Came::Letter('q' | 'Q') => return Ok(()),
            Came::Letter('n' | 'N') => match again(&board.problem) {
                Ok(problem) => {
                    board = Board::new(Rc::new(problem), None, lines.look);
                    head(&board, &mut lines)?;
                }
                Err(words) => lines.say("note", &words)?,
            },
            Came::Letter('v' | 'V') if board.next_turn() => turn(&board, &mut lines)?,
            Came::Letter('v' | 'V') => lines.say("note", "this problem has no known turn")?,
            Came::Letter('f' | 'F') => figure(&board, &mut lines)?,
            Came::Show => next(&mut board, &mut lines)?,
            Came::Text(text) if text.is_empty() => next(&mut board, &mut lines)?,
            _ => lines.say(
                "note",
                "nothing is written here: Enter, ?V, ?N, ?F for the figure, or ?Q",
            )?,
        }
    }
}

/// The job, and the lines that are to come.
fn head(board: &Board, lines: &mut Lines<'_>) -> io::Result<()> {
    let problem = &board.problem;
    lines.say("board", words::title(problem))?;
    lines.say("code", &problem.code.to_string())?;
    if let Some(caution) = words::caution(problem) {
        lines.say("caution", &caution)?;
    }
    for paragraph in &problem.story {
        for sentence in words::sentences(paragraph) {
            lines.say("text", sentence)?;
        }
    }
    for rule in &problem.rules {
        lines.say("text", &words::rule(rule))?;
    }
    if problem.training {
        lines.say("note", words::TRAINING)?;
    }
    if figures::has(problem) {
        figure(board, lines)?;
    }
    let count = board.asked();
    for line in &board.lines {
        if let Some(number) = board.number(line) {
            lines.say(&format!("line {number} of {count}"), &line.label)?;
            let asked = problem.lines.iter().find(|asked| asked.id == line.id);
            asked.map_or(Ok(()), |asked| lines.offers(asked))?;
        }
    }
    Ok(())
}

/// The figure as the list of what it shows so far; points are said, too.
fn figure(board: &Board, lines: &mut Lines<'_>) -> io::Result<()> {
    if let Some(figure) = &board.problem.figure {
        lines.say("figure", &figure.title)?;
        for sentence in figure.sentences() {
            lines.say("point", &sentence)?;
        }
        return Ok(());
    }
    let Some(scene) = figures::scene(&board.problem, &board.view(), Frame::SCREEN) else {
        return lines.say("note", "this job has no figure");
    };
    let said = figures::list(&scene);
    let said = said.iter().filter(|line| !line.starts_with("caution:"));
    for line in said {
        lines.say("figure", &spoken(line))?;
    }
    Ok(())
}

fn next(board: &mut Board, lines: &mut Lines<'_>) -> io::Result<()> {
    let at = board.shown;
    if !board.show() {
        return lines.say("note", "every line is shown");
    }
    line(board, at, lines)
}

/// What a line comes to.
fn line(board: &Board, at: usize, lines: &mut Lines<'_>) -> io::Result<()> {
    let Some(line) = board.lines.get(at) else {
        return Ok(());
    };
    let number = board.number(line);
    let prefix = number.map_or_else(|| "working".to_owned(), |at| format!("working {at}"));
    for text in board.comes_to(line) {
        let text = format!("{} {text}", line.label);
        lines.say(&prefix, &spoken(&text))?;
    }
    Ok(())
}

fn turn(board: &Board, lines: &mut Lines<'_>) -> io::Result<()> {
    let Some((place, told)) = board.told_turn() else {
        return Ok(());
    };
    for text in told {
        lines.say(
            format!("turn {}", place.trim_start_matches("LINE ")).trim(),
            &text,
        )?;
    }
    Ok(())
}
