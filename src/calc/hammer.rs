//! Water hammer: how fast a pressure wave runs in a pipe, and how high it is.

use uom::si::f64::{Length, MassDensity, Pressure, Time, Velocity};

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::ports::{
    DENSITY, LENGTH, PLAIN, PRESSURE, SECONDS, SPEED, STIFFNESS, WIDTH, port, word,
};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, FOOT_PER_SECOND, INCH, KILOGRAM_PER_CUBIC_METER, PSI};

const LIQUID: Bounds = Bounds::of("bulk modulus of the water", "psi", 1e4, 1e6);
const WEIGHT: Bounds = Bounds::of("density of the water", "kg/m3", 900.0, 1_300.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);
const WALL: Bounds = Bounds::of("wall", "in", 0.001, 20.0);
const PIPE: Bounds = Bounds::of("modulus of the pipe", "psi", 1_000.0, 1e8);
const POISSON: Bounds = Bounds::of("Poisson's ratio", "", 0.0, 0.5);
const WAVE: Bounds = Bounds::of("wave speed", "ft/s", 0.1, 10_000.0);
const CHANGE: Bounds = Bounds::of("change of speed", "ft/s", 0.0, 1_000.0);
const RUN: Bounds = Bounds::of("pipe length", "ft", 0.0, 1e6);

/// How a pipe is held against growing longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Anchorage {
    /// At its upper end only.
    OneEnd,
    /// All along: buried or clamped.
    Throughout,
    /// Expansion joints take all of it.
    Joints,
}
words!(Anchorage, "a way of holding the pipe", {
    OneEnd = "held at one end",
    Throughout = "held throughout",
    Joints = "with expansion joints",
});

/// A pipe full of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filled {
    /// Bulk modulus of the water, about 2.15 GPa.
    pub bulk: Pressure,
    /// Density of the water.
    pub density: MassDensity,
    /// Inside diameter.
    pub bore: Length,
    /// Thickness of the wall.
    pub wall: Length,
    /// Young's modulus of the pipe, for short times.
    pub modulus: Pressure,
}

impl Filled {
    fn checked(self) -> Result<(), Refusal> {
        LIQUID.check(PSI.read(self.bulk))?;
        WEIGHT.check(KILOGRAM_PER_CUBIC_METER.read(self.density))?;
        BORE.check(INCH.read(self.bore))?;
        WALL.check(INCH.read(self.wall))?;
        PIPE.check(PSI.read(self.modulus))?;
        Ok(())
    }

    fn wave(self, restraint: f64) -> Velocity {
        let give =
            self.bulk.si() * self.bore.si() * restraint / (self.modulus.si() * self.wall.si());
        Velocity::from_si((self.bulk.si() / self.density.si() / (1.0 + give)).sqrt())
    }
}

/// Speed of a pressure wave in a thin-walled pipe.
///
/// # Formula
/// ```text
/// a = √(K / ρ) / √(1 + K · d / (E · t))
///
/// a  wave speed   K  bulk modulus of the water   ρ  density   d  inside diameter
/// E  modulus of the pipe   t  wall
/// ```
///
/// # Valid for
/// A wall under a tenth or so of the diameter, pipe with expansion joints; others by
/// [`wave_speed_held`], within a few percent. Air in the water slows the wave much.
/// E of steel 200 GPa, of PVC 2.8, of PE for short times about 1 (handbooks, from memory).
///
/// # Source
/// E. B. Wylie and V. L. Streeter, *Fluid Transients* (from memory), form as a pipe
/// maker's page prints it. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That page's form for 1 in schedule 40 steel: 1408 m/s.
/// ```
/// use pumpwright_calc::hammer::{Filled, wave_speed};
/// use uom::si::f64::{Length, MassDensity, Pressure};
/// use uom::si::{length::millimeter, mass_density::kilogram_per_cubic_meter};
/// use uom::si::{pressure::gigapascal, velocity::meter_per_second};
///
/// let steel = Filled {
///     bulk: Pressure::new::<gigapascal>(2.15),
///     density: MassDensity::new::<kilogram_per_cubic_meter>(1000.0),
///     bore: Length::new::<millimeter>(26.6),
///     wall: Length::new::<millimeter>(3.38),
///     modulus: Pressure::new::<gigapascal>(200.0),
/// };
/// assert_eq!(format!("{:.0}", wave_speed(steel)?.get::<meter_per_second>()), "1408");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn wave_speed(pipe: Filled) -> Result<Velocity, Refusal> {
    pipe.checked()?;
    Ok(pipe.wave(1.0))
}

