//! What stands on the shelf: lessons in the order in which they are read, each
//! with its jobs, and the job with which to begin.

use std::sync::Arc;

use pumpwright_engine::lessons::{Family, LessonHead, Library};
use pumpwright_engine::quantities::System;

use crate::jobs::{Job, Takes};

/// Every lesson with its jobs, then the jobs whose lesson is not there.
pub fn list(library: &Library) -> Vec<Job> {
    let mut jobs = Vec::new();
    for lesson in in_order(library.lesson_heads()) {
        jobs.push(Job {
            takes: Takes::Lesson(lesson.id.clone()),
            title: lesson.title.clone(),
            lesson: String::new(),
            minutes: None,
        });
        let own = library
            .families()
            .filter(|family| family.lesson == lesson.id);
        jobs.extend(own.map(|family| job(family, &lesson.title)));
    }
    let alone = library
        .families()
        .filter(|family| library.lesson_head(&family.lesson).is_none());
    jobs.extend(alone.map(|family| job(family, "")));
    jobs
}

/// Lessons so that each comes after those that are read before it, as far as
/// they are there and do not wait for each other.
fn in_order(lessons: &[LessonHead]) -> Vec<&LessonHead> {
    let mut left: Vec<&LessonHead> = lessons.iter().collect();
    let mut ordered = Vec::new();
    while !left.is_empty() {
        let waits = |lesson: &&LessonHead| {
            let others = left.iter().filter(|other| other.id != lesson.id);
            others
                .clone()
                .any(|other| lesson.before.contains(&other.id))
        };
        let next = left.iter().position(|lesson| !waits(lesson)).unwrap_or(0);
        ordered.push(left.remove(next));
    }
    ordered
}

fn job(family: &Family, lesson: &str) -> Job {
    Job {
        takes: Takes::Family(family.id.clone()),
        title: family.title.clone(),
        lesson: lesson.to_owned(),
        minutes: family.minutes,
    }
}

/// The families of a lesson that can be drawn in this system, the easiest first.
pub fn of_lesson(library: &Library, lesson: &str, system: System) -> Vec<String> {
    let own = library
        .families()
        .filter(|family| family.lesson == lesson)
        .filter(|family| library.variant(&family.id, family.home, system).is_some());
    let mut own: Vec<&Arc<Family>> = own.collect();
    own.sort_by_key(|family| ease(family));
    own.into_iter().map(|family| family.id.clone()).collect()
}

/// The job with which to begin: figures only, of the lowest level, where nothing
/// can hurt, with the fewest steps.
pub fn first_family(library: &Library, system: System) -> Option<String> {
    let gentleness = |family: &Arc<Family>| {
        let variant = library.variant(&family.id, family.home, system)?;
        let figures = variant.steps.iter().all(|step| step.unit.is_some());
        let steps = (variant.caution.is_some(), variant.steps.len());
        figures.then(|| (family.home, steps, family.minutes, family.id.clone()))
    };
    let first = library.families().filter_map(gentleness).min();
    let first = first.map(|(.., id)| id);
    first.or_else(|| library.families().next().map(|family| family.id.clone()))
}

fn ease(family: &Family) -> (u8, Option<u32>, String) {
    (family.home, family.minutes, family.id.clone())
}
