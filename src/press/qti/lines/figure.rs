//! A line that asks a figure.

use std::fmt::Write as _;

use pumpwright_engine::formulas::SNAP;
use pumpwright_engine::marking::{Follow, OnGrid, Span, accepted, bears, follow, mistaken};
use pumpwright_engine::problems::{Asks, Line, Problem, working};

use super::super::rules::{
    above, and, at_least, at_most, empty, number, set, variable, when, whole, within, written,
};
use super::super::xml::{Element, element};
use super::{Lines, head, mistakes, response, score, tell};

/// Declares the figure, shows its blank, and marks it.
pub fn figure(problem: &Problem, place: usize, line: &Line, lines: &mut Lines) {
    let id = response(place);
    let mut declared = element("qti-response-declaration")
        .with("identifier", id.as_str())
        .with("cardinality", "single")
        .with("base-type", "float");
    if let Some(key) = key(problem, line) {
        let value = element("qti-value").text(key);
        declared = declared.put(element("qti-correct-response").put(value));
    }
    lines.responses.push(declared);
    lines.body.push(blank(place, line, &id));
    let full = || set(&score(place), number(f64::from(line.marks)));
    for span in accepted(problem, line) {
        lines.rules.push(when(and(within(&id, span)), [full()]));
    }
    for tests in follows(problem, line, &id) {
        lines.rules.push(when(and(tests), [full()]));
    }
    // Of two mistakes that give the same, the first of the lesson is told: it is set last.
    for (turn, live) in mistakes(problem, line).into_iter().rev() {
        for span in mistaken(problem, line, live) {
            lines.rules.push(tell(place, &turn, within(&id, span)));
        }
    }
}

/// The tests of which one holds where a figure is rightly worked from own earlier ones:
/// that it lies in the span around their product, or is that product as it is written.
fn follows(problem: &Problem, line: &Line, id: &str) -> Vec<Vec<Element>> {
    let Follow::Product {
        lines,
        from,
        to,
        written: on_grid,
    } = follow(problem, line)
    else {
        return Vec::new();
    };
    let before = lines.iter();
    let before = before.filter_map(|at| number_of(problem, *at).map(response));
    let before: Vec<String> = before.collect();
    let all_written = || {
        let ids = std::iter::once(id).chain(before.iter().map(String::as_str));
        ids.map(written).collect::<Vec<_>>()
    };
    let mut near = all_written();
    near.push(at_least(variable(id), linear(&before, from)));
    near.push(at_most(variable(id), linear(&before, to)));
    let exact = on_grid.map(|OnGrid { grid, steps }| {
        let step = |share: f64| {
            element("qti-product")
                .put(whole(linear(&before, steps)))
                .put(number(grid * share))
        };
        let mut exact = all_written();
        // The whole part of what is below nothing is not the step below it.
        exact.push(above(variable(id), number(0.0)));
        exact.push(at_least(variable(id), step(1.0 - SNAP)));
        exact.push(at_most(variable(id), step(1.0 + SNAP)));
        exact
    });
    std::iter::once(near).chain(exact).collect()
}

/// A factor times the product of own figures, and what is added.
fn linear(before: &[String], (factor, added): (f64, f64)) -> Element {
    let factors = before.iter().map(|id| variable(id));
    let product = element("qti-product").all(factors).put(number(factor));
    if added == 0.0 {
        return product;
    }
    element("qti-sum").put(product).put(number(added))
}

/// The answer as digits: the figure that the working writes.
fn key(problem: &Problem, line: &Line) -> Option<String> {
    let worked = working(problem);
    let worked = worked.iter().find(|worked| worked.id == line.id)?;
    let figure = worked.text.split_whitespace().next().map(digits)?;
    let holds = |span: &Span, figure: f64| span.from <= figure && figure <= span.to;
    let spans = accepted(problem, line);
    let fits = figure
        .parse::<f64>()
        .is_ok_and(|figure| spans.iter().any(|span| holds(span, figure)));
    if fits {
        return Some(figure);
    }
    worked.value.map(super::super::rules::figure)
}

fn digits(text: &str) -> String {
    text.trim_start_matches('$')
        .replace('−', "-")
        .replace(',', "")
}

/// The line with its blank.
fn blank(place: usize, line: &Line, id: &str) -> Element {
    let unit = line
        .unit
        .as_ref()
        .map(ToString::to_string)
        .unwrap_or_default();
    let mut asks = head(place, line);
    if !unit.is_empty() {
        let _ = write!(asks, ", in {unit}");
    }
    if !line.form.is_empty() {
        let _ = write!(asks, ", {}", line.form);
    }
    let entry = element("qti-text-entry-interaction")
        .with("response-identifier", id)
        .with("expected-length", "10");
    element("p")
        .text(format!("{asks}: "))
        .put(entry)
        .text(format!(" {unit}").trim_end().to_owned())
}

/// The number on the sheet of a line by its place among the problem's lines.
fn number_of(problem: &Problem, at: usize) -> Option<usize> {
    let id = &problem.lines.get(at)?.id;
    let mut asked = problem.asked();
    asked
        .find(|(_, line)| line.id == *id)
        .map(|(number, _)| number)
}

/// The lines that a later one bears, where they are left empty.
fn pairs(problem: &Problem) -> Vec<[(usize, &Line); 2]> {
    let asked: Vec<(usize, &Line)> = problem.asked().collect();
    let mut pairs = Vec::new();
    for empty in &asked {
        let later = asked.iter().filter(|later| later.0 > empty.0);
        let later = later.filter(|later| bears(problem, empty.1, later.1));
        pairs.extend(later.map(|later| [*empty, *later]));
    }
    pairs
}

/// Whether a line may stay empty.
pub fn any_borne(problem: &Problem) -> bool {
    !pairs(problem).is_empty()
}

/// A line that is left empty is borne by a later one that is right and rests on it.
pub fn borne(problem: &Problem, lines: &mut Lines) {
    for [(place, line), (later, by)] in pairs(problem) {
        let nothing: Vec<Element> = match &line.asks {
            Asks::Order { cards } => {
                let cards = 1..=cards.len();
                cards
                    .map(|at| empty(&super::order::entry(place, at)))
                    .collect()
            }
            _ => vec![empty(&response(place))],
        };
        let full = || set(&score(place), number(f64::from(line.marks)));
        let tests: Vec<Vec<Element>> = match &by.asks {
            Asks::Figure => accepted(problem, by)
                .into_iter()
                .map(|span| within(&response(later), span))
                .collect(),
            _ => vec![vec![super::choice::right(later)]],
        };
        for tests in tests {
            let tests = nothing.iter().cloned().chain(tests);
            lines.rules.push(when(and(tests), [full()]));
        }
    }
}
