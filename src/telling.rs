//! What a problem and a lesson say in words, with their numbers put in.

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Lesson, Library, Part, Template};
use pumpwright_engine::problems::Problem;
use pumpwright_engine::quantities::System;

fn told(template: Option<&Template>, problem: &Problem) -> Option<String> {
    template.map(|text| one_line(&text.render(&problem.variant.names, &problem.values)))
}

/// What to do before the work, where it can hurt.
pub fn caution(problem: &Problem) -> Option<String> {
    told(problem.variant.caution.as_ref(), problem)
}

/// What varies by place or maker.
pub fn varies(problem: &Problem) -> Option<String> {
    told(problem.variant.varies.as_ref(), problem)
}

/// What the figure is good for on the job.
pub fn on_the_job(problem: &Problem) -> Option<String> {
    told(problem.variant.on_the_job.as_ref(), problem)
}

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
    library.rules(system).iter().map(|rule| rule.value(0)).collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
