//! What practitioners say of the trade stands in the lessons, each figure with what keeps it
//! from doing harm; `trade_facts.toml` has the list.

use serde::Deserialize;

use crate::started::printed;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Facts {
    fact: Vec<Fact>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Fact {
    what: String,
    lesson: String,
    says: Vec<String>,
    #[serde(default)]
    never: Vec<String>,
}

#[test]
fn the_lessons_say_what_the_trade_says() {
    let facts: Facts = toml::from_str(include_str!("trade_facts.toml")).expect("the facts");
    let mut missing = Vec::new();
    for fact in &facts.fact {
        let text = printed(&["lessons", &fact.lesson, "--units", "us"]);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for phrase in fact
            .says
            .iter()
            .filter(|phrase| !text.contains(phrase.as_str()))
        {
            missing.push(format!(
                "{}: {}: not said: {phrase}",
                fact.lesson, fact.what
            ));
        }
        for phrase in fact
            .never
            .iter()
            .filter(|phrase| text.contains(phrase.as_str()))
        {
            missing.push(format!("{}: {}: said: {phrase}", fact.lesson, fact.what));
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}
