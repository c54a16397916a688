//! What the lesson check saw, as a text that is kept: for each family at each level in each
//! system its shares of tries, the span of its answers, and the mistakes that give one value.

// A kept text lies in a file.
#![allow(clippy::disallowed_methods)]

use std::collections::BTreeMap;
use std::fmt::Write as _;

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Library, show};
use pumpwright_engine::problems::{Problem, Request, Settings, Survey, draw};
use pumpwright_engine::quantities::print;

use super::common::{bless, root};

/// The first lines of the file.
pub const HEAD: &str = "\
# What the lesson check saw in 200 draws of each family: kept to show what a change does.
# PUMPWRIGHT_BLESS=1 cargo test -p pumpwright-engine --test lessons writes it anew.
# family level system: tries that meet every requirement; redraws, because a mistake would be
# marked right; span of the answer in 100 draws; mistakes that give one value, with the share.
";

/// How many draws the span of answers is taken from.
const DRAWS: u32 = 100;

/// Mistakes that give one value in fewer draws than this share are no news.
const COINCIDE: f64 = 0.1;

/// The line of a family at a level in a system.
pub fn line(library: &Library, survey: &Survey) -> String {
    let drawn = drawn(library, survey);
    let mut line = format!(
        "{} {} {}: {:.0} %; {:.1} %; {}",
        survey.family,
        survey.level,
        survey.system,
        100.0 * survey.accepted(),
        100.0 * survey.guard_rate(),
        span(&drawn),
    );
    for (pair, count) in alike(&drawn) {
        let share = f64::from(count) / f64::from(DRAWS);
        if share >= COINCIDE {
            let _ = write!(line, "; {pair} {:.0} %", 100.0 * share);
        }
    }
    line.push('\n');
    line
}

fn drawn(library: &Library, survey: &Survey) -> Vec<Problem> {
    let settings = Settings::default();
    let one = |number| {
        let request = Request {
            family: &survey.family,
            level: Some(survey.level),
            system: survey.system,
            draw: number,
            settings: &settings,
        };
        draw(library, &request).expect("a draw")
    };
    (0..DRAWS).map(one).collect()
}

/// The least and the greatest answer, or how many different ones there are.
fn span(drawn: &[Problem]) -> String {
    let mut figures: Vec<f64> = Vec::new();
    let mut texts: BTreeMap<String, u32> = BTreeMap::new();
    let mut symbol = String::new();
    for problem in drawn {
        let Some((_, line)) = problem.asked().last() else {
            continue;
        };
        match (problem.value(line.step), &line.unit) {
            (Some(Value::Number(quantity)), Some(unit)) => {
                figures.push(unit.from_si(quantity.si));
                unit.symbol().clone_into(&mut symbol);
            }
            (Some(value), _) => *texts.entry(show(value, None)).or_default() += 1,
            (None, _) => *texts.entry(String::new()).or_default() += 1,
        }
    }
    let least = figures.iter().copied().fold(f64::INFINITY, f64::min);
    let most = figures.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    match (figures.is_empty(), texts.len()) {
        (false, _) => format!(
            "{} to {} {symbol}",
            print::figures(least, 3),
            print::figures(most, 3)
        ),
        (true, 1) if texts.contains_key("") => "arranged".to_owned(),
        (true, count) => format!("{count} different"),
    }
}

/// Pairs of mistakes of one step that give one value, each with the draws in which they do.
fn alike(drawn: &[Problem]) -> BTreeMap<String, u32> {
    let mut found = BTreeMap::new();
    for problem in drawn {
        let mistakes = &problem.mistakes;
        for (at, first) in mistakes.iter().enumerate() {
            for second in mistakes.iter().skip(at + 1) {
                if first.step == second.step && first.value.is_some() && first.text == second.text {
                    *found
                        .entry(format!("{} = {}", first.id, second.id))
                        .or_default() += 1;
                }
            }
        }
    }
    found
}

/// Holds a report against the one that is kept.
pub fn held(report: &str) {
    let path = root().join("tests/syllabus/report.txt");
    if bless() {
        std::fs::write(&path, report).expect("a file to write");
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let kept: Vec<&str> = kept.lines().collect();
    let off: Vec<&str> = report.lines().filter(|line| !kept.contains(line)).collect();
    assert!(
        off.is_empty() && kept.len() == report.lines().count(),
        "the report differs here; PUMPWRIGHT_BLESS=1 writes it anew:\n{}",
        off.join("\n")
    );
}
