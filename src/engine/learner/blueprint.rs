//! What an exam is made of: the weight of each family, how many questions, the pass
//! mark. The figures are the caller's; a blueprint file owns them.

use super::curriculum::Curriculum;

/// What an exam is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Blueprint {
    /// The share of the questions that each family has, by its place; they sum to 1,
    /// or are all nothing.
    weights: Vec<f64>,
    /// How many questions.
    pub questions: u32,
    /// The share of right answers that passes.
    pub pass: f64,
    /// The chance that a question is answered right by guessing, over all of them.
    pub guess: f64,
}

impl Blueprint {
    /// A blueprint by weights of families, in whatever measure; negative and unknown
    /// ones count as nothing.
    pub fn new(
        curriculum: &Curriculum,
        weights: &[(&str, f64)],
        questions: u32,
        pass: f64,
    ) -> Self {
        let mut by_place = vec![0.0; curriculum.families().len()];
        for (id, weight) in weights {
            if let Some(place) = curriculum.place(id)
                && weight.is_finite()
            {
                by_place[place] += weight.max(0.0);
            }
        }
        let all: f64 = by_place.iter().sum();
        if all > 0.0 {
            for weight in &mut by_place {
                *weight /= all;
            }
        }
        Self {
            weights: by_place,
            questions: questions.max(1),
            pass: if pass.is_finite() {
                pass.clamp(0.0, 1.0)
            } else {
                0.7
            },
            guess: 0.0,
        }
    }

    /// The same with this chance to answer a question right by guessing.
    #[must_use]
    pub fn with_guess(self, guess: f64) -> Self {
        let guess = if guess.is_finite() {
            guess.clamp(0.0, 1.0)
        } else {
            0.0
        };
        Self { guess, ..self }
    }

    /// A blueprint by areas: each has a weight and lessons, whose families share it
    /// evenly.
    pub fn of_areas(
        curriculum: &Curriculum,
        areas: &[(f64, &[&str])],
        questions: u32,
        pass: f64,
    ) -> Self {
        let mut weights = Vec::new();
        for (weight, lessons) in areas {
            let families = curriculum.families().iter();
            let of_area: Vec<&str> = families
                .filter(|family| lessons.contains(&family.lesson.as_str()))
                .map(|family| family.id.as_str())
                .collect();
            let each = weight / of_area.len().max(1) as f64;
            weights.extend(of_area.into_iter().map(|id| (id, each)));
        }
        Self::new(curriculum, &weights, questions, pass)
    }

    /// Every family the same.
    pub fn even(curriculum: &Curriculum, questions: u32, pass: f64) -> Self {
        let families = curriculum.families().iter();
        let weights: Vec<(&str, f64)> = families.map(|family| (family.id.as_str(), 1.0)).collect();
        Self::new(curriculum, &weights, questions, pass)
    }

    /// The share of the questions that each family has, by its place.
    pub fn weights(&self) -> &[f64] {
        &self.weights
    }
}
