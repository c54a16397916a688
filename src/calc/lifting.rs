//! What hangs on the hoist when a pump is pulled, in air and in water.

use std::f64::consts::FRAC_PI_4;

use uom::si::f64::{Force, Length, LinearMassDensity, Mass, MassDensity, Volume};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{BODY, DENSITY, FORCE, LENGTH, MASS, PIPE_WEIGHT, WIDTH, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{
    CUBIC_FOOT, FOOT, INCH, KILOGRAM, KILOGRAM_PER_CUBIC_METER, POUND, POUND_PER_CUBIC_FOOT,
    POUND_PER_FOOT, STANDARD_GRAVITY,
};

/// Square feet from square inches of a circle's diameter.
const US_SECTION: f64 = 0.005_454;
/// Square meters from square millimeters of a circle's diameter.
const SI_SECTION: f64 = 0.000_000_785_4;

const STRING: Bounds = Bounds::of("length of the string", "ft", 0.0, 10_000.0);
const UNDER: Bounds = Bounds::of("length under water", "ft", 0.0, 10_000.0);
const PIPE: Bounds = Bounds::of("weight of the pipe", "lb/ft", 0.0, 1_000.0);
const CABLE: Bounds = Bounds::of("weight of the cable", "lb/ft", 0.0, 1_000.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);
const PUMP: Bounds = Bounds::of("weight of pump and motor", "lb", 0.0, 100_000.0);
const BULK: Bounds = Bounds::of("volume of pump and motor", "ft3", 0.0, 10_000.0);
const WATER: Bounds = Bounds::of("density of the water", "kg/m3", 900.0, 1_300.0);
const WALL: Bounds = Bounds::of("density of the pipe's metal", "lb/ft3", 30.0, 1_500.0);
const BODY_MASS: Bounds = Bounds::of("weight in air", "lb", 0.0, 1e6);

/// Pipe, cable, pump and motor as they hang.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drop {
    /// Length of the pipe.
    pub length: Length,
    /// Weight of each length of pipe, empty.
    pub pipe: LinearMassDensity,
    /// Inside diameter of the pipe.
    pub bore: Length,
    /// Weight of pump and motor.
    pub pump: Mass,
    /// Weight of each length of cable.
    pub cable: LinearMassDensity,
    /// Density of the water in the pipe.
    pub water: MassDensity,
}

impl Drop {
    fn checked(self) -> Result<(), Refusal> {
        STRING.check(FOOT.read(self.length))?;
        PIPE.check(POUND_PER_FOOT.read(self.pipe))?;
        BORE.check(INCH.read(self.bore))?;
        PUMP.check(POUND.read(self.pump))?;
        CABLE.check(POUND_PER_FOOT.read(self.cable))?;
        WATER.check(KILOGRAM_PER_CUBIC_METER.read(self.water))?;
        Ok(())
    }

    fn section(self, basis: Basis) -> f64 {
        match basis {
            Basis::UsTrade => {
                let bore = INCH.read(self.bore);
                US_SECTION * bore * bore * FOOT.of(1.0).si() * FOOT.of(1.0).si()
            }
            Basis::SiTrade => {
                let bore = 1e3 * self.bore.si();
                SI_SECTION * bore * bore
            }
            Basis::Physical => FRAC_PI_4 * self.bore.si() * self.bore.si(),
        }
    }
}

