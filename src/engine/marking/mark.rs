//! Marking one response: line by line from the top, each line beside what
//! follows from the learner's own figures.

use super::arrangement::{self, Share};
use super::figure::{Chains, Finding, Found, value_of};
use super::marked::{Marked, MarkedLine, Marks, Response, Turn, Verdict};
use super::reading::{Manner, Said, read, read_as};
use super::score::explain;
use crate::formulas::Value;
use crate::lessons::{MistakePlan, Template};
use crate::problems::{Asks, Line, LiveMistake, Problem};

/// What an answer is kept as while the sheet is filled in: `262 kPa = 38 psi`;
/// or what can be read.
pub fn keep(problem: &Problem, line: usize, typed: &str, manner: Manner) -> Result<String, String> {
    let line = problem
        .lines
        .get(line)
        .ok_or_else(|| "there is no such line".to_owned())?;
    read(problem, line, typed, manner).map(|said| read_as(problem, line, &said))
}

/// Marks a response.
pub fn mark(problem: &Problem, response: &Response, manner: Manner) -> Marked {
    let mut marker = Marker {
        problem,
        chains: Chains::of(problem),
        unfollowed: None,
        lines: Vec::new(),
    };
    for (number, line) in problem.asked() {
        let typed = response.answers.iter().rev().find(|(id, _)| *id == line.id);
        let typed = typed.map_or("", |(_, typed)| typed.trim());
        let marked = marker.line(number, line, typed, manner);
        marker.lines.push(marked);
    }
    marker.carry();
    let score = marker.lines.iter().map(|line| line.marks).sum();
    let out_of = marker.lines.iter().map(|line| line.out_of).sum();
    let explained = explain(&marker.lines, score, out_of);
    Marked {
        lines: marker.lines,
        score,
        out_of,
        explained,
    }
}

struct Marker<'p> {
    problem: &'p Problem,
    chains: Chains<'p>,
    /// The number of the first line whose unsafe figure is not followed.
    unfollowed: Option<usize>,
    lines: Vec<MarkedLine>,
}

impl<'p> Marker<'p> {
    fn line(&mut self, number: usize, line: &Line, typed: &str, manner: Manner) -> MarkedLine {
        let mut marked = MarkedLine {
            id: line.id.clone(),
            number,
            typed: typed.to_owned(),
            read_as: None,
            verdict: Verdict::NotWritten,
            words: String::new(),
            marks: Marks::default(),
            out_of: Marks::whole(line.marks),
            turns: Vec::new(),
            alternatives: false,
            note: None,
        };
        if !typed.is_empty() {
            match read(self.problem, line, typed, manner) {
                Err(what) => {
                    marked.verdict = Verdict::Unreadable;
                    marked.note = Some(what);
                }
                Ok(said) => {
                    marked.read_as = Some(read_as(self.problem, line, &said));
                    match &said {
                        Said::Order(numbers) => self.order(&mut marked, line, numbers),
                        Said::Match(places) => self.matching(&mut marked, line, places),
                        said => {
                            self.figure(&mut marked, line, said);
                            self.chains.written.insert(line.step);
                        }
                    }
                }
            }
        }
        marked.words = words(&marked);
        marked
    }

    fn figure(&mut self, marked: &mut MarkedLine, line: &Line, said: &Said) {
        let Finding {
            verdict,
            mistakes,
            note,
        } = self.chains.find(line, said);
        marked.note = note;
        marked.turns = self.turns(&mistakes);
        marked.verdict = match verdict {
            Found::Plain(verdict) => verdict,
            Found::Follows => match self.wrong_before(line) {
                Some(line) => Verdict::Follows { line },
                None => Verdict::Right,
            },
            Found::UnsafeFollows => {
                if let Some(line) = self.wrong_before(line) {
                    marked.note = Some(format!(
                        "This follows from your line {line}: look there first."
                    ));
                }
                Verdict::Unsafe
            }
            Found::FollowsUnsafe => match self.unfollowed {
                Some(line) => Verdict::NotFollowed { line },
                None => Verdict::LookHere,
            },
        };
        marked.marks = match marked.verdict {
            Verdict::Right | Verdict::Follows { .. } => marked.out_of,
            Verdict::UnitOfWrongKind => Marks::halves(line.marks),
            _ => Marks::default(),
        };
        if matches!(marked.verdict, Verdict::Right | Verdict::Follows { .. }) {
            marked.turns.clear();
        }
        marked.alternatives = marked.turns.len() > 1;
        self.follow(marked, line, said);
    }

