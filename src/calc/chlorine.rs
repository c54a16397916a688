//! Chlorine for disinfecting a well: liquid by either meaning of percent, and dry.

use uom::si::f64::{Mass, MassDensity, Ratio, Volume};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{BLEACH, DOSE, PERCENT, POWDER, SOLUTION, VOLUME, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{GALLON, GRAM, LITER, MILLIGRAM_PER_LITER, OUNCE};

/// Grams in a liter at one trade percent.
const GRAMS_PER_TRADE_PERCENT: f64 = 10.0;
/// Pounds that a gallon of water weighs, as the trade rounds it.
const POUNDS_PER_GALLON: f64 = 8.34;

const WATER: Bounds = Bounds::of("volume of water", "gal", 0.0, 1e7);
const WANTED: Bounds = Bounds::of("dose", "mg/L", 0.0, 10_000.0);
const TRADE: Bounds = Bounds::of("strength in trade percent", "%", 0.1, 25.0);
const WEIGHT: Bounds = Bounds::of("strength in percent by weight", "%", 0.1, 25.0);
const DRY: Bounds = Bounds::of("available chlorine", "%", 1.0, 100.0);
const LIQUOR: Bounds = Bounds::of("density of the bleach", "g/mL", 0.9, 1.5);

/// Water and the chlorine that it is to have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Treated {
    /// Volume of water.
    pub volume: Volume,
    /// Mass of available chlorine in each volume.
    pub dose: MassDensity,
}

impl Treated {
    /// Kilograms of chlorine.
    fn chlorine(self) -> Result<f64, Refusal> {
        WATER.check(GALLON.read(self.volume))?;
        WANTED.check(MILLIGRAM_PER_LITER.read(self.dose))?;
        Ok(self.volume.si() * self.dose.si())
    }
}

/// Bleach for a dose, its strength in trade percent.
///
/// # Formula
/// ```text
/// b = 128 · v · d / (10,000 · s)    fl oz, gal, mg/L, %
/// b = v · d / (10 · s)              mL, L, mg/L, %
///
/// b  bleach   v  water   d  dose   s  trade percent: 1 percent is 10 g in a liter
/// ```
/// One law in two systems. The small volume of the bleach is left out.
///
/// # Valid for
/// A label or code that counts available chlorine by volume. Percent by weight gives
/// less bleach for the same figure: see [`bleach_by_weight`]. Old bleach is weaker.
///
/// # Source
/// Mass balance; trade percent as 327 Indiana Administrative Code 8-3.4-24 defines it.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That code, table 24-1: 7.8 fl oz of 12 percent for 146.9 gal, which is 50 mg/L.
/// ```
/// use pumpwright_calc::chlorine::{Treated, bleach};
/// use uom::si::f64::{MassDensity, Ratio, Volume};
/// use uom::si::{mass_density::kilogram_per_cubic_meter, ratio::percent};
/// use uom::si::volume::{fluid_ounce, gallon};
///
/// let water = Treated {
///     volume: Volume::new::<gallon>(146.9),
///     dose: MassDensity::new::<kilogram_per_cubic_meter>(0.05),
/// };
/// let bleach = bleach(water, Ratio::new::<percent>(12.0))?;
/// assert_eq!(format!("{:.1}", bleach.get::<fluid_ounce>()), "7.8");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn bleach(water: Treated, strength: Ratio) -> Result<Volume, Refusal> {
    let chlorine = water.chlorine()?;
    let percent = TRADE.check(100.0 * strength.si())?;
    Ok(Volume::from_si(
        chlorine / (GRAMS_PER_TRADE_PERCENT * percent),
    ))
}

