//! The lessons: the list, and one of them with its families.

use pumpwright_engine::lessons::{Family, Lesson, Library};
use pumpwright_engine::problems::Settings;

use super::{drawing, problem};
use crate::cli::{Drawn, Lessons};
use crate::console::Console;
use crate::failure::{self, Failure};
use crate::telling;

/// Lists the lessons, or prints one.
///
/// # Errors
/// When there is no such lesson.
pub fn run(asked: &Lessons, library: &Library, console: &mut Console) -> Result<(), Failure> {
    match &asked.lesson {
        None => list(library, console),
        Some(id) => {
            let lesson = library.lesson(id).ok_or_else(|| not_there(library, id))?;
            print(lesson, asked, library, console)
        }
    }
}

/// The sentence about a lesson that does not exist.
pub fn not_there(library: &Library, id: &str) -> Failure {
    if let Some(family) = library.family(id) {
        return Failure::Input(format!(
            "\"{id}\" is a family, not a lesson; its lesson is {}",
            family.lesson
        ));
    }
    failure::unknown("lesson", id, &library.nearest_lesson(id))
}

fn list(library: &Library, console: &mut Console) -> Result<(), Failure> {
    for lesson in library.lessons() {
        console.line(format_args!("{}: {}", lesson.id, lesson.title))?;
        families(library, |family| family.lesson == lesson.id, console)?;
    }
    let has_lesson = |family: &Family| library.lesson(&family.lesson).is_some();
    families(library, |family| !has_lesson(family), console)
}

fn families(
    library: &Library,
    wanted: impl Fn(&Family) -> bool,
    console: &mut Console,
) -> Result<(), Failure> {
    for family in library.families().filter(|family| wanted(family)) {
        let levels: Vec<_> = family.levels.iter().map(u8::to_string).collect();
        let levels = match levels.as_slice() {
            [only] => format!("level {only}"),
            several => format!("levels {}", several.join(", ")),
        };
        let head = format!("  {}  ", family.id);
        console.hanging(&head, &format!("{} ({levels})", family.title))?;
    }
    Ok(())
}

fn print(
    lesson: &Lesson,
    asked: &Lessons,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let system = asked.units.unwrap_or_default().system();
    console.line(&lesson.title)?;
    if !lesson.before.is_empty() {
        console.gap()?;
        console.hanging("Read before: ", &lesson.before.join(", "))?;
    }
    if !lesson.can_do.is_empty() {
        console.gap()?;
        console.line("After it you can:")?;
        lesson
            .can_do
            .iter()
            .try_for_each(|skill| console.hanging("  ", skill))?;
    }
    for part in telling::parts(library, lesson, system) {
        console.gap()?;
        console.line(part.head.to_uppercase())?;
        for paragraph in &part.text {
            console.gap()?;
            console.prose(paragraph)?;
        }
        if let Some(law) = &part.law {
            console.gap()?;
            console.hanging("    ", law)?;
        }
        if let Some(caution) = &part.caution {
            console.gap()?;
            console.hanging("CAUTION: ", caution)?;
        }
    }
    if let Some(example) = &lesson.example {
        let drawn = Drawn {
            level: example.level,
            units: asked.units,
            draw: asked.draw,
            ..Drawn::default()
        };
        let problem = drawing::of_family(&example.family, &drawn, &Settings::default(), library)?;
        console.gap()?;
        console.line("A WORKED EXAMPLE")?;
        console.gap()?;
        problem::example(&problem, console)?;
    }
    foot(lesson, asked, library, console)
}

fn foot(
    lesson: &Lesson,
    asked: &Lessons,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let system = asked.units.unwrap_or_default().system();
    if let Some(varies) = telling::lesson_varies(library, lesson, system) {
        console.gap()?;
        console.hanging("What varies: ", &varies)?;
    }
    console.gap()?;
    lesson
        .sources
        .iter()
        .try_for_each(|source| console.hanging("Source: ", source))?;
    if let Some(note) = &lesson.note {
        console.hanging("Note: ", note)?;
    }
    console.gap()?;
    console.line("Families:")?;
    families(library, |family| family.lesson == lesson.id, console)
}
