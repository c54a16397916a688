//! The key strip of a paper: for each line the span that is right, for each known mistake
//! its letter and the figure that it gives there, and what follows after it. The strip on
//! paper and the marking screen print the same.

use crate::formulas::Value;
use crate::lessons::Way;
use crate::marking::could_hurt;
use crate::problems::judge::Judge;
use crate::problems::solve::{mistake_value, with_step};
use crate::problems::{Asks, Line, Problem, letter, right_answer, written};
use crate::quantities::print::{Direction, on_grid, rounded, shortest};

/// A span is printed with so many steps in it at least, so that rounding its edges
/// inward costs little. Our own choice, no source.
const STEPS: f64 = 20.0;

/// The strip of one item.
#[derive(Debug, Clone, PartialEq)]
pub struct StripItem {
    /// The family.
    pub family: String,
    /// The marks of the item.
    pub marks: u32,
    /// The lines that are asked.
    pub lines: Vec<StripLine>,
    /// What follows after a letter, where anything does.
    pub after: Vec<After>,
    /// Of an order, the pairs that end the item: `8 before 6`.
    pub stops: Vec<String>,
}

/// One line of the strip.
#[derive(Debug, Clone, PartialEq)]
pub struct StripLine {
    /// Its number in the item, from one.
    pub number: usize,
    /// What is asked.
    pub label: String,
    /// The unit of the span.
    pub unit: Option<String>,
    /// What is right: `429 to 431`, a row's name, a letter, `5 2 - 6`.
    pub accept: String,
    /// The mistakes that are known at this line.
    pub turns: Vec<LetteredTurn>,
}

/// A known mistake with its letter.
#[derive(Debug, Clone, PartialEq)]
pub struct LetteredTurn {
    /// The letter, running on through the item.
    pub letter: char,
    /// The number of its line.
    pub line: usize,
    /// The mistakes that give this figure, by name: mostly one.
    pub mistakes: Vec<String>,
    /// The figure that it gives, without its unit; empty for an arrangement.
    pub text: String,
    /// What was done, in the apprentice's voice: that of the first of them.
    pub did: String,
}

/// What is right on the lines after a known mistake.
#[derive(Debug, Clone, PartialEq)]
pub struct After {
    /// The letter of the mistake.
    pub letter: char,
    /// Later lines whose figures change: the number of the line, and what follows there.
    pub figures: Vec<(usize, String)>,
    /// Mistakes that then give the figure that is right on the paper, with that figure: two
    /// turns that cancel out earn no mark, and a bare answer would hide them.
    pub cancels: Vec<(char, String)>,
}

/// The strip of a problem.
pub fn strip(problem: &Problem) -> StripItem {
    let turns = turns(problem);
    let lines = problem.asked().map(|(number, line)| StripLine {
        number,
        label: line.label.clone(),
        unit: line.unit.as_ref().map(|unit| unit.symbol().to_owned()),
        accept: accept(problem, line),
        turns: turns
            .iter()
            .filter(|turn| turn.line == number)
            .cloned()
            .collect(),
    });
    let after = turns.iter().map(|turn| after(problem, turn, &turns));
    StripItem {
        family: problem.code.family.clone(),
        marks: problem.marks(),
        lines: lines.collect(),
        after: after
            .filter(|after| !after.figures.is_empty() || !after.cancels.is_empty())
            .collect(),
        stops: stops(problem),
    }
}

/// The known mistakes of a problem with their letters: line by line, in the order in
/// which marking looks for them. Those that give one figure at a line share a letter.
pub fn turns(problem: &Problem) -> Vec<LetteredTurn> {
    let mut found: Vec<LetteredTurn> = Vec::new();
    for (number, line) in problem.asked() {
        for live in problem.mistakes.iter().filter(|live| live.step == line.id) {
            let text = live
                .value
                .as_ref()
                .map_or_else(String::new, |value| figure(problem, line, value));
            let same = |known: &&mut LetteredTurn| {
                known.line == number && known.text == text && !text.is_empty()
            };
            if let Some(known) = found.iter_mut().find(same) {
                known.mistakes.push(live.id.clone());
                continue;
            }
            let Some(letter) = letter(found.len()).chars().next() else {
                return found;
            };
            let plan = problem.variant.mistakes.get(live.index);
            found.push(LetteredTurn {
                letter,
                line: number,
                mistakes: vec![live.id.clone()],
                text,
                did: plan.map_or_else(String::new, |plan| {
                    plan.did.render(&problem.variant.names, &problem.values)
                }),
            });
        }
    }
    found
}

