//! A search for the row that fits what was read: each reading is one of the row's words,
//! or lies in the span between two of its figures.

use super::super::ast::{Comparison, Logic};
use super::super::formula::{Of, Part, What};

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
        let own = match (left.uses_candidate(), right.uses_candidate()) {
            (false, true) => left,
            (true, false) if *comparison == Comparison::Is => right,
            _ => return Vec::new(),
        };
        match comparison {
            _ if !is_told(own) => return Vec::new(),
            Comparison::Is => words.push(&**own),
            Comparison::AtLeast | Comparison::AtMost => bounds.push((own, *comparison)),
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

/// What the row differs in from another: the label of the column, where the test asks for
/// that and no more.
pub(super) fn differs_in(test: &Part) -> Option<&str> {
    let What::Compare(Comparison::IsNot, left, right) = &test.what else {
        return None;
    };
    match (&left.what, &right.what) {
        (What::Column(own), What::Column(other)) if own.of != other.of && own.at == other.at => {
            Some(&own.label)
        }
        _ => None,
    }
}

/// Whether it is a name, or a column of the row that a name holds.
fn is_told(part: &Part) -> bool {
    match &part.what {
        What::Name(_) => true,
        What::Column(column) => matches!(column.of, Of::Slot(_)),
        _ => false,
    }
}

fn same(one: &Part, other: &Part) -> bool {
    match (&one.what, &other.what) {
        (What::Name(a), What::Name(b)) => a == b,
        (What::Column(a), What::Column(b)) => a.of == b.of && a.at == b.at,
        _ => false,
    }
}
