//! Sheets to take along.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Asks, Settings, first_half, working};
use pumpwright_engine::quantities::System;
use pumpwright_press::{Item, Sheet, sheet};

use crate::common::{draw_one, faces, shipped};
use crate::html::{body, is_whole, letters, unfolded};
use crate::record::{library, problem};

fn page(library: &Library, items: &[Item], system: System) -> String {
    sheet(&Sheet {
        title: "Tonight's problems, Ina",
        today: 20_782,
        items,
        library,
        system,
    })
}

#[test]
fn a_page_of_sheets_looks_so() {
    let library = library();
    let items: Vec<Item> = ["cable-drop", "insulation-order", "box-parts"]
        .into_iter()
        .zip(1..)
        .map(|(family, number)| {
            let why = "due: last right 12 days ago".to_owned();
            Item::bare(problem(&library, family, number), why)
        })
        .collect();
    let page = page(&library, &items, System::Us);
    is_whole(&page);
    insta::assert_snapshot!(body(&page));
    for item in &items {
        let code = item.problem.code.to_string();
        assert_eq!(
            unfolded(&page).matches(&code).count(),
            if code.starts_with("cable") { 3 } else { 2 }
        );
    }
}

/// Over everything shipped: the page is whole, nothing is open, the caution stands before
/// the job, and a right answer stands nowhere but under the fold.
#[test]
fn answers_stand_under_the_fold_alone() {
    let library = shipped();
    let mut figures = 0;
    let mut answers = 0;
    let mut open = Vec::new();
    for face in faces(&library) {
        let Ok(problem) = draw_one(&library, &face, 5, &Settings::default()) else {
            continue;
        };
        let items = [Item::bare(problem, String::new())];
        let page = page(&library, &items, face.2);
        is_whole(&page);
        let problem = &items[0].problem;
        assert!(!page.contains("<details open"), "{}", problem.code);
        let seen = letters(&unfolded(&page));
        let told = letters(&page);
        if let Some(caution) = problem.caution() {
            let at = seen.find(&caution).expect("the caution is seen");
            assert!(at < seen.find(&problem.story[0]).expect("the job is seen"));
        }
        figures += page.matches("class=\"drawn\"").count();
        for line in working(problem) {
            let asked = problem.lines.iter().find(|own| own.id == line.id);
            let Some(asked) = asked.filter(|own| matches!(own.asks, Asks::Figure)) else {
                continue;
            };
            let right = format!("{}: {}", asked.label, line.text);
            assert!(
                told.contains(&right),
                "{}: {right} is missing",
                problem.code
            );
            answers += 1;
            // The figure itself may stand in the job by chance, and nowhere else.
            let job = problem.story.join(" ");
            let elsewhere = seen.replace(&job, " ");
            let given = problem.told().iter().any(|given| given.text == line.text);
            let drawn = problem
                .figure
                .as_ref()
                .map(pumpwright_engine::problems::Figure::sentences);
            let drawn = drawn.unwrap_or_default().join(" ");
            let offered = problem.lines.iter().any(|own| match &own.asks {
                Asks::Pick { offers, .. } => offers.iter().any(|offer| offer.text == line.text),
                _ => false,
            });
            if given || offered || job.contains(&line.text) || drawn.contains(&line.text) {
                continue;
            }
            let whole = elsewhere.match_indices(&line.text).any(|(at, _)| {
                let before = elsewhere[..at].chars().next_back();
                let after = elsewhere[at + line.text.len()..].chars().next();
                let joins = |sign: Option<char>| {
                    sign.is_some_and(|sign| sign.is_alphanumeric() || "./-,".contains(sign))
                };
                !joins(before) && !joins(after)
            });
            if whole || seen.contains(&right) {
                open.push(format!("{}: {}", problem.code, line.text));
            }
        }
    }
    assert!(open.is_empty(), "open: {open:#?}");
    assert!(
        figures > 50 && answers > 200,
        "{figures} figures, {answers} answers"
    );
}

#[test]
fn who_needs_it_gets_one_that_is_filled_in_or_the_first_half() {
    let library = library();
    let first = problem(&library, "cable-drop", 8);
    let filled_in = Item {
        first: Some(first.clone()),
        ..Item::bare(problem(&library, "cable-drop", 1), String::new())
    };
    let half = Item {
        half_given: true,
        ..Item::bare(problem(&library, "cable-drop", 2), String::new())
    };
    let given = first_half(&half.problem);
    let code = half.problem.code.to_string();
    assert!(!given.is_empty());
    let page = page(&library, &[filled_in, half], System::Us);
    is_whole(&page);
    let seen = letters(&unfolded(&page));
    let seen = seen.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(seen.contains("First one that is filled in"), "{seen}");
    let last = working(&first).pop().expect("a line");
    assert!(seen.contains(&last.text), "{}: {seen}", last.text);
    for (_, typed) in &given {
        assert!(seen.contains(typed.as_str()), "{typed}: {seen}");
    }
    let entered = format!("{}=… --given {} --paper", 4, given.len());
    assert!(seen.contains(&entered), "{entered}: {seen}");
    assert!(!seen.contains(&format!("{code} 1=")), "{seen}");
}
