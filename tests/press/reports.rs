//! The report of a logbook.

use pumpwright_engine::entries::{Entry, Place};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::quantities::System;
use pumpwright_press::{Report, report};

use crate::html::{body, is_whole, letters};
use crate::record::{entries, history, library, now};

fn page(library: &Library, entries: &[Entry], person: &str, days: i64) -> String {
    report(&Report {
        person,
        now: now(days),
        library,
        system: System::Us,
        history: &history(entries),
        entries,
    })
}

#[test]
fn a_report_looks_so() {
    let library = library();
    let page = page(&library, &entries(&library, 64), "Ina", 33);
    is_whole(&page);
    insta::assert_snapshot!(body(&page));
    // A plot each for standing by stage, forecast, mistakes, time and fit; each has a table.
    let plots = page.matches("<svg").count();
    assert!(plots >= 5, "{plots} plots");
    assert!(page.matches("<table>").count() > plots);
}

#[test]
fn too_little_is_said_to_be_too_little() {
    let library = library();
    let few = page(&library, &entries(&library, 3), "Ina", 2);
    is_whole(&few);
    let said = letters(&few);
    for words in [
        "There is not enough yet to say. What is missing:",
        "without help in probes: there are",
        "No known mistake was made twice",
        "below 50 lines these figures move much",
        "tried on simulated apprentices alone",
        "measured: they are this person's own",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    assert!(!few.contains("forecast-title"), "no forecast is drawn");
    for never in ["rank", "points", "streak", "badge"] {
        assert!(!said.contains(never), "{never}");
    }
}

#[test]
fn odd_records_do_no_harm() {
    let library = library();
    let plain = entries(&library, 6);
    is_whole(&page(&library, &[], "", 0));
    is_whole(&page(&library, &plain, "<b>\u{0}&\"'\u{ffff} Ina</b>", 3));
    let mut odd = plain.clone();
    for (number, entry) in odd.iter_mut().enumerate() {
        entry.family = "gone".to_owned();
        entry.lines[0].mistakes = vec!["gone".to_owned(), "<i>".to_owned()];
        entry.place = Place::Paper;
        entry.seconds = [0, u32::MAX][number % 2];
        entry.zone = [i32::MIN, i32::MAX][number % 2];
    }
    is_whole(&page(&library, &odd, "Ina", 3));
    for at in [i64::MIN, -1, i64::MAX] {
        let mut odd = plain.clone();
        odd[0].at = at;
        is_whole(&page(&library, &odd, "Ina", 3));
        is_whole(&page(&library, &odd, "Ina", -4_000_000));
        is_whole(&page(&library, &odd, "Ina", 90_000_000));
    }
    // Lessons that have nothing of it.
    is_whole(&page(&Library::default(), &plain, "Ina", 3));
}
