//! A problem drawn under each value of each house rule gives the figure that a practitioner
//! works out under it, and prints the value. `house_rules/figures.toml` has the figures,
//! worked by hand or a second way, each with its reasoning. Three rules change no figure but
//! how a sheet is asked and marked; they have tests of their own below.

#![allow(clippy::disallowed_methods, clippy::expect_used, clippy::panic)]

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::{Face, draw_one, root, shipped, shipped_files};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Response, Verdict, mark};
use pumpwright_engine::problems::{Asks, Line, Problem, Settings, working};
use pumpwright_engine::quantities::System;
use serde::Deserialize;

/// Rules of the program itself: no figure hangs on them.
const OF_THE_PROGRAM: [&str; 3] = ["rounding.safe", "marking.unit", "sheet.form"];

/// Draws in which a problem as pinned must come up.
const DRAWS: u32 = 200;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Figures {
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    rule: String,
    family: String,
    level: u8,
    system: Option<String>,
    pins: BTreeMap<String, String>,
    because: String,
    under: BTreeMap<String, BTreeMap<String, String>>,
    #[serde(default)]
    cards: BTreeMap<String, BTreeMap<String, String>>,
}

fn cases() -> Vec<Case> {
    let path = root().join("tests/house_rules/figures.toml");
    let text = std::fs::read_to_string(path).expect("the figures");
    let figures: Figures = toml::from_str(&text).expect("TOML");
    figures.case
}

impl Case {
    fn system(&self) -> System {
        let name = self.system.as_deref().unwrap_or("us");
        name.parse().expect("us or si")
    }

    /// The shipped lessons with the family's givens pinned.
    fn library(&self) -> Result<Library, String> {
        let mut files = shipped_files();
        let ending = format!("/{}.toml", self.family);
        let file = files.iter_mut().find(|file| file.path.ends_with(&ending));
        let file = file.unwrap_or_else(|| panic!("no family {}", self.family));
        let mut text: toml::Table = file.text.parse().expect("TOML");
        for (name, draw) in &self.pins {
            let givens = text["given"].as_array_mut().expect("givens");
            let given = givens
                .iter_mut()
                .find(|given| given["name"].as_str() == Some(name) && self.bears(given))
                .unwrap_or_else(|| panic!("{} has no given {name}", self.family));
            let given = given.as_table_mut().expect("a given");
            if let Some(formula) = draw.strip_prefix("= ") {
                given.insert("is".into(), formula.into());
                continue;
            }
            let draw: toml::Table = format!("draw = {draw}").parse().expect("a draw");
            given.remove("is");
            given.remove("to");
            given.insert("draw".into(), draw["draw"].clone());
        }
        file.text = toml::to_string(&text).expect("TOML");
        let (library, faults) = Library::read(&files);
        let shown: Vec<String> = faults.iter().map(ToString::to_string).collect();
        if faults.is_empty() {
            Ok(library)
        } else {
            Err(shown.join("\n\n"))
        }
    }

    /// Whether a block of the file belongs to the level.
    fn bears(&self, block: &toml::Value) -> bool {
        let levels = block.get("levels").and_then(toml::Value::as_array);
        levels.is_none_or(|levels| {
            let own = i64::from(self.level);
            levels.iter().any(|level| level.as_integer() == Some(own))
        })
    }

    fn problem(&self, library: &Library, value: &str) -> Option<Problem> {
        let mut settings = Settings::default();
        settings
            .set(library, &self.rule, &choice(library, self, value))
            .expect("a value of the rule");
        let face: Face = (self.family.clone(), self.level, self.system());
        (0..DRAWS).find_map(|number| draw_one(library, &face, number, &settings).ok())
    }
}

/// The value as it is set, which of a table is its name.
fn choice(library: &Library, case: &Case, value: &str) -> String {
    let rules = library.rules(case.system());
    let rule = rules.iter().find(|rule| rule.name == case.rule);
    let rule = rule.unwrap_or_else(|| panic!("no house rule {}", case.rule));
    let called = |text: &str| {
        let notes = library.table_notes().iter();
        let mut notes = notes.filter(|note| note.name == text);
        notes
            .next()
            .map(|note| format!("the table \"{}\"", note.title))
    };
    let found = rule.choices.iter().find(|choice| {
        choice.text == value || called(&choice.text).is_some_and(|called| called == value)
    });
    let found = found.unwrap_or_else(|| panic!("{} has no value {value}", case.rule));
    found.text.clone()
}

/// What is typed for a line: the letter of an offer, or the text.
fn typed(line: &Line, text: &str) -> String {
    match &line.asks {
        Asks::Pick { offers, .. } => {
            let offer = offers.iter().find(|offer| offer.text == text);
            let offer = offer.unwrap_or_else(|| panic!("{}: no offer {text}", line.id));
            offer.mark.clone()
        }
        _ => text.to_owned(),
    }
}

/// What of a problem is not as the table has it.
fn off(case: &Case, value: &str, problem: &Problem) -> Vec<String> {
    let mut off = Vec::new();
    let worked = working(problem);
    let mut answers = BTreeMap::new();
    for (step, wanted) in &case.under[value] {
        let Some(line) = problem.lines.iter().find(|line| line.id == *step) else {
            off.push(format!("there is no line {step}"));
            continue;
        };
        let written = worked.iter().find(|line| line.id == *step);
        let written = written.map_or("", |line| line.text.as_str());
        if written != wanted {
            off.push(format!("{step} is {written}, not {wanted}"));
        } else if line.asks != Asks::Nothing {
            answers.insert(step.clone(), typed(line, wanted));
        }
    }
    let response = Response {
        answers: answers.clone().into_iter().collect(),
    };
    for line in &mark(problem, &response, Manner::default()).lines {
        if answers.contains_key(&line.id) && line.verdict != Verdict::Right {
            off.push(format!("{} earns {}", line.id, line.verdict.name()));
        }
    }
    off.extend(wrong_cards(case, value, problem));
    off
}

