//! How wide a sloped trench has to open.

use uom::si::f64::Length;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::ports::{LENGTH, port, word};
use crate::registry::{Function, Law};
use crate::units::FOOT;

const DEPTH: Bounds = Bounds::of("depth", "ft", 0.0, 20.0);
const BOTTOM: Bounds = Bounds::of("width at the bottom", "ft", 0.0, 100.0);

/// Kinds of soil by which slopes are allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Soil {
    /// Type A: stiff clay.
    A,
    /// Type B: silt, medium clay.
    B,
    /// Type C: sand, gravel, wet soil.
    C,
}
words!(Soil, "\"type A\", \"type B\" or \"type C\"", {
    A = "type A",
    B = "type B",
    C = "type C",
});

impl Soil {
    /// Level distance of one side for each depth.
    const fn run(self) -> f64 {
        match self {
            Self::A => 0.75,
            Self::B => 1.0,
            Self::C => 1.5,
        }
    }
}

/// Width at the top of a trench with sloped sides.
///
/// # Formula
/// ```text
/// w = b + 2 · k · d
///
/// w  width at the top   b  width at the bottom   d  depth
/// k  3/4 in soil of type A, 1 in type B, 1-1/2 in type C
/// ```
///
/// # Valid for
/// Simple slopes, to 20 ft deep; beyond, an engineer designs it. Soil not classified by a
/// competent person counts as type C.
///
/// # Source
/// 29 CFR 1926 subpart P, appendix B, table B-1. The accepted spans: 20 ft is the table's
/// own, the rest our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That table, 1-1/2 to 1 in type C: 6 ft deep and 2 ft at the bottom open to 20 ft.
/// ```
/// use pumpwright_calc::trench::{Soil, top_width};
/// use uom::si::{f64::Length, length::foot};
///
/// let wide = top_width(Length::new::<foot>(2.0), Length::new::<foot>(6.0), Soil::C)?;
/// assert_eq!(format!("{:.1}", wide.get::<foot>()), "20.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn top_width(bottom: Length, depth: Length, soil: Soil) -> Result<Length, Refusal> {
    BOTTOM.check(FOOT.read(bottom))?;
    DEPTH.check(FOOT.read(depth))?;
    Ok(bottom + depth * (2.0 * soil.run()))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "trench.top_width",
    title: "width at the top of a trench with sloped sides",
    inputs: &[
        port("bottom", "b", "width at the bottom", LENGTH),
        port("depth", "d", "depth", LENGTH),
        port("soil", "k", "soil", word(Soil::WORDS)),
    ],
    gives: port("width", "w", "width at the top", LENGTH),
    law: Law::Named("the bottom and, on each side, the depth times the slope of the soil"),
    valid: "Simple slopes, to 20 ft deep.",
    source: "29 CFR 1926 subpart P, appendix B, table B-1",
    caution: Some(
        "Training figure; the competent person on site and the local code decide. Nobody stands in an \
         unprotected trench of 5 ft or more, or in any that shows signs of a cave-in.",
    ),
    edition: 1,
    call: call!(_, (bottom: Length, depth: Length, soil: Soil) => top_width(bottom, depth, soil)),
}];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn width(bottom: f64, depth: f64, soil: Soil) -> Result<f64, Refusal> {
        top_width(FOOT.of(bottom), FOOT.of(depth), soil).map(|wide| FOOT.read(wide))
    }

    #[test]
    fn past_twenty_feet_an_engineer_is_asked() {
        assert!(width(2.0, 20.5, Soil::A).is_err());
        assert!(width(f64::NAN, 6.0, Soil::A).is_err());
    }

    proptest! {
        #[test]
        fn worse_soil_opens_wider(bottom in 0.0..5.0_f64, depth in 0.1..19.0_f64) {
            let [a, b, c] = [Soil::A, Soil::B, Soil::C].map(|soil| width(bottom, depth, soil).unwrap());
            prop_assert!(a < b && b < c);
        }
    }
}