/// Speed of a pressure wave in a pipe of any wall, held as it is.
///
/// # Formula
/// ```text
/// a = √(K / ρ) / √(1 + c · K · d / (E · t))
///
/// c = 2·t/d · (1 + m) + d / (d + t) · k
/// k = 1 - m/2 held at one end, 1 - m² held throughout, 1 with expansion joints
/// m  Poisson's ratio; the rest as in `wave_speed`
/// ```
///
/// # Valid for
/// Thick walls, as PE has, and thin. Poisson's ratio of steel 0.27, of PE 0.45
/// (handbooks, from memory).
///
/// # Source
/// E. B. Wylie and V. L. Streeter, *Fluid Transients*, chapter on wave speed (from
/// memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// A rigid pipe leaves the speed of sound in water, 1466 m/s for 2.15 GPa and
/// 1000 kg/m³, however held.
/// ```
/// use pumpwright_calc::hammer::{Anchorage, Filled, wave_speed_held};
/// use uom::si::f64::{Length, MassDensity, Pressure};
/// use uom::si::{length::millimeter, mass_density::kilogram_per_cubic_meter};
/// use uom::si::{pressure::gigapascal, velocity::meter_per_second};
///
/// let rigid = Filled {
///     bulk: Pressure::new::<gigapascal>(2.15),
///     density: MassDensity::new::<kilogram_per_cubic_meter>(1000.0),
///     bore: Length::new::<millimeter>(10.0),
///     wall: Length::new::<millimeter>(100.0),
///     modulus: Pressure::new::<gigapascal>(600.0),
/// };
/// let wave = wave_speed_held(rigid, 0.27, Anchorage::Throughout)?;
/// assert!((wave.get::<meter_per_second>() - 1466.0).abs() < 10.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn wave_speed_held(
    pipe: Filled,
    poisson: f64,
    anchorage: Anchorage,
) -> Result<Velocity, Refusal> {
    pipe.checked()?;
    let m = POISSON.check(poisson)?;
    let held = match anchorage {
        Anchorage::OneEnd => 1.0 - m / 2.0,
        Anchorage::Throughout => 1.0 - m * m,
        Anchorage::Joints => 1.0,
    };
    let (bore, wall) = (pipe.bore.si(), pipe.wall.si());
    Ok(pipe.wave(2.0 * wall / bore * (1.0 + m) + bore / (bore + wall) * held))
}

/// Pressure rise when water is stopped at once.
///
/// # Formula
/// ```text
/// p = ρ · a · v
///
/// p  rise   ρ  density   a  wave speed   v  change of speed
/// ```
///
/// # Valid for
/// A stop quicker than the wave runs to the far end and back, see [`critical_time`]. It
/// comes on top of the pressure that is there.
///
/// # Source
/// N. Joukowsky (1898), from memory. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// A pump trade article on water hammer: about 328 psi for 5 ft/s; its wave speed, which
/// the part read does not give, is about 4860 ft/s.
/// ```
/// use pumpwright_calc::hammer::surge;
/// use uom::si::f64::{MassDensity, Velocity};
/// use uom::si::{mass_density::kilogram_per_cubic_meter, pressure::psi};
/// use uom::si::velocity::foot_per_second;
///
/// let speed = Velocity::new::<foot_per_second>;
/// let water = MassDensity::new::<kilogram_per_cubic_meter>(999.0);
/// let rise = surge(speed(4860.0), speed(5.0), water)?;
/// assert!((rise.get::<psi>() / 328.0 - 1.0).abs() < 0.006);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn surge(wave: Velocity, change: Velocity, density: MassDensity) -> Result<Pressure, Refusal> {
    WAVE.check(FOOT_PER_SECOND.read(wave))?;
    CHANGE.check(FOOT_PER_SECOND.read(change))?;
    WEIGHT.check(KILOGRAM_PER_CUBIC_METER.read(density))?;
    Ok(Pressure::from_si(density.si() * wave.si() * change.si()))
}

/// Longest time of closing that still counts as at once.
///
/// # Formula
/// ```text
/// t = 2 · L / a
///
/// t  time   L  pipe length   a  wave speed
/// ```
///
/// # Valid for
/// One pipe of one kind between valve and tank.
///
/// # Source
/// E. B. Wylie and V. L. Streeter, *Fluid Transients* (from memory). The accepted spans
/// are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a quotient: 600 ft at 1200 ft/s, 1.0 s.
/// ```
/// use pumpwright_calc::hammer::critical_time;
/// use uom::si::f64::{Length, Velocity};
/// use uom::si::{length::foot, time::second, velocity::foot_per_second};
///
/// let wave = Velocity::new::<foot_per_second>(1200.0);
/// let time = critical_time(Length::new::<foot>(600.0), wave)?;
/// assert_eq!(format!("{:.2}", time.get::<second>()), "1.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn critical_time(length: Length, wave: Velocity) -> Result<Time, Refusal> {
    RUN.check(FOOT.read(length))?;
    WAVE.check(FOOT_PER_SECOND.read(wave))?;
    Ok(length * 2.0 / wave)
}

