//! The list of functions by name: parameters with their dimensions, the law as
//! it is shown, source and range. One entry beside each other, so that a
//! function is described once for the formula language, the command line and
//! the reference page.

use crate::bounds::Refusal;
use crate::dimension::Dimension;

/// Which constants a law takes: the trade's figures, or physical ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Basis {
    /// The trade's figures in feet, psi, gallons.
    UsTrade,
    /// The trade's figures in metres, kilopascals, litres.
    SiTrade,
    /// Physical constants; no trade figure.
    Physical,
}

/// One string for each unit system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pair {
    /// In feet, psi, gallons.
    pub us: &'static str,
    /// In metres, kilopascals, litres.
    pub si: &'static str,
}

impl Pair {
    /// The same string in both systems.
    pub const fn both(text: &'static str) -> Self {
        Self { us: text, si: text }
    }

    /// The string of the system that a basis belongs to; physical reads as SI.
    pub const fn of(self, basis: Basis) -> &'static str {
        match basis {
            Basis::UsTrade => self.us,
            Basis::SiTrade | Basis::Physical => self.si,
        }
    }
}

/// What kind of thing goes in or comes out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A quantity of this dimension.
    Quantity(Dimension),
    /// A temperature: a point on a scale, in kelvin.
    Temperature,
    /// One of these words.
    Word(&'static [&'static str]),
}

/// A parameter or a result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Port {
    /// Name by which formulas and the command line give it; lower case.
    pub name: &'static str,
    /// The letter that stands for it in the law.
    pub letter: &'static str,
    /// What it is, in words.
    pub label: &'static str,
    /// Its kind.
    pub kind: Kind,
    /// The unit in which the law takes it, by system; empty for words.
    pub unit: Pair,
}

/// The law as a learner sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// A formula over the letters, with bare numbers in the stated units.
    Shown(Pair),
    /// A law that no single line holds, by its name.
    Named(&'static str),
}

/// A value handed in or out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    /// A quantity in coherent SI units; a temperature in kelvin.
    Number(f64),
    /// One of the words of a [`Kind::Word`].
    Word(&'static str),
}

/// One function as others call it.
#[derive(Debug, Clone, Copy)]
pub struct Function {
    /// Subject and name, as in `head.from_pressure`.
    pub name: &'static str,
    /// What it gives, in a few words.
    pub title: &'static str,
    /// Parameters, in order.
    pub inputs: &'static [Port],
    /// The result.
    pub gives: Port,
    /// The law shown.
    pub law: Law,
    /// Where it holds.
    pub valid: &'static str,
    /// Who published it, or "common practice, no source".
    pub source: &'static str,
    /// The caution that goes with the figure, where it could hurt someone.
    pub caution: Option<&'static str>,
    /// Raised whenever a value that it gives changes.
    pub edition: u16,
    /// The function itself: arguments in the order of `inputs`, each of its kind.
    pub call: fn(Basis, &[Value]) -> Result<Value, Refusal>,
}