/// Load on the hook with the pipe full of water, in air.
///
/// # Formula
/// ```text
/// m = p + l · (w + c + 0.005454 · d² · r)        lb, ft, lb/ft, in, lb/ft³    (trade, feet)
/// m = p + l · (w + c + 0.0000007854 · d² · r)    kg, m, kg/m, mm, kg/m³       (trade, metric)
/// m = p + l · (w + c + π/4 · d² · r)             exactly                      (physical)
///
/// m  load   p  pump and motor   l  length   w  pipe   c  cable   d  inside diameter
/// r  density of the water
/// ```
///
/// # Valid for
/// The start of a pull with a check valve that holds. Buoyancy is left out: the safe
/// side. Hook, block and rope come on top, and a stuck pump pulls back.
///
/// # Source
/// Sum of weights; pipe by ASTM A53 as South Dakota ARSD 74:02:04:48 prints it. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// South Dakota ARSD 74:02:04:48 has 2.27 lb/ft for 1-1/4 in: 240 ft of it, full, with
/// 38 lb of pump and 0.16 lb/ft of cable are 776.8 lb.
/// ```
/// use pumpwright_calc::{lifting::{Drop, load}, registry::Basis};
/// use uom::si::f64::{Length, LinearMassDensity, Mass, MassDensity};
/// use uom::si::{length::{foot, inch}, linear_mass_density::pound_per_foot};
/// use uom::si::{mass::pound, mass_density::pound_per_cubic_foot};
///
/// let string = Drop {
///     length: Length::new::<foot>(240.0),
///     pipe: LinearMassDensity::new::<pound_per_foot>(2.27),
///     bore: Length::new::<inch>(1.38),
///     pump: Mass::new::<pound>(38.0),
///     cable: LinearMassDensity::new::<pound_per_foot>(0.16),
///     water: MassDensity::new::<pound_per_cubic_foot>(62.4),
/// };
/// assert_eq!(format!("{:.1}", load(string, Basis::Physical)?.get::<pound>()), "776.8");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn load(string: Drop, basis: Basis) -> Result<Mass, Refusal> {
    string.checked()?;
    let each = string.pipe.si() + string.cable.si() + string.section(basis) * string.water.si();
    Ok(Mass::from_si(string.pump.si() + string.length.si() * each))
}

/// What of a string is under water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Submerged {
    /// Length of pipe under water.
    pub length: Length,
    /// Volume of pump and motor, all under water.
    pub pump: Volume,
    /// Density of the pipe's own material.
    pub metal: MassDensity,
}

/// Load on the hook with the pipe full and part of the string under water.
///
/// # Formula
/// ```text
/// m = load in air - r · (v + s · (w / k + π/4 · d²))
///
/// r  density of the water   v  volume of pump and motor   s  length under water
/// w  pipe   k  density of its metal   d  inside diameter
/// ```
///
/// # Valid for
/// The start of a pull, nothing stuck. Plan a hoist by [`load`], which is more.
///
/// # Source
/// Archimedes. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span; [`Refusal::Conflict`]
/// where more is under water than hangs.
///
/// # Example
/// By the whole outside, worked by hand: 240 ft of 1-1/4 in steel with 38 lb of pump of
/// 0.22 ft³, 150 ft of it under water, 584.0 lb.
/// ```
/// use pumpwright_calc::lifting::{Drop, Submerged, load_submerged};
/// use uom::si::f64::{Length, LinearMassDensity, Mass, MassDensity, Volume};
/// use uom::si::{length::{foot, inch}, linear_mass_density::pound_per_foot};
/// use uom::si::{mass::pound, mass_density::pound_per_cubic_foot, volume::cubic_foot};
///
/// let dense = MassDensity::new::<pound_per_cubic_foot>;
/// let string = Drop {
///     length: Length::new::<foot>(240.0),
///     pipe: LinearMassDensity::new::<pound_per_foot>(2.27),
///     bore: Length::new::<inch>(1.38),
///     pump: Mass::new::<pound>(38.0),
///     cable: LinearMassDensity::new::<pound_per_foot>(0.0),
///     water: dense(62.4),
/// };
/// let under = Submerged {
///     length: Length::new::<foot>(150.0),
///     pump: Volume::new::<cubic_foot>(0.22),
///     metal: dense(490.0),
/// };
/// assert_eq!(format!("{:.1}", load_submerged(string, under)?.get::<pound>()), "584.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn load_submerged(string: Drop, under: Submerged) -> Result<Mass, Refusal> {
    let air = load(string, Basis::Physical)?;
    UNDER.check(FOOT.read(under.length))?;
    BULK.check(CUBIC_FOOT.read(under.pump))?;
    WALL.check(POUND_PER_CUBIC_FOOT.read(under.metal))?;
    if under.length > string.length {
        return Err(Refusal::Conflict("more pipe is under water than hangs"));
    }
    let each = string.pipe.si() / under.metal.si() + string.section(Basis::Physical);
    let displaced = under.pump.si() + under.length.si() * each;
    Ok(Mass::from_si(air.si() - string.water.si() * displaced))
}

