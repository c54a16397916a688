//! The curriculum that the lessons make: which family rests on which.

use std::collections::{BTreeSet, HashMap};

use super::blueprint::Blueprint;
use super::curriculum::{Curriculum, FamilyFacts};
use crate::lessons::{Exam, Library};

impl Curriculum {
    /// The families of the lessons that were read, lesson by lesson in an order in
    /// which none stands before what it rests on.
    ///
    /// A family needs those whose skills its steps exercise, and comes after the families
    /// of the lessons before its own whose home level is not above its own.
    pub fn of(library: &Library) -> Self {
        let mut order = Vec::new();
        let mut entered = BTreeSet::new();
        for lesson in library.lesson_heads() {
            enter(library, &lesson.id, &mut entered, &mut order);
        }
        let heads: Vec<_> = order
            .iter()
            .filter_map(|lesson| library.lesson_head(lesson))
            .flat_map(|lesson| &lesson.families)
            .filter_map(|id| library.family(id))
            .collect();
        let places: HashMap<&str, usize> = heads
            .iter()
            .enumerate()
            .map(|(place, family)| (family.id.as_str(), place))
            .collect();
        let facts = heads.iter().enumerate().map(|(own, family)| {
            let skills = library.skills(&family.id);
            let skill = |id: &String| places.get(id.as_str()).copied().unwrap_or(own);
            let mut skills: BTreeSet<usize> = skills.iter().map(skill).collect();
            skills.insert(own);
            let before = library.lesson_head(&family.lesson).into_iter();
            let before = before.flat_map(|lesson| &lesson.before);
            let before = before.filter_map(|lesson| library.lesson_head(lesson));
            let after = before.map(|lesson| {
                let own = lesson.families.iter();
                let own = own.filter_map(|id| places.get(id.as_str()).copied());
                own.filter(|place| heads[*place].home <= family.home)
                    .collect()
            });
            FamilyFacts {
                id: family.id.clone(),
                lesson: family.lesson.clone(),
                levels: family.levels.clone(),
                home: family.home,
                quick: family.quick,
                needs: skills.iter().copied().collect(),
                after: after.collect(),
                skills: skills.into_iter().collect(),
            }
        });
        Self::new(facts.collect())
    }
}

/// The exam that the forecast is for.
const EXAM: &str = "licensing";

impl Blueprint {
    /// The blueprint of the exam that the forecast is for, with that exam. Lessons that
    /// have none are taken evenly, as 75 questions with a pass mark of 70 %.
    pub fn of_library<'a>(
        curriculum: &Curriculum,
        library: &'a Library,
    ) -> (Self, Option<&'a Exam>) {
        match library.exams().iter().find(|exam| exam.id == EXAM) {
            Some(exam) => (Self::of_exam(curriculum, exam), Some(exam)),
            None => (Self::even(curriculum, 75, 0.7), None),
        }
    }

    /// The blueprint of an exam as the lessons have it.
    ///
    /// A question that is a choice is taken to have four offers, the most that there
    /// are: a guess is then right once in four, and no forecast is too good by it.
    pub fn of_exam(curriculum: &Curriculum, exam: &Exam) -> Self {
        const OFFERS: f64 = 4.0;
        let lessons: Vec<Vec<&str>> = exam
            .areas
            .iter()
            .map(|area| area.lessons.iter().map(String::as_str).collect())
            .collect();
        let areas: Vec<(f64, &[&str])> = exam
            .areas
            .iter()
            .zip(&lessons)
            .map(|(area, lessons)| (f64::from(area.weight), lessons.as_slice()))
            .collect();
        let pass = f64::from(exam.pass) / 100.0;
        Self::of_areas(curriculum, &areas, exam.questions, pass)
            .with_guess(f64::from(exam.choices) / 100.0 / OFFERS)
    }
}

/// Enters a lesson behind those that come before it; a circle is cut where it closes.
fn enter(library: &Library, id: &str, entered: &mut BTreeSet<String>, order: &mut Vec<String>) {
    if !entered.insert(id.to_owned()) {
        return;
    }
    if let Some(lesson) = library.lesson_head(id) {
        for before in &lesson.before {
            enter(library, before, entered, order);
        }
        order.push(id.to_owned());
    }
}
