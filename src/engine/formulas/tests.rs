//! What is refused as written wrong, whole, and what stays in bounds.

use super::fixture::Bench;
use super::parse::parse;

/// Of each formula: what its refusal points at, and all that it says.
fn refuses(cases: &[(&str, &str, &str)]) {
    for (source, at, says) in cases {
        let fault = parse(source).expect_err(source);
        let pointed = source.get(fault.span.clone()).unwrap_or("no part of it");
        assert_eq!(
            (pointed, fault.to_string().as_str()),
            (*at, *says),
            "{source}"
        );
    }
}

#[test]
fn what_is_left_over_or_missing() {
    refuses(&[
        ("", "", "is empty"),
        ("1 +", "", "ends where a number or a name is wanted"),
        (
            "+1",
            "+",
            "has \"+\" where a number or a name is wanted; remedy: leave the plus sign out",
        ),
        (
            "a b",
            "b",
            "has \"b\" after its end; remedy: put a sign between the two, as in \"a * b\"",
        ),
        (
            "a 2",
            "2",
            "has \"2\" after its end; remedy: put a sign between the two, as in \"a * b\"",
        ),
        (
            "2 \"x\"",
            "\"x\"",
            "has \"x\" after its end; remedy: put a sign between the two, as in \"a * b\"",
        ),
    ]);
}

#[test]
fn signs_that_people_write_elsewhere() {
    refuses(&[
        (
            "a = b",
            "=",
            "has \"=\" after its end; remedy: to compare write \"is\", \"<=\" or \">=\"",
        ),
        ("a == b", "==", "has \"==\"; remedy: write \"is\""),
        ("a != b", "!=", "has \"!=\"; remedy: write \"is not\""),
        ("a × b", "×", "has \"×\"; remedy: write \"*\""),
        ("a ÷ b", "÷", "has \"÷\"; remedy: write \"/\""),
        ("a − 1", "−", "has \"−\"; remedy: write \"-\""),
        ("a ≤ b", "≤", "has \"≤\"; remedy: write \"<=\""),
        ("!a", "!", "has \"!\"; remedy: write \"not\""),
        ("a && b", "&&", "has \"&&\"; remedy: write \"and\""),
        ("a # b", "#", "has \"#\", which means nothing here"),
    ]);
}

#[test]
fn comparisons_and_powers_in_a_row() {
    refuses(&[
        (
            "a < b < c",
            "<",
            "compares twice in a row; remedy: join two comparisons, as in \"a < b and b < c\"",
        ),
        (
            "a is b is c",
            "is",
            "compares twice in a row; remedy: join two comparisons, as in \"a < b and b < c\"",
        ),
        (
            "x^2^3",
            "^",
            "raises a power to a power; remedy: put the first in brackets, as in \"(x^2)^3\"",
        ),
        (
            "x^y",
            "y",
            "has \"y\" where a number is wanted; remedy: write the power as a number, as in \"x^2\" or \"x^1.852\"",
        ),
        (
            "x^(2)",
            "(",
            "has \"(\" where a number is wanted; remedy: write the power as a number, as in \"x^2\" or \"x^1.852\"",
        ),
        (
            "x^2 ft",
            "ft",
            "has a power with the unit \"ft\"; remedy: a power is a plain number",
        ),
        (
            "x^-",
            "",
            "ends where a number is wanted; remedy: write the power as a number, as in \"x^2\" or \"x^1.852\"",
        ),
    ]);
}