/// Bleach for a dose, its strength in percent by weight.
///
/// # Formula
/// ```text
/// b = 128 · v · d / (10,000 · s · w)    fl oz, gal, mg/L, %, g/mL
/// b = v · d / (10 · s · w)              mL, L, mg/L, %, g/mL
///
/// b  bleach   v  water   d  dose   s  percent by weight   w  density of the bleach
/// ```
///
/// # Valid for
/// A label that counts available chlorine by weight, as household labels do. The
/// trade percent of the same bleach is w times as much.
///
/// # Source
/// Mass balance. Density of household bleach about 1.08 g/mL (from memory). The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a mass balance: 200 gal at 100 mg/L from 6 percent
/// at 1.08 g/mL take 39.5 fl oz.
/// ```
/// use pumpwright_calc::chlorine::{Treated, bleach_by_weight};
/// use uom::si::f64::{MassDensity, Ratio, Volume};
/// use uom::si::mass_density::{gram_per_cubic_centimeter, kilogram_per_cubic_meter};
/// use uom::si::{ratio::percent, volume::{fluid_ounce, gallon}};
///
/// let water = Treated {
///     volume: Volume::new::<gallon>(200.0),
///     dose: MassDensity::new::<kilogram_per_cubic_meter>(0.1),
/// };
/// let density = MassDensity::new::<gram_per_cubic_centimeter>(1.08);
/// let bleach = bleach_by_weight(water, Ratio::new::<percent>(6.0), density)?;
/// assert_eq!(format!("{:.1}", bleach.get::<fluid_ounce>()), "39.5");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn bleach_by_weight(
    water: Treated,
    strength: Ratio,
    density: MassDensity,
) -> Result<Volume, Refusal> {
    let chlorine = water.chlorine()?;
    WEIGHT.check(100.0 * strength.si())?;
    LIQUOR.check(density.si() / 1e3)?;
    Ok(Volume::from_si(chlorine / (strength.si() * density.si())))
}

/// Calcium hypochlorite for a dose.
///
/// # Formula
/// ```text
/// m = 8.34 · v · d · 16 / (10,000 · s)    oz, gal, mg/L, %   (trade, gallons)
/// m = v · d / (10 · s)                    g, L, mg/L, %      (else)
///
/// m  powder   v  water   d  dose   s  available chlorine, percent by weight
/// ```
///
/// # Valid for
/// Granules or tablets dissolved first: dry pieces dropped in lie on the pump. Take the
/// label's strength, 65 to 70 percent.
///
/// # Source
/// Mass balance; MIL-HDBK-1164, well disinfection, 2 oz of 65 percent for 100 gal at
/// 100 mg/L (worked: 2.05). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// 327 Indiana Administrative Code 8-3.4-24, table 24-1: 1.5 oz of 65 percent for
/// 146.9 gal, which is 50 mg/L.
/// ```
/// use pumpwright_calc::{chlorine::{Treated, powder}, registry::Basis};
/// use uom::si::f64::{MassDensity, Ratio, Volume};
/// use uom::si::{mass::ounce, mass_density::kilogram_per_cubic_meter};
/// use uom::si::{ratio::percent, volume::gallon};
///
/// let water = Treated {
///     volume: Volume::new::<gallon>(146.9),
///     dose: MassDensity::new::<kilogram_per_cubic_meter>(0.05),
/// };
/// let powder = powder(water, Ratio::new::<percent>(65.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", powder.get::<ounce>()), "1.5");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn powder(water: Treated, strength: Ratio, basis: Basis) -> Result<Mass, Refusal> {
    let chlorine = water.chlorine()?;
    let percent = DRY.check(100.0 * strength.si())?;
    Ok(match basis {
        Basis::UsTrade => {
            let parts = GALLON.read(water.volume) * MILLIGRAM_PER_LITER.read(water.dose);
            OUNCE.of(POUNDS_PER_GALLON * parts * 16.0 / (10_000.0 * percent))
        }
        Basis::SiTrade => {
            let parts = LITER.read(water.volume) * MILLIGRAM_PER_LITER.read(water.dose);
            GRAM.of(parts / (10.0 * percent))
        }
        Basis::Physical => Mass::from_si(chlorine / strength.si()),
    })
}

