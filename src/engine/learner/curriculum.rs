//! What there is to learn: the families with their levels, what they rest on and
//! which skills an exam item of theirs needs. Facts of the lessons, nothing about a
//! person.

use std::collections::HashMap;

use super::constants::LEVEL_STEP;

/// What the model knows about a family.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FamilyFacts {
    /// Its id.
    pub id: String,
    /// Its lesson.
    pub lesson: String,
    /// Its levels, ascending.
    pub levels: Vec<u8>,
    /// The level that the blueprint counts.
    pub home: u8,
    /// Seconds under which a first try is a rapid guess.
    pub quick: Option<u32>,
    /// The places of the families that it rests on: each has to stand before it is open.
    pub needs: Vec<usize>,
    /// The families of each lesson before its own: on average they have to stand.
    pub after: Vec<Vec<usize>>,
    /// The places of the distinct families whose skills one problem exercises.
    pub skills: Vec<usize>,
}

/// All families, each at a place that the model counts by.
#[derive(Debug, Clone, Default)]
pub struct Curriculum {
    families: Vec<FamilyFacts>,
    places: HashMap<String, usize>,
}

impl Curriculum {
    /// A curriculum of these families, in this order. Places beyond the end and a
    /// family that needs itself are left out; one without a skill has its own.
    pub fn new(mut families: Vec<FamilyFacts>) -> Self {
        let count = families.len();
        for (place, family) in families.iter_mut().enumerate() {
            family.needs.retain(|need| *need < count && *need != place);
            for lesson in &mut family.after {
                lesson.retain(|before| *before < count && *before != place);
            }
            family.after.retain(|lesson| !lesson.is_empty());
            family.skills.retain(|skill| *skill < count);
            if family.skills.is_empty() {
                family.skills.push(place);
            }
        }
        let named = families.iter().enumerate();
        let places = named.map(|(place, family)| (family.id.clone(), place));
        Self {
            places: places.collect(),
            families,
        }
    }

    /// The families, each at its place.
    pub fn families(&self) -> &[FamilyFacts] {
        &self.families
    }

    /// The place of a family; none where the lessons have it no more.
    pub fn place(&self, id: &str) -> Option<usize> {
        self.places.get(id).copied()
    }

    /// How much harder a level of a family is than its home level, log-odds.
    ///
    /// ```text
    /// δ = 0.8 · (level − home)
    /// ```
    pub fn offset(&self, family: usize, level: u8) -> f64 {
        let home = self.families.get(family).map_or(level, |facts| facts.home);
        LEVEL_STEP * (f64::from(level) - f64::from(home))
    }
}
