//! What lessons, problems and marking say in words, for every surface here.

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Lesson, Library, Part};
use pumpwright_engine::marking::Marked;
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::System;

/// Where the figures come from.
pub fn sources(problem: &Problem) -> Vec<String> {
    problem.family.sources.clone()
}

/// The parts of a lesson under the default house rules.
pub fn parts(library: &Library, lesson: &Lesson, system: System) -> Vec<Part> {
    lesson.parts(system, &defaults(library, system))
}

/// What varies in a lesson under the default house rules.
pub fn lesson_varies(library: &Library, lesson: &Lesson, system: System) -> Option<String> {
    lesson.varies(system, &defaults(library, system))
}

fn defaults(library: &Library, system: System) -> Vec<Option<Value>> {
    library
        .rules(system)
        .iter()
        .map(|rule| rule.value(0))
        .collect()
}

/// The score first, then how it comes about.
pub fn score(marked: &Marked) -> String {
    let sum = format!("{} of {}.", marked.score, marked.out_of);
    let reasons = marked.explained.iter().filter(|sentence| **sentence != sum);
    std::iter::once(&sum)
        .chain(reasons)
        .cloned()
        .collect::<Vec<_>>()
        .join(" ")
}
