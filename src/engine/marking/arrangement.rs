//! Marking an order or a match: the share of pairs that are right, and the known
//! mistakes, of which a fatal one ends the item.

use crate::lessons::{Body, MistakePlan, Way, show};
use crate::problems::{Line, Offer, Problem, ShownCard};

/// How much of an arrangement is right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Share {
    pub right: usize,
    pub of: usize,
}

/// The share of an order: every before-and-after that the key asks, and every
/// job that does not belong; a job left out that belongs counts too.
pub(super) fn order(cards: &[ShownCard], numbers: &[Option<usize>]) -> Share {
    let number = |at: usize| numbers.get(at).copied().flatten();
    let mut share = Share { right: 0, of: 0 };
    let mut count = |right: bool| {
        share.of += 1;
        share.right += usize::from(right);
    };
    for (at, card) in cards.iter().enumerate() {
        if card.place.is_none() {
            count(number(at).is_none());
            continue;
        }
        for before in &card.after {
            count(matches!((number(*before), number(at)), (Some(a), Some(b)) if a < b));
        }
        if number(at).is_none() {
            count(false);
        }
    }
    share
}

/// The share of a match: the parts that have their meaning.
pub(super) fn matching(parts: &[(String, usize)], places: &[Option<usize>]) -> Share {
    let right = parts
        .iter()
        .zip(places)
        .filter(|((_, key), place)| **place == Some(*key))
        .count();
    Share {
        right,
        of: parts.len(),
    }
}

/// The known mistakes of an order, in the order of the lesson file.
pub(super) fn order_mistakes<'p>(
    problem: &'p Problem,
    line: &Line,
    cards: &[ShownCard],
    numbers: &[Option<usize>],
) -> Vec<&'p MistakePlan> {
    let card = |at: usize| {
        let id = &problem.variant.cards.get(at)?.id;
        cards.iter().position(|card| card.id == *id)
    };
    let number = |at: usize| numbers.get(card(at)?).copied().flatten();
    let left_out = |at: usize| card(at).is_some_and(|place| numbers.get(place) == Some(&None));
    made(problem, line, |way| match way {
        Way::Early(first, second) => {
            matches!((number(*first), number(*second)), (Some(a), Some(b)) if a < b)
        }
        Way::Uses(at) => number(*at).is_some(),
        Way::Omits(at) => left_out(*at),
        Way::Is(_) | Way::Figures(_) | Way::Pair(..) => false,
    })
}

/// The known mistakes of a match.
pub(super) fn match_mistakes<'p>(
    problem: &'p Problem,
    line: &Line,
    (parts, meanings): (&[(String, usize)], &[Offer]),
    places: &[Option<usize>],
) -> Vec<&'p MistakePlan> {
    let Some(Body::Match(plan)) = problem.variant.steps.get(line.step).map(|step| &step.body)
    else {
        return Vec::new();
    };
    let cell = |row: usize, column: usize| {
        plan.table
            .rows
            .get(row)
            .and_then(|row| row.get(column))
            .map(|cell| show(cell, None))
    };
    made(problem, line, |way| match way {
        Way::Pair(left, right) => {
            let (part, meaning) = (cell(*left, plan.left), cell(*right, plan.right));
            parts.iter().zip(places).any(|((text, _), place)| {
                let said = place
                    .and_then(|place| meanings.get(place))
                    .map(|offer| &offer.text);
                Some(text) == part.as_ref() && said.is_some() && said == meaning.as_ref()
            })
        }
        _ => false,
    })
}

fn made<'p>(
    problem: &'p Problem,
    line: &Line,
    is_made: impl Fn(&Way) -> bool,
) -> Vec<&'p MistakePlan> {
    problem
        .mistakes
        .iter()
        .filter_map(|live| problem.variant.mistakes.get(live.index))
        .filter(|plan| plan.step == line.step && is_made(&plan.way))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn card(id: &str, place: Option<usize>, after: &[usize]) -> ShownCard {
        ShownCard {
            id: id.into(),
            text: String::new(),
            place,
            after: after.to_vec(),
        }
    }

    #[test]
    fn an_order_counts_what_the_key_asks() {
        let cards = [
            card("b", Some(1), &[1]),
            card("a", Some(0), &[]),
            card("decoy", None, &[]),
        ];
        let share = |numbers: &[Option<usize>]| order(&cards, numbers);
        assert_eq!(share(&[Some(2), Some(1), None]), Share { right: 2, of: 2 });
        assert_eq!(share(&[Some(1), Some(2), None]), Share { right: 1, of: 2 });
        assert_eq!(
            share(&[Some(2), Some(1), Some(3)]),
            Share { right: 1, of: 2 }
        );
        assert_eq!(share(&[None, Some(1), None]), Share { right: 1, of: 3 });
    }
}
