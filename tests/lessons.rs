//! Every shipped lesson loads, draws, solves and marks.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

mod common;
#[path = "common/report.rs"]
mod report;

use std::collections::BTreeSet;

use common::shipped;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Response, Verdict, mark};
use pumpwright_engine::problems::{Problem, Request, Settings, again, draw, survey, working};
use pumpwright_engine::quantities::System;

/// How many draws of each family, level and system are looked at.
const DRAWS: u32 = 60;

fn every_problem(look: impl Fn(&Problem)) {
    let library = shipped();
    let settings = Settings::default();
    for family in library.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                for n in 0..DRAWS {
                    let request = Request {
                        family: &family.id,
                        level: Some(level),
                        system,
                        draw: n,
                        settings: &settings,
                    };
                    match draw(&library, &request) {
                        Ok(problem) => look(&problem),
                        Err(error) => {
                            panic!("{} level {level} {system}, draw {n}: {error}", family.id)
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn a_code_draws_the_same_problem_again() {
    let library = shipped();
    every_problem(|problem| {
        let code = problem.code.to_string().parse().expect("its own code");
        let other = again(&library, &code).expect("the same problem");
        assert_eq!(other.values, problem.values);
        assert_eq!(other.lines, problem.lines);
        assert_eq!(other.story, problem.story);
    });
}

#[test]
fn the_worked_answers_fed_back_earn_full_marks() {
    every_problem(|problem| {
        let answers = working(problem)
            .into_iter()
            .map(|line| (line.id, line.typed))
            .collect();
        let marked = mark(problem, &Response { answers }, Manner::default());
        assert_eq!(
            marked.score, marked.out_of,
            "{}: {:#?}",
            problem.code, marked.lines
        );
        assert!(
            marked
                .lines
                .iter()
                .all(|line| line.verdict == Verdict::Right)
        );
    });
}

/// A quick look at what `pumpwright check` does at length; what it saw is kept beside the
/// list of families, so that a change shows.
#[test]
fn the_lesson_check_finds_nothing_and_reports_as_before() {
    let library = shipped();
    let mut told = Vec::new();
    let mut report = report::HEAD.to_owned();
    for family in library.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                for survey in survey(&library, &family.id, level, system, 200) {
                    for finding in &survey.findings {
                        let rule = survey.rule.as_deref().unwrap_or("defaults");
                        told.push(format!("{} {level}{system}, {rule}: {finding}", family.id));
                    }
                    // The redraw rate has its limit whatever chance says.
                    if survey.rule.is_none() {
                        assert!(
                            survey.guard_rate() <= 0.1,
                            "{} redraws too often",
                            family.id
                        );
                        report += &report::line(&library, &survey);
                    }
                }
            }
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
    report::held(&report);
}

/// A program that carries its lessons reads families when they are asked for: they
/// must be the same families.
#[test]
fn families_read_late_are_the_same() {
    let whole = shipped();
    let (late, faults) = Library::read_checked(&common::shipped_files());
    assert!(faults.is_empty());
    for family in whole.families() {
        for &level in &family.levels {
            for system in System::BOTH {
                let revision = |library: &Library| {
                    let variant = library.variant(&family.id, level, system);
                    variant.map(|variant| variant.revision)
                };
                assert_eq!(revision(&whole), revision(&late), "{}", family.id);
                assert!(revision(&late).is_some());
            }
        }
    }
}

/// The lists that a start needs are read from the heads of the files alone.
#[test]
fn heads_and_skills_read_alone_are_the_same() {
    let whole = shipped();
    let (late, _) = Library::read_checked(&common::shipped_files());
    assert_eq!(whole.lesson_heads(), late.lesson_heads());
    assert_eq!(whole.exams(), late.exams());
    for (family, early) in whole.families().zip(late.families()) {
        assert_eq!(family, early);
        // A skill that several steps name counts once.
        let skills = |library: &Library| -> BTreeSet<String> {
            library.skills(&family.id).into_iter().collect()
        };
        assert_eq!(skills(&whole), skills(&late), "{}", family.id);
    }
    assert_eq!(whole.families().count(), late.families().count());
    assert!(
        whole
            .families()
            .any(|family| !whole.skills(&family.id).is_empty())
    );
    for (lesson, early) in whole.lessons().iter().zip(late.lessons()) {
        assert_eq!(lesson.id, early.id);
        assert_eq!(lesson.families, early.families);
        assert_eq!(lesson.example, early.example);
    }
}
