//! The law that a learner is shown is the sum that is done, in both systems of
//! units; and no value handed in by name, however odd, does harm.

#![cfg(test)]

mod calc_support;

use std::collections::BTreeMap;
use std::fs;

use calc_support::law::evaluate;
use calc_support::points::{Point, points};
use calc_support::units::from_si;
use proptest::prelude::*;
use pumpwright_calc::registry::{Basis, Kind, Law, Value, functions};

/// Rounding alone parts the two.
const TOLERANCE: f64 = 1e-12;

fn recorded() -> Vec<Point> {
    let file = calc_support::tests_folder().join("golden/calc_values.csv");
    points(&fs::read_to_string(file).expect("the recorded values"))
}

fn scaled(point: &Point, factors: [f64; 2]) -> Vec<Value> {
    let alternate = factors.iter().cycle();
    let pairs = point.values.iter().zip(alternate);
    pairs
        .map(|(value, factor)| match value {
            Value::Number(figure) => Value::Number(figure * factor),
            Value::Word(word) => Value::Word(word),
        })
        .collect()
}

/// The law's own answer over the same values, in bare numbers, and the function's.
fn both(point: &Point, values: &[Value], law: &str) -> Option<(f64, f64)> {
    let Ok(Value::Number(value)) = (point.function.call)(point.basis, values) else {
        return None;
    };
    let ports = point.function.inputs.iter().zip(values);
    let letters: BTreeMap<&str, f64> = ports
        .filter_map(|(port, value)| match value {
            Value::Number(figure) => {
                let bare = from_si(*figure, port.unit.of(point.basis)).expect(port.name);
                Some((port.letter, bare))
            }
            Value::Word(_) => None,
        })
        .collect();
    let ours = from_si(value, point.function.gives.unit.of(point.basis)).expect("a unit");
    Some((evaluate(law, &letters), ours))
}

#[test]
fn the_law_shown_is_the_sum_that_is_done() {
    let factors = [
        [1.0, 1.0],
        [0.997, 1.003],
        [1.01, 0.99],
        [1.001, 1.02],
        [1.02, 1.001],
    ];
    let mut laws = 0;
    for point in recorded() {
        let Law::Shown(pair) = point.function.law else {
            continue;
        };
        if point.basis == Basis::Physical {
            continue;
        }
        let law = pair.of(point.basis);
        let mut checked = 0;
        for factors in factors {
            let Some((shown, ours)) = both(&point, &scaled(&point, factors), law) else {
                continue;
            };
            let off = (shown - ours).abs() / ours.abs().max(1.0);
            assert!(
                off <= TOLERANCE,
                "{} {law}: {shown} {ours}",
                point.function.name
            );
            checked += 1;
        }
        assert!(
            checked >= 2,
            "{}: too few points are accepted",
            point.function.name
        );
        laws += 1;
    }
    assert!(laws > 100, "only {laws} laws were tried");
}

/// A law with a changed figure must not pass: the check above can fail.
#[test]
fn another_law_is_told_apart() {
    let points = recorded();
    let point = points
        .iter()
        .find(|point| point.function.name == "head.from_pressure");
    let point = point.expect("the first function");
    let (shown, ours) = both(point, &point.values, "2.310001 * p").expect("a value");
    assert!((shown - ours).abs() / ours > TOLERANCE);
}

#[test]
fn what_is_no_number_is_refused_in_every_place() {
    for point in recorded() {
        for (at, port) in point.function.inputs.iter().enumerate() {
            if matches!(port.kind, Kind::Word(_)) {
                continue;
            }
            for odd in [
                f64::NAN,
                f64::INFINITY,
                f64::NEG_INFINITY,
                f64::MAX,
                f64::MIN,
            ] {
                let mut values = point.values.clone();
                values[at] = Value::Number(odd);
                let given = (point.function.call)(point.basis, &values);
                assert!(
                    given.is_err(),
                    "{} {}: {odd}",
                    point.function.name,
                    port.name
                );
            }
        }
    }
}

#[test]
fn nothing_and_less_than_nothing_give_a_number_or_a_refusal() {
    for point in recorded() {
        for at in 0..point.values.len() {
            for odd in [0.0, -0.0, -1.0, f64::MIN_POSITIVE, -f64::MIN_POSITIVE] {
                let mut values = point.values.clone();
                values[at] = Value::Number(odd);
                if let Ok(Value::Number(given)) = (point.function.call)(point.basis, &values) {
                    assert!(given.is_finite(), "{} {odd}: {given}", point.function.name);
                }
            }
        }
    }
}

fn anything() -> impl Strategy<Value = Value> {
    prop_oneof![
        any::<f64>().prop_map(Value::Number),
        (-1e4..1e6_f64).prop_map(Value::Number),
        (0.0..1.0_f64).prop_map(Value::Number),
        Just(Value::Word("stranded")),
        Just(Value::Word("no such word")),
    ]
}

proptest! {
    #[test]
    fn any_values_at_all_are_answered_or_refused(
        values in prop::collection::vec(anything(), 0..6), basis in 0_usize..3,
    ) {
        let basis = [Basis::UsTrade, Basis::SiTrade, Basis::Physical][basis];
        for function in functions() {
            match (function.call)(basis, &values) {
                Ok(Value::Number(figure)) => prop_assert!(figure.is_finite(), "{}", function.name),
                Ok(Value::Word(word)) => {
                    let Kind::Word(words) = function.gives.kind else {
                        return Err(TestCaseError::fail(function.name));
                    };
                    prop_assert!(words.contains(&word));
                }
                Err(refusal) => prop_assert!(!refusal.to_string().is_empty()),
            }
        }
    }
}
