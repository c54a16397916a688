//! What a logbook keeps of a sheet: every kind of problem drawn, written, marked and
//! entered; the same after JSON; and what the learner model reads of it.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

mod common;

use std::collections::BTreeSet;

use common::{draw_one, faces, shipped};
use pumpwright_engine::entries::{Circumstances, Entry, FORMAT, Id, Place, Purpose, entry};
use pumpwright_engine::learner::{Moment, Try, outcome};
use pumpwright_engine::marking::{Manner, Marked, Response, mark};
use pumpwright_engine::problems::{Asks, Problem, Settings, working};
use pumpwright_engine::quantities::System;

/// 2026-09-21, 14:13:20 in UTC.
const AT: i64 = 1_790_000_000_000;

fn circumstances(purpose: Purpose) -> Circumstances {
    Circumstances {
        id: Id::new(AT, 77),
        person: "Ina Åberg".to_owned(),
        at: AT,
        zone: -300,
        purpose,
        place: Place::Plain,
        seconds: 240,
        helped: Vec::new(),
        line_seconds: Vec::new(),
        given: Vec::new(),
        program: "0.1.0".to_owned(),
    }
}

/// One of five ways to write a line: as worked, a known mistake, nothing, a figure of
/// no sense, and what cannot be read.
fn written(problem: &Problem, way: usize) -> Response {
    let worked = working(problem);
    let answers = problem.asked().map(|(at, line)| {
        let right = worked.iter().find(|worked| worked.id == line.id);
        let mistake = problem.mistakes.iter().find(|own| own.step == line.id);
        let typed = match (at + way) % 5 {
            0 | 4 => right.map(|worked| worked.typed.clone()),
            1 => mistake.map(|mistake| mistake.text.clone()),
            2 => Some("123456.75".to_owned()),
            _ => Some("as \"he\" said;\n".to_owned()),
        };
        (line.id.clone(), typed.unwrap_or_default())
    });
    Response {
        answers: answers.collect(),
    }
}

fn again(entry: &Entry) -> Entry {
    let json = serde_json::to_string(entry).expect("JSON");
    serde_json::from_str(&json).expect("the same entry")
}

/// What holds of the entry of any sheet.
fn holds(problem: &Problem, marked: &Marked, entry: &Entry) {
    let code = problem.code.to_string();
    assert_eq!(entry.code, code);
    assert_eq!(
        (entry.format, entry.id),
        (FORMAT, Id::new(AT, 77)),
        "{code}"
    );
    assert_eq!(entry.family, problem.code.family);
    assert_eq!(
        (entry.level, &*entry.units),
        (problem.code.level, problem.code.system.letters())
    );
    assert_eq!(entry.marks, marked.score.number(), "{code}");
    assert_eq!(entry.out_of, f64::from(problem.marks()), "{code}");
    assert_eq!(entry.givens.len(), problem.told().len(), "{code}");
    let ids: Vec<&str> = marked.lines.iter().map(|line| &*line.id).collect();
    let kept: Vec<&str> = entry.lines.iter().map(|line| &*line.id).collect();
    assert_eq!(
        kept, ids,
        "{code}: every line that bears marks, in its order"
    );
    let worked = working(problem);
    for (line, marked) in entry.lines.iter().zip(&marked.lines) {
        let asked = problem
            .lines
            .iter()
            .find(|own| own.id == line.id)
            .expect(&code);
        let worked = worked.iter().find(|worked| worked.id == line.id);
        assert_eq!(line.typed, marked.typed, "{code}");
        assert_eq!(line.expected, worked.expect(&code).text, "{code}");
        assert!(
            !line.expected.is_empty() && !line.label.is_empty(),
            "{code}"
        );
        assert_eq!(line.verdict, marked.verdict.name(), "{code}");
        assert_eq!(line.right, outcome(&marked.verdict), "{code}");
        let picks = matches!(asked.asks, Asks::Pick { .. });
        assert_eq!(line.options.is_some(), picks, "{code}");
        assert!(!line.skill.is_empty(), "{code}");
    }
    assert_eq!(
        entry.lines.iter().map(|line| line.marks).sum::<f64>(),
        entry.marks,
        "{code}"
    );
    assert_eq!(&again(entry), entry, "{code}");
    let response = entry.response();
    let says = entry.lines.iter().filter(|line| line.right.is_some());
    assert_eq!(response.tries.len(), says.count(), "{code}");
    assert_eq!(again(entry).response(), response, "{code}");
}

