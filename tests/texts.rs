//! What people read in a drawn problem, as English and as a page: width, articles, singular
//! and plural, and units of the system that was asked for. All families, levels, systems.

#![allow(clippy::expect_used, clippy::panic, clippy::disallowed_methods)]

mod common;

use common::{draw_one, faces, shipped};
use pumpwright_engine::formulas::break_at_signs;
use pumpwright_engine::problems::{Asks, Figure, Problem, Settings, working};
use pumpwright_engine::quantities::{System, Unit, print::article};

/// The widest line, in columns.
const WIDTH: usize = 76;

/// How many draws of each family at each level in each system are read.
const DRAWS: u32 = 25;

/// What is counted, singular and plural.
const NOUNS: [(&str, &str); 14] = [
    ("stage", "stages"),
    ("person", "people"),
    ("start", "starts"),
    ("place", "places"),
    ("joint", "joints"),
    ("length", "lengths"),
    ("valve", "valves"),
    ("elbow", "elbows"),
    ("tee", "tees"),
    ("arrester", "arresters"),
    ("tie", "ties"),
    ("bedroom", "bedrooms"),
    ("fixture", "fixtures"),
    ("turn", "turns"),
];

fn every_problem(look: impl Fn(&Problem)) {
    let library = shipped();
    for face in faces(&library) {
        for number in 0..DRAWS {
            let problem = draw_one(&library, &face, number, &Settings::default());
            look(&problem.unwrap_or_else(|error| panic!("{}: {error}", face.0)));
        }
    }
}

/// The prose of a problem, each text by itself.
fn prose(problem: &Problem) -> Vec<String> {
    let variant = &problem.variant;
    let told =
        |text: &pumpwright_engine::lessons::Template| text.render(&variant.names, &problem.values);
    let mut texts = problem.story.clone();
    texts.extend(problem.caution());
    texts.extend(problem.varies());
    texts.extend(problem.on_the_job());
    texts.extend(problem.rules.iter().map(|rule| rule.text.clone()));
    for line in &problem.lines {
        texts.push(line.says.clone());
        texts.extend(line.why.clone());
        if let Asks::Pick { offers, .. } = &line.asks {
            texts.extend(offers.iter().map(|offer| offer.text.clone()));
        }
    }
    for live in &problem.mistakes {
        let plan = &variant.mistakes[live.index];
        texts.extend([told(&plan.did), told(&plan.says)]);
        texts.extend(plan.look.as_ref().map(told));
    }
    if let Some(figure) = &problem.figure {
        texts.push(figure.title.clone());
        texts.extend(figure.sentences());
    }
    texts
}

/// The words of a text without the signs around them.
fn words(text: &str) -> Vec<&str> {
    let sign = |c: char| !c.is_alphanumeric() && c != '-' && c != '/' && c != '%';
    text.split_whitespace()
        .map(|word| word.trim_matches(sign))
        .collect()
}

/// A figure, and whether it is one.
fn count(word: &str) -> Option<f64> {
    let digits = word.starts_with(|c: char| c.is_ascii_digit());
    digits.then(|| word.replace(',', "").parse().ok()).flatten()
}

#[test]
fn nothing_is_wider_than_a_page() {
    every_problem(|problem| {
        for text in prose(problem) {
            for word in text.split_whitespace() {
                assert!(word.chars().count() <= WIDTH, "{}: {word}", problem.code);
            }
        }
        for worked in working(problem) {
            for line in worked.words.iter().chain(&worked.numbers) {
                for piece in break_at_signs(line, WIDTH - 6) {
                    let wide = piece
                        .split_whitespace()
                        .any(|word| word.chars().count() > WIDTH);
                    assert!(!wide, "{}: {piece}", problem.code);
                }
            }
        }
        for row in problem.figure.iter().flat_map(Figure::table) {
            let width: usize = row.iter().map(|cell| cell.chars().count() + 3).sum();
            assert!(width <= WIDTH, "{}: {row:?}", problem.code);
        }
    });
}

#[test]
fn articles_fit_what_they_stand_before() {
    every_problem(|problem| {
        for text in prose(problem) {
            let said: Vec<&str> = std::iter::once("").chain(text.split_whitespace()).collect();
            for three in said.windows(3) {
                let [lead, before, after] = three else {
                    continue;
                };
                // Behind a figure it is the unit: 8.0 A at 230 V.
                if count(lead).is_some() || !["a", "an", "A", "An"].contains(before) {
                    continue;
                }
                let wanted = article(after.trim_matches(|c: char| !c.is_alphanumeric()));
                assert!(
                    before.eq_ignore_ascii_case(wanted),
                    "{}: \"{before} {after}\" in: {text}",
                    problem.code
                );
            }
        }
    });
}

#[test]
fn one_is_singular_and_several_are_plural() {
    every_problem(|problem| {
        for text in prose(problem) {
            let said: Vec<&str> = text.split_whitespace().collect();
            for (bare, raw) in words(&text).windows(2).zip(said.windows(2)) {
                let ([number, noun], Some(count)) =
                    (bare, bare.first().and_then(|word| count(word)))
                else {
                    continue;
                };
                for (one, several) in NOUNS {
                    assert!(
                        !(count == 1.0 && *noun == several),
                        "{}: \"{number} {noun}\" in: {text}",
                        problem.code
                    );
                    // Before another noun the singular stands: a 12 stage pump.
                    let ends = raw
                        .last()
                        .is_some_and(|raw| raw.ends_with(['.', ',', ';', '?', ':']));
                    assert!(
                        !(count != 1.0 && *noun == one && ends),
                        "{}: \"{number} {noun}\" in: {text}",
                        problem.code
                    );
                }
            }
        }
    });
}

#[test]
fn metric_problems_have_metric_sizes() {
    const CUSTOMARY: [&str; 12] = [
        "ft", "feet", "inch", "inches", "psi", "gal", "gallons", "gpm", "hp", "lb", "oz", "degF",
    ];
    // A tape that is marked in inches is what the job is about, in any shop.
    const BY_THE_INCH: [&str; 1] = ["inch-fractions"];
    const SIZED: [&str; 8] = [
        "", "pipe", "casing", "well", "bore", "line", "nipple", "elbow",
    ];
    for name in ["ft", "psi", "gpm", "hp", "lb"] {
        assert!(Unit::parse(name).is_ok(), "{name} is no unit any more");
    }
    every_problem(|problem| {
        let by_the_inch = BY_THE_INCH.contains(&problem.family.id.as_str());
        if problem.variant.system != System::Si || by_the_inch {
            return;
        }
        let mut texts = problem.story.clone();
        texts.extend(problem.givens.iter().map(|given| given.text.clone()));
        texts.extend(problem.figure.iter().flat_map(Figure::sentences));
        for text in texts {
            let mut bare = words(&text);
            bare.push("");
            for three in bare.windows(3) {
                let [number, unit, next] = three else {
                    continue;
                };
                let sized = number.starts_with(|c: char| c.is_ascii_digit());
                // "in" is a word as well; before what has a size it is inches.
                let inches = *unit == "in" && SIZED.contains(next);
                assert!(
                    !sized || !(CUSTOMARY.contains(unit) || inches),
                    "{}: \"{number} {unit}\" in: {text}",
                    problem.code
                );
            }
            assert!(!text.contains("-inch"), "{}: {text}", problem.code);
        }
    });
}
