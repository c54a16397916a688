//! The curriculum that the lessons make: which family rests on which.

use std::collections::{BTreeSet, HashMap};

use super::curriculum::{Curriculum, FamilyFacts};
use crate::lessons::Library;
use crate::quantities::System;

impl Curriculum {
    /// The families of the lessons that were read, lesson by lesson in an order in
    /// which none stands before what it rests on.
    ///
    /// A family needs those whose skills its steps exercise, and those of the lessons
    /// that come before its own whose home level is not above its own.
    pub fn of(library: &Library) -> Self {
        let mut order = Vec::new();
        let mut entered = BTreeSet::new();
        for lesson in library.lessons() {
            enter(library, &lesson.id, &mut entered, &mut order);
        }
        let heads: Vec<_> = order
            .iter()
            .filter_map(|lesson| library.lesson(lesson))
            .flat_map(|lesson| &lesson.families)
            .filter_map(|id| library.family(id))
            .collect();
        let places: HashMap<&str, usize> = heads
            .iter()
            .enumerate()
            .map(|(place, family)| (family.id.as_str(), place))
            .collect();
        let facts = heads.iter().enumerate().map(|(own, family)| {
            let variant = library.variant(&family.id, family.home, System::Us);
            let steps = variant.iter().flat_map(|variant| &variant.steps);
            let mut skills: BTreeSet<usize> = steps
                .filter(|step| step.ask && step.marks > 0)
                .map(|step| match &step.skill {
                    Some(skill) => places.get(skill.as_str()).copied().unwrap_or(own),
                    None => own,
                })
                .collect();
            skills.insert(own);
            let before = library.lesson(&family.lesson).into_iter();
            let before = before.flat_map(|lesson| &lesson.before);
            let before = before
                .filter_map(|lesson| library.lesson(lesson))
                .flat_map(|lesson| &lesson.families)
                .filter_map(|id| places.get(id.as_str()).copied())
                .filter(|place| heads[*place].home <= family.home);
            let needs: BTreeSet<usize> = before.chain(skills.iter().copied()).collect();
            FamilyFacts {
                id: family.id.clone(),
                lesson: family.lesson.clone(),
                levels: family.levels.clone(),
                home: family.home,
                quick: family.quick,
                needs: needs.into_iter().collect(),
                skills: skills.into_iter().collect(),
            }
        });
        Self::new(facts.collect())
    }
}

/// Enters a lesson behind those that come before it; a circle is cut where it closes.
fn enter(library: &Library, id: &str, entered: &mut BTreeSet<String>, order: &mut Vec<String>) {
    if !entered.insert(id.to_owned()) {
        return;
    }
    if let Some(lesson) = library.lesson(id) {
        for before in &lesson.before {
            enter(library, before, entered, order);
        }
        order.push(id.to_owned());
    }
}
