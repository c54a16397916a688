//! The curriculum that every simulated apprentice works through: 25 lessons, 60
//! families, prerequisites, 2 to 6 steps each. A step exercises the family's own
//! skill or that of a prerequisite. Nothing here depends on a learner model.

use pumpwright_engine::learner::{Blueprint, Curriculum, FamilyFacts};

use crate::luck::Luck;

const LESSONS: usize = 25;

/// How many families there are.
pub const FAMILIES: usize = 60;

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
                skills,
            });
            steps.push(own_steps);
        }
        let curriculum = Curriculum::new(families);
        let blueprint = blueprint(&mut luck, &curriculum);
        Self {
            curriculum,
            blueprint,
            steps,
        }
    }

    /// The prerequisites of a family.
    pub fn needs(&self, family: usize) -> &[usize] {
        &self.curriculum.families()[family].needs
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