#[test]
fn every_kind_of_problem_is_entered_as_it_was_marked() {
    let library = shipped();
    let mut verdicts = BTreeSet::new();
    for (at, face) in faces(&library).iter().enumerate() {
        for way in 0..5 {
            let number = (at * 5 + way) as u32;
            let problem = draw_one(&library, face, number, &Settings::default()).expect(&face.0);
            let marked = mark(&problem, &written(&problem, way), Manner::default());
            let entry = entry(&problem, &marked, circumstances(Purpose::Practice));
            holds(&problem, &marked, &entry);
            verdicts.extend(entry.lines.into_iter().map(|line| line.verdict));
        }
    }
    for verdict in [
        "right",
        "follows",
        "mistake",
        "look-here",
        "not-written",
        "unreadable",
    ] {
        assert!(verdicts.contains(verdict), "no {verdict} in {verdicts:?}");
    }
}

/// The volts that a cable loses, with the ohms of one conductor: the second line is a
/// known mistake, what follows from it is right.
#[test]
fn a_sheet_with_a_classic_mistake_reads_as_it_was_worked() {
    let library = shipped();
    let face = ("cable-drop".to_owned(), 2, System::Us);
    let problem = draw_one(&library, &face, 7, &Settings::default()).expect("a draw");
    let one_way = problem
        .mistakes
        .iter()
        .find(|mistake| mistake.id == "one-way");
    let worked = working(&problem);
    let typed = |id: &str| {
        worked
            .iter()
            .find(|line| line.id == id)
            .expect(id)
            .typed
            .clone()
    };
    let answers = vec![
        ("run".to_owned(), typed("run")),
        (
            "loop".to_owned(),
            one_way.expect("the mistake").text.clone(),
        ),
        ("share".to_owned(), typed("share")),
    ];
    let marked = mark(&problem, &Response { answers }, Manner::default());
    let mut by = circumstances(Purpose::Probe);
    let place = |id: &str| {
        problem
            .lines
            .iter()
            .position(|line| line.id == id)
            .expect(id)
    };
    by.helped = vec![0; problem.lines.len()];
    by.helped[place("share")] = 2;
    by.line_seconds = vec![None; problem.lines.len()];
    by.line_seconds[place("loop")] = Some(75);
    by.given = vec![false; problem.lines.len()];
    by.given[place("run")] = true;
    let entry = entry(&problem, &marked, by);
    let verdicts: Vec<&str> = entry.lines.iter().map(|line| &*line.verdict).collect();
    assert_eq!(verdicts, ["right", "mistake", "carried", "right"]);
    let response = entry.response();
    // Nine in the morning where the clock is five hours behind.
    let when = Moment {
        seconds: 1_790_000_000,
        day: 20_717,
    };
    assert_eq!((response.when, response.probe), (when, true));
    assert_eq!((&*response.family, response.level), ("cable-drop", 2));
    assert_eq!(response.id, entry.id.number());
    let tried = |right, helped, seconds, mistake: Option<&str>| Try {
        skill: "cable-drop".into(),
        right,
        helped,
        seconds,
        options: None,
        mistake: mistake.map(Into::into),
    };
    // The first line was given and says nothing.
    assert_eq!(
        response.tries,
        [
            tried(false, false, Some(75), Some("one-way")),
            tried(true, false, None, None),
            tried(true, true, None, None),
        ]
    );
}

#[test]
fn only_practice_is_no_evidence() {
    let evidence = Purpose::ALL.map(Purpose::is_evidence);
    assert_eq!(evidence, [false, true, true, true, true]);
    assert_eq!(Purpose::named("exam"), Some(Purpose::Exam));
    assert_eq!(Place::named("moon"), None);
}

/// A field that an older program did not write is none; one that must be there is
/// missed.
#[test]
fn an_entry_without_what_may_be_missing_is_read() {
    let json = r#"{"format":1,"id":"019cab41-7c00-7000-8000-00000000004d","person":"Ina",
        "at":1,"zone":0,"code":"c","family":"f","lesson":"l","title":"t","level":1,
        "units":"us","purpose":"practice","place":"paper","seconds":0,"givens":[],
        "lines":[{"id":"a","label":"b","typed":"","expected":"1","verdict":"not-written",
        "right":null,"marks":0.5,"out_of":1,"helped":0,"skill":"f"}],
        "marks":0.5,"out_of":1,"program":"0.1.0"}"#;
    let entry: Entry = serde_json::from_str(json).expect("an entry");
    assert_eq!((entry.sitting.as_ref(), entry.area.as_ref()), (None, None));
    assert!(entry.response().tries.is_empty());
    assert_eq!(again(&entry), entry);
    let without = json.replace("\"person\":\"Ina\",", "");
    assert!(serde_json::from_str::<Entry>(&without).is_err());
    let other = json.replace("practice", "fun");
    assert!(serde_json::from_str::<Entry>(&other).is_err());
}
