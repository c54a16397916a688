//! The curriculum that every simulated apprentice works through: 25 lessons, 60
//! families, prerequisites, 2 to 6 steps each; or that of a folder of lessons, as it is.
//! A step exercises the family's own skill or that of a prerequisite. How people learn
//! depends on no learner model; which families it holds back is the curriculum's.

use std::path::Path;

use pumpwright_engine::learner::{Blueprint, Curriculum, FamilyFacts};
use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::quantities::System;

use crate::luck::Luck;

const LESSONS: usize = 25;

/// How many families a made-up curriculum has.
const FAMILIES: usize = 60;

/// Questions of the simulated exam, and the share that passes.
pub const QUESTIONS: u32 = 50;

/// See [`QUESTIONS`].
pub const PASS: f64 = 0.70;

/// The curriculum.
#[derive(Debug)]
pub struct World {
    /// As the learner model knows it.
    pub curriculum: Curriculum,
    /// The exam.
    pub blueprint: Blueprint,
    /// The skill of each step of each family.
    pub steps: Vec<Vec<usize>>,
    /// What each family rests on in truth.
    grounds: Vec<Vec<usize>>,
}

impl World {
    /// The curriculum that a seed gives.
    pub fn new(seed: u64) -> Self {
        let mut luck = Luck::of(&[seed, 1]);
        let mut lesson: Vec<usize> = (0..LESSONS).chain(0..10).collect();
        lesson.extend((LESSONS + 10..FAMILIES).map(|_| luck.below(LESSONS)));
        lesson.sort_unstable();
        let mut families = Vec::new();
        let mut steps = Vec::new();
        for own in 0..FAMILIES {
            let earlier = lesson.iter().filter(|at| **at < lesson[own]).count();
            let needs = parents(&mut luck, earlier);
            let own_steps = draw_steps(&mut luck, own, &needs);
            let mut skills = own_steps.clone();
            skills.sort_unstable();
            skills.dedup();
            families.push(FamilyFacts {
                id: format!("family-{own}"),
                lesson: format!("lesson-{}", lesson[own]),
                levels: vec![1, 2, 3],
                home: 2,
                quick: None,
                needs,
                after: Vec::new(),
                skills,
            });
            steps.push(own_steps);
        }
        let curriculum = Curriculum::new(families);
        let blueprint = blueprint(&mut luck, &curriculum);
        let grounds = curriculum.families().iter().map(|own| own.needs.clone());
        Self {
            grounds: grounds.collect(),
            curriculum,
            blueprint,
            steps,
        }
    }

    /// The curriculum that a folder of lessons makes, with the exam of its blueprint.
    /// Home level counts as 2. In truth a family rests on the skills of its steps and on
    /// every family of the lessons before its own.
    /// Where `strict`, every single family of the lessons before has to stand.
    pub fn of_lessons(folder: &Path, strict: bool) -> Result<Self, String> {
        let mut files = Vec::new();
        collect(folder, &mut files).map_err(|error| format!("{}: {error}", folder.display()))?;
        let (library, faults) = Library::read(&files);
        if let Some(fault) = faults.first() {
            return Err(fault.to_string());
        }
        let own = Curriculum::of(&library);
        // As in the made-up exam: its figures are written, so nothing is guessed.
        let (blueprint, _) = Blueprint::of_library(&own, &library);
        let mut blueprint = blueprint.with_guess(0.0);
        (blueprint.questions, blueprint.pass) = (QUESTIONS, PASS);
        let lesson = |id: &str| library.lesson_head(id).map(|lesson| lesson.before.clone());
        let mut steps = Vec::new();
        let mut grounds = Vec::new();
        for (at, facts) in own.families().iter().enumerate() {
            let variant = library.variant(&facts.id, facts.home, System::Us);
            let asked = variant.iter().flat_map(|variant| &variant.steps);
            let asked = asked.filter(|step| step.ask && step.marks > 0);
            let skill = |skill: Option<&String>| skill.and_then(|id| own.place(id)).unwrap_or(at);
            steps.push(asked.map(|step| skill(step.skill.as_ref())).collect());
            let before = lesson(&facts.lesson).unwrap_or_default();
            let rests = own.families().iter().enumerate().filter(|(place, other)| {
                *place != at
                    && (facts.skills.contains(place)
                        || before.contains(&other.lesson) && other.home <= facts.home)
            });
            grounds.push(rests.map(|(place, _)| place).collect());
        }
        let families = own.families().iter().map(|facts| FamilyFacts {
            levels: (1..=3)
                .filter(|level| facts.levels.contains(&(level + facts.home - 2)))
                .collect(),
            home: 2,
            quick: None,
            needs: if strict {
                let before = facts.after.iter().flatten();
                before.chain(&facts.needs).copied().collect()
            } else {
                facts.needs.clone()
            },
            after: if strict {
                Vec::new()
            } else {
                facts.after.clone()
            },
            ..facts.clone()
        });
        let curriculum = Curriculum::new(families.collect());
        Ok(Self {
            curriculum,
            blueprint,
            steps,
            grounds,
        })
    }

