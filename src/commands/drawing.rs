//! From what was asked for to a drawn problem: family or code, level, units,
//! draw and house rules. The one place where chance comes in.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{self, Code, DRAWS, DrawError, Problem, Request, Settings};

use super::pair;
use crate::cli::Drawn;
use crate::failure::{Failure, shown};

/// The house rules asked for.
///
/// # Errors
/// When a rule is not `NAME=VALUE`, is unknown, or has no such value.
pub fn settings(drawn: &Drawn, library: &Library) -> Result<Settings, Failure> {
    let mut settings = Settings::default();
    set(&mut settings, &drawn.kept.rules, library)?;
    settings.take_class(library);
    set(&mut settings, &drawn.rules, library)?;
    Ok(settings)
}

fn set(settings: &mut Settings, rules: &[String], library: &Library) -> Result<(), Failure> {
    for rule in rules {
        let (name, value) = pair(rule, "NAME=VALUE")?;
        settings
            .set(library, name, value.trim())
            .map_err(|error| Failure::Input(error.to_string()))?;
    }
    Ok(())
}

/// The problem of a family.
///
/// # Errors
/// When there is no such family or level, or it cannot be drawn under the rules.
pub fn of_family(
    family: &str,
    drawn: &Drawn,
    settings: &Settings,
    library: &Library,
) -> Result<Problem, Failure> {
    let request = Request {
        family,
        level: drawn.level,
        system: drawn.system(),
        draw: drawn.draw.unwrap_or_else(|| rand::random_range(0..DRAWS)),
        settings,
    };
    problems::draw(library, &request).map_err(|error| refusal(&error))
}

/// The problem that a code names.
///
/// # Errors
/// When it is no code, or its family or rules are not those of these lessons.
pub fn of_code(code: &str, library: &Library) -> Result<Problem, Failure> {
    let code: Code = code
        .trim()
        .parse()
        .map_err(|error| Failure::Input(format!("{error}")))?;
    problems::again(library, &code).map_err(|error| refusal(&error))
}

/// A family for a new problem, or a code for one again.
///
/// # Errors
/// As [`of_family`] and [`of_code`]; and when a code comes with options that it
/// already settles.
pub fn of_either(what: &str, drawn: &Drawn, library: &Library) -> Result<Problem, Failure> {
    if !what.contains('.') {
        return of_family(what, drawn, &settings(drawn, library)?, library);
    }
    let settled = [
        ("--level", drawn.level.is_some()),
        ("--units", drawn.units.is_some()),
        ("--draw", drawn.draw.is_some()),
        ("--rule", !drawn.rules.is_empty()),
    ];
    if let Some((option, _)) = settled.iter().find(|(_, given)| *given) {
        let what = shown(what);
        return Err(Failure::Input(format!(
            "the code {what} settles everything; leave {option} out, or name a family"
        )));
    }
    of_code(what, library)
}

/// The draw so many further on than a named one, after the last the first. One that there
/// is not stays as it is: drawing refuses it.
pub fn further(named: Option<u32>, by: u32) -> Option<u32> {
    named.map(|draw| {
        if draw < DRAWS {
            draw.wrapping_add(by) % DRAWS
        } else {
            draw
        }
    })
}

fn refusal(error: &DrawError) -> Failure {
    Failure::Input(error.to_string())
}
