//! Water that stands in a well's casing, and how long it takes to pump it out.

use std::f64::consts::FRAC_PI_4;

use uom::si::f64::{Area, Length, Time, Volume, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{BORE_VOLUME, LENGTH, MINUTES, PLAIN, SPEED_FLOW, VOLUME, WIDTH, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{FOOT, FOOT_M, GALLON, GALLON_PER_MINUTE, INCH, METER, MILLIMETER, Unit};

/// Gallons in a foot from inches squared.
pub(crate) const US_FACTOR: f64 = 0.0408;
/// Liters in a meter from millimeters squared.
pub(crate) const SI_FACTOR: f64 = 0.000_785_4;

const BORE: Bounds = Bounds::of("inside diameter", "in", 0.1, 200.0);
const COLUMN: Bounds = Bounds::of("water column", "ft", 0.0, 10_000.0);
const DEPTH: Bounds = Bounds::of("well depth", "ft", 0.0, 10_000.0);
const LEVEL: Bounds = Bounds::of("static level", "ft", -500.0, 10_000.0);
const WATER: Bounds = Bounds::of("volume", "gal", 0.0, 1e7);
const TIMES: Bounds = Bounds::of("volumes", "", 0.0, 1_000.0);
const FLOW: Bounds = Bounds::of("flow", "gpm", 0.001, 100_000.0);

/// Gallons in a foot, and liters in a meter.
const GALLON_PER_FOOT: f64 = 0.003_785_411_784 / FOOT_M;
const LITER_PER_METER: f64 = 1e-3;

/// Cross-section of a circle by a basis: the trade's factor, or pi over four.
pub(crate) fn section(bore: Length, basis: Basis) -> f64 {
    let square = |unit: Unit<Length>| unit.read(bore) * unit.read(bore);
    match basis {
        Basis::UsTrade => US_FACTOR * square(INCH) * GALLON_PER_FOOT,
        Basis::SiTrade => SI_FACTOR * square(MILLIMETER) * LITER_PER_METER,
        Basis::Physical => FRAC_PI_4 * square(METER),
    }
}

/// Water in each length of a casing.
///
/// # Formula
/// ```text
/// w = 0.0408 · d²      gal/ft, in    (trade, feet and gallons)
/// w = 0.0007854 · d²   L/m, mm       (trade, metric)
/// w = π / 4 · d²       exactly       (physical)
///
/// w  water in each length   d  inside diameter
/// ```
///
/// # Valid for
/// The true inside diameter: a nominal 6 in casing has 6.065 in in schedule 40,
/// 6.125 in with a 0.250 in wall, about 5.99 in in PVC SDR 21.
///
/// # Source
/// MIL-HDBK-1164, table 1, gallons of water per foot. (Its metric column prints the
/// circumference; do not use it.) A county's purge sheet prints 0.563 gal for 4 in;
/// it is 0.653. The accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for a bore outside its span.
///
/// # Example
/// MIL-HDBK-1164, table 1: 1.47 gal a foot in 6 in, 2.61 in 8 in.
/// ```
/// use pumpwright_calc::{casing::volume_per_length, registry::Basis};
/// use uom::si::f64::Length;
/// use uom::si::{length::{foot, inch}, volume::gallon};
///
/// let gallons = |bore| -> Result<f64, pumpwright_calc::bounds::Refusal> {
///     let section = volume_per_length(Length::new::<inch>(bore), Basis::UsTrade)?;
///     Ok((section * Length::new::<foot>(1.0)).get::<gallon>())
/// };
/// assert_eq!(format!("{:.2} {:.2}", gallons(6.0)?, gallons(8.0)?), "1.47 2.61");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn volume_per_length(bore: Length, basis: Basis) -> Result<Area, Refusal> {
    BORE.check(INCH.read(bore))?;
    Ok(Area::from_si(section(bore, basis)))
}

/// Water in a column of a casing.
///
/// # Formula
/// ```text
/// v = 0.0408 · d² · h      gal, in, ft   (trade, feet and gallons)
/// v = 0.0007854 · d² · h   L, mm, m      (trade, metric)
/// v = π / 4 · d² · h       exactly       (physical)
///
/// v  volume   d  inside diameter   h  height of the water
/// ```
///
/// # Valid for
/// A round casing of one bore; the pump and its pipe take a little away.
///
/// # Source
/// As [`volume_per_length`]. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// MIL-HDBK-1164, table 1: 1.47 gal a foot in 6 in, so 147 gal in 100 ft.
/// ```
/// use pumpwright_calc::{casing::volume, registry::Basis};
/// use uom::si::{f64::Length, length::{foot, inch}, volume::gallon};
///
/// let (bore, column) = (Length::new::<inch>(6.0), Length::new::<foot>(100.0));
/// let water = volume(bore, column, Basis::UsTrade)?;
/// assert_eq!(format!("{:.0}", water.get::<gallon>()), "147");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn volume(bore: Length, column: Length, basis: Basis) -> Result<Volume, Refusal> {
    BORE.check(INCH.read(bore))?;
    COLUMN.check(FOOT.read(column))?;
    Ok(Volume::from_si(section(bore, basis) * column.si()))
}