/// What is right at a line, in the words of the strip. Spans are rounded inward, so that
/// no printed edge is outside the tolerance.
pub fn accept(problem: &Problem, line: &Line) -> String {
    if let Some(answer) = right_answer(&line.asks) {
        return answer;
    }
    let Some(value) = problem.value(line.step) else {
        return String::new();
    };
    let (Some((below, above)), Some(unit), Some(right)) =
        (problem.tolerance(line), &line.unit, value.number())
    else {
        return figure(problem, line, value);
    };
    let right = unit.from_si(right.si);
    let step = problem.variant.steps.get(line.step);
    let write = step.and_then(|step| step.write);
    let (least, most) = (right - below, right + above);
    if let Some(write) = write {
        let grid = write.grid_shown;
        let written = rounded(right, grid, write.direction);
        let low = rounded(least, grid, Direction::Up).min(written);
        let high = rounded(most, grid, Direction::Down).max(written);
        return span(&on_grid(low, grid), &on_grid(high, grid));
    }
    let width = most - least;
    if !(width > 0.0 && width.is_finite()) {
        return figure(problem, line, value);
    }
    let grid = libm::pow(10.0, libm::floor(libm::log10(width / STEPS)));
    let low = rounded(least, grid, Direction::Up);
    let high = rounded(most, grid, Direction::Down);
    span(&shortest(low), &shortest(high))
}

fn span(low: &str, high: &str) -> String {
    if low == high {
        low.to_owned()
    } else {
        format!("{low} to {high}")
    }
}

/// A value as the strip prints it: a figure without its unit.
fn figure(problem: &Problem, line: &Line, value: &Value) -> String {
    let judge = judge(problem, &problem.values);
    let text = written::answer(&judge, line.step, value);
    let bare = line.unit.as_ref().filter(|_| value.number().is_some());
    let bare = bare.and_then(|_| text.split_whitespace().next());
    bare.map_or(text.clone(), str::to_owned)
}

pub(super) fn judge<'p>(problem: &'p Problem, values: &'p [Option<Value>]) -> Judge<'p> {
    Judge {
        variant: &problem.variant,
        values,
        even: problem.even_rounding,
    }
}

/// The values that follow where a mistake is made on top of these; none where it is not
/// followed: an arrangement, or a figure that could hurt someone.
pub(super) fn taken(
    problem: &Problem,
    values: &[Option<Value>],
    turn: &LetteredTurn,
) -> Option<(usize, Value, Vec<Option<Value>>)> {
    let first = turn.mistakes.first()?;
    let live = problem.mistakes.iter().find(|live| live.id == *first)?;
    let plan = problem.variant.mistakes.get(live.index)?;
    let value = mistake_value(&problem.variant, plan, values).or_else(|| live.value.clone())?;
    let line = problem.lines.iter().find(|line| line.step == plan.step)?;
    if plan.fatal || could_hurt(problem, line, &value) {
        return None;
    }
    let after = with_step(&problem.variant, values, plan.step, value.clone());
    Some((plan.step, value, after))
}

fn after(problem: &Problem, turn: &LetteredTurn, all: &[LetteredTurn]) -> After {
    let mut found = After {
        letter: turn.letter,
        figures: Vec::new(),
        cancels: Vec::new(),
    };
    let Some((_, _, values)) = taken(problem, &problem.values, turn) else {
        return found;
    };
    for (number, line) in problem.asked().filter(|(number, _)| *number > turn.line) {
        let slot = problem
            .variant
            .steps
            .get(line.step)
            .and_then(|step| step.slot);
        let at = |values: &[Option<Value>]| slot.and_then(|slot| values.get(slot)?.clone());
        let (Some(now), before) = (at(&values), at(&problem.values)) else {
            continue;
        };
        if before.as_ref() != Some(&now) && matches!(line.asks, Asks::Figure | Asks::Row) {
            let judge = judge(problem, &values);
            found
                .figures
                .push((number, written::answer(&judge, line.step, &now)));
        }
        for later in all.iter().filter(|later| later.line == number) {
            let Some((step, value, _)) = taken(problem, &values, later) else {
                continue;
            };
            let right = problem.value(step);
            let hides = right.is_some_and(|right| {
                self::judge(problem, &problem.values).accepts(step, right, &value)
            });
            if hides {
                found
                    .cancels
                    .push((later.letter, figure(problem, line, &value)));
            }
        }
    }
    found
}

/// The pairs of jobs that end an item, by their numbers as shown.
fn stops(problem: &Problem) -> Vec<String> {
    let cards = problem.asked().find_map(|(_, line)| match &line.asks {
        Asks::Order { cards } => Some(cards),
        _ => None,
    });
    let Some(cards) = cards else {
        return Vec::new();
    };
    let number = |at: &usize| {
        let plan = problem.variant.cards.get(*at)?;
        let place = cards.iter().position(|card| card.id == plan.id)?;
        Some(place + 1)
    };
    let live = problem.mistakes.iter();
    let plans = live.filter_map(|live| problem.variant.mistakes.get(live.index));
    plans
        .filter(|plan| plan.fatal)
        .filter_map(|plan| match &plan.way {
            Way::Early(first, second) => {
                Some(format!("{} before {}", number(first)?, number(second)?))
            }
            Way::Uses(at) => Some(format!("{} put in", number(at)?)),
            Way::Omits(at) => Some(format!("{} left out", number(at)?)),
            _ => None,
        })
        .collect()
}
