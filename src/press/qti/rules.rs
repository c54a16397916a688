//! The words of response processing: variables, comparisons, what is set when.

use pumpwright_engine::marking::Span;

use super::xml::{Element, element};

/// The value of a variable.
pub fn variable(id: &str) -> Element {
    element("qti-variable").with("identifier", id)
}

/// A figure.
pub fn number(value: f64) -> Element {
    base("float", figure(value))
}

/// A figure as it is written: never with a power of ten.
pub fn figure(value: f64) -> String {
    // Minus nothing is nothing.
    (value + 0.0).to_string()
}

/// A name.
pub fn name(id: &str) -> Element {
    base("identifier", id.to_owned())
}

fn base(kind: &'static str, value: String) -> Element {
    element("qti-base-value")
        .with("base-type", kind)
        .text(value)
}

/// What an outcome has before anything is marked.
pub fn default_number(value: f64) -> Element {
    element("qti-default-value").put(element("qti-value").text(figure(value)))
}

/// Whether all of these hold.
pub fn and(tests: impl IntoIterator<Item = Element>) -> Element {
    element("qti-and").all(tests)
}

/// Whether nothing was written.
pub fn empty(id: &str) -> Element {
    element("qti-is-null").put(variable(id))
}

/// Whether something was written.
pub fn written(id: &str) -> Element {
    element("qti-not").put(empty(id))
}

/// Whether the first is at least the second.
pub fn at_least(left: Element, right: Element) -> Element {
    element("qti-gte").put(left).put(right)
}

/// Whether the first is at most the second.
pub fn at_most(left: Element, right: Element) -> Element {
    element("qti-lte").put(left).put(right)
}

/// Whether the first is more than the second.
pub fn above(left: Element, right: Element) -> Element {
    element("qti-gt").put(left).put(right)
}

/// The whole part of a figure.
pub fn whole(of: Element) -> Element {
    element("qti-truncate").put(of)
}

/// The tests that a figure is written and lies in a span, both ends in it. Without the
/// guard nothing written would count as zero.
pub fn within(id: &str, span: Span) -> Vec<Element> {
    vec![
        written(id),
        at_least(variable(id), number(span.from)),
        at_most(variable(id), number(span.to)),
    ]
}

/// Whether the answers were handed in, and not a hint asked for.
pub fn handed_in() -> Element {
    above(variable("numAttempts"), base("integer", "0".to_owned()))
}

/// Sets an outcome.
pub fn set(id: &str, value: Element) -> Element {
    element("qti-set-outcome-value")
        .with("identifier", id)
        .put(value)
}

/// Does something where a test holds.
pub fn when(test: Element, then: impl IntoIterator<Item = Element>) -> Element {
    let branch = element("qti-response-if").put(test).all(then);
    element("qti-response-condition").put(branch)
}

/// The sum of outcomes.
pub fn sum<'a>(ids: impl IntoIterator<Item = &'a str>) -> Element {
    element("qti-sum").all(ids.into_iter().map(variable))
}