    /// How many families there are.
    pub fn families(&self) -> usize {
        self.steps.len()
    }

    /// What a family rests on in truth.
    pub fn needs(&self, family: usize) -> &[usize] {
        &self.grounds[family]
    }

    /// The expected share of right answers of somebody with these chances of a right
    /// step: an item is right when each of its distinct skills is.
    pub fn score(&self, chances: &[f64]) -> f64 {
        let items = self.items(chances).into_iter();
        items
            .zip(self.blueprint.weights())
            .map(|(item, weight)| item * weight)
            .sum()
    }

    /// The mean chance of a right step, by the blueprint.
    pub fn step_success(&self, chances: &[f64]) -> f64 {
        let weighted = chances.iter().zip(self.blueprint.weights());
        weighted.map(|(chance, weight)| chance * weight).sum()
    }

    /// The chance of a right item of each family.
    pub fn items(&self, chances: &[f64]) -> Vec<f64> {
        let families = self.curriculum.families().iter();
        families
            .map(|family| family.skills.iter().map(|skill| chances[*skill]).product())
            .collect()
    }
}

/// Every lesson file of a folder.
fn collect(folder: &Path, files: &mut Vec<SourceFile>) -> std::io::Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else if path.extension().is_some_and(|end| end == "toml") {
            files.push(SourceFile {
                text: std::fs::read_to_string(&path)?,
                path: path.to_string_lossy().replace('\\', "/"),
            });
        }
    }
    Ok(())
}

/// Up to three of the twenty families before.
fn parents(luck: &mut Luck, earlier: usize) -> Vec<usize> {
    let count = luck.place(&[0.1, 0.45, 0.35, 0.1]).min(earlier);
    let mut recent: Vec<usize> = (earlier.saturating_sub(20)..earlier).collect();
    let mut chosen: Vec<usize> = (0..count)
        .map(|_| recent.swap_remove(luck.below(recent.len())))
        .collect();
    chosen.sort_unstable();
    chosen
}

/// The skills of a family's steps; the last is its own.
fn draw_steps(luck: &mut Luck, own: usize, needs: &[usize]) -> Vec<usize> {
    let count = 2 + luck.below(5);
    (0..count)
        .map(|at| {
            if !needs.is_empty() && at + 1 < count && luck.happens(0.45) {
                needs[luck.below(needs.len())]
            } else {
                own
            }
        })
        .collect()
}

/// A weight for each lesson, shared evenly by its families.
fn blueprint(luck: &mut Luck, curriculum: &Curriculum) -> Blueprint {
    let names: Vec<String> = (0..LESSONS).map(|at| format!("lesson-{at}")).collect();
    let lists: Vec<[&str; 1]> = names.iter().map(|name| [name.as_str()]).collect();
    let areas: Vec<(f64, &[&str])> = lists
        .iter()
        .map(|list| {
            // The sum of four exponentials: a gamma of shape 4.
            let weight: f64 = (0..4).map(|_| -libm::log(1.0 - luck.share())).sum();
            (weight, list.as_slice())
        })
        .collect();
    Blueprint::of_areas(curriculum, &areas, QUESTIONS, PASS)
}
