//! A paper for the screen tells nothing that is not on the printed one.

use std::collections::BTreeSet;

use pumpwright_engine::classes::seal::Sealed;
use pumpwright_engine::classes::sit::SitPaper;
use serde_json::Value;

use crate::support::{Class, PLAN};

/// Every name of a field in a JSON value.
fn fields(value: &Value, into: &mut BTreeSet<String>) {
    match value {
        Value::Object(map) => {
            for (name, value) in map {
                into.insert(name.clone());
                fields(value, into);
            }
        }
        Value::Array(list) => list.iter().for_each(|value| fields(value, into)),
        _ => {}
    }
}

#[test]
fn the_file_has_these_fields_and_no_other() {
    let class = Class::new(PLAN, 2);
    let mut found = BTreeSet::new();
    for paper in class.papers() {
        let text = SitPaper::of(&paper).text();
        fields(&serde_json::from_str(&text).unwrap(), &mut found);
        assert_eq!(SitPaper::read(&text).unwrap(), SitPaper::of(&paper));
    }
    let known = [
        "asks",
        "caution",
        "code",
        "date",
        "drawn",
        "due",
        "figure",
        "form",
        "format",
        "head",
        "id",
        "items",
        "kind",
        "label",
        "letter",
        "lines",
        "list",
        "marks",
        "marks_by",
        "match",
        "meanings",
        "minutes",
        "name",
        "number",
        "order",
        "parts",
        "pass_halves",
        "person",
        "pick",
        "plan",
        "tables",
        "text",
        "title",
        "unit",
        "units",
    ];
    assert_eq!(found, known.iter().map(ToString::to_string).collect());
}

/// More than a place of a paper is ever drawn again.
const ATTEMPTS: u32 = 16;

/// The figures of a text, as a learner reads them.
fn figures(text: &str) -> BTreeSet<&str> {
    let part = |c: char| !(c.is_ascii_digit() || c == '.');
    text.split(part)
        .map(|word| word.trim_matches('.'))
        .collect()
}

#[test]
fn no_answer_and_no_secret_is_in_the_file() {
    let class = Class::new(PLAN, 30);
    let mut looked = 0;
    for paper in class.papers() {
        let sit = SitPaper::of(&paper);
        let whole = sit.text();
        let kept = class.printed(&paper);
        for (item, shown) in kept.items.iter().zip(&sit.items) {
            let place = item.place;
            let attempts = (0..ATTEMPTS).flat_map(|attempt| {
                [
                    Sealed::Numbers { place, attempt },
                    Sealed::Family { place, attempt },
                ]
            });
            for sealed in attempts {
                let secret = class.key.secret("week-6", &paper.person.id, sealed);
                let hex: String = secret
                    .iter()
                    .fold(String::new(), |hex, byte| hex + &format!("{byte:02x}"));
                assert!(!whole.contains(&hex));
            }
            assert!(!shown.code.contains(".0000000"), "{}", shown.code);
            let text = serde_json::to_string(shown).unwrap();
            let shown = figures(&text);
            let given = paper
                .items
                .iter()
                .find(|own| own.number == item.number)
                .unwrap();
            let given: Vec<String> = given
                .problem
                .told()
                .into_iter()
                .map(|line| line.text)
                .collect();
            let given: BTreeSet<&str> = given.iter().flat_map(|text| figures(text)).collect();
            for line in item
                .problem
                .lines
                .iter()
                .filter(|line| line.accept.is_some())
            {
                let answer = line.answer.split(' ').next().unwrap();
                // A short figure stands anywhere by chance, and one that is given is no secret.
                let told = answer.trim_start_matches('0').len() < 4 || given.contains(answer);
                if !told {
                    assert!(!shown.contains(answer), "{answer} in {text}");
                    looked += 1;
                }
            }
        }
    }
    assert!(looked > 60, "only {looked} answers were looked for");
}
