//! A line that asks for jobs to be put in order: a number beside each, nothing where a job
//! does not belong. A list to be dragged knows one right order; here several may be right,
//! and each before-and-after counts by itself.

use pumpwright_engine::marking::{Arranged, arranged};
use pumpwright_engine::problems::{Line, Problem, ShownCard};

use super::super::item::points;
use super::super::rules::{
    and, at_least, at_most, empty, number, set, sum, variable, when, written,
};
use super::super::xml::{Element, element};
use super::{Lines, head, mistakes, score, tell};

/// The number beside a job.
pub fn entry(place: usize, job: usize) -> String {
    format!("RESPONSE_{place}_{job}")
}

/// A line with jobs.
pub fn order(problem: &Problem, place: usize, line: &Line, cards: &[ShownCard], lines: &mut Lines) {
    let id = |at: usize| entry(place, at + 1);
    let last = cards.len();
    lines.body.push(element("p").text(format!(
        "{}: write 1 beside the first job, 2 beside the next, and so on; nothing beside a job that does not belong.",
        head(place, line)
    )));
    for (at, card) in cards.iter().enumerate() {
        declare(&id(at), card, lines);
    }
    points_of(place, cards, lines);
    shares(place, line, cards, lines);
    // Where a number stands twice or is none of these, nothing can be told.
    let mut void: Vec<Element> = Vec::new();
    for at in 0..last {
        let off = |test: Element| and([written(&id(at)), element("qti-not").put(test)]);
        void.push(off(at_least(variable(&id(at)), number(1.0))));
        void.push(off(at_most(variable(&id(at)), number(last as f64))));
        for other in 0..at {
            void.push(and([
                written(&id(at)),
                written(&id(other)),
                at_least(variable(&id(at)), variable(&id(other))),
                at_most(variable(&id(at)), variable(&id(other))),
            ]));
        }
    }
    void.push(and((0..last).map(|at| empty(&id(at)))));
    let none = || set(&score(place), number(0.0));
    lines
        .rules
        .extend(void.into_iter().map(|test| when(test, [none()])));
    // Of several turns the first of the lesson is told, and of those one that ends the
    // item: what is told is set last.
    let known = mistakes(problem, line).into_iter().rev();
    let known = known.filter_map(|(turn, live)| {
        let (way, fatal) = arranged(problem, line, live)?;
        Some((turn, made(way, &id)?, fatal))
    });
    let mut known: Vec<(String, Vec<Element>, bool)> = known.collect();
    known.sort_by_key(|(_, _, fatal)| *fatal);
    for (turn, tests, fatal) in known {
        if fatal {
            lines.rules.push(when(and(tests.clone()), [none()]));
        }
        lines.rules.push(tell(place, &turn, tests));
    }
}

/// Whether a mistake is made.
fn made(way: Arranged, id: &impl Fn(usize) -> String) -> Option<Vec<Element>> {
    Some(match way {
        Arranged::Early(first, second) => before(&id(first), &id(second)),
        Arranged::Uses(at) => vec![written(&id(at))],
        Arranged::Omits(at) => vec![empty(&id(at))],
        Arranged::Pair(..) => return None,
    })
}

/// Whether both have a number and the first has the lower one.
fn before(first: &str, second: &str) -> Vec<Element> {
    let not_lower = at_least(variable(first), variable(second));
    vec![
        written(first),
        written(second),
        element("qti-not").put(not_lower),
    ]
}

fn declare(id: &str, card: &ShownCard, lines: &mut Lines) {
    let mut declared = element("qti-response-declaration")
        .with("identifier", id)
        .with("cardinality", "single")
        .with("base-type", "float");
    if let Some(place) = card.place {
        let value = element("qti-value").text((place + 1).to_string());
        declared = declared.put(element("qti-correct-response").put(value));
    }
    lines.responses.push(declared);
    let entry = element("qti-text-entry-interaction")
        .with("response-identifier", id)
        .with("expected-length", "3");
    lines
        .body
        .push(element("p").text(format!("{}: ", card.text)).put(entry));
}

/// A point for each before-and-after and for each job left out that does not belong; and
/// one more is asked for each job left out that belongs.
fn points_of(place: usize, cards: &[ShownCard], lines: &mut Lines) {
    let id = |at: usize| entry(place, at + 1);
    let mut right: Vec<Vec<Element>> = Vec::new();
    let mut left: Vec<Vec<Element>> = Vec::new();
    for (at, card) in cards.iter().enumerate() {
        if card.place.is_none() {
            right.push(vec![empty(&id(at))]);
            continue;
        }
        right.extend(card.after.iter().map(|first| before(&id(*first), &id(at))));
        left.push(vec![empty(&id(at))]);
    }
    for (name, tests) in [("POINT", right), ("LEFT", left)] {
        let mut ids = Vec::new();
        for (at, tests) in tests.into_iter().enumerate() {
            let id = format!("{name}_{place}_{}", at + 1);
            lines.outcomes.push(points(&id, 0.0));
            lines.rules.push(set(&id, number(0.0)));
            lines.rules.push(when(and(tests), [set(&id, number(1.0))]));
            ids.push(id);
        }
        let all = format!("{name}S_{place}");
        lines.outcomes.push(points(&all, 0.0));
        lines
            .rules
            .push(set(&all, sum(ids.iter().map(String::as_str))));
    }
}

/// The share that is right, down to the half mark.
fn shares(place: usize, line: &Line, cards: &[ShownCard], lines: &mut Lines) {
    let asked = |card: &ShownCard| {
        if card.place.is_none() {
            1
        } else {
            card.after.len()
        }
    };
    let asked: usize = cards.iter().map(asked).sum();
    let (right, left) = (format!("POINTS_{place}"), format!("LEFTS_{place}"));
    let halves = 2 * line.marks;
    for half in 1..=halves {
        let times = |id: &str, by: f64| element("qti-product").put(variable(id)).put(number(by));
        let wanted = element("qti-sum")
            .put(times(&left, f64::from(half)))
            .put(number(f64::from(half) * asked as f64));
        let enough = at_least(times(&right, f64::from(halves)), wanted);
        let marks = number(f64::from(half) / 2.0);
        lines.rules.push(when(enough, [set(&score(place), marks)]));
    }
}
