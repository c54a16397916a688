//! The ring between a bore and its casing.

use uom::si::f64::{Length, Volume};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::casing::section;
use crate::dimension::Measured;
use crate::ports::{LENGTH, VOLUME, WIDTH, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{FOOT, INCH};

const BORE: Bounds = Bounds::of("diameter of the bore", "in", 0.1, 200.0);
const CASING: Bounds = Bounds::of("outside diameter of the casing", "in", 0.1, 200.0);
const LENGTH_SPAN: Bounds = Bounds::of("length", "ft", 0.0, 10_000.0);

/// A casing in a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// Diameter of the bore.
    pub bore: Length,
    /// Outside diameter of the casing, never its nominal size.
    pub casing: Length,
    /// Length to be filled.
    pub length: Length,
}

/// Volume of the ring between a bore and its casing.
///
/// # Formula
/// ```text
/// v = 0.0408 · (D² - d²) · L      gal, in, ft   (trade, feet and gallons)
/// v = 0.0007854 · (D² - d²) · L   L, mm, m      (trade, metric)
/// v = π / 4 · (D² - d²) · L       exactly       (physical)
///
/// v  volume   D  bore   d  outside diameter of the casing   L  length
/// ```
///
/// # Valid for
/// A round bore of true gauge. Real holes are larger and lose grout into cracks:
/// how much to bring above this is the driller's to say.
///
/// # Source
/// A technical bulletin on annular fill, 16 in hole and 8 in casing. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span;
/// [`Refusal::Conflict`] where the casing does not go into the bore.
///
/// # Example
/// National Driller's column: 147 gal less 65 gal are 82 gal in 100 ft of 6 in bore
/// round 4 in.
/// ```
/// use pumpwright_calc::{grout::{Ring, annulus}, registry::Basis};
/// use uom::si::{f64::Length, length::{foot, inch}, volume::gallon};
///
/// let ring = Ring {
///     bore: Length::new::<inch>(6.0),
///     casing: Length::new::<inch>(4.0),
///     length: Length::new::<foot>(100.0),
/// };
/// assert_eq!(format!("{:.0}", annulus(ring, Basis::UsTrade)?.get::<gallon>()), "82");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn annulus(ring: Ring, basis: Basis) -> Result<Volume, Refusal> {
    BORE.check(INCH.read(ring.bore))?;
    CASING.check(INCH.read(ring.casing))?;
    LENGTH_SPAN.check(FOOT.read(ring.length))?;
    if ring.casing >= ring.bore {
        return Err(Refusal::Conflict("the casing does not go into the bore"));
    }
    let open = section(ring.bore, basis) - section(ring.casing, basis);
    Ok(Volume::from_si(open * ring.length.si()))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "grout.annulus",
    title: "volume of the ring between a bore and its casing",
    inputs: &[
        port("bore", "b", "diameter of the bore", WIDTH),
        port("casing", "c", "outside diameter of the casing", WIDTH),
        port("length", "l", "length to be filled", LENGTH),
    ],
    gives: port("volume", "v", "volume", VOLUME),
    law: Law::Shown(Pair {
        us: "0.0408 * (b^2 - c^2) * l",
        si: "0.0007854 * (b^2 - c^2) * l",
    }),
    valid: "A round bore of true gauge; real holes take more.",
    source: "a technical bulletin on annular fill; geometry",
    caution: Some(
        "Grout's mix, density and way of placing are law where the well stands; cement burns \
         skin and eyes.",
    ),
    edition: 1,
    call: call!(basis, (bore: Length, casing: Length, length: Length) =>
        annulus(Ring { bore, casing, length }, basis)),
}];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::casing;

    fn ring(bore: f64, casing: f64) -> Ring {
        Ring {
            bore: INCH.of(bore),
            casing: INCH.of(casing),
            length: FOOT.of(85.0),
        }
    }

    #[test]
    fn a_casing_too_wide_is_refused() {
        assert!(annulus(ring(6.0, 6.0), Basis::UsTrade).is_err());
        assert!(annulus(ring(f64::NAN, 4.5), Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn ring_and_casing_fill_the_bore(bore in 6.0..30.0_f64, share in 0.2..0.95_f64) {
            let ring = ring(bore, bore * share);
            let water = |width| casing::volume(width, ring.length, Basis::Physical).unwrap().si();
            let sum = annulus(ring, Basis::Physical).unwrap().si() + water(ring.casing);
            prop_assert!((sum / water(ring.bore) - 1.0).abs() < 1e-9);
        }
    }
}
