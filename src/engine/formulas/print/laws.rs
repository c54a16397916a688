//! The law of a calculation, ready to have labels or figures put in.

use pumpwright_calc::registry::{Basis, Function, Law, Port};

use crate::quantities::{System, Unit};

use super::super::formula::{Formula, Part, What};
use super::super::law::law_formula;
use super::math::Math;
use super::shape::structure;

/// A law over slots: the inputs of its calculation, in order.
pub(super) struct ShownLaw(Formula);

/// The law that a calculation shows in a system, if it shows one.
pub(super) fn law_of(function: &Function, system: System) -> Option<ShownLaw> {
    let Law::Shown(pair) = function.law else {
        return None;
    };
    let letters: Vec<&str> = letters_of(function).collect();
    law_formula(pair.of(basis(system)), &letters)
        .ok()
        .map(ShownLaw)
}

/// The letters of a calculation's inputs, in order.
pub(super) fn letters_of(function: &Function) -> impl Iterator<Item = &'static str> {
    function.inputs.iter().map(|port| port.letter)
}

impl ShownLaw {
    /// The law with this put in the place of each input.
    pub fn with(&self, put: &dyn Fn(usize) -> Math) -> Math {
        fill(&self.0.0.root, put)
    }
}

fn fill(part: &Part, put: &dyn Fn(usize) -> Math) -> Math {
    match &part.what {
        What::Bare(leaf, _) => fill(leaf, put),
        What::Name(slot) => put(*slot),
        _ => structure(part, &|inner| fill(inner, put)),
    }
}

/// A law that no line holds, by its name.
pub(super) fn named(function: &Function) -> String {
    let name = match function.law {
        Law::Named(name) => name,
        // A shown law is proved readable; its title stands in all the same.
        Law::Shown(_) => function.title,
    };
    if name.starts_with("by ") {
        name.to_owned()
    } else {
        format!("by {name}")
    }
}

/// The unit in which a law has a port; none for plain numbers and words.
pub(super) fn port_unit(port: &Port, system: System) -> Option<Unit> {
    Unit::parse(port.unit.of(basis(system))).ok()
}

fn basis(system: System) -> Basis {
    match system {
        System::Us => Basis::UsTrade,
        System::Si => Basis::SiTrade,
    }
}