    /// Puts the learner's own figure in the chains that later lines are marked beside.
    fn follow(&mut self, marked: &MarkedLine, line: &Line, said: &Said) {
        if marked.verdict == Verdict::UnitOfWrongKind {
            return;
        }
        let Some(slot) = self
            .problem
            .variant
            .steps
            .get(line.step)
            .and_then(|step| step.slot)
        else {
            return;
        };
        let Some(value) = value_of(line, said) else {
            return;
        };
        let kind = |known: &Value| std::mem::discriminant(known) == std::mem::discriminant(&value);
        let fits = matches!(self.problem.values.get(slot), Some(Some(known)) if kind(known));
        let same_dimension = match (self.problem.values.get(slot), &value) {
            (Some(Some(Value::Number(known))), Value::Number(own)) => {
                known.dimension == own.dimension
            }
            _ => true,
        };
        if !fits || !same_dimension {
            return;
        }
        let is_unsafe = marked.verdict == Verdict::Unsafe;
        if is_unsafe {
            self.unfollowed = self.unfollowed.or(Some(marked.number));
        }
        self.chains.put((line.step, slot), value, is_unsafe);
    }

    /// The number of the last earlier line that is itself off and that this one rests on.
    fn wrong_before(&self, line: &Line) -> Option<usize> {
        let variant = &self.problem.variant;
        let rests = variant.rests_on(line.step);
        let slot = |marked: &MarkedLine| variant.steps.get(variant.step(&marked.id)?)?.slot;
        let off = |marked: &&MarkedLine| {
            marked.verdict.asks_for_a_look()
                && !matches!(
                    marked.verdict,
                    Verdict::NotWritten | Verdict::UnitOfWrongKind
                )
        };
        let mut earlier = self.lines.iter().rev().filter(off);
        earlier
            .find(|marked| slot(marked).is_some_and(|slot| rests.contains(&slot)))
            .map(|marked| marked.number)
    }

    fn order(&self, marked: &mut MarkedLine, line: &Line, numbers: &[Option<usize>]) {
        let Asks::Order { cards } = &line.asks else {
            return;
        };
        let mistakes = arrangement::order_mistakes(self.problem, line, cards, numbers);
        self.arranged(marked, arrangement::order(cards, numbers), &mistakes);
    }

    fn matching(&self, marked: &mut MarkedLine, line: &Line, places: &[Option<usize>]) {
        let Asks::Match { parts, meanings } = &line.asks else {
            return;
        };
        let mistakes = arrangement::match_mistakes(self.problem, line, (parts, meanings), places);
        self.arranged(marked, arrangement::matching(parts, places), &mistakes);
    }

