//! A drawn paper: the questions in the order in which they are asked.

use std::rc::Rc;

use super::code::PaperCode;
use crate::lessons::Exam;
use crate::problems::{Asks, Line, Problem};

/// A drawn paper.
#[derive(Debug, Clone)]
pub struct Paper {
    /// The code that draws it again.
    pub code: PaperCode,
    /// The blueprint.
    pub exam: Exam,
    /// The questions.
    pub questions: Vec<Question>,
}

/// A question of a paper: a problem of which only the answer is asked.
#[derive(Debug, Clone)]
pub struct Question {
    /// The problem; one line alone is asked.
    pub problem: Rc<Problem>,
    /// The place of its area in the blueprint.
    pub area: usize,
    /// Whether it is counted as safety besides.
    pub safety: bool,
    /// Whether its answer is a figure.
    pub numeric: bool,
}

impl Question {
    /// The line that is asked, with its place in the problem.
    pub fn asked(&self) -> Option<(usize, &Line)> {
        let lines = self.problem.lines.iter().enumerate();
        lines.rev().find(|(_, line)| line.asks != Asks::Nothing)
    }

    /// The right answer, as one that two questions of a family may not share.
    pub(super) fn answer(&self) -> String {
        let Some((_, line)) = self.asked() else {
            return String::new();
        };
        match &line.asks {
            Asks::Pick { offers, key } => offers
                .get(*key)
                .map(|offer| offer.text.clone())
                .unwrap_or_default(),
            Asks::Order { cards } => {
                let mut placed: Vec<_> = cards.iter().filter(|card| card.place.is_some()).collect();
                placed.sort_by_key(|card| card.place);
                let ids = placed.iter().map(|card| card.id.as_str());
                ids.collect::<Vec<_>>().join(" ")
            }
            Asks::Match { parts, meanings } => {
                let mut pairs: Vec<String> = parts
                    .iter()
                    .map(|(part, key)| {
                        let meaning = meanings.get(*key).map(|offer| offer.text.as_str());
                        format!("{part}={}", meaning.unwrap_or_default())
                    })
                    .collect();
                pairs.sort();
                pairs.join(" ")
            }
            Asks::Figure | Asks::Row | Asks::Nothing => {
                let worked = crate::problems::working(&self.problem);
                let own = worked.into_iter().find(|worked| worked.id == line.id);
                own.map(|worked| worked.text).unwrap_or_default()
            }
        }
    }
}

/// A problem of which one line alone is asked: the answer earns the marks. It is the
/// last line; the last figure, where a figure is wanted.
pub(crate) fn answer_only(mut problem: Problem, figure: bool) -> Problem {
    let last = |wanted: fn(&Asks) -> bool| problem.lines.iter().rposition(|own| wanted(&own.asks));
    let own = last(|asks| *asks == Asks::Figure).filter(|_| figure);
    let own = own.or_else(|| last(|asks| *asks != Asks::Nothing));
    for (at, line) in problem.lines.iter_mut().enumerate() {
        if Some(at) != own {
            line.asks = Asks::Nothing;
        }
    }
    problem
}
