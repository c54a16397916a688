//! Problems as a PDF to hand out, and its key.

use pumpwright_engine::entries::moment;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::System;
use pumpwright_press::pdf::{Format, Head, Item, Key, KeyItem, Paper, PdfFault, key, paper};

use super::drawing;
use crate::cli::{Drawn, Handout};
use crate::console::Console;
use crate::failure::{self, Failure};
use crate::{own_file, platform};

/// Writes the papers.
///
/// # Errors
/// When there is no such lesson or family, a problem cannot be drawn, a name cannot be
/// printed, or a file cannot be written.
pub fn run(asked: &Handout, library: &Library, console: &mut Console) -> Result<(), Failure> {
    let key_file = asked.key.as_ref();
    for file in [Some(&asked.file), key_file].into_iter().flatten() {
        own_file::ends(file, "pdf")?;
    }
    if key_file.is_some_and(|key| own_file::one_place(key, &asked.file)) {
        return Err(Failure::Input(
            "the key and the problems have one file; name another one for the key".to_owned(),
        ));
    }
    let problems = problems(asked, library)?;
    let (milliseconds, zone) = platform::clock();
    let format = match (asked.size, asked.drawn.system()) {
        (Some(size), _) => size.format(),
        (None, System::Us) => Format::Letter,
        (None, System::Si) => Format::A4,
    };
    let head = Head {
        title: title(asked, &problems, library),
        day: Some(moment(milliseconds, zone).day),
        name: asked.name.clone().unwrap_or_default(),
        number: String::new(),
        format,
        tables: String::new(),
    };
    let refused = |fault: PdfFault| Failure::Input(fault.to_string());
    // Both are set before the first is written.
    let items = (1..).zip(&problems);
    let worked = asked.key.as_ref().map(|file| {
        let place = |number: usize| format!("problem {number}");
        let items = items.clone();
        let items = items.map(|(number, problem)| KeyItem::of(problem, place(number)));
        let bytes = key(&Key {
            head: head.clone(),
            items: items.collect(),
        });
        bytes.map(|bytes| (file, bytes))
    });
    let worked = worked.transpose().map_err(refused)?;
    let items = items.map(|(number, problem)| Item::of(problem, number, problem.marks()));
    let items = items.collect();
    let bytes = paper(&Paper { head, items }).map_err(refused)?;
    own_file::write_pdf(&asked.file, &bytes)?;
    console.line(format_args!(
        "{} is written: {} {}",
        asked.file.display(),
        problems.len(),
        if problems.len() == 1 {
            "problem"
        } else {
            "problems"
        }
    ))?;
    if let Some((file, bytes)) = worked {
        own_file::write_pdf(file, &bytes)?;
        console.line(format_args!("{} is written: the key", file.display()))?;
    }
    for problem in &problems {
        console.line(format_args!("  {}", problem.code))?;
    }
    Ok(())
}

/// So many problems of each family, each with numbers of its own.
fn problems(asked: &Handout, library: &Library) -> Result<Vec<Problem>, Failure> {
    let settings = drawing::settings(&asked.drawn, library)?;
    let families = match &asked.lesson {
        Some(id) => {
            let lesson = library.lesson(id);
            let unknown = || failure::unknown("lesson", id, &library.nearest_lesson(id));
            &lesson.ok_or_else(unknown)?.families
        }
        None => &asked.family,
    };
    let each = families
        .iter()
        .flat_map(|family| std::iter::repeat_n(family, usize::from(asked.count)));
    let drawn = (0..).zip(each).map(|(further, family)| {
        let drawn = Drawn {
            draw: drawing::further(asked.drawn.draw, further),
            ..asked.drawn.clone()
        };
        drawing::of_family(family, &drawn, &settings, library)
    });
    let drawn: Vec<Problem> = drawn.collect::<Result<_, Failure>>()?;
    if drawn.is_empty() {
        return Err(Failure::Input("this lesson has no problems".to_owned()));
    }
    Ok(drawn)
}

/// What was asked for, else the title of the lesson or of the first problem.
fn title(asked: &Handout, problems: &[Problem], library: &Library) -> String {
    let lesson = asked.lesson.as_ref().and_then(|id| library.lesson(id));
    let own = lesson.map(|lesson| lesson.title.clone());
    let first = || problems.first().map(|problem| problem.family.title.clone());
    asked
        .title
        .clone()
        .or(own)
        .or_else(first)
        .unwrap_or_default()
}
