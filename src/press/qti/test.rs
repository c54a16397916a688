//! The test that holds the items. Its total is written, too; where it is not worked out,
//! the items' own points stand.

use super::item::{Item, SPACE};
use super::rules::{default_number, set};
use super::xml::{Element, element};

/// Where it lies.
pub const PATH: &str = "test.xml";

/// The test.
pub fn test(title: &str, items: &[Item]) -> Element {
    let refs = items.iter().map(|item| {
        element("qti-assessment-item-ref")
            .with("identifier", item.id.as_str())
            .with("href", item.path())
    });
    let section = element("qti-assessment-section")
        .with("identifier", "problems")
        .with("title", "Problems")
        .with("visible", "true")
        .all(refs);
    let control = element("qti-item-session-control")
        .with("max-attempts", "1")
        .with("show-feedback", "true");
    let part = element("qti-test-part")
        .with("identifier", "part-1")
        .with("navigation-mode", "nonlinear")
        .with("submission-mode", "individual")
        .put(control)
        .put(section);
    let points = element("qti-test-variables").with("variable-identifier", "SCORE");
    let total = set("SCORE", element("qti-sum").put(points));
    let outcome = element("qti-outcome-declaration")
        .with("identifier", "SCORE")
        .with("cardinality", "single")
        .with("base-type", "float")
        .put(default_number(0.0));
    element("qti-assessment-test")
        .with("xmlns", SPACE)
        .with("identifier", "paper")
        .with("title", title)
        .with("tool-name", "pumpwright")
        .put(outcome)
        .put(part)
        .put(element("qti-outcome-processing").put(total))
}
