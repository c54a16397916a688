//! The lines of a sheet as an item has them: for each how it is answered, the rules that
//! mark it, its hint, and what was likely done.

mod choice;
mod figure;
mod match_;
mod order;

use pumpwright_engine::marking::{Follow, follow, known_turn};
use pumpwright_engine::problems::{Asks, Line, LiveMistake, Problem, help, working_html};

use super::body::{feedback, named_lines};
use super::item::{named, points};
use super::rules::{and, at_least, figure, handed_in, name, number, set, variable, when};
use super::xml::{Element, element};

/// What the lines need in an item.
#[derive(Default)]
pub struct Lines {
    /// What is answered.
    pub responses: Vec<Element>,
    /// What is worked out of it.
    pub outcomes: Vec<Element>,
    /// What is said before the lines.
    pub says: Vec<String>,
    /// The lines with their blanks, each with what is shown later.
    pub body: Vec<Element>,
    /// The rules, in their order.
    pub rules: Vec<Element>,
    /// The outcomes that are added up.
    pub scores: Vec<String>,
}

/// The response of a line.
fn response(line: usize) -> String {
    format!("RESPONSE_{line}")
}

/// The points of a line.
fn score(line: usize) -> String {
    format!("SCORE_{line}")
}

/// The likely turn of a line.
fn turn(line: usize) -> String {
    format!("TURN_{line}")
}

/// The lines of a problem.
pub fn lines(problem: &Problem) -> Lines {
    let mut lines = Lines::default();
    for (number, line) in problem.asked() {
        let marks = f64::from(line.marks);
        lines.scores.push(score(number));
        lines
            .outcomes
            .push(points(&score(number), 0.0).with("normal-maximum", figure(marks)));
        lines.rules.push(set(&score(number), self::number(0.0)));
        match &line.asks {
            Asks::Nothing => {}
            Asks::Figure => figure::figure(problem, number, line, &mut lines),
            Asks::Row => choice::row(problem, number, line, &mut lines),
            Asks::Pick { offers, key } => {
                choice::pick(problem, number, line, (offers, *key), &mut lines);
            }
            Asks::Order { cards } => order::order(problem, number, line, cards, &mut lines),
            Asks::Match { parts, meanings } => {
                match_::match_(problem, number, line, (parts, meanings), &mut lines);
            }
        }
        told(problem, number, line, &mut lines);
        hint(problem, number, line, &mut lines);
    }
    figure::borne(problem, &mut lines);
    for (number, line) in problem.asked() {
        let full = at_least(
            variable(&score(number)),
            self::number(f64::from(line.marks)),
        );
        if is_told(problem, line) {
            lines
                .rules
                .push(when(full, [set(&turn(number), name("none"))]));
        }
    }
    lines.says = says(problem);
    lines
}

/// A line in words, with its marks, before its blank.
fn head(number: usize, line: &Line) -> String {
    let noun = if line.marks == 1 { "mark" } else { "marks" };
    format!("{number}. {} ({} {noun})", line.label, line.marks)
}

/// The mistakes that are made at a line, each with the name under which it is told.
fn mistakes<'p>(problem: &'p Problem, line: &Line) -> Vec<(String, &'p LiveMistake)> {
    let live = problem.mistakes.iter().enumerate();
    live.filter(|(_, live)| live.step == line.id)
        .map(|(at, live)| (format!("turn-{}", at + 1), live))
        .collect()
}

fn is_told(problem: &Problem, line: &Line) -> bool {
    problem.mistakes.iter().any(|live| live.step == line.id)
}

/// Tells a turn where these tests hold and the item was handed in.
fn tell(number: usize, id: &str, tests: Vec<Element>) -> Element {
    let tests = std::iter::once(handed_in()).chain(tests);
    when(and(tests), [set(&turn(number), name(id))])
}

/// What was likely done at a line, shown when its rule says so.
fn told(problem: &Problem, number: usize, line: &Line, lines: &mut Lines) {
    if !is_told(problem, line) {
        return;
    }
    lines.outcomes.push(named(&turn(number)));
    for (id, live) in mistakes(problem, line) {
        let Some(told) = known_turn(problem, live) else {
            continue;
        };
        let head = element("strong").text(format!("Line {number}, likely turn:"));
        let did = element("p").put(head).text(format!(" \"{}\"", told.did));
        let look = told.look.map(|look| {
            let look = look.trim_start_matches("Look at ").to_owned();
            element("p").text(format!("Look at {look}"))
        });
        let content = element("qti-content-body")
            .put(did)
            .put(element("p").text(told.says))
            .all(look);
        lines.body.push(feedback(&turn(number), &id, content));
    }
}

/// The principle of a line and its formula in words, shown when it is asked for. It has
/// an outcome of its own, so that the solution does not come with it.
fn hint(problem: &Problem, number: usize, line: &Line, lines: &mut Lines) {
    let (asked, shown) = (format!("HINT_{number}"), format!("HINTTEXT_{number}"));
    let place = problem.lines.iter().position(|other| other.id == line.id);
    let principle = place.and_then(|place| help(problem, place).into_iter().next());
    let principle = principle
        .map(|help| help.text.join(" "))
        .unwrap_or_default();
    let formula = working_html(problem).into_iter();
    let formula = formula.filter(|html| html.id == line.id && !html.words.is_empty());
    let formula = formula.map(|html| {
        let label = element("strong").text(&line.label);
        element("p").put(label).html(format!(" = {}", html.words))
    });
    let content = element("qti-content-body")
        .put(element("p").text(format!("Hint for line {number}: {principle}")))
        .all(formula);
    lines.responses.push(
        element("qti-response-declaration")
            .with("identifier", asked.as_str())
            .with("cardinality", "single")
            .with("base-type", "boolean"),
    );
    lines.outcomes.push(named(&shown));
    let button = element("qti-end-attempt-interaction")
        .with("response-identifier", asked.as_str())
        .with("title", format!("Hint for line {number}"))
        .with("count-attempt", "false");
    lines.body.push(element("p").put(button));
    lines.body.push(feedback(&shown, "hint", content));
    let show = set(&shown, name("hint"));
    lines.rules.push(when(variable(&asked), [show]));
}

/// What is said before the lines: how figures are written, what may stay empty, which
/// lines follow the learner's own figures and which do not.
fn says(problem: &Problem) -> Vec<String> {
    let asked: Vec<(usize, &Line)> = problem.asked().collect();
    let figures = |asks: &Asks| matches!(asks, Asks::Figure | Asks::Order { .. });
    let mut says = Vec::new();
    if asked.iter().any(|(_, line)| figures(&line.asks)) {
        says.push(
            "Write digits and one point, no units and no commas: the unit stands beside the box."
                .to_owned(),
        );
    }
    if figure::any_borne(problem) {
        says.push("A line may stay empty where a later line that rests on it is right.".to_owned());
    }
    let (mut carried, mut not) = (Vec::new(), Vec::new());
    for (number, line) in asked {
        match (&line.asks, follow(problem, line)) {
            (_, Follow::Alone) => {}
            (Asks::Figure, Follow::Product { .. }) => carried.push(number),
            _ => not.push(number),
        }
    }
    if !carried.is_empty() {
        let lines = named_lines(&carried);
        says.push(format!(
            "Rightly worked from your own earlier figures, {lines} count as right, too."
        ));
    }
    if !not.is_empty() {
        let lines = named_lines(&not);
        says.push(format!(
            "Of {lines} the right earlier figures count alone, not your own."
        ));
    }
    says
}