    /// The share of what is right, down to the half mark; a fatal mistake leaves none.
    fn arranged(&self, marked: &mut MarkedLine, share: Share, mistakes: &[&'p MistakePlan]) {
        marked.turns = self.turns(mistakes);
        if mistakes.iter().any(|mistake| mistake.fatal) {
            marked.turns.retain(|turn| turn.fatal);
            marked.verdict = Verdict::Unsafe;
            return;
        }
        let whole = marked.out_of.in_halves() as usize;
        let halves = (whole * share.right).checked_div(share.of).unwrap_or(0);
        marked.verdict = if share.right == share.of {
            marked.turns.clear();
            Verdict::Right
        } else if halves > 0 {
            Verdict::PartRight
        } else if marked.turns.is_empty() {
            Verdict::LookHere
        } else {
            Verdict::Mistake
        };
        marked.marks = Marks::halves(halves as u32);
        if share.right < share.of {
            marked.note = Some(format!("{} of {} right.", share.right, share.of));
        }
    }

    fn turns(&self, mistakes: &[&MistakePlan]) -> Vec<Turn> {
        let mistakes = mistakes.iter();
        mistakes.map(|plan| turn_of(self.problem, plan)).collect()
    }

    /// An empty line is borne by a later figure that is right and rests on it: the
    /// sheet says that it may stay empty. A picked answer, which could be guessed,
    /// bears nothing.
    fn carry(&mut self) {
        let variant = &self.problem.variant;
        let bearing: Vec<(usize, usize)> = self
            .problem
            .asked()
            .zip(&self.lines)
            .filter(|((_, line), marked)| {
                matches!(line.asks, Asks::Figure | Asks::Row) && marked.verdict == Verdict::Right
            })
            .map(|((number, line), _)| (number, line.step))
            .collect();
        let steps: Vec<usize> = self.problem.asked().map(|(_, line)| line.step).collect();
        for (marked, step) in self.lines.iter_mut().zip(steps) {
            let slot = variant.steps.get(step).and_then(|step| step.slot);
            let (Verdict::NotWritten, Some(slot)) = (&marked.verdict, slot) else {
                continue;
            };
            let by = bearing
                .iter()
                .find(|(_, later)| variant.rests_on(*later).contains(&slot));
            if let Some((by, _)) = by {
                marked.verdict = Verdict::Carried { by: *by };
                marked.marks = marked.out_of;
                marked.words = words(marked);
            }
        }
    }
}

/// A known mistake of a problem as it is told: what was done, what is so.
pub fn known_turn(problem: &Problem, mistake: &LiveMistake) -> Option<Turn> {
    let plan = problem.variant.mistakes.get(mistake.index)?;
    Some(turn_of(problem, plan))
}

fn turn_of(problem: &Problem, plan: &MistakePlan) -> Turn {
    let render = |text: &Template| text.render(&problem.variant.names, &problem.values);
    Turn {
        mistake: plan.id.clone(),
        did: render(&plan.did),
        says: render(&plan.says),
        look: plan.look.as_ref().map(render),
        fatal: plan.fatal,
    }
}

/// The turns of mistakes that somebody who marks by hand has named.
pub(crate) fn turns_named(problem: &Problem, mistakes: &[String]) -> Vec<Turn> {
    let plans = problem.variant.mistakes.iter();
    let plans = plans.filter(|plan| mistakes.contains(&plan.id));
    plans.map(|plan| turn_of(problem, plan)).collect()
}

/// Words, score and explanation anew, where somebody has changed verdicts by hand.
pub(crate) fn remark(mut marked: Marked) -> Marked {
    for line in &mut marked.lines {
        line.words = words(line);
    }
    marked.score = marked.lines.iter().map(|line| line.marks).sum();
    marked.explained = explain(&marked.lines, marked.score, marked.out_of);
    marked
}

/// The verdict as the sheet prints it.
fn words(marked: &MarkedLine) -> String {
    match &marked.verdict {
        Verdict::Right => "right".to_owned(),
        Verdict::Follows { line } => format!("right, follows your line {line}"),
        Verdict::Carried { by } => format!("may stay empty, line {by} is right"),
        Verdict::UnitOfWrongKind => "right figure, look at the unit".to_owned(),
        Verdict::UnitFactor | Verdict::Mistake | Verdict::LookHere => "look here".to_owned(),
        Verdict::RoundedWrongWay => "rounded to the wrong side".to_owned(),
        Verdict::Unsafe if marked.turns.iter().any(|turn| turn.fatal) => {
            "stop: unsafe order".to_owned()
        }
        Verdict::Unsafe => "unsafe figure: not followed".to_owned(),
        Verdict::NotFollowed { line } => format!("not followed, see line {line}"),
        Verdict::PartRight => "right in part".to_owned(),
        Verdict::NotWritten => "not written".to_owned(),
        Verdict::Unreadable => "cannot be read".to_owned(),
    }
}
