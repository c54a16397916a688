//! Every refusal of a name, a dimension or a kind, whole.

use super::super::fixture::{Bench, refuses};

#[test]
fn what_does_not_hold_is_refused() {
    let bench = Bench::full();
    let cases = refuses(include_str!("refusals.txt"), |source| bench.check(source));
    assert_eq!(cases, 111, "cases went missing from the file");
}
