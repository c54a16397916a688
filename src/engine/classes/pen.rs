//! Marking with a pen: what is keyed for an item, and the verdicts that follow from it.
//!
//! Nothing keyed means that the item is right. A letter is a known mistake and knows its
//! line; a digit says that this line is wrong in another way; `x` says it of the last
//! line; `0` says that nothing was written. `2=0.58;` gives the figure that stands on line
//! 2, up to the next `;` or the end, and later lines are followed from it. Letters and
//! digits run on: `b4`. Everything that is not keyed is right, following what was.

use super::strip::{LetteredTurn, judge, taken, turns};
use crate::formulas::Value;
use crate::marking::{
    Manner, Marked, Marks, Response, Verdict, could_hurt, mark, remark, written_values,
};
use crate::problems::solve::with_step;
use crate::problems::{Asks, Line, Problem, letter, right_answer, written};

/// One thing keyed.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Key {
    /// A known mistake, by its letter.
    Turn(char),
    /// A line that is wrong in another way.
    Wrong(usize),
    /// A line with the figure that stands there.
    Stands(usize, String),
    /// Nothing was written.
    Nothing,
}

/// What is known of a line.
enum Known<'t> {
    Turn(&'t LetteredTurn),
    Wrong,
    Stands(String),
}

/// Marks an item by what was keyed.
///
/// # Errors
/// A sentence where a key has no meaning on this item.
pub fn mark_keyed(problem: &Problem, keyed: &str, manner: Manner) -> Result<Marked, String> {
    let keys = read(problem, keyed)?;
    if keys.contains(&Key::Nothing) {
        if keys.len() > 1 {
            return Err(
                "0 says that nothing was written, so no other key goes with it; lines have one digit"
                    .to_owned(),
            );
        }
        return Ok(mark(problem, &Response::default(), manner));
    }
    Ok(Paper::of(problem, &keys, manner).marked())
}

/// What follows from what was keyed: later lines whose right figure is another now, each
/// by its number with that figure.
///
/// # Errors
/// A sentence where a key has no meaning on this item.
pub fn follows(
    problem: &Problem,
    keyed: &str,
    manner: Manner,
) -> Result<Vec<(usize, String)>, String> {
    let keys = read(problem, keyed)?;
    let paper = Paper::of(problem, &keys, manner);
    let first = problem.asked().find(|(_, line)| {
        let at = paper.slot(line);
        at.and_then(|slot| paper.own.get(slot)) != at.and_then(|slot| problem.values.get(slot))
    });
    let from = first.map_or(usize::MAX, |(number, _)| number);
    let later = problem
        .asked()
        .filter(|(number, line)| *number > from && matches!(line.asks, Asks::Figure | Asks::Row));
    let figures = later.filter_map(|(number, line)| {
        let slot = paper.slot(line)?;
        let own = paper.own.get(slot)?.as_ref()?;
        let other = problem.values.get(slot)?.as_ref() != Some(own);
        other.then(|| {
            (
                number,
                written::answer(&judge(problem, &paper.own), line.step, own),
            )
        })
    });
    Ok(figures.collect())
}

impl<'p> Paper<'p> {
    /// The paper of somebody of whom this was keyed.
    fn of(problem: &'p Problem, keys: &[Key], manner: Manner) -> Self {
        let turns = turns(problem);
        let known = |number: usize| {
            keys.iter().rev().find_map(|key| match key {
                Key::Turn(letter) => {
                    let turn = turns.iter().find(|turn| turn.letter == *letter)?;
                    (turn.line == number).then_some(Known::Turn(turn))
                }
                Key::Wrong(line) => (*line == number).then_some(Known::Wrong),
                Key::Stands(line, text) => (*line == number).then(|| Known::Stands(text.clone())),
                Key::Nothing => None,
            })
        };
        let mut paper = Paper {
            problem,
            manner,
            own: problem.values.clone(),
            response: Response::default(),
            forced: Vec::new(),
        };
        for (number, line) in problem.asked() {
            match known(number) {
                None => paper.right(line),
                Some(Known::Turn(turn)) => paper.turn(line, turn),
                Some(Known::Wrong) => paper.forced.push((line.id.clone(), Forced::Wrong)),
                Some(Known::Stands(text)) => paper.stands(line, text),
            }
        }
        paper
    }

    /// The slot of the value that a line asks.
    fn slot(&self, line: &Line) -> Option<usize> {
        self.problem.variant.steps.get(line.step)?.slot
    }
}

/// How many keys a person presses for what was keyed, Enter counted.
pub fn presses(keyed: &str) -> usize {
    keyed.chars().filter(|c| !c.is_whitespace()).count() + 1
}

