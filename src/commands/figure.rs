//! The figure of a problem: in the terminal, as a list to hear, or as a vector file.

use pumpwright_engine::figures::{self, Frame, Signs, View};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::Problem;

use super::drawing;
use crate::cli;
use crate::console::Console;
use crate::failure::Failure;
use crate::own_file;

/// As every file of a figure begins.
const BEGINS: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\"";

/// The rows of a figure beside its columns: the shape of a page's picture.
const COLUMNS_TO_A_ROW: usize = 4;

/// Prints a figure, or writes it into a file.
///
/// # Errors
/// When the problem cannot be drawn or has no figure, or the file cannot be written.
pub fn run(asked: &cli::Figure, library: &Library, console: &mut Console) -> Result<(), Failure> {
    if let Some(file) = &asked.svg {
        own_file::ends(file, "svg")?;
    }
    let problem = drawing::of_either(&asked.what, &asked.drawn, library)?;
    let view = if asked.worked {
        View::worked(&problem)
    } else {
        View::before(&problem)
    };
    let columns = asked.width.map_or(Frame::SCREEN.columns, usize::from);
    let frame = Frame {
        columns,
        rows: (columns / COLUMNS_TO_A_ROW).max(Frame::SCREEN.rows),
    };
    let Some(scene) = figures::scene(&problem, &view, frame) else {
        return Err(none(&problem));
    };
    if let Some(file) = &asked.svg {
        let page = figures::svg(&scene);
        own_file::write(file, &page, BEGINS, "figure")?;
        return console.line(format!("{} is written: {}", file.display(), problem.code));
    }
    console.line(&problem.code)?;
    if let Some(caution) = problem.caution() {
        console.hanging("CAUTION: ", &caution)?;
    }
    console.gap()?;
    if asked.list {
        let lines = figures::list(&scene);
        return lines.iter().try_for_each(|line| console.line(line));
    }
    let signs = if console.unicode {
        Signs::Drawn
    } else {
        Signs::Ascii
    };
    let grid = figures::cells(&scene, signs);
    grid.rows().iter().try_for_each(|row| console.line(row))
}

fn none(problem: &Problem) -> Failure {
    let family = &problem.code.family;
    Failure::Input(format!(
        "the family {family} has no figure at level {}; name another",
        problem.code.level
    ))
}