/// Height of the water that stands in a well.
///
/// # Formula
/// ```text
/// h = d - s
///
/// h  water column   d  well depth   s  static level   all one unit
/// ```
///
/// # Valid for
/// Both measured from the same mark.
///
/// # Source
/// Definition. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the depth outside its span; [`Refusal::Conflict`]
/// where the level is below the bottom.
///
/// # Example
/// A state's sampling procedure: 100 ft deep, water at 20 ft, 80 ft of water.
/// ```
/// use pumpwright_calc::casing::column;
/// use uom::si::{f64::Length, length::foot};
///
/// let water = column(Length::new::<foot>(100.0), Length::new::<foot>(20.0))?;
/// assert_eq!(format!("{:.0}", water.get::<foot>()), "80");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn column(depth: Length, static_level: Length) -> Result<Length, Refusal> {
    DEPTH.check(FOOT.read(depth))?;
    LEVEL.check(FOOT.read(static_level))?;
    if static_level > depth {
        return Err(Refusal::Conflict(
            "the static level is below the bottom of the well",
        ));
    }
    Ok(depth - static_level)
}

/// Time to pump out some casing volumes.
///
/// # Formula
/// ```text
/// t = n · v / q
///
/// t  time   n  volumes   v  volume of the casing   q  flow
/// ```
///
/// # Valid for
/// How many volumes is the sampling plan's to say: three to five are usual.
///
/// # Source
/// A county's purge formula; three to five volumes: common practice, no source. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// A state's sampling procedure: 80 ft of water at 0.16 gal a foot stand, 12.8 gal;
/// three of them at 2 gpm take 19.2 min.
/// ```
/// use pumpwright_calc::casing::purge_time;
/// use uom::si::f64::{Volume, VolumeRate};
/// use uom::si::{time::minute, volume::gallon, volume_rate::gallon_per_minute};
///
/// let flow = VolumeRate::new::<gallon_per_minute>(2.0);
/// let time = purge_time(Volume::new::<gallon>(12.8), 3.0, flow)?;
/// assert_eq!(format!("{:.1}", time.get::<minute>()), "19.2");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn purge_time(volume: Volume, volumes: f64, flow: VolumeRate) -> Result<Time, Refusal> {
    WATER.check(GALLON.read(volume))?;
    let volumes = TIMES.check(volumes)?;
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    Ok(volume * volumes / flow)
}

const HANDBOOK: &str = "MIL-HDBK-1164, table 1, gallons of water per foot";
const TRUE_BORE: &str = "The true inside diameter, not the nominal one.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "casing.volume_per_length",
        title: "water in each length of a casing",
        inputs: &[port("bore", "d", "inside diameter", WIDTH)],
        gives: port("water", "w", "water in each length", BORE_VOLUME),
        law: Law::Shown(Pair {
            us: "0.0408 * d^2",
            si: "0.0007854 * d^2",
        }),
        valid: TRUE_BORE,
        source: HANDBOOK,
        caution: None,
        edition: 1,
        call: call!(basis, (bore: Length) => volume_per_length(bore, basis)),
    },
    Function {
        name: "casing.volume",
        title: "water in a column of a casing",
        inputs: &[
            port("bore", "d", "inside diameter", WIDTH),
            port("column", "h", "height of the water", LENGTH),
        ],
        gives: port("volume", "v", "volume", VOLUME),
        law: Law::Shown(Pair {
            us: "0.0408 * d^2 * h",
            si: "0.0007854 * d^2 * h",
        }),
        valid: TRUE_BORE,
        source: HANDBOOK,
        caution: None,
        edition: 1,
        call: call!(basis, (bore: Length, column: Length) => volume(bore, column, basis)),
    },
    Function {
        name: "casing.column",
        title: "height of the water that stands in a well",
        inputs: &[
            port("depth", "d", "well depth", LENGTH),
            port("static_level", "s", "static level", LENGTH),
        ],
        gives: port("column", "h", "height of the water", LENGTH),
        law: Law::Shown(Pair::both("d - s")),
        valid: "Both measured from the same mark.",
        source: "definition",
        caution: None,
        edition: 1,
        call: call!(_, (depth: Length, static_level: Length) => column(depth, static_level)),
    },
    Function {
        name: "casing.purge_time",
        title: "time to pump out some casing volumes",
        inputs: &[
            port("volume", "v", "volume of the casing", VOLUME),
            port("volumes", "n", "volumes", PLAIN),
            port("flow", "q", "flow", SPEED_FLOW),
        ],
        gives: port("time", "t", "time", MINUTES),
        law: Law::Shown(Pair::both("n * v / q")),
        valid: "As many volumes as the sampling plan says.",
        source: "a county's purge formula; three to five volumes: common practice, no source",
        caution: None,
        edition: 1,
        call: call!(_, (volume: Volume, volumes: f64, flow: VolumeRate) =>
            purge_time(volume, volumes, flow)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn gallons(bore: f64, feet: f64, basis: Basis) -> f64 {
        GALLON.read(volume(INCH.of(bore), FOOT.of(feet), basis).unwrap())
    }

    #[test]
    fn the_trades_factors_are_pi_over_four_rounded() {
        let exact = gallons(6.065, 175.0, Basis::Physical);
        for basis in [Basis::UsTrade, Basis::SiTrade] {
            assert!((gallons(6.065, 175.0, basis) / exact - 1.0).abs() < 1e-5);
        }
    }

    #[test]
    fn water_below_the_bottom_is_refused() {
        assert!(column(FOOT.of(100.0), FOOT.of(101.0)).is_err());
        assert!(column(FOOT.of(f64::NAN), FOOT.of(1.0)).is_err());
        assert!(purge_time(GALLON.of(10.0), 3.0, GALLON_PER_MINUTE.of(0.0)).is_err());
    }

    proptest! {
        #[test]
        fn twice_the_bore_holds_four_times_the_water(
            bore in 1.0..20.0_f64, feet in 1.0..900.0_f64,
        ) {
            let ratio = gallons(2.0 * bore, feet, Basis::UsTrade) / gallons(bore, feet, Basis::UsTrade);
            prop_assert!((ratio - 4.0).abs() < 1e-12);
        }
    }
}