fn read(problem: &Problem, keyed: &str) -> Result<Vec<Key>, String> {
    let lines = problem.asked().count();
    let turns = turns(problem);
    let line = |number: usize| {
        if (1..=lines).contains(&number) {
            return Ok(number);
        }
        Err(match lines {
            1 => format!("there is no line {number}; the item has one line"),
            _ => format!("there is no line {number}; the item has lines 1 to {lines}"),
        })
    };
    let mut keys = Vec::new();
    let mut rest = keyed.trim_start();
    while let Some(first) = rest.chars().next() {
        let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (number, behind) = rest.split_at(digits);
        if let Some(stands) = behind.strip_prefix('=').filter(|_| digits > 0) {
            let number = line(number.parse().unwrap_or(usize::MAX))?;
            let (text, after) = stands.split_once(';').unwrap_or((stands, ""));
            keys.push(match text.trim() {
                "" => Key::Wrong(number),
                text => Key::Stands(number, text.to_owned()),
            });
            rest = after.trim_start();
            continue;
        }
        keys.push(match first.to_ascii_lowercase() {
            '0' => Key::Nothing,
            digit @ '1'..='9' => Key::Wrong(line(digit as usize - '0' as usize)?),
            key if turns.iter().any(|turn| turn.letter == key) => Key::Turn(key),
            'x' => Key::Wrong(lines),
            key => return Err(no_turn(key, &turns)),
        });
        let after = rest.get(first.len_utf8()..).unwrap_or_default();
        rest = after.trim_start_matches([' ', ',', ';']);
    }
    Ok(keys)
}

fn no_turn(key: char, turns: &[LetteredTurn]) -> String {
    let key = if key.is_control() { '\u{fffd}' } else { key };
    match (turns.first(), turns.last()) {
        (Some(first), Some(last)) => format!(
            "\"{key}\" is no turn of this item; it has {} to {}, a digit is a line",
            first.letter, last.letter
        ),
        _ => format!("\"{key}\" is no turn of this item, which has none; a digit is a line"),
    }
}

/// What no figure tells, and the marker says.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Forced {
    Right,
    Wrong,
    /// A known mistake of an arrangement or a picked answer, or one whose figure is not
    /// followed; whether it could hurt someone.
    Turn(Vec<String>, bool),
}

/// What stands on the paper, as far as it is known.
struct Paper<'p> {
    problem: &'p Problem,
    manner: Manner,
    /// The values through the learner's own figures.
    own: Vec<Option<Value>>,
    response: Response,
    forced: Vec<(String, Forced)>,
}

impl Paper<'_> {
    fn write(&mut self, line: &Line, text: String) {
        self.response.answers.push((line.id.clone(), text));
    }

    /// A line that is right: by what stands on the lines before it.
    fn right(&mut self, line: &Line) {
        if let Asks::Order { .. } | Asks::Match { .. } = line.asks {
            self.write(line, right_answer(&line.asks).unwrap_or_default());
            return;
        }
        let own = self.slot(line).and_then(|slot| self.own.get(slot)?.clone());
        match own.and_then(|own| self.typed(line, &own)) {
            Some(text) => self.write(line, text),
            None => self.forced.push((line.id.clone(), Forced::Right)),
        }
    }

    fn turn(&mut self, line: &Line, turn: &LetteredTurn) {
        let Some((_, value, after)) = taken(self.problem, &self.own, turn) else {
            let mut live = self.problem.mistakes.iter();
            let live = live.find(|live| turn.mistakes.contains(&live.id));
            let value = live.and_then(|live| live.value.as_ref());
            let hurts = value.is_some_and(|value| could_hurt(self.problem, line, value));
            let made = Forced::Turn(turn.mistakes.clone(), hurts);
            self.forced.push((line.id.clone(), made));
            return;
        };
        match self.typed(line, &value) {
            Some(text) => self.write(line, text),
            None => {
                let made = Forced::Turn(turn.mistakes.clone(), false);
                self.forced.push((line.id.clone(), made));
            }
        }
        self.own = after;
    }

    fn stands(&mut self, line: &Line, text: String) {
        self.write(line, text);
        let said = written_values(self.problem, &self.response, self.manner);
        let own = said.into_iter().find(|(step, _)| *step == line.step);
        if let Some((step, value)) = own {
            self.own = with_step(&self.problem.variant, &self.own, step, value);
        }
    }

    /// A value as somebody would have written it; none where no writing gives it.
    fn typed(&self, line: &Line, value: &Value) -> Option<String> {
        if let Asks::Pick { offers, .. } = &line.asks {
            let place = offers.iter().position(|offer| offer.value == *value)?;
            return Some(letter(place));
        }
        let text = written::answer(&judge(self.problem, &self.own), line.step, value);
        // A figure with the sign that answers are read with here.
        let point = self.manner.decimal == crate::quantities::DecimalSign::Point;
        let number = value.number().is_some();
        Some(if number && !point {
            text.replace('.', ",")
        } else {
            text
        })
    }

    fn marked(self) -> Marked {
        let mut marked = mark(self.problem, &self.response, self.manner);
        for (id, forced) in &self.forced {
            let Some(line) = marked.lines.iter_mut().find(|line| line.id == *id) else {
                continue;
            };
            line.turns.clear();
            line.note = None;
            match forced {
                Forced::Right => {
                    line.verdict = Verdict::Right;
                    line.marks = line.out_of;
                }
                Forced::Wrong => {
                    line.verdict = Verdict::LookHere;
                    line.marks = Marks::default();
                }
                Forced::Turn(mistakes, hurts) => {
                    line.turns = crate::marking::turns_named(self.problem, mistakes);
                    line.verdict = if *hurts || line.turns.iter().any(|turn| turn.fatal) {
                        Verdict::Unsafe
                    } else {
                        Verdict::Mistake
                    };
                    line.marks = Marks::default();
                }
            }
        }
        remark(marked)
    }
}
