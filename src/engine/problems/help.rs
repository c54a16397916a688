//! Help on a line, in four steps: the principle, the formula, the formula with
//! its numbers, the step itself.

use super::problem::{Asks, Problem};
use super::working::{WorkedLine, working};

/// One step of help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Help {
    /// What kind of help it is: `principle`, `formula`, `with numbers`, `the step`;
    /// of an arrangement, what of it is told.
    pub name: &'static str,
    /// The help, a line each.
    pub text: Vec<String>,
}

/// The four steps of help on a line, by its place among the problem's lines.
pub fn help(problem: &Problem, line: usize) -> Vec<Help> {
    let Some(line) = problem.lines.get(line) else {
        return Vec::new();
    };
    let worked = working(problem)
        .into_iter()
        .find(|worked| worked.id == line.id);
    let Some(worked) = worked else {
        return Vec::new();
    };
    let (formula, numbers, step) = match &line.asks {
        Asks::Order { cards } => {
            let mut right: Vec<(usize, &str)> = cards
                .iter()
                .filter_map(|card| card.place.map(|place| (place, card.text.as_str())))
                .collect();
            right.sort_unstable();
            let text = |at: Option<&(usize, &str)>| {
                at.map_or_else(String::new, |(_, text)| (*text).to_owned())
            };
            let outside = cards.iter().filter(|card| card.place.is_none()).count();
            (
                vec![format!("First comes: {}", text(right.first()))],
                vec![format!(
                    "Last comes: {}. To be left out: {outside}.",
                    text(right.last())
                )],
                right
                    .iter()
                    .map(|(place, text)| format!("{} {text}", place + 1))
                    .collect(),
            )
        }
        Asks::Match { parts, meanings } => {
            let pair = |(part, key): &(String, usize)| {
                let meaning = meanings.get(*key).map_or("", |offer| offer.text.as_str());
                format!("{part}: {meaning}")
            };
            (
                parts.iter().take(1).map(pair).collect(),
                parts.iter().take(2).map(pair).collect(),
                parts.iter().map(pair).collect(),
            )
        }
        Asks::Row if worked.sums == worked.numbers => search_help(&worked),
        _ => formula_help(&worked),
    };
    let principle = vec![worked.says.clone()];
    let names = match &line.asks {
        Asks::Order { .. } => ["principle", "the first", "the last", "the order"],
        Asks::Match { .. } => ["principle", "one pair", "two pairs", "all pairs"],
        _ => ["principle", "formula", "with numbers", "the step"],
    };
    let texts = [principle, formula, numbers, step];
    names
        .into_iter()
        .zip(texts)
        .map(|(name, text)| Help { name, text })
        .collect()
}

fn formula_help(worked: &WorkedLine) -> (Vec<String>, Vec<String>, Vec<String>) {
    let lead = |texts: &[String]| -> Vec<String> {
        texts.iter().map(|text| format!("= {text}")).collect()
    };
    (in_words(worked), lead(&worked.sums), lead(&worked.numbers))
}

/// A search is told row by row. The row that passes is the step itself, so the
/// numbers stop before it.
fn search_help(worked: &WorkedLine) -> (Vec<String>, Vec<String>, Vec<String>) {
    let numbers = match worked.numbers.split_last() {
        Some((_, before)) if !before.is_empty() => before.to_vec(),
        _ => vec!["No row fails before the right one.".to_owned()],
    };
    (in_words(worked), numbers, worked.numbers.clone())
}

fn in_words(worked: &WorkedLine) -> Vec<String> {
    let words = worked.words.iter();
    words
        .map(|words| format!("{} = {words}", worked.label))
        .collect()
}

/// The keys of a line, each behind a word that says so.
pub fn pressed(worked: &WorkedLine) -> Vec<String> {
    worked
        .keys
        .iter()
        .map(|keys| format!("keys: {keys}"))
        .collect()
}