/// Force that holds a body under water.
///
/// # Formula
/// ```text
/// f = (m - v · r) · g
///
/// f  force   m  mass   v  volume   r  density of the water   g  9.80665 m/s²
/// ```
/// Less than zero when it floats.
///
/// # Valid for
/// A body wholly under water.
///
/// # Source
/// Archimedes; standard gravity. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// By the other form, m g (1 - ρw / ρ): 42 kg of 0.0085 m³ in water pull with 328.5 N.
/// ```
/// use pumpwright_calc::lifting::apparent_weight;
/// use uom::si::f64::{Mass, MassDensity, Volume};
/// use uom::si::{force::newton, mass::kilogram, mass_density::kilogram_per_cubic_meter};
/// use uom::si::volume::cubic_meter;
///
/// let water = MassDensity::new::<kilogram_per_cubic_meter>(1000.0);
/// let (mass, volume) = (Mass::new::<kilogram>(42.0), Volume::new::<cubic_meter>(0.008_5));
/// let force = apparent_weight(mass, volume, water)?;
/// assert_eq!(format!("{:.1}", force.get::<newton>()), "328.5");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn apparent_weight(mass: Mass, volume: Volume, water: MassDensity) -> Result<Force, Refusal> {
    BODY_MASS.check(POUND.read(mass))?;
    BULK.check(CUBIC_FOOT.read(volume))?;
    WATER.check(KILOGRAM_PER_CUBIC_METER.read(water))?;
    let held = KILOGRAM.read(mass) - volume.si() * water.si();
    Ok(Force::from_si(held * STANDARD_GRAVITY))
}

/// Weight of pipe under water, open at both ends.
///
/// # Formula
/// ```text
/// b = w · (1 - r / k)
///
/// b  weight under water   w  weight in air   r  density of the water   k  of the metal
/// ```
///
/// # Valid for
/// Pipe with water inside and out.
///
/// # Source
/// Archimedes. Steel about 490 lb/ft³ (handbooks, from memory). The accepted spans are
/// our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Handbooks' factor for steel in water, 0.873 (from memory): 2.27 lb/ft weigh 1.98.
/// ```
/// use pumpwright_calc::lifting::weight_in_water;
/// use uom::si::f64::{LinearMassDensity, MassDensity};
/// use uom::si::{linear_mass_density::pound_per_foot, mass_density::pound_per_cubic_foot};
///
/// let dense = MassDensity::new::<pound_per_cubic_foot>;
/// let pipe = LinearMassDensity::new::<pound_per_foot>(2.27);
/// let held = weight_in_water(pipe, dense(490.0), dense(62.4))?;
/// assert_eq!(format!("{:.2}", held.get::<pound_per_foot>()), "1.98");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn weight_in_water(
    pipe: LinearMassDensity,
    metal: MassDensity,
    water: MassDensity,
) -> Result<LinearMassDensity, Refusal> {
    PIPE.check(POUND_PER_FOOT.read(pipe))?;
    WALL.check(POUND_PER_CUBIC_FOOT.read(metal))?;
    WATER.check(KILOGRAM_PER_CUBIC_METER.read(water))?;
    Ok(pipe * (1.0 - water.si() / metal.si()))
}

