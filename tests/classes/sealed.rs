//! A paper for the screen tells nothing that is not on the printed one.

use std::collections::BTreeSet;

use std::sync::Arc;

use pumpwright_engine::classes::seal::Sealed;
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::classes::{Paper, PaperItem};
use pumpwright_engine::formulas::Value as Found;
use pumpwright_engine::problems::{Asks, Problem, Settings};
use serde_json::Value;

use crate::common::{draw_one, faces, shipped};
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

/// A problem as somebody would have it who knows no answer: every figure that a step finds is
/// another, and there is no key, no mistake and no seed.
fn blind(problem: &Problem) -> Problem {
    let mut blind = problem.clone();
    blind.mistakes.clear();
    blind.code.seed = 1;
    for slot in problem.variant.steps.iter().filter_map(|step| step.slot) {
        if let Some(Found::Number(figure)) = &mut blind.values[slot] {
            figure.si *= 1.25;
        }
    }
    for line in &mut blind.lines {
        line.says.clear();
        match &mut line.asks {
            Asks::Nothing | Asks::Figure | Asks::Row => {}
            Asks::Pick { offers, key } => {
                *key = 0;
                for offer in offers {
                    offer.value = Found::Truth(false);
                }
            }
            Asks::Order { cards } => {
                for card in cards {
                    card.place = None;
                    card.after.clear();
                }
            }
            Asks::Match { parts, meanings } => {
                for part in parts {
                    part.1 = 0;
                }
                for meaning in meanings {
                    meaning.value = Found::Truth(false);
                }
            }
        }
    }
    blind
}

/// Families whose figure hides a given because it is what is asked: with another answer it is
/// none, and is shown. Of them all but the figure is held against each other.
const HIDES_A_GIVEN: [&str; 2] = ["breaker-size", "tank-precharge"];

/// Of every family at every level in both systems: whoever wrote the file without knowing any
/// answer would have written the same.
#[test]
fn the_file_is_the_same_from_problems_without_answers() {
    let library = shipped();
    let class = Class::new(PLAN, 1);
    let first = class.papers().remove(0);
    let of = |problem: Problem| {
        let marks = problem.marks();
        let item = PaperItem {
            number: 1,
            place: 0,
            problem: Arc::new(problem),
            marks,
        };
        let paper = Paper {
            items: vec![item],
            ..first.clone()
        };
        let mut sit = SitPaper::of(&paper);
        if HIDES_A_GIVEN.contains(&&*paper.items[0].problem.family.id) {
            sit.items[0].figure = None;
        }
        sit.text()
    };
    let mut told = Vec::new();
    for face in faces(&library) {
        let mut problem = draw_one(&library, &face, 11, &Settings::default()).unwrap();
        problem.sealed = true;
        let (seeing, unseeing) = (of(problem.clone()), of(blind(&problem)));
        if seeing != unseeing {
            let lines = seeing.lines().zip(unseeing.lines());
            let apart: Vec<_> = lines.filter(|(one, other)| one != other).collect();
            told.push(format!("{}: {apart:?}", problem.code));
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
}

/// Where the right offer stands, and in which order jobs are shown, tells nothing.
#[test]
fn the_places_on_a_paper_tell_nothing() {
    let class = Class::new(PLAN, 30);
    let (mut places, mut sorted, mut orders) = (BTreeSet::new(), 0, 0);
    let (mut straight, mut matches) = (0, 0);
    for paper in class.papers() {
        for item in &paper.items {
            for (_, line) in item.problem.asked() {
                match &line.asks {
                    Asks::Pick { offers, key } if offers.len() == 5 => {
                        places.insert(*key);
                    }
                    Asks::Order { cards } => {
                        let shown: Vec<usize> =
                            cards.iter().filter_map(|card| card.place).collect();
                        orders += 1;
                        sorted += usize::from(shown.is_sorted());
                    }
                    Asks::Match { parts, .. } => {
                        matches += 1;
                        straight += usize::from(parts.iter().map(|part| part.1).is_sorted());
                    }
                    _ => {}
                }
            }
        }
    }
    assert_eq!(places, (0..5).collect(), "the right one of five offers");
    assert!(orders == 30 && sorted <= 2, "{sorted} of {orders} in order");
    assert!(matches == 30 && straight <= 3, "{straight} of {matches}");
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
