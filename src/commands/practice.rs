//! Practice: which sheets come, and on which surface they are worked.

use std::io::IsTerminal as _;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::Manner;
use pumpwright_engine::problems::{DRAWS, Problem, Settings};
use pumpwright_engine::quantities::{DecimalSign, System};
use pumpwright_screens::{self as screens, Look, Person, PlainOptions, Start, TrainOptions};

use super::{drawing, lessons};
use crate::cli::{Drawn, Practice, Units};
use crate::console::Console;
use crate::failure::{self, Failure};

/// Practises in plain lines.
///
/// # Errors
/// When there is no such lesson or family, or a problem cannot be drawn.
pub fn plainly(
    asked: &Practice,
    decimal: DecimalSign,
    library: &Library,
    person: Person<'_>,
    console: &mut Console,
) -> Result<(), Failure> {
    let turn = Turn::of(asked, library)?;
    let mut number = 0_u32;
    let mut refused = None;
    let mut next = |system: System| {
        if asked.count.is_some_and(|count| number >= count) {
            return None;
        }
        let problem = turn.problem(number, system, library);
        number = number.saturating_add(1);
        problem.map_err(|failure| refused = Some(failure)).ok()
    };
    let mut others = draws(drawing::further(asked.drawn.draw, 1));
    let options = PlainOptions {
        system: asked.drawn.system(),
        settings: &turn.settings,
        manner: Manner { decimal },
        ascii: !console.unicode,
        echo: !std::io::stdin().is_terminal(),
        count: asked.count.map(|count| count as usize),
        by_record: asked.leaves_the_choice(),
        draws: &mut others,
        person,
    };
    let (mut input, mut output) = (&mut *console.input, &mut *console.out);
    screens::practice_plain(library, &mut next, options, (&mut input, &mut output))?;
    refused.map_or(Ok(()), Err)
}

/// Where draws come from: one after the other from the named one, or chance.
pub fn draws(mut named: Option<u32>) -> impl FnMut() -> u32 {
    move || match named {
        None => rand::random_range(0..DRAWS),
        Some(draw) => {
            named = Some(draw.wrapping_add(1) % DRAWS);
            draw
        }
    }
}

/// What the trainer's screens are told.
///
/// # Errors
/// When there is no such family or house rule.
pub fn for_the_screen<'a>(
    asked: &Practice,
    decimal: DecimalSign,
    library: &Library,
    (look, start): (Look, Start),
    person: Person<'a>,
) -> Result<TrainOptions<'a>, Failure> {
    let start = match asked.family {
        Some(_) => families(asked, library)?
            .into_iter()
            .next()
            .map_or(start, Start::Family),
        None => start,
    };
    Ok(TrainOptions {
        system: asked.drawn.system(),
        settings: drawing::settings(&asked.drawn, library)?,
        manner: Manner { decimal },
        look,
        start,
        draws: Box::new(draws(asked.drawn.draw)),
        person,
    })
}

/// The families in turn, each with fresh numbers.
struct Turn<'a> {
    families: Vec<String>,
    drawn: &'a Drawn,
    settings: Settings,
    first: usize,
}

impl<'a> Turn<'a> {
    fn of(asked: &'a Practice, library: &Library) -> Result<Self, Failure> {
        let drawn = &asked.drawn;
        let settings = drawing::settings(drawn, library)?;
        let families = families(asked, library)?;
        // A named draw is the same practice every time; without one, not
        // everybody starts with the first family of the first lesson.
        let named = drawn.draw.is_some() || families.is_empty();
        let first = if named {
            0
        } else {
            rand::random_range(0..families.len())
        };
        Ok(Self {
            families,
            drawn,
            settings,
            first,
        })
    }

    fn problem(&self, number: u32, system: System, library: &Library) -> Result<Problem, Failure> {
        let place = (number as usize).wrapping_add(self.first) % self.families.len().max(1);
        let nothing = || Failure::Input("there is no family to practice".to_owned());
        let family = self.families.get(place).ok_or_else(nothing)?;
        let draw = drawing::further(self.drawn.draw, number);
        let drawn = Drawn {
            draw,
            units: Some(Units::of(system)),
            ..self.drawn.clone()
        };
        drawing::of_family(family, &drawn, &self.settings, library)
    }
}

/// The families asked for that have the level asked for.
fn families(asked: &Practice, library: &Library) -> Result<Vec<String>, Failure> {
    if let Some(id) = &asked.family {
        return match library.family(id) {
            Some(family) => Ok(vec![family.id.clone()]),
            None => Err(failure::unknown("family", id, &library.nearest_family(id))),
        };
    }
    if let Some(id) = asked
        .lesson
        .as_ref()
        .filter(|id| library.lesson(id).is_none())
    {
        return Err(lessons::not_there(library, id));
    }
    let level = asked.drawn.level;
    let wanted = library
        .families()
        .filter(|family| {
            asked
                .lesson
                .as_ref()
                .is_none_or(|lesson| family.lesson == *lesson)
        })
        .filter(|family| level.is_none_or(|level| family.levels.contains(&level)))
        .map(|family| family.id.clone());
    let families: Vec<String> = wanted.collect();
    match (families.is_empty(), level) {
        (true, Some(level)) => Err(Failure::Input(format!(
            "no family here has level {level}; leave --level out"
        ))),
        _ => Ok(families),
    }
}
