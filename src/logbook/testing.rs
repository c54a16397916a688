//! What the tests of this room share: a folder, entries made up and arbitrary.

use proptest::prelude::*;
use pumpwright_engine::entries::{Entry, FORMAT, GivenEntry, Id, LineEntry, Place, Purpose};

pub use crate::testing::Folder;

/// A sheet of two lines, the number in all that differs.
pub fn sheet(person: &str, number: u32) -> Entry {
    let line = |id: &str, right: bool| LineEntry {
        id: id.to_owned(),
        label: "volts lost".to_owned(),
        typed: format!("{number}.5 V"),
        expected: "8.7 V".to_owned(),
        verdict: if right { "right" } else { "mistake" }.to_owned(),
        right: Some(right),
        marks: f64::from(u8::from(right)),
        out_of: 1.0,
        helped: 0,
        given: false,
        seconds: Some(40 + number),
        options: None,
        skill: "cable-drop".to_owned(),
        mistakes: if right {
            vec![]
        } else {
            vec!["one-way".to_owned()]
        },
    };
    Entry {
        format: FORMAT,
        id: Id::new(
            1_790_000_000_000 + i64::from(number) * 60_000,
            u128::from(number),
        ),
        person: person.to_owned(),
        at: 1_790_000_000_000 + i64::from(number) * 60_000,
        zone: -300,
        code: format!("cable-drop.2us.{number}"),
        family: "cable-drop".to_owned(),
        lesson: "drop-cable".to_owned(),
        title: "Volts lost on the way down".to_owned(),
        level: 2,
        units: "us".to_owned(),
        purpose: Purpose::Practice,
        sitting: None,
        area: None,
        place: Place::Screen,
        seconds: 90,
        givens: vec![GivenEntry {
            name: "depth".to_owned(),
            label: "depth".to_owned(),
            text: "240 ft".to_owned(),
        }],
        lines: vec![line("ohms", number.is_multiple_of(2)), line("volts", true)],
        marks: 1.0 + f64::from((number + 1) % 2),
        out_of: 2.0,
        program: "0.1.0".to_owned(),
    }
}

/// Texts of all sorts: accents, line breaks, quotes, cells that look like formulas.
pub fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "\\PC{0,12}",
        2 => "[-=+@'\"\\\\,;|\t\r\n \u{ff1d}a1]{0,8}",
        1 => Just(String::new()),
        1 => Just("=HYPERLINK(\"x\")".to_owned()),
        1 => Just("é\u{301}ß\u{0} \u{2028}\u{1f527}".to_owned()),
    ]
}

fn halves() -> impl Strategy<Value = f64> {
    (0_u8..40).prop_map(|halves| f64::from(halves) / 2.0)
}

fn any_line() -> impl Strategy<Value = LineEntry> {
    let texts = (any_text(), any_text(), any_text(), any_text(), any_text());
    let known = (any::<Option<bool>>(), halves(), halves(), any::<u8>());
    let rest = (
        any::<bool>(),
        any::<Option<u32>>(),
        any::<Option<u8>>(),
        any_text(),
        prop::collection::vec(any_text(), 0..3),
    );
    (texts, known, rest).prop_map(|(texts, known, rest)| LineEntry {
        id: texts.0,
        label: texts.1,
        typed: texts.2,
        expected: texts.3,
        verdict: texts.4,
        right: known.0,
        marks: known.1,
        out_of: known.2,
        helped: known.3,
        given: rest.0,
        seconds: rest.1,
        options: rest.2,
        skill: rest.3,
        mistakes: rest.4,
    })
}

fn any_given() -> impl Strategy<Value = GivenEntry> {
    (any_text(), any_text(), any_text()).prop_map(|(name, label, text)| GivenEntry {
        name,
        label,
        text,
    })
}

/// Any entry at all; ids, persons and times collide often.
pub fn any_entry() -> impl Strategy<Value = Entry> {
    let id = (0_i64..4, 0_u128..6).prop_map(|(at, chance)| Id::new(at, chance));
    let person = prop_oneof![Just("Ina".to_owned()), Just("Tom".to_owned()), any_text()];
    let at = prop_oneof![0_i64..5_000_000_000, any::<i64>()];
    let zone = prop_oneof![Just(-300), Just(0), any::<i32>()];
    let texts = (any_text(), any_text(), any_text(), any_text(), any_text());
    let purpose = prop::sample::select(Purpose::ALL.to_vec());
    let place = prop::sample::select(Place::ALL.to_vec());
    let sitting = (prop::option::of(any_text()), prop::option::of(any_text()));
    let numbers = (any::<u8>(), any::<u32>(), halves(), halves());
    let lists = (
        prop::collection::vec(any_given(), 0..3),
        prop::collection::vec(any_line(), 0..4),
    );
    let first = (id, person, at, zone, texts);
    let second = (purpose, place, sitting, numbers, lists, any_text());
    (first, second).prop_map(|(first, second)| {
        let (id, person, at, zone, texts) = first;
        let (purpose, place, sitting, numbers, lists, program) = second;
        Entry {
            format: FORMAT,
            id,
            person,
            at,
            zone,
            code: texts.0,
            family: texts.1,
            lesson: texts.2,
            title: texts.3,
            level: numbers.0,
            units: texts.4,
            purpose,
            sitting: sitting.0,
            area: sitting.1,
            place,
            seconds: numbers.1,
            givens: lists.0,
            lines: lists.1,
            marks: numbers.2,
            out_of: numbers.3,
            program,
        }
    })
}
