//! What is refused as written wrong, whole, and what stays in bounds.

use pumpwright_calc::registry::functions;

use super::fixture::{Bench, refuses};
use super::parse::parse;

#[test]
fn what_is_written_wrong_is_refused() {
    let cases = refuses(include_str!("refusals.txt"), parse);
    assert_eq!(cases, 59, "cases went missing from the file");
}

/// The message alone, for texts too long to print.
fn message(source: &str) -> String {
    parse(source).expect_err("out of bounds").message
}

#[test]
fn length_depth_and_nodes_are_bounded() {
    assert_eq!(
        message(&"a+".repeat(300)),
        "is 600 characters long; a formula has at most 400"
    );
    assert!(parse(&format!("{}a", "1+".repeat(99))).is_ok(), "199 nodes");
    assert_eq!(
        message(&format!("{}a", "1+".repeat(100))),
        "has more than 200 numbers, names and signs"
    );
    let brackets = |deep: usize| format!("{}a{}", "(".repeat(deep), ")".repeat(deep));
    assert!(parse(&brackets(16)).is_ok());
    assert_eq!(message(&brackets(17)), "is more than 16 deep");
}

#[test]
fn bombs_are_refused_before_they_go_off() {
    for opening in [
        "(",
        "-",
        "not ",
        "if ",
        "abs(",
        "if a then ",
        "any r in t where (",
        "f(x=",
        "-(",
    ] {
        let bomb: String = opening.repeat(400).chars().take(400).collect();
        assert!(parse(&bomb).is_err(), "{opening}");
        let shorter: String = bomb.chars().take(395).chain("a".chars()).collect();
        assert!(parse(&shorter).is_err(), "{opening}");
    }
    assert_eq!(message(&"-".repeat(20)), "is more than 16 deep");
}

#[test]
fn figures_take_no_units_calls_or_rows() {
    let bench = Bench::full();
    let says = |source: &str| bench.figures(source).expect_err(source).to_string();
    assert_eq!(
        says("needed / 9 psi"),
        "puts a unit on a bare figure; remedy: write \"9\""
    );
    assert_eq!(
        says("head.from_pressure(needed)"),
        "calls \"head.from_pressure\" among bare figures; remedy: write the sum itself, as in \"2.31 * cut_out\""
    );
    assert_eq!(
        says("first r in copper where r.pair < 1"),
        "picks a row; bare figures give a number"
    );
    assert_eq!(
        says("needed > 3"),
        "gives a yes or no; bare figures give a number"
    );
    assert_eq!(
        says("motor"),
        "gives a row of motors; bare figures give a number"
    );
}

/// A word of the language cannot name an input: a lesson could never give it. Each call is
/// written as a lesson writes it, every input by its name and from a given of that name.
#[test]
fn every_calculation_can_be_called_by_the_names_of_its_inputs() {
    let mut called = 0;
    for function in functions() {
        let inputs: Vec<String> = function
            .inputs
            .iter()
            .map(|port| format!("{0} = {0}", port.name))
            .collect();
        let call = format!("{}({})", function.name, inputs.join(", "));
        let read = parse(&call);
        assert!(read.is_ok(), "{call}: {read:?}");
        called += 1;
    }
    assert!(called > 150, "only {called} calculations");
    assert!(parse("winding.in_series(first = a, other = b)").is_err());
}
