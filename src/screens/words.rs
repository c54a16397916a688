//! Sentences that the terminal and the plain lines share, so that they cannot
//! drift apart; and the one place that takes them out of a problem.

use pumpwright_engine::lessons::paragraphs;
use pumpwright_engine::marking::{MarkedLine, Marks, Turn, Verdict};
pub use pumpwright_engine::problems::TRAINING;
use pumpwright_engine::problems::{Asks, Line, Problem, RuleLine};
use pumpwright_engine::quantities::System;

use crate::theme::Sign;

/// What becomes of the marks when the program stops.
/// What the end says where the record is kept.
pub const KEPT: &str = "Kept in the logbook.";

pub const NOT_KEPT: &str = "Nothing of it is kept after the stop.";

/// The title of the job.
pub fn title(problem: &Problem) -> &str {
    &problem.family.title
}

/// The family and the level.
pub fn family(problem: &Problem) -> String {
    format!("{}, level {}", problem.family.id, problem.variant.level)
}

/// The system of units.
pub fn units(problem: &Problem) -> &'static str {
    match problem.variant.system {
        System::Us => "US",
        System::Si => "SI",
    }
}

/// The caution, where the work can hurt.
pub fn caution(problem: &Problem) -> Option<String> {
    filled(problem.caution())
}

/// What varies from place to place.
pub fn varies(problem: &Problem) -> Option<String> {
    filled(problem.varies())
}

/// What the answer is good for.
pub fn on_the_job(problem: &Problem) -> Option<String> {
    filled(problem.on_the_job())
}

fn filled(text: Option<String>) -> Option<String> {
    Some(paragraphs(&text?).join(" ")).filter(|text| !text.is_empty())
}

/// A house rule as the sheet prints it.
pub fn rule(rule: &RuleLine) -> String {
    format!("House rule: {}.", rule.text.trim_end_matches('.'))
}

/// The unit beside a blank; of a row of a table, that of the figure it goes by.
pub fn unit(problem: &Problem, line: &Line) -> String {
    let table = problem.variant.row_tables.get(&line.step);
    let table = table.filter(|_| line.asks == Asks::Row);
    let key = table.and_then(|table| table.columns.get(table.key)?.unit.as_ref());
    let unit = line.unit.as_ref().or(key);
    unit.map(|unit| unit.symbol().to_owned())
        .unwrap_or_default()
}

/// How the answer is to be written, beside the blank.
pub fn form(problem: &Problem, line: &Line) -> String {
    if line.asks == Asks::Row && line.form.is_empty() && unit(problem, line).is_empty() {
        return "as in the table: @".to_owned();
    }
    line.form.clone()
}

/// Numbers as a list: `7 and 8`, `5, 7 and 8`.
pub fn listed(numbers: &[usize]) -> String {
    let texts: Vec<String> = numbers.iter().map(usize::to_string).collect();
    match texts.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}

/// So many marks, in words.
pub fn marks(marks: Marks) -> String {
    if marks == Marks::whole(1) {
        "1 mark".into()
    } else {
        format!("{marks} marks")
    }
}

/// So many of what it is, in words.
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// Words as a sentence: with a capital and one full stop.
pub fn sentence(words: &str) -> String {
    let mut signs = words.trim().trim_end_matches('.').chars();
    let first = signs.next().map(char::to_uppercase).into_iter().flatten();
    let body: String = first.chain(signs).collect();
    let ended = body.ends_with(['?', '!', '"']) || body.is_empty();
    if ended { body } else { body + "." }
}

/// A paragraph sentence by sentence. A full stop ends one where a blank and a
/// capital follow.
pub fn sentences(paragraph: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, end) in paragraph.match_indices(['.', '?', '!']) {
        let rest = &paragraph[at + end.len()..];
        let next = rest.strip_prefix(' ').and_then(|rest| rest.chars().next());
        if next.is_some_and(char::is_uppercase) {
            found.push(paragraph[start..at + end.len()].trim());
            start = at + end.len();
        }
    }
    found.push(paragraph[start..].trim());
    found.retain(|sentence| !sentence.is_empty());
    found
}

/// The sign that repeats a verdict.
pub const fn sign(verdict: &Verdict) -> Sign {
    match verdict {
        Verdict::Right | Verdict::Carried { .. } => Sign::Right,
        Verdict::Follows { .. } => Sign::Follows,
        Verdict::UnitOfWrongKind | Verdict::PartRight => Sign::Half,
        Verdict::NotWritten => Sign::NotWritten,
        _ => Sign::Look,
    }
}

/// The verdict with the word that its sign repeats, and the help that was given.
pub fn verdict(line: &MarkedLine, helped: usize) -> String {
    let mut words = line.words.clone();
    let spoken = sign(&line.verdict).words();
    let stands = spoken.iter().any(|word| words.contains(word));
    if let Some(first) = spoken.first().filter(|_| !stands) {
        words = format!("{first}: {words}");
    }
    match helped {
        0 => words,
        crate::slip::STEPS => format!("{words}, shown"),
        _ => format!("{words}, with help"),
    }
}

/// What a line goes by, where nothing else is known of a mistake in it.
pub fn principle<'p>(problem: &'p Problem, id: &str) -> Option<&'p str> {
    let line = problem.lines.iter().find(|line| line.id == id)?;
    Some(line.says.as_str()).filter(|says| !says.is_empty())
}

/// What was written, as it was read.
pub fn written(line: &MarkedLine) -> &str {
    line.read_as.as_deref().unwrap_or(&line.typed)
}

/// A likely turn in the apprentice's own voice.
pub fn turn(turn: &Turn) -> String {
    format!("\"{}\"", turn.did)
}

/// Words to look at.
pub fn look(turn: &Turn) -> Option<String> {
    turn.look
        .as_ref()
        .map(|look| format!("Look at {}", look.trim_start_matches("Look at ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paragraph_falls_into_its_sentences() {
        let text = "The set is 2.5 ft up. It runs. Why? A 1.5 hp motor.";
        assert_eq!(
            sentences(text),
            [
                "The set is 2.5 ft up.",
                "It runs.",
                "Why?",
                "A 1.5 hp motor."
            ]
        );
    }

    #[test]
    fn numbers_are_listed_as_people_say_them() {
        assert_eq!(listed(&[]), "");
        assert_eq!(listed(&[7]), "7");
        assert_eq!(listed(&[5, 7, 8]), "5, 7 and 8");
    }
}
