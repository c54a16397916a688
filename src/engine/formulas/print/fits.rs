//! A search for the row that fits what was read: each reading is one of the row's words,
//! or lies in the span between two of its figures.

use super::super::ast::{Comparison, Logic};
use super::super::formula::{Part, What};

/// The readings that the row must fit, in order; none where the search asks for more than
/// that.
pub(super) fn readings(test: &Part) -> Vec<&Part> {
    let mut conditions = Vec::new();
    flatten(test, &mut conditions);
    let mut words = Vec::new();
    let mut bounds: Vec<(&Part, Comparison)> = Vec::new();
    for condition in conditions {
        let What::Compare(comparison, left, right) = &condition.what else {
            return Vec::new();
        };
        if left.uses_candidate() || !right.uses_candidate() || !is_name(left) {
            return Vec::new();
        }
        match comparison {
            Comparison::Is => words.push(&**left),
            Comparison::AtLeast | Comparison::AtMost => bounds.push((left, *comparison)),
            _ => return Vec::new(),
        }
    }
    let mut spans: Vec<&Part> = Vec::new();
    for (reading, comparison) in &bounds {
        let other = |(part, way): &&(&Part, Comparison)| same(part, reading) && way != comparison;
        if !bounds.iter().any(|bound| other(&bound)) {
            return Vec::new();
        }
        if !spans.iter().any(|span| same(span, reading)) {
            spans.push(reading);
        }
    }
    words.extend(spans);
    words
}

/// The conditions that must all hold, in order.
pub(super) fn flatten<'a>(test: &'a Part, out: &mut Vec<&'a Part>) {
    match &test.what {
        What::Logic(Logic::And, left, right) => {
            flatten(left, out);
            flatten(right, out);
        }
        _ => out.push(test),
    }
}

fn is_name(part: &Part) -> bool {
    matches!(part.what, What::Name(_))
}

fn same(one: &Part, other: &Part) -> bool {
    matches!((&one.what, &other.what), (What::Name(a), What::Name(b)) if a == b)
}
