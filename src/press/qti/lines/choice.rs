//! A line that is answered by picking: one of its offers, or a row of a table.

use pumpwright_engine::marking::row_offers;
use pumpwright_engine::problems::{Line, Offer, Problem};

use super::super::rules::{name, number, set, variable, when, written};
use super::super::xml::{Element, element};
use super::{Lines, head, mistakes, response, score, tell};

/// What is offered: its identifier and its text.
struct Offered {
    id: String,
    text: String,
    right: bool,
    /// The mistakes that lead to it, by the names under which they are told.
    turns: Vec<String>,
}

/// A line with offers.
pub fn pick(
    problem: &Problem,
    place: usize,
    line: &Line,
    (offers, key): (&[Offer], usize),
    lines: &mut Lines,
) {
    let known = mistakes(problem, line);
    let offered = offers.iter().enumerate().map(|(at, offer)| Offered {
        id: format!("offer-{}", offer.mark),
        text: offer.text.clone(),
        right: at == key,
        turns: known
            .iter()
            .filter(|(_, live)| {
                live.value.as_ref() == Some(&offer.value) || live.text == offer.text
            })
            .map(|(turn, _)| turn.clone())
            .collect(),
    });
    choice(place, line, &offered.collect::<Vec<_>>(), lines);
}

/// A line that asks a row: elsewhere nobody reads names as they are typed, so the rows
/// stand there to be picked.
pub fn row(problem: &Problem, place: usize, line: &Line, lines: &mut Lines) {
    let rows = row_offers(problem, line).into_iter().enumerate();
    let offered = rows.map(|(at, row)| Offered {
        id: format!("row-{}", at + 1),
        text: row.name,
        right: row.right,
        turns: row
            .mistakes
            .iter()
            .map(|at| format!("turn-{}", at + 1))
            .collect(),
    });
    choice(place, line, &offered.collect::<Vec<_>>(), lines);
}

fn choice(place: usize, line: &Line, offered: &[Offered], lines: &mut Lines) {
    let id = response(place);
    let right = offered.iter().filter(|offer| offer.right);
    let values = right.map(|offer| element("qti-value").text(&offer.id));
    lines.responses.push(
        element("qti-response-declaration")
            .with("identifier", id.as_str())
            .with("cardinality", "single")
            .with("base-type", "identifier")
            .put(element("qti-correct-response").all(values)),
    );
    let choices = offered.iter().map(|offer| {
        element("qti-simple-choice")
            .with("identifier", offer.id.as_str())
            .text(&offer.text)
    });
    lines.body.push(
        element("qti-choice-interaction")
            .with("response-identifier", id.as_str())
            .with("shuffle", "false")
            .with("max-choices", "1")
            .put(element("qti-prompt").text(head(place, line)))
            .all(choices),
    );
    let full = set(&score(place), number(f64::from(line.marks)));
    lines.rules.push(when(self::right(place), [full]));
    let wrong = offered.iter().filter(|offer| !offer.right);
    for offer in wrong {
        if let Some(turn) = offer.turns.first() {
            let picked = element("qti-match").put(variable(&id)).put(name(&offer.id));
            lines
                .rules
                .push(tell(place, turn, vec![written(&id), picked]));
        }
    }
}

/// Whether the right one was picked.
pub fn right(place: usize) -> Element {
    let id = response(place);
    let key = element("qti-correct").with("identifier", id.as_str());
    element("qti-match").put(variable(&id)).put(key)
}