/// Every function, in the order of the subjects.
pub fn functions() -> impl Iterator<Item = &'static Function> {
    [
        crate::head::FUNCTIONS,
        crate::pressure::FUNCTIONS,
        crate::water::FUNCTIONS,
        crate::friction::FUNCTIONS,
        crate::velocity::FUNCTIONS,
        crate::darcy::FUNCTIONS,
        crate::fittings::FUNCTIONS,
        crate::allowance::FUNCTIONS,
        crate::demand::FUNCTIONS,
        crate::well::FUNCTIONS,
        crate::step_test::FUNCTIONS,
        crate::aquifer::FUNCTIONS,
        crate::interference::FUNCTIONS,
        crate::jacob::FUNCTIONS,
        crate::casing::FUNCTIONS,
        crate::grout::FUNCTIONS,
        crate::cooling::FUNCTIONS,
        crate::chlorine::FUNCTIONS,
        crate::siting::FUNCTIONS,
        crate::pump::FUNCTIONS,
        crate::curve::FUNCTIONS,
        crate::operating::FUNCTIONS,
        crate::affinity::FUNCTIONS,
        crate::power::FUNCTIONS,
        crate::tank::FUNCTIONS,
        crate::cycle::FUNCTIONS,
        crate::tank_size::FUNCTIONS,
        crate::leak::FUNCTIONS,
        crate::relief::FUNCTIONS,
        crate::expansion::FUNCTIONS,
        crate::pipe::FUNCTIONS,
        crate::hammer::FUNCTIONS,
        crate::stock::FUNCTIONS,
        crate::cable::FUNCTIONS,
        crate::mixed_cable::FUNCTIONS,
        crate::reactance::FUNCTIONS,
        crate::cable_size::FUNCTIONS,
        crate::ampacity::FUNCTIONS,
        crate::drop_cable::FUNCTIONS,
        crate::conductor::FUNCTIONS,
        crate::metal::FUNCTIONS,
        crate::insulation::FUNCTIONS,
        crate::motor::FUNCTIONS,
        crate::supply::FUNCTIONS,
        crate::winding::FUNCTIONS,
        crate::capacitor::FUNCTIONS,
        crate::unbalance::FUNCTIONS,
        crate::generator::FUNCTIONS,
        crate::lifting::FUNCTIONS,
        crate::spacing::FUNCTIONS,
        crate::trench::FUNCTIONS,
    ]
    .into_iter()
    .flatten()
}

/// The function of this name.
pub fn find(name: &str) -> Option<&'static Function> {
    functions().find(|function| function.name == name)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn names_are_unique_and_carry_their_subject() {
        let mut seen = BTreeSet::new();
        for function in functions() {
            assert!(function.name.contains('.'), "{}", function.name);
            assert!(seen.insert(function.name), "{} twice", function.name);
            assert_eq!(
                find(function.name).map(|found| found.name),
                Some(function.name)
            );
        }
        assert!(find("head.no_such").is_none());
    }

    #[test]
    fn ports_have_lower_case_names_and_letters_of_their_own() {
        for function in functions() {
            let mut seen = BTreeSet::new();
            for port in function.inputs {
                let plain = |text: &str| text.chars().all(|c| c.is_ascii_lowercase() || c == '_');
                assert!(plain(port.name) && plain(port.letter), "{}", function.name);
                assert!(
                    seen.insert(port.letter),
                    "{}: {}",
                    function.name,
                    port.letter
                );
            }
        }
    }

    #[test]
    fn every_argument_is_missed_by_its_port_name() {
        for function in functions() {
            for (at, port) in function.inputs.iter().enumerate() {
                let before: Vec<Value> = function.inputs[..at].iter().map(sample).collect();
                let refusal = (function.call)(Basis::UsTrade, &before).unwrap_err();
                let Refusal::Argument { name, .. } = refusal else {
                    panic!("{}: {refusal}", function.name);
                };
                assert_eq!(name, port.name, "{}", function.name);
            }
        }
    }

    #[test]
    fn a_value_of_the_wrong_kind_or_one_too_many_is_refused() {
        for function in functions() {
            let good: Vec<Value> = function.inputs.iter().map(sample).collect();
            for at in 0..good.len() {
                let mut wrong = good.clone();
                wrong[at] = match wrong[at] {
                    Value::Number(_) => Value::Word("seven"),
                    Value::Word(_) => Value::Number(7.0),
                };
                let refusal = (function.call)(Basis::SiTrade, &wrong).unwrap_err();
                assert!(
                    matches!(refusal, Refusal::Argument { .. }),
                    "{}",
                    function.name
                );
            }
            let many = [good, vec![Value::Number(1.0)]].concat();
            assert!(
                (function.call)(Basis::SiTrade, &many).is_err(),
                "{}",
                function.name
            );
        }
    }

    fn sample(port: &Port) -> Value {
        match port.kind {
            Kind::Word(words) => Value::Word(words[0]),
            Kind::Quantity(_) | Kind::Temperature => Value::Number(1.0),
        }
    }
}
