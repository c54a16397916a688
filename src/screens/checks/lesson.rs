//! The lesson reader: to the end, back again, and into a sheet.

use super::bench::{Bench, library};
use crate::Start;
use crate::screen::Screen;

fn page(bench: &Bench<'_>) -> (String, usize, usize) {
    match bench.top() {
        Screen::Lesson(lesson) => (lesson.id.clone(), lesson.at, lesson.pages.len()),
        _ => panic!("a lesson lies on top"),
    }
}

#[test]
fn enter_reads_to_the_end_then_a_worked_sheet_then_one_of_ones_own() {
    let library = library();
    for lesson in library.lessons() {
        for size in [(60, 20), (80, 24), (120, 40)] {
            let mut bench = Bench::new(&library, Start::Jobs, size);
            bench.play(&lesson.id);
            bench.play("⏎");
            assert_eq!(page(&bench).0, lesson.id);
            let mut shown = String::new();
            for _ in 0..60 {
                if !matches!(bench.top(), Screen::Lesson(_)) {
                    break;
                }
                shown.push_str(&bench.text());
                bench.play("⏎");
            }
            let Screen::Worked(worked) = bench.top() else {
                panic!("{}: {}", lesson.id, bench.text());
            };
            assert!(lesson.families.contains(&worked.problem.family.id));
            let family = worked.problem.family.id.clone();
            for head in lesson.parts(pumpwright_engine::quantities::System::Us, &[]) {
                assert!(shown.contains(&head.head), "{}: {}", lesson.id, head.head);
            }
            bench.play("⏎");
            let Screen::Sheet(sheet) = bench.top() else {
                panic!("{}: {}", lesson.id, bench.text());
            };
            assert_eq!(sheet.problem.family.id, family);
        }
    }
}

#[test]
fn every_line_of_a_lesson_can_be_reached_with_down_alone_and_left_with_up() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (60, 20));
    bench.play("?l");
    let first = bench.text();
    let (_, _, pages) = page(&bench);
    for _ in 0..200 {
        bench.play("↓");
    }
    assert_eq!(page(&bench).1 + 1, pages);
    assert!(bench.text().contains("nothing stands below this"));
    for _ in 0..200 {
        bench.play("↑");
    }
    bench.play("⌫↑↓↑");
    assert_eq!(page(&bench).1, 0);
    bench.play("⎋?l");
    assert_eq!(bench.text(), first);
}

#[test]
fn a_lesson_that_is_put_away_opens_where_it_was() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (120, 40));
    bench.play("320?l⏎⏎");
    let at = page(&bench).1;
    assert!(at > 0);
    bench.play("⎋");
    let sheet = bench.top().sheet().expect("the sheet comes back");
    assert_eq!(sheet.slots[0].blank.text(), "320");
    bench.play("?l");
    assert_eq!(page(&bench).1, at);
}

#[test]
fn try_one_now_takes_the_families_of_the_lesson_in_turn() {
    let library = library();
    let mut seen = std::collections::BTreeSet::new();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    for _ in 0..2 {
        bench.play("drop-cable⏎?n");
        let Screen::Sheet(sheet) = bench.top() else {
            panic!("{}", bench.text())
        };
        seen.insert(sheet.problem.family.id.clone());
        bench.play("⎋");
    }
    let all = library
        .lesson("drop-cable")
        .expect("a lesson")
        .families
        .len();
    assert_eq!(seen.len(), all.min(2));
}

#[test]
fn the_caution_of_a_part_stays_in_sight() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (60, 20));
    bench.play("?l");
    let mut met = false;
    for _ in 0..100 {
        let Screen::Lesson(lesson) = bench.top() else {
            break;
        };
        let caution = lesson.leaf().is_some_and(|leaf| leaf.caution.is_some());
        met |= caution;
        assert_eq!(
            bench.text().contains("CAUTION"),
            caution,
            "{}",
            bench.text()
        );
        bench.play("↓");
    }
    assert!(met);
}

#[test]
fn a_word_narrows_the_list_and_esc_widens_it() {
    let library = library();
    let mut bench = Bench::new(&library, Start::Jobs, (80, 24));
    bench.play("bladder");
    let text = bench.text();
    assert!(
        text.contains("pressure-tank") || text.contains("Bladder tank"),
        "{text}"
    );
    assert!(text.contains("tank-precharge"), "{text}");
    assert!(!text.contains("cable-drop"), "{text}");
    bench.play("↓⏎");
    assert!(matches!(bench.top(), Screen::Sheet(_)), "{}", bench.text());
    bench.play("⎋zzz⏎");
    assert!(
        bench.text().contains("no line has \"zzz\""),
        "{}",
        bench.text()
    );
    bench.play("⎋");
    assert!(bench.text().contains("every line is listed again"));
}

#[test]
fn a_sheet_that_is_set_aside_waits_even_with_nothing_written() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    bench.play("?a");
    assert!(matches!(bench.top(), Screen::Jobs(jobs) if jobs.waiting.len() == 1));
    assert!(bench.text().contains("set aside"), "{}", bench.text());
    bench.play("⏎");
    assert!(matches!(bench.top(), Screen::Sheet(_)));
}
