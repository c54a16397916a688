//! Problems as a page to take along: tonight's, or a lesson's.

use std::path::Path;

use pumpwright_engine::entries::{Purpose, moment};
use pumpwright_engine::learner::{Blueprint, Curriculum, Desk, History, Moment, Record, Support};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Problem, Settings};
use pumpwright_press as press;
use pumpwright_screens::{JOBS, Planned, plan_of, showing};

use super::drawing;
use super::logbook::Desk as Whose;
use crate::cli::{Drawn, Sheet};
use crate::console::Console;
use crate::failure::{self, Failure};
use crate::logbook::Logbook;
use crate::{own_file, platform};

/// So many draws on lies the problem that is shown filled in, where the draw is named.
const FIRST: u32 = 50;

/// Writes the page.
///
/// # Errors
/// When there is no such lesson, a problem cannot be drawn, the logbook cannot be read
/// or the page cannot be written.
pub fn run(
    asked: &Sheet,
    whose: &Whose,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    own_file::ends(&asked.file, "html")?;
    let settings = drawing::settings(&asked.drawn, library)?;
    let (milliseconds, zone) = platform::clock();
    let now = moment(milliseconds, zone);
    let drawer = Drawer {
        drawn: &asked.drawn,
        settings: &settings,
        library,
    };
    let (title, items) = match &asked.lesson {
        Some(lesson) => of_lesson(lesson, &drawer)?,
        None => {
            let jobs = asked.count.map_or(JOBS, usize::from);
            tonights(whose, now, jobs, &drawer, console)?
        }
    };
    if items.is_empty() {
        return Err(Failure::Input(
            "there is no problem for the page in these lessons".to_owned(),
        ));
    }
    let page = press::sheet(&press::Sheet {
        title: &title,
        today: now.day,
        items: &items,
        library,
        system: asked.drawn.system(),
    });
    let kind = press::Kind::Sheet;
    own_file::write(&asked.file, &page, kind.begins(), kind.name())?;
    let noun = if items.len() == 1 {
        "problem"
    } else {
        "problems"
    };
    console.line(format_args!(
        "{} is written: {} {noun}",
        asked.file.display(),
        items.len()
    ))?;
    for item in &items {
        console.line(format_args!("  {}", item.problem.code))?;
    }
    Ok(())
}

/// Draws the problems of the page.
struct Drawer<'a> {
    drawn: &'a Drawn,
    settings: &'a Settings,
    library: &'a Library,
}

impl Drawer<'_> {
    /// The problem of a family: of the named draw, so many further on, or by chance.
    fn draw(&self, family: &str, level: Option<u8>, further: u32) -> Result<Problem, Failure> {
        let drawn = Drawn {
            level: self.drawn.level.or(level),
            draw: drawing::further(self.drawn.draw, further),
            ..self.drawn.clone()
        };
        drawing::of_family(family, &drawn, self.settings, self.library)
    }

    /// A problem of the evening; its numbers show the mistake whose contrast is due.
    fn planned(&self, planned: &Planned, further: u32) -> Result<Problem, Failure> {
        let mut more = 0;
        showing(planned.contrast.as_deref(), || {
            // Beyond the draws of the other problems of the page.
            let drawn = self.draw(&planned.family, Some(planned.level), further + 100 * more);
            more += 1;
            drawn
        })
    }
}

/// One problem of each family of a lesson.
fn of_lesson(id: &str, drawer: &Drawer<'_>) -> Result<(String, Vec<press::Item>), Failure> {
    let library = drawer.library;
    let lesson = library
        .lesson(id)
        .ok_or_else(|| failure::unknown("lesson", id, &library.nearest_lesson(id)))?;
    let items = (0..).zip(&lesson.families).map(|(further, family)| {
        let problem = drawer.draw(family, None, further)?;
        Ok(press::Item::bare(problem, String::new()))
    });
    Ok((lesson.title.clone(), items.collect::<Result<_, Failure>>()?))
}

/// Tonight's problems, as the record makes them; of somebody new, the first ones.
fn tonights(
    whose: &Whose,
    now: Moment,
    jobs: usize,
    drawer: &Drawer<'_>,
    console: &mut Console,
) -> Result<(String, Vec<press::Item>), Failure> {
    let history = history(whose.file.as_deref(), &whose.person, console)?;
    let curriculum = Curriculum::of(drawer.library);
    let (blueprint, _) = Blueprint::of_library(&curriculum, drawer.library);
    let record = Record::replay(&curriculum, &history);
    let desk = Desk {
        curriculum: &curriculum,
        record: &record,
        blueprint: &blueprint,
        now,
    };
    let plan = plan_of(&desk, drawer.library, jobs);
    let items = (0..).zip(&plan).map(|(further, planned)| {
        let first = match planned.support {
            // Far from the draws of the other problems of the page.
            Support::Worked => {
                Some(drawer.draw(&planned.family, Some(planned.level), further + FIRST)?)
            }
            Support::Part | Support::Bare => None,
        };
        Ok(press::Item {
            first,
            half_given: planned.support == Support::Part,
            ..press::Item::bare(drawer.planned(planned, further)?, why(planned))
        })
    });
    let title = match whose.person.as_str() {
        "" => "Tonight's problems".to_owned(),
        person => format!("Tonight's problems, {person}"),
    };
    Ok((title, items.collect::<Result<_, Failure>>()?))
}

/// Why a problem is there. With its solution beside it nothing is a probe.
fn why(planned: &Planned) -> String {
    match planned.purpose {
        Purpose::Practice => planned.why.clone(),
        _ => "drawn by the mix of the exam".to_owned(),
    }
}

/// What there is of a person; nothing where there is no logbook yet.
fn history(file: Option<&Path>, person: &str, console: &mut Console) -> Result<History, Failure> {
    let Some(file) = file.filter(|file| file.exists()) else {
        return Ok(History::default());
    };
    let logbook = Logbook::there(file)?;
    for notice in logbook.notices() {
        console.note(format_args!("note: {notice}"));
    }
    Ok(logbook.history(person)?)
}
