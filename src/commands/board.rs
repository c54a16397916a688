//! A problem on the board: on the screen, or in plain lines.

use std::io::IsTerminal as _;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{self, Code, Problem, Request, Settings};
use pumpwright_engine::quantities::DecimalSign;
use pumpwright_screens::{self as screens, BoardPlain, Look, Person, Start, TrainOptions, showing};

use super::{drawing, practice};
use crate::cli::Board;
use crate::console::Console;
use crate::failure::{Failure, shown};

/// The board in plain lines.
///
/// # Errors
/// When the problem cannot be drawn, or does not know the mistake.
pub fn plainly(asked: &Board, library: &Library, console: &mut Console) -> Result<(), Failure> {
    let problem = problem(asked, library)?;
    let settings = settings(&problem.code, library)?;
    let mut draws = practice::draws(drawing::further(asked.drawn.draw, 1));
    let mut again = |problem: &Problem| {
        let request = Request {
            family: &problem.code.family,
            level: Some(problem.code.level),
            system: problem.code.system,
            draw: draws(),
            settings: &settings,
        };
        problems::draw(library, &request).map_err(|error| error.to_string())
    };
    let board = BoardPlain {
        problem,
        mistake: asked.mistake.as_deref(),
        again: &mut again,
        ascii: !console.unicode,
        echo: !std::io::stdin().is_terminal(),
    };
    let (mut input, mut output) = (&mut *console.input, &mut *console.out);
    Ok(screens::board_plain(board, (&mut input, &mut output))?)
}

/// What the trainer's screens are told to begin at the board.
///
/// # Errors
/// When the problem cannot be drawn, or does not know the mistake.
pub fn for_the_screen<'a>(
    asked: &Board,
    decimal: DecimalSign,
    library: &Library,
    look: Look,
    person: Person<'a>,
) -> Result<TrainOptions<'a>, Failure> {
    let problem = problem(asked, library)?;
    Ok(TrainOptions {
        system: problem.code.system,
        settings: settings(&problem.code, library)?,
        manner: Manner { decimal },
        look,
        draws: Box::new(practice::draws(drawing::further(asked.drawn.draw, 1))),
        start: Start::Board(Box::new(problem), asked.mistake.clone()),
        person,
    })
}

/// The problem asked for; of a family one whose numbers show the mistake asked for.
fn problem(asked: &Board, library: &Library) -> Result<Problem, Failure> {
    let mistake = asked.mistake.as_deref();
    let mut drawn = asked.drawn.clone();
    let problem = if asked.what.contains('.') {
        drawing::of_either(&asked.what, &drawn, library)?
    } else {
        showing(mistake, || {
            let problem = drawing::of_either(&asked.what, &drawn, library);
            drawn.draw = drawing::further(drawn.draw, 1);
            problem
        })?
    };
    match mistake {
        Some(mistake) if problem.mistakes.iter().all(|live| live.id != mistake) => {
            Err(not_shown(&problem, mistake))
        }
        _ => Ok(problem),
    }
}

fn not_shown(problem: &Problem, mistake: &str) -> Failure {
    let live: Vec<&str> = problem.mistakes.iter().map(|live| &*live.id).collect();
    let has = match live.as_slice() {
        [] => "it has none".to_owned(),
        names => format!("it has {}", names.join(", ")),
    };
    Failure::Input(format!(
        "{} does not show the mistake \"{}\"; {has}",
        problem.code,
        shown(mistake)
    ))
}

/// The house rules that a code settles: the next numbers come under the same.
fn settings(code: &Code, library: &Library) -> Result<Settings, Failure> {
    let mut settings = Settings::default();
    for (name, value) in &code.rules {
        settings
            .set(library, name, value)
            .map_err(|error| Failure::Input(error.to_string()))?;
    }
    Ok(settings)
}