const TREATED: [Port; 2] = [
    port("volume", "v", "volume of water", VOLUME),
    port("dose", "d", "dose", DOSE),
];
const BLEACH_OUT: Port = port("bleach", "b", "bleach", BLEACH);
const GAS: Option<&str> = Some(
    "Training figure; the label and the local code decide. Never mix chlorine with acid, ammonia or \
     any other product, nor pour it in a closed pit: the gas kills. Gloves, goggles, fresh air; \
     nobody drinks or washes until the well is flushed and the water tested.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "chlorine.bleach",
        title: "bleach for a dose, strength in trade percent",
        inputs: &[
            TREATED[0],
            TREATED[1],
            port("strength", "s", "trade percent", PERCENT),
        ],
        gives: BLEACH_OUT,
        law: Law::Shown(Pair {
            us: "128 * v * d / (10000 * s)",
            si: "v * d / (10 * s)",
        }),
        valid: "Available chlorine counted by volume: 1 trade percent is 10 g in a liter.",
        source: "mass balance; trade percent as 327 Indiana Administrative Code 8-3.4-24 defines it",
        caution: GAS,
        edition: 1,
        call: call!(_, (volume: Volume, dose: MassDensity, strength: Ratio) =>
            bleach(Treated { volume, dose }, strength)),
    },
    Function {
        name: "chlorine.bleach_by_weight",
        title: "bleach for a dose, strength in percent by weight",
        inputs: &[
            TREATED[0],
            TREATED[1],
            port("strength", "s", "percent by weight", PERCENT),
            port("density", "w", "density of the bleach", SOLUTION),
        ],
        gives: BLEACH_OUT,
        law: Law::Shown(Pair {
            us: "128 * v * d / (10000 * s * w)",
            si: "v * d / (10 * s * w)",
        }),
        valid: "Available chlorine counted by weight.",
        source: "mass balance",
        caution: GAS,
        edition: 1,
        call: call!(_, (
            volume: Volume,
            dose: MassDensity,
            strength: Ratio,
            density: MassDensity
        ) => bleach_by_weight(Treated { volume, dose }, strength, density)),
    },
    Function {
        name: "chlorine.powder",
        title: "calcium hypochlorite for a dose",
        inputs: &[
            TREATED[0],
            TREATED[1],
            port("strength", "s", "available chlorine", PERCENT),
        ],
        gives: port("powder", "m", "calcium hypochlorite", POWDER),
        law: Law::Shown(Pair {
            us: "8.34 * v * d * 16 / (10000 * s)",
            si: "v * d / (10 * s)",
        }),
        valid: "Dissolved first; strength from the label.",
        source: "mass balance; MIL-HDBK-1164, well disinfection",
        caution: GAS,
        edition: 1,
        call: call!(basis, (volume: Volume, dose: MassDensity, strength: Ratio) =>
            powder(Treated { volume, dose }, strength, basis)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::FLUID_OUNCE;

    fn water(gallons: f64, dose: f64) -> Treated {
        Treated {
            volume: GALLON.of(gallons),
            dose: MILLIGRAM_PER_LITER.of(dose),
        }
    }

    #[test]
    fn no_strength_is_refused() {
        assert!(bleach(water(100.0, 100.0), Ratio::from_si(0.0)).is_err());
        assert!(powder(water(100.0, f64::NAN), Ratio::from_si(0.65), Basis::UsTrade).is_err());
        assert!(bleach(water(-1.0, 100.0), Ratio::from_si(0.05)).is_err());
    }

    /// Illinois 77/925.50: 3 cups of 5.25 percent for 100 gal, within 5 percent of
    /// 100 mg/L times 1.2; and 2 oz of 70 percent powder, 100 mg/L within 6 percent.
    #[test]
    fn a_states_recipe_comes_out() {
        let ounces = FLUID_OUNCE.read(bleach(water(100.0, 100.0), Ratio::from_si(0.0525)).unwrap());
        assert!((ounces / 24.0 - 1.0).abs() < 0.06, "{ounces}");
        let dry = powder(water(100.0, 100.0), Ratio::from_si(0.70), Basis::Physical).unwrap();
        assert!((OUNCE.read(dry) / 2.0 - 1.0).abs() < 0.06);
    }

    proptest! {
        #[test]
        fn trade_percent_is_weight_percent_times_density(
            gallons in 10.0..900.0_f64, percent in 3.0..12.0_f64, density in 1.0..1.3_f64,
        ) {
            let by_weight = bleach_by_weight(
                water(gallons, 100.0),
                Ratio::from_si(percent / 100.0),
                MassDensity::from_si(density * 1e3),
            );
            let trade = bleach(water(gallons, 100.0), Ratio::from_si(percent * density / 100.0));
            prop_assert!((by_weight.unwrap().si() / trade.unwrap().si() - 1.0).abs() < 1e-12);
        }
    }
}
