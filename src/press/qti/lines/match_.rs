//! A line that asks for parts and their meanings to be matched: a table to be ticked.

use pumpwright_engine::marking::{Arranged, arranged};
use pumpwright_engine::problems::{Line, Offer, Problem};

use super::super::item::points;
use super::super::rules::{at_least, figure, number, set, variable, when, written};
use super::super::xml::{Element, element};
use super::{Lines, head, mistakes, response, score};

/// What a pair takes that ends the item: more than all others give.
const FATAL: f64 = -1000.0;

/// A line with parts and meanings.
pub fn match_(
    problem: &Problem,
    place: usize,
    line: &Line,
    (parts, meanings): (&[(String, usize)], &[Offer]),
    lines: &mut Lines,
) {
    let (id, count) = (response(place), format!("COUNT_{place}"));
    let part = |at: usize| format!("part-{}", at + 1);
    let meaning = |at: usize| {
        let mark = meanings.get(at).map_or("", |offer| offer.mark.as_str());
        format!("meaning-{mark}")
    };
    let pair = |left: usize, right: usize| format!("{} {}", part(left), meaning(right));
    let keys = parts.iter().enumerate();
    let keys: Vec<String> = keys.map(|(at, (_, key))| pair(at, *key)).collect();
    let entry = |key: &str, value: f64| {
        element("qti-map-entry")
            .with("map-key", key)
            .with("mapped-value", figure(value))
    };
    let fatal = mistakes(problem, line).into_iter();
    let fatal = fatal.filter_map(|(_, live)| match arranged(problem, line, live)? {
        (Arranged::Pair(left, right), true) => Some(entry(&pair(left, right), FATAL)),
        _ => None,
    });
    let mapping = element("qti-mapping")
        .with("default-value", "0")
        .with("lower-bound", "0")
        .all(keys.iter().map(|key| entry(key, 1.0)))
        .all(fatal);
    let values = keys.iter().map(|key| element("qti-value").text(key));
    lines.responses.push(
        element("qti-response-declaration")
            .with("identifier", id.as_str())
            .with("cardinality", "multiple")
            .with("base-type", "directedPair")
            .put(element("qti-correct-response").all(values))
            .put(mapping),
    );
    lines.outcomes.push(points(&count, 0.0));
    let lefts = parts.iter().enumerate();
    let lefts = lefts.map(|(at, (text, _))| choice(part(at), 1, text));
    let rights = meanings.iter().enumerate().map(|(at, offer)| {
        let uses = parts.iter().filter(|(_, key)| *key == at).count();
        choice(meaning(at), uses.max(1), &offer.text)
    });
    let set_of = || element("qti-simple-match-set");
    lines.body.push(
        element("qti-match-interaction")
            .with("class", "qti-match-tabular")
            .with("response-identifier", id.as_str())
            .with("shuffle", "false")
            .with("max-associations", parts.len().to_string())
            .put(element("qti-prompt").text(format!("{}: one meaning each", head(place, line))))
            .put(set_of().all(lefts))
            .put(set_of().all(rights)),
    );
    let mapped = element("qti-map-response").with("identifier", id.as_str());
    // Nothing ticked is nothing to look up: some readers fail there.
    lines.rules.push(set(&count, number(0.0)));
    lines.rules.push(when(written(&id), [set(&count, mapped)]));
    let halves = 2 * line.marks as usize;
    for half in 1..=halves {
        let least = (half * parts.len()).div_ceil(halves);
        let enough = at_least(variable(&count), number(least as f64));
        let marks = number(half as f64 / 2.0);
        lines.rules.push(when(enough, [set(&score(place), marks)]));
    }
}

fn choice(id: String, most: usize, text: &str) -> Element {
    element("qti-simple-associable-choice")
        .with("identifier", id)
        .with("match-max", most.to_string())
        .text(text)
}
