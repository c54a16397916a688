//! The exams, as a board that would print them reads them.

#![allow(clippy::expect_used, clippy::panic)]

mod common;

use common::shipped;
use pumpwright_engine::lessons::{Exam, Library};
use pumpwright_engine::quantities::System;

fn exam<'a>(library: &'a Library, id: &str) -> &'a Exam {
    let found = library.exams().iter().find(|exam| exam.id == id);
    found.unwrap_or_else(|| panic!("there is no exam {id}"))
}

#[test]
fn the_licensing_exam_is_as_its_blueprint_has_it() {
    let library = shipped();
    let exam = exam(&library, "licensing");
    assert_eq!((exam.questions, exam.minutes, exam.pass), (75, 150, 70));
    assert_eq!((exam.safety.questions, exam.safety.pass), (9, 60));
    assert_eq!(exam.levels, [30, 55, 15]);
    let of = |pick: fn(&pumpwright_engine::lessons::Area) -> u32| -> Vec<u32> {
        exam.areas.iter().map(pick).collect()
    };
    assert_eq!(of(|area| area.weight), [16, 16, 11, 19, 21, 8, 9]);
    assert_eq!(of(|area| area.questions), [12, 12, 8, 14, 16, 6, 7]);
    assert_eq!(of(|area| area.numeric), [5, 9, 5, 8, 10, 2, 2]);
    assert_eq!(of(|area| area.numeric).iter().sum::<u32>(), 41);
    let sources = exam.sources.join("\n");
    for words in ["our own judgement", "no public outline", "Nebraska", "Iowa"] {
        assert!(sources.contains(words), "{words} is not in\n{sources}");
    }
}

/// Every lesson of the trade is asked once; the sums of the shop come before all.
#[test]
fn every_lesson_has_one_area() {
    let library = shipped();
    let areas = &exam(&library, "licensing").areas;
    for lesson in library.lessons() {
        let named = areas
            .iter()
            .filter(|area| area.lessons.contains(&lesson.id));
        let wanted = usize::from(lesson.id != "shop-sums");
        assert_eq!(named.count(), wanted, "{}", lesson.id);
    }
}

#[test]
fn the_shorter_papers_keep_the_shares() {
    let library = shipped();
    let whole = exam(&library, "licensing");
    for (id, questions, minutes) in [("refresher", 25, 40), ("mid-course", 50, 100)] {
        let short = exam(&library, id);
        assert_eq!((short.questions, short.minutes), (questions, minutes));
        let asked: u32 = short.areas.iter().map(|area| area.questions).sum();
        assert_eq!(asked, questions, "{id}");
        for (own, area) in short.areas.iter().zip(&whole.areas) {
            let share = f64::from(area.questions * questions) / 75.0;
            assert!(
                (f64::from(own.questions) - share).abs() < 1.0,
                "{id}: {}",
                own.name
            );
            assert!(own.questions > 0 && own.numeric <= own.questions);
        }
    }
}

/// Figures are asked where figures are: an area has families that can give them.
#[test]
fn every_area_has_families_for_its_figures() {
    let library = shipped();
    for area in &exam(&library, "licensing").areas {
        let families = library.families();
        let numeric = families.filter(|family| {
            area.lessons.contains(&family.lesson)
                && library
                    .variant(&family.id, family.home, System::Us)
                    .is_some_and(|variant| variant.is_numeric())
        });
        let families = u32::try_from(numeric.count()).expect("few");
        assert!(families * 3 >= area.numeric, "{}: {families}", area.name);
    }
}