fn wrong_cards(case: &Case, value: &str, problem: &Problem) -> Vec<String> {
    let Some(wanted) = case.cards.get(value) else {
        return Vec::new();
    };
    let shown = problem.lines.iter().find_map(|line| match &line.asks {
        Asks::Order { cards } => Some(cards),
        _ => None,
    });
    let shown = shown.expect("an order");
    let mut off = Vec::new();
    for (id, wanted) in wanted {
        let stands = match shown.iter().find(|card| card.id == *id) {
            None => "gone",
            Some(card) if card.place.is_some() => "in",
            Some(_) => "out",
        };
        if stands != wanted {
            off.push(format!("card {id} is {stands}, not {wanted}"));
        }
    }
    off
}

/// Whether the value stands in the job, or on a line of its own below it.
fn prints(rule: &str, value: &str, problem: &Problem) -> bool {
    let own = problem.rules.iter().find(|line| line.name == rule);
    own.is_some_and(|line| line.text.ends_with(value)) || problem.story.join(" ").contains(value)
}

#[test]
fn each_value_of_a_house_rule_gives_the_figure_worked_by_hand_and_is_printed() {
    let mut told = Vec::new();
    for case in cases() {
        assert!(!case.because.is_empty(), "{}", case.rule);
        let library = match case.library() {
            Ok(library) => library,
            Err(faults) => {
                told.push(faults);
                continue;
            }
        };
        for value in case.under.keys() {
            let at = format!("{} under {} {value}", case.family, case.rule);
            let Some(problem) = case.problem(&library, value) else {
                told.push(format!("{at}: no draw"));
                continue;
            };
            let mut off = off(&case, value, &problem);
            if !prints(&case.rule, value, &problem) && !case.under[value].is_empty() {
                off.push("the value is not printed".to_owned());
            }
            if !off.is_empty() {
                let story = problem.story.join(" ");
                told.push(format!("{at}: {}\n  {story}", off.join("; ")));
            }
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn no_value_of_a_house_rule_is_left_out() {
    let library = shipped();
    let mut shown: BTreeSet<(String, String)> = BTreeSet::new();
    for case in cases() {
        for value in case.under.keys() {
            if case.system() == System::Us {
                shown.insert((case.rule.clone(), choice(&library, &case, value)));
            }
        }
    }
    let mut missing = Vec::new();
    for rule in library.rules(System::Us) {
        if OF_THE_PROGRAM.contains(&rule.name.as_str()) {
            continue;
        }
        for choice in &rule.choices {
            if !shown.contains(&(rule.name.clone(), choice.text.clone())) {
                missing.push(format!("{} {}", rule.name, choice.text));
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join(", "));
}

fn under(rule: &str, value: &str, family: &str) -> Problem {
    let library = shipped();
    let mut settings = Settings::default();
    settings.set(&library, rule, value).expect("a value");
    let face: Face = (family.into(), 2, System::Us);
    draw_one(&library, &face, 3, &settings).expect("a problem")
}

fn verdict(problem: &Problem, step: &str, typed: &str) -> Verdict {
    let answers = vec![(step.to_owned(), typed.to_owned())];
    let marked = mark(problem, &Response { answers }, Manner::default());
    let line = marked.lines.into_iter().find(|line| line.id == step);
    line.expect("the line").verdict
}

/// The distance of a setback is written down to a foot. A tenth of a foot above the true
/// value is room that is not there; under "nearest" it lies within the tolerance of a foot.
#[test]
fn a_limit_rounded_the_wrong_way_passes_only_under_nearest() {
    for (value, passes) in [("safe side", false), ("nearest", true)] {
        let problem = under("rounding.safe", value, "setback");
        let line = working(&problem)
            .into_iter()
            .find(|line| line.id == "distance");
        let value = line.and_then(|line| line.value).expect("a distance");
        let above = format!("{:.1} ft", value + 0.5);
        assert_eq!(
            verdict(&problem, "distance", &above) == Verdict::Right,
            passes,
            "{above}"
        );
    }
}

#[test]
fn a_bare_figure_earns_half_where_the_unit_is_wanted() {
    for (value, verdict_of_bare) in [
        ("either", Verdict::Right),
        ("wanted", Verdict::UnitOfWrongKind),
    ] {
        let problem = under("marking.unit", value, "setback");
        let required = working(&problem)
            .into_iter()
            .find(|line| line.id == "required");
        let text = required.expect("the line").text;
        let bare = text.trim_end_matches(" ft");
        assert_eq!(verdict(&problem, "required", bare), verdict_of_bare);
        assert_eq!(verdict(&problem, "required", &text), Verdict::Right);
    }
}

#[test]
fn a_sheet_asks_lines_or_one_choice() {
    let lines = under("sheet.form", "lines", "tank-drawdown");
    assert!(lines.asked().count() > 1);
    let choice = under("sheet.form", "choice", "tank-drawdown");
    let asked: Vec<&Line> = choice.asked().map(|(_, line)| line).collect();
    let [
        Line {
            asks: Asks::Pick { offers, key },
            ..
        },
    ] = asked.as_slice()
    else {
        panic!("{asked:?}")
    };
    let worked = working(&choice);
    let last = worked.last().expect("the answer");
    assert_eq!(offers[*key].text, last.text);
}
