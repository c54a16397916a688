//! House rules, what varies and the sources of one sheet, as text to read.

use pumpwright_engine::lessons::Rule;
use pumpwright_engine::problems::Problem;

use crate::page::{Cell, Entry, Role};
use crate::reading::Reading;
use crate::words;

/// The house rules and sources of a problem.
pub fn reading(problem: &Problem, rules: &[Rule]) -> Reading {
    let mut lines = Vec::new();
    let used = problem.variant.rules_used.iter().filter_map(|&slot| {
        let rule = rules.get(slot)?;
        let value = problem.values.get(slot)?.as_ref()?;
        Some((
            rule,
            rule.choices.iter().find(|choice| choice.value == *value)?,
        ))
    });
    for (rule, choice) in used {
        lines.push(Entry::heading(format!(
            "House rule {}: {}",
            rule.name, choice.text
        )));
        lines.push(indented(words::sentence(&rule.label)));
        lines.push(indented(words::sentence(&rule.why)));
        lines.push(indented(format!(
            "Source: {}",
            words::sentence(&rule.source)
        )));
        lines.push(Entry::gap());
    }
    if lines.is_empty() {
        lines.push(Entry::text(
            Role::Text,
            "No house rule decides anything on this sheet.",
        ));
        lines.push(Entry::gap());
    }
    if let Some(varies) = words::varies(problem) {
        lines.push(Entry::heading("What varies"));
        lines.push(indented(varies));
        lines.push(Entry::gap());
    }
    lines.push(Entry::heading("Sources of this sheet"));
    lines.extend(
        problem
            .family
            .sources
            .iter()
            .map(|source| indented(words::sentence(source))),
    );
    if problem.training {
        lines.push(indented(words::TRAINING.to_owned()));
    }
    Reading::new("HOUSE RULES AND SOURCES", &words::family(problem), lines)
}

fn indented(text: String) -> Entry {
    Entry::of(
        Role::Text,
        vec![Cell::columns("", 2), Cell::rest(text).hang(2)],
    )
}