#[test]
fn names_and_numbers_written_otherwise() {
    refuses(&[
        (
            "Flow",
            "Flow",
            "writes \"Flow\" in other letters; remedy: write \"flow\"",
        ),
        (
            "é",
            "é",
            "writes \"é\" in other letters; remedy: names have the lower-case letters a to z, digits and _",
        ),
        (
            "5%",
            "%",
            "runs \"5\" and \"%\" together; remedy: write \"5 %\"",
        ),
        (
            "2in",
            "in",
            "runs \"2\" and \"in\" together; remedy: write \"2 in\"",
        ),
        (
            "1e5",
            "e5",
            "writes \"1e5\" with a power of ten; remedy: write the number out, as in \"100000\"",
        ),
        (
            "5.",
            "5.",
            "has a number that ends in a point; remedy: write \"5\"",
        ),
        (
            ".5",
            ".5",
            "has a number that begins with a point; remedy: write \"0.5\"",
        ),
        (
            "1,000",
            ",",
            "has \",\" after its end; remedy: write numbers without commas",
        ),
        (
            "%",
            "%",
            "has a unit that follows no number; remedy: write the unit after a number, as in \"5 %\"",
        ),
        (
            "\"open",
            "\"open",
            "opens a word and does not close it; remedy: end the word with \"",
        ),
    ]);
}

#[test]
fn brackets_that_do_not_close() {
    refuses(&[
        ("(a", "", "ends where \")\" is wanted"),
        (
            "a)",
            ")",
            "has \")\" after its end; remedy: take the bracket away, or open one before it",
        ),
        ("()", ")", "has \")\" where a number or a name is wanted"),
        ("f(a", "", "ends where \")\" is wanted"),
        ("f(a,)", ")", "has \")\" where a number or a name is wanted"),
        ("f(,a)", ",", "has \",\" where a number or a name is wanted"),
        ("f(a b)", "b", "has \"b\" where \")\" is wanted"),
    ]);
}

#[test]
fn searches_written_otherwise() {
    refuses(&[
        (
            "first r in t",
            "",
            "ends where \"where\" is wanted; remedy: write it as in 'first r in copper where r.ampacity >= 20 A'",
        ),
        (
            "first r t where a",
            "t",
            "has \"t\" where \"in\" is wanted; remedy: write it as in 'first r in copper where r.ampacity >= 20 A'",
        ),
        (
            "first in t where a",
            "in",
            "has \"in\" where a name for the row is wanted; remedy: write it as in 'first r in copper where r.ampacity >= 20 A'",
        ),
        (
            "first r.x in t where a",
            "r.x",
            "names the row \"r.x\"; remedy: take a name without dots",
        ),
        (
            "first r in \"t\" where a",
            "\"t\"",
            "has \"t\" where a table or a set is wanted; remedy: write it as in 'first r in copper where r.ampacity >= 20 A'",
        ),
        (
            "1 + first r in t where a",
            "first",
            "has \"first\" where a number or a name is wanted; remedy: let the search be a step of its own, and use its name here",
        ),
        (
            "first r in t where first q in u where b",
            "first",
            "has \"first\" where a number or a name is wanted; remedy: let the search be a step of its own, and use its name here",
        ),
        (
            "any r in t where a",
            "a",
            "has \"a\" where \"(\" is wanted; remedy: put the condition in brackets, as in 'any r in t where (r.flow > 5 gpm)'",
        ),
        ("any r in t where (a", "", "ends where \")\" is wanted"),
    ]);
}

#[test]
fn branches_and_conditions_out_of_place() {
    refuses(&[
        (
            "if a then b",
            "",
            "ends where \"else\" is wanted; remedy: write it as in 'if a > b then a else b'",
        ),
        (
            "if a b else c",
            "b",
            "has \"b\" where \"then\" is wanted; remedy: write it as in 'if a > b then a else b'",
        ),
        (
            "1 + if a then b else c",
            "if",
            "has \"if\" where a number or a name is wanted; remedy: put the branch in brackets",
        ),
        (
            "a + not b",
            "not",
            "has \"not\" where a number or a name is wanted; remedy: put the condition in brackets",
        ),
        (
            "then",
            "then",
            "has \"then\" where a number or a name is wanted; remedy: \"then\" is a word of the language; a name needs another",
        ),
        ("a and", "", "ends where a number or a name is wanted"),
        ("not", "", "ends where a number or a name is wanted"),
        ("2 * -", "", "ends where a number or a name is wanted"),
        ("a..b", ".", "has \".\", which means nothing here"),
        (
            "a.2",
            ".2",
            "has a number that begins with a point; remedy: write \"0.2\"",
        ),
    ]);
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