const LENGTH_PORT: Port = port("length", "l", "length of the string", LENGTH);
const PIPE_PORT: Port = port("pipe", "w", "weight of the pipe", PIPE_WEIGHT);
const BORE_PORT: Port = port("bore", "d", "inside diameter", WIDTH);
const PUMP_PORT: Port = port("pump", "p", "weight of pump and motor", MASS);
const CABLE_PORT: Port = port("cable", "c", "weight of the cable", PIPE_WEIGHT);
const WATER_PORT: Port = port("water", "r", "density of the water", DENSITY);
const METAL_PORT: Port = port("metal", "k", "density of the pipe's metal", DENSITY);
const LOAD: Port = port("load", "m", "load on the hook", MASS);
const HOIST: Option<&str> = Some(
    "Training figure: the tags of hoist, rope and hook decide, at their least. Clamp the string before \
     any coupling comes apart, stand clear of a load, and keep 10 ft from overhead lines.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "lifting.load",
        title: "load on the hook with the pipe full, in air",
        inputs: &[
            LENGTH_PORT,
            PIPE_PORT,
            BORE_PORT,
            PUMP_PORT,
            CABLE_PORT,
            WATER_PORT,
        ],
        gives: LOAD,
        law: Law::Shown(Pair {
            us: "p + l * (w + c + 0.005454 * d^2 * r)",
            si: "p + l * (w + c + 0.0000007854 * d^2 * r)",
        }),
        valid: "The start of a pull; buoyancy left out.",
        source: "sum of weights; pipe by ASTM A53 as South Dakota ARSD 74:02:04:48 prints it",
        caution: HOIST,
        edition: 1,
        call: call!(basis, (
            length: Length,
            pipe: LinearMassDensity,
            bore: Length,
            pump: Mass,
            cable: LinearMassDensity,
            water: MassDensity
        ) => load(Drop { length, pipe, bore, pump, cable, water }, basis)),
    },
    Function {
        name: "lifting.load_submerged",
        title: "load on the hook with part of the string under water",
        inputs: &[
            LENGTH_PORT,
            PIPE_PORT,
            BORE_PORT,
            PUMP_PORT,
            CABLE_PORT,
            WATER_PORT,
            port("submerged", "s", "length under water", LENGTH),
            port("pump_volume", "v", "volume of pump and motor", BODY),
            METAL_PORT,
        ],
        gives: LOAD,
        law: Law::Named("the load in air less the water that pump and pipe displace"),
        valid: "The start of a pull, nothing stuck; plan a hoist by the load in air.",
        source: "Archimedes",
        caution: HOIST,
        edition: 1,
        call: call!(_, (
            length: Length,
            pipe: LinearMassDensity,
            bore: Length,
            pump: Mass,
            cable: LinearMassDensity,
            water: MassDensity,
            submerged: Length,
            pump_volume: Volume,
            metal: MassDensity
        ) => load_submerged(
            Drop { length, pipe, bore, pump, cable, water },
            Submerged { length: submerged, pump: pump_volume, metal },
        )),
    },
    Function {
        name: "lifting.apparent_weight",
        title: "force that holds a body under water",
        inputs: &[
            port("mass", "m", "weight in air", MASS),
            port("volume", "v", "volume", BODY),
            WATER_PORT,
        ],
        gives: port("force", "f", "force", FORCE),
        law: Law::Named("the mass less that of the water displaced, times standard gravity"),
        valid: "A body wholly under water.",
        source: "Archimedes; standard gravity",
        caution: HOIST,
        edition: 1,
        call: call!(_, (mass: Mass, volume: Volume, water: MassDensity) =>
            apparent_weight(mass, volume, water)),
    },
    Function {
        name: "lifting.weight_in_water",
        title: "weight of pipe under water, open at both ends",
        inputs: &[PIPE_PORT, METAL_PORT, WATER_PORT],
        gives: port("weight", "b", "weight under water", PIPE_WEIGHT),
        law: Law::Shown(Pair::both("w * (1 - r / k)")),
        valid: "Pipe with water inside and out.",
        source: "Archimedes",
        caution: HOIST,
        edition: 1,
        call: call!(_, (pipe: LinearMassDensity, metal: MassDensity, water: MassDensity) =>
            weight_in_water(pipe, metal, water)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn string(feet: f64, bore: f64) -> Drop {
        Drop {
            length: FOOT.of(feet),
            pipe: POUND_PER_FOOT.of(2.27),
            bore: INCH.of(bore),
            pump: POUND.of(38.0),
            cable: POUND_PER_FOOT.of(0.16),
            water: POUND_PER_CUBIC_FOOT.of(62.4),
        }
    }

    fn under(feet: f64) -> Submerged {
        Submerged {
            length: FOOT.of(feet),
            pump: CUBIC_FOOT.of(0.22),
            metal: POUND_PER_CUBIC_FOOT.of(490.0),
        }
    }

    #[test]
    fn the_trades_factors_are_the_law_rounded() {
        let exact = load(string(240.0, 1.38), Basis::Physical).unwrap().si();
        for basis in [Basis::UsTrade, Basis::SiTrade] {
            let ours = load(string(240.0, 1.38), basis).unwrap().si();
            assert!((ours / exact - 1.0).abs() < 5e-5);
        }
    }

    #[test]
    fn more_under_water_than_hangs_is_refused() {
        assert!(load_submerged(string(100.0, 1.38), under(101.0)).is_err());
        assert!(load(string(f64::NAN, 1.38), Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn deeper_hangs_lighter_and_longer_hangs_heavier(feet in 50.0..600.0_f64, share in 0.0..0.9_f64) {
            let held = |deep| load_submerged(string(feet, 1.38), under(deep)).unwrap();
            prop_assert!(held(feet * (share + 0.05)) < held(feet * share));
            let air = |feet| load(string(feet, 1.38), Basis::UsTrade).unwrap();
            prop_assert!(air(feet + 1.0) > air(feet));
            prop_assert!(held(feet * share) < air(feet));
        }
    }
}
