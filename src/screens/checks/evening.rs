//! The evening: what the record makes of the front page, what is taken from there, and
//! where one stands.

use std::cell::RefCell;
use std::rc::Rc;

use pumpwright_engine::entries::{Circumstances, Id, Place, Purpose, entry};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Response, mark};
use pumpwright_engine::problems::{Request, Settings, draw, working};
use pumpwright_engine::quantities::System;

use super::bench::{Bench, MANNER, library};
use super::record::{Hand, InHand};
use crate::clerk::Clerk as _;
use crate::keys::Press;
use crate::{SetUp, Start};

const DAY: i64 = 86_400_000;
/// Wednesday, 25 November 2026, in the evening.
const EVENING: i64 = 20_782 * DAY + 19 * 3_600_000;

/// A record: each family, how many days ago, and which lines were right.
fn hand(library: &Library, done: &[(&str, i64, bool)]) -> Rc<RefCell<Hand>> {
    let mut hand = Hand {
        milliseconds: EVENING,
        ..Hand::default()
    };
    for (number, (family, ago, right)) in (1..).zip(done) {
        let request = Request {
            family,
            level: None,
            system: System::Us,
            draw: number,
            settings: &Settings::default(),
        };
        let problem = draw(library, &request).expect("a family draws");
        let lines = working(&problem).into_iter();
        let wrong = problem.mistakes.first().cloned();
        let answers = lines.map(|line| match &wrong {
            Some(wrong) if !right && wrong.step == line.id => (line.id, wrong.text.clone()),
            _ => (line.id, line.typed),
        });
        let response = Response {
            answers: answers.collect(),
        };
        let at = EVENING - ago * DAY;
        let by = Circumstances {
            id: Id::new(at, number.into()),
            person: "Ina".into(),
            at,
            zone: 0,
            purpose: Purpose::Practice,
            place: Place::Screen,
            seconds: 200,
            helped: Vec::new(),
            line_seconds: vec![Some(60); 9],
            given: Vec::new(),
            program: "0".into(),
        };
        let marked = mark(&problem, &response, MANNER);
        hand.kept.hand_in(entry(&problem, &marked, by));
    }
    Rc::new(RefCell::new(hand))
}

fn some_weeks(library: &Library) -> Rc<RefCell<Hand>> {
    let mut done = Vec::new();
    for ago in [20, 14, 9, 5, 2] {
        done.extend([
            ("psi-to-feet", ago, true),
            ("drawdown", ago, true),
            ("tank-precharge", ago + 7, true),
            ("cable-drop", ago, false),
        ]);
    }
    hand(library, &done)
}

fn bench<'a>(library: &'a Library, hand: &Rc<RefCell<Hand>>, size: (u16, u16)) -> Bench<'a> {
    let clerk = Box::new(InHand::new(hand));
    let mut bench = Bench::kept_by(library, Start::First, clerk, SetUp::default());
    bench.resize(size.0, size.1);
    bench
}

#[test]
fn whoever_has_a_record_begins_with_the_evening() {
    let library = library();
    let hand = some_weeks(&library);
    for size in [(80, 24), (120, 40), (60, 20)] {
        let mut bench = bench(&library, &hand, size);
        insta::assert_snapshot!(format!("tonight_{}", size.0), bench.text());
        bench.play("?s");
        insta::assert_snapshot!(format!("standing_{}", size.0), bench.text());
    }
}

#[test]
fn a_job_of_the_evening_leaves_the_list_when_it_is_handed_in() {
    let library = library();
    let hand = some_weeks(&library);
    let mut bench = bench(&library, &hand, (80, 24));
    let before = bench.text();
    let first = |text: &str| {
        let row = text.lines().find(|row| row.contains("to begin with"));
        row.map(|row| row.split_whitespace().nth(3).unwrap_or_default().to_owned())
    };
    let family = first(&before).expect("a job to begin with");
    hand.borrow_mut().answers = vec![Ok(()); 9];
    bench.play("1⏎");
    assert!(bench.text().contains(&family), "{}", bench.text());
    bench.play("1⏎");
    for _ in 0..9 {
        if bench.text().contains("HANDED IN") {
            break;
        }
        bench.play("1⏎");
    }
    bench.play("?t");
    let after = bench.text();
    assert!(after.contains("TONIGHT"), "{after}");
    assert!(!after.contains("to begin with"), "{after}");
}

#[test]
fn plain_lines_follow_the_same_plan() {
    let library = library();
    let hand = some_weeks(&library);
    hand.borrow_mut().answers = vec![Ok(()); 9];
    let (mut person, _) = super::bench::person(SetUp::default());
    person.clerk = Box::new(InHand::new(&hand));
    let mut draws = || 7;
    let options = crate::PlainOptions {
        system: System::Us,
        settings: &Settings::default(),
        manner: MANNER,
        ascii: true,
        echo: true,
        count: None,
        by_record: true,
        draws: &mut draws,
        person,
    };
    let mut output = Vec::new();
    let mut input = "?n\n1\n\n\n?q\n".as_bytes();
    let streams: (&mut dyn std::io::BufRead, &mut dyn std::io::Write) = (&mut input, &mut output);
    crate::practice_plain(&library, &mut |_| None, options, streams).expect("memory");
    insta::assert_snapshot!(String::from_utf8(output).expect("text"));
}

#[test]
fn half_of_the_lines_may_stand_there_and_earn_nothing() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    let problem = bench.top().problem().cloned().expect("a sheet");
    let mut sheet = crate::sheet::Sheet::new(problem, MANNER);
    sheet.give_first_half();
    assert_eq!(sheet.given_ids().len(), 2);
    assert_eq!(sheet.pen, 2);
    let response = sheet.response();
    let handed_in = crate::handed_in::HandedIn::new(sheet, response);
    assert_eq!(handed_in.marked.out_of.number(), 2.0);
    assert_eq!(handed_in.marked.score.number(), 0.0);
    assert!(handed_in.marked.explained[0].contains("Lines 1, 2 were given"));
    bench.play("⏎");
}

#[test]
fn every_key_of_the_evening_and_the_standing_leaves_a_page() {
    let library = library();
    let hand = some_weeks(&library);
    for place in ["", "?s", "?l", "9", "?s99", "?s⇟"] {
        for press in [
            Press::Enter,
            Press::Escape,
            Press::Up,
            Press::Down,
            Press::PageUp,
            Press::PageDown,
            Press::Erase,
            Press::Ask,
            Press::Show,
            Press::Tables,
            Press::Sums,
            Press::Type('3'),
            Press::Type('x'),
            Press::Paste("77".into()),
        ] {
            let mut bench = bench(&library, &hand, (80, 24));
            bench.play(place);
            bench.press(press.clone());
            let text = bench.text();
            assert!(text.contains("Next"), "{place} {press:?}: {text}");
        }
    }
}
