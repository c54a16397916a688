//! What a learner is shown is what is computed: the law of every calculation
//! against the calculation itself, in both systems.

use pumpwright_calc::registry::{Function, Kind, Law, Port, Value as CalcValue, functions};

use super::*;
use crate::formulas::same;
use crate::quantities::Unit;

/// Points that a calculation must accept before its law counts as proved, and
/// the points after which that is enough.
const FEWEST: usize = 20;
const ENOUGH: usize = 200;
const TRIES: usize = 100_000;

/// A plain generator of 64-bit numbers (splitmix64, Steele, Lea and Flood 2014,
/// from memory): the same points on every run.
struct Points(u64);

impl Points {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (bits ^ (bits >> 31)) as f64 / u64::MAX as f64
    }

    /// A figure from a thousandth to ten thousand, each decade as likely.
    fn figure(&mut self) -> f64 {
        libm::pow(10.0, self.next() * 7.0 - 3.0)
    }
}

/// The unit in which a law has a port: none for a plain number.
fn unit(port: &Port, basis: Basis) -> Option<Unit> {
    let written = port.unit.of(basis);
    (!written.is_empty()).then(|| Unit::parse(written).expect(written))
}

/// An argument and, for the law, its figure.
fn argument(port: &Port, basis: Basis, points: &mut Points) -> (CalcValue, Option<f64>) {
    if let Kind::Word(words) = port.kind {
        let at = (points.next() * words.len() as f64) as usize;
        return (CalcValue::Word(words[at.min(words.len() - 1)]), None);
    }
    let figure = points.figure();
    let si = unit(port, basis).map_or(figure, |unit| unit.to_si(figure));
    (CalcValue::Number(si), Some(figure))
}

/// At how many points law and function were found the same.
fn proved(function: &Function, law: &str, basis: Basis) -> usize {
    let mut points = Points(7);
    let mut accepted = 0;
    for _ in 0..TRIES {
        let drawn: Vec<_> = function
            .inputs
            .iter()
            .map(|port| argument(port, basis, &mut points))
            .collect();
        let arguments: Vec<_> = drawn.iter().map(|(argument, _)| *argument).collect();
        let Ok(CalcValue::Number(si)) = (function.call)(basis, &arguments) else {
            continue;
        };
        let letters = function.inputs.iter().zip(&drawn);
        let letters: Vec<_> = letters
            .filter_map(|(port, (_, figure))| Some((port.letter, (*figure)?)))
            .collect();
        let shown = evaluate_law(law, &letters).unwrap_or_else(|fault| panic!("{law}: {fault}"));
        let computed = unit(&function.gives, basis).map_or(si, |unit| unit.from_si(si));
        assert!(
            same(shown, computed),
            "{} in {basis:?} at {letters:?}: the law {law} gives {shown}, the function {computed}",
            function.name
        );
        accepted += 1;
        if accepted == ENOUGH {
            break;
        }
    }
    accepted
}

#[test]
fn every_law_shown_is_the_function() {
    let mut laws = 0;
    for function in functions() {
        let Law::Shown(pair) = function.law else {
            continue;
        };
        for basis in [Basis::UsTrade, Basis::SiTrade] {
            let accepted = proved(function, pair.of(basis), basis);
            assert!(
                accepted >= FEWEST,
                "{} took only {accepted} points",
                function.name
            );
            laws += 1;
        }
    }
    assert!(laws >= 40, "only {laws} laws were there to prove");
}

#[test]
fn a_law_that_differs_is_found() {
    let function = pumpwright_calc::registry::find("head.from_pressure").expect("there");
    let differs = std::panic::catch_unwind(|| proved(function, "2.311 * p", Basis::UsTrade));
    assert!(differs.is_err());
}

#[test]
fn a_law_is_plain_arithmetic_over_its_letters() {
    let letters = [("L", 2.0), ("Q", 3.0), ("C", 1.0), ("d", 4.0)];
    let head = evaluate_law("10.46 * L * (Q / C)^2 / d", &letters).expect("a law");
    assert!(same(head, 10.46 * 2.0 * 9.0 / 4.0), "{head}");
    let says = |law: &str| evaluate_law(law, &[("p", 0.0)]).expect_err(law).to_string();
    assert_eq!(
        says("2.31 * q"),
        "uses \"q\", which this problem does not have; it has: p"
    );
    assert_eq!(
        says("2 psi * p"),
        "puts a unit on a bare figure; remedy: write \"2\""
    );
    assert_eq!(says("1 / p"), "the result is not a finite figure");
    assert_eq!(
        says("p > 1"),
        "gives a yes or no; bare figures give a number"
    );
}