const FILLED: [Port; 5] = [
    port("bulk_modulus", "k", "bulk modulus of the water", STIFFNESS),
    port("density", "w", "density of the water", DENSITY),
    port("bore", "d", "inside diameter", WIDTH),
    port("wall", "t", "wall", WIDTH),
    port("modulus", "e", "modulus of the pipe", STIFFNESS),
];
const WAVE_PORT: Port = port("wave_speed", "a", "wave speed", SPEED);
const TRANSIENTS: &str = "E. B. Wylie and V. L. Streeter, Fluid Transients (from memory)";
const BURST: Option<&str> = Some(
    "A surge comes on top of the pressure that is there and bursts pipe that would hold it still: \
     the pipe's own rating for surges decides.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "hammer.wave_speed",
        title: "speed of a pressure wave in a thin-walled pipe",
        inputs: &FILLED,
        gives: WAVE_PORT,
        law: Law::Named("sound in water, slowed by the give of the pipe's wall"),
        valid: "Thin walls, pipe with expansion joints; no air in the water.",
        source: TRANSIENTS,
        caution: BURST,
        edition: 1,
        call: call!(_, (
            bulk_modulus: Pressure,
            density: MassDensity,
            bore: Length,
            wall: Length,
            modulus: Pressure
        ) => wave_speed(Filled { bulk: bulk_modulus, density, bore, wall, modulus })),
    },
    Function {
        name: "hammer.wave_speed_held",
        title: "speed of a pressure wave in a pipe of any wall",
        inputs: &[
            FILLED[0],
            FILLED[1],
            FILLED[2],
            FILLED[3],
            FILLED[4],
            port("poisson", "m", "Poisson's ratio of the pipe", PLAIN),
            port("held", "h", "how the pipe is held", word(Anchorage::WORDS)),
        ],
        gives: WAVE_PORT,
        law: Law::Named("sound in water, slowed by the give of the pipe's wall"),
        valid: "Thick and thin walls; no air in the water.",
        source: TRANSIENTS,
        caution: BURST,
        edition: 1,
        call: call!(_, (
            bulk_modulus: Pressure,
            density: MassDensity,
            bore: Length,
            wall: Length,
            modulus: Pressure,
            poisson: f64,
            held: Anchorage
        ) => wave_speed_held(
            Filled { bulk: bulk_modulus, density, bore, wall, modulus },
            poisson,
            held,
        )),
    },
    Function {
        name: "hammer.surge",
        title: "pressure rise when water is stopped at once",
        inputs: &[
            WAVE_PORT,
            port("change", "v", "change of speed", SPEED),
            port("density", "w", "density of the water", DENSITY),
        ],
        gives: port("rise", "p", "pressure rise", PRESSURE),
        law: Law::Named("by Joukowsky, density times wave speed times change of speed"),
        valid: "A stop quicker than the wave's way there and back.",
        source: "N. Joukowsky (1898), from memory",
        caution: BURST,
        edition: 1,
        call: call!(_, (wave_speed: Velocity, change: Velocity, density: MassDensity) =>
            surge(wave_speed, change, density)),
    },
    Function {
        name: "hammer.critical_time",
        title: "longest time of closing that counts as at once",
        inputs: &[port("length", "l", "pipe length", LENGTH), WAVE_PORT],
        gives: port("time", "t", "time", SECONDS),
        law: Law::Shown(Pair::both("2 * l / a")),
        valid: "One pipe of one kind between valve and tank.",
        source: TRANSIENTS,
        caution: BURST,
        edition: 1,
        call: call!(_, (length: Length, wave_speed: Velocity) =>
            critical_time(length, wave_speed)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::MILLIMETER;

    fn pipe(wall: f64, modulus: f64) -> Filled {
        Filled {
            bulk: Pressure::from_si(2.15e9),
            density: MassDensity::from_si(1_000.0),
            bore: MILLIMETER.of(26.6),
            wall: MILLIMETER.of(wall),
            modulus: Pressure::from_si(modulus),
        }
    }

    #[test]
    fn no_wall_is_refused() {
        assert!(wave_speed(pipe(0.0, 2e11)).is_err());
        assert!(wave_speed(pipe(f64::NAN, 2e11)).is_err());
        assert!(wave_speed_held(pipe(3.0, 2e11), 0.6, Anchorage::Joints).is_err());
    }

    proptest! {
        #[test]
        fn stiffer_and_thicker_pipes_carry_faster_waves(
            wall in 1.0..5.0_f64, modulus in 5e8..2e11_f64,
        ) {
            let wave = |wall, modulus| wave_speed(pipe(wall, modulus)).unwrap();
            prop_assert!(wave(wall * 1.05, modulus) > wave(wall, modulus));
            prop_assert!(wave(wall, modulus * 1.05) > wave(wall, modulus));
            prop_assert!(wave(wall, modulus).si() < libm::sqrt(2.15e6));
        }

        /// A very thin wall with joints has the short form.
        #[test]
        fn a_thin_wall_with_joints_has_the_short_form(modulus in 5e8..2e11_f64) {
            let thin = pipe(0.03, modulus);
            let long = wave_speed_held(thin, 0.3, Anchorage::Joints).unwrap().si();
            prop_assert!((long / wave_speed(thin).unwrap().si() - 1.0).abs() < 2e-3);
        }
    }
}
