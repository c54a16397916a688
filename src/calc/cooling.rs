//! Water that flows past a submersible motor and keeps it cool.

use std::f64::consts::FRAC_PI_4;

use uom::si::f64::{Length, Velocity, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{SPEED, SPEED_FLOW, WIDTH, port};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{
    FOOT_PER_SECOND, GALLON_PER_MINUTE, INCH, LITER_PER_MINUTE, METER, METER_PER_SECOND,
    MILLIMETER, Unit,
};
use crate::velocity::{SI_FACTOR, US_FACTOR};

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const WELL: Bounds = Bounds::of("inside diameter of the casing", "in", 0.1, 200.0);
const MOTOR: Bounds = Bounds::of("outside diameter of the motor", "in", 0.1, 200.0);
const PAST: Bounds = Bounds::of("speed", "ft/s", 0.0, 100.0);

/// A motor in a casing, or in a sleeve that serves as one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// Inside diameter of the casing.
    pub casing: Length,
    /// Outside diameter of the motor.
    pub motor: Length,
}

impl Ring {
    /// Difference of the squares in a unit.
    fn open(self, unit: Unit<Length>) -> f64 {
        let square = |width: Length| unit.read(width) * unit.read(width);
        square(self.casing) - square(self.motor)
    }

    fn checked(self) -> Result<(), Refusal> {
        WELL.check(INCH.read(self.casing))?;
        MOTOR.check(INCH.read(self.motor))?;
        if self.motor >= self.casing {
            return Err(Refusal::Conflict("the motor does not go into the casing"));
        }
        Ok(())
    }
}

/// Speed of the water past a motor.
///
/// # Formula
/// ```text
/// v = 0.4085 · q / (D² - d²)    ft/s, gpm, in     (trade, feet and gpm)
/// v = 21.22 · q / (D² - d²)     m/s, L/min, mm    (trade, metric)
/// v = q / (π/4 · (D² - d²))     exactly           (physical)
///
/// v  speed   q  flow   D  inside diameter of the casing   d  outside of the motor
/// ```
///
/// # Valid for
/// Water that comes from below the motor. Water that enters above it cools nothing:
/// then a sleeve serves as the casing.
///
/// # Source
/// Continuity. What speed a motor needs is its maker's to say: 0.25 ft/s for 4 in and
/// 0.5 ft/s for 6 and 8 in motors in one manual; another maker counts half the flow.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span;
/// [`Refusal::Conflict`] where the motor does not go into the casing.
///
/// # Example
/// A submersible pump's installation manual: 1.2 gpm past a 4 in motor (3.75 in wide)
/// in a 4 in casing is 0.25 ft/s.
/// ```
/// use pumpwright_calc::{cooling::{Ring, speed}, registry::Basis};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::inch, velocity::foot_per_second, volume_rate::gallon_per_minute};
///
/// let ring = Ring { casing: Length::new::<inch>(4.0), motor: Length::new::<inch>(3.75) };
/// let speed = speed(VolumeRate::new::<gallon_per_minute>(1.2), ring, Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", speed.get::<foot_per_second>()), "0.25");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn speed(flow: VolumeRate, ring: Ring, basis: Basis) -> Result<Velocity, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    ring.checked()?;
    Ok(match basis {
        Basis::UsTrade => {
            FOOT_PER_SECOND.of(US_FACTOR * GALLON_PER_MINUTE.read(flow) / ring.open(INCH))
        }
        Basis::SiTrade => {
            METER_PER_SECOND.of(SI_FACTOR * LITER_PER_MINUTE.read(flow) / ring.open(MILLIMETER))
        }
        Basis::Physical => Velocity::from_si(flow.si() / (FRAC_PI_4 * ring.open(METER))),
    })
}

/// Least flow past a motor for the speed that it needs.
///
/// # Formula
/// ```text
/// q = v · (D² - d²) / 0.4085    gpm, ft/s, in     (trade, feet and gpm)
/// q = v · (D² - d²) / 21.22     L/min, m/s, mm    (trade, metric)
/// q = v · π/4 · (D² - d²)       exactly           (physical)
///
/// q  flow   v  speed   D  inside diameter of the casing   d  outside of the motor
/// ```
///
/// # Valid for
/// As [`speed`].
///
/// # Source
/// As [`speed`].
///
/// # Errors
/// As [`speed`].
///
/// # Example
/// A submersible pump's installation manual: 30 gpm for a 4 in motor (3.75 in wide) in
/// an 8 in casing at 0.25 ft/s; worked, 30.6.
/// ```
/// use pumpwright_calc::{cooling::{Ring, flow}, registry::Basis};
/// use uom::si::f64::{Length, Velocity};
/// use uom::si::{length::inch, velocity::foot_per_second, volume_rate::gallon_per_minute};
///
/// let ring = Ring { casing: Length::new::<inch>(8.0), motor: Length::new::<inch>(3.75) };
/// let flow = flow(Velocity::new::<foot_per_second>(0.25), ring, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", flow.get::<gallon_per_minute>()), "30.6");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow(speed: Velocity, ring: Ring, basis: Basis) -> Result<VolumeRate, Refusal> {
    PAST.check(FOOT_PER_SECOND.read(speed))?;
    ring.checked()?;
    Ok(match basis {
        Basis::UsTrade => {
            GALLON_PER_MINUTE.of(FOOT_PER_SECOND.read(speed) * ring.open(INCH) / US_FACTOR)
        }
        Basis::SiTrade => {
            LITER_PER_MINUTE.of(METER_PER_SECOND.read(speed) * ring.open(MILLIMETER) / SI_FACTOR)
        }
        Basis::Physical => VolumeRate::from_si(speed.si() * FRAC_PI_4 * ring.open(METER)),
    })
}

const RING: [Port; 2] = [
    port("casing", "c", "inside diameter of the casing", WIDTH),
    port("motor", "m", "outside diameter of the motor", WIDTH),
];
const BELOW: &str = "Water that comes from below the motor.";
const MANUAL: Option<&str> =
    Some("The motor's own manual says what speed it needs, and up to what water temperature.");

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "cooling.speed",
        title: "speed of the water past a motor",
        inputs: &[port("flow", "q", "flow", SPEED_FLOW), RING[0], RING[1]],
        gives: port("speed", "v", "speed", SPEED),
        law: Law::Shown(Pair {
            us: "0.4085 * q / (c^2 - m^2)",
            si: "21.22 * q / (c^2 - m^2)",
        }),
        valid: BELOW,
        source: "continuity",
        caution: MANUAL,
        edition: 1,
        call: call!(basis, (flow: VolumeRate, casing: Length, motor: Length) =>
            speed(flow, Ring { casing, motor }, basis)),
    },
    Function {
        name: "cooling.flow",
        title: "least flow past a motor for a speed",
        inputs: &[port("speed", "v", "speed", SPEED), RING[0], RING[1]],
        gives: port("flow", "q", "flow", SPEED_FLOW),
        law: Law::Shown(Pair {
            us: "v * (c^2 - m^2) / 0.4085",
            si: "v * (c^2 - m^2) / 21.22",
        }),
        valid: BELOW,
        source: "continuity",
        caution: MANUAL,
        edition: 1,
        call: call!(basis, (speed: Velocity, casing: Length, motor: Length) =>
            flow(speed, Ring { casing, motor }, basis)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn ring(casing: f64, motor: f64) -> Ring {
        Ring {
            casing: INCH.of(casing),
            motor: INCH.of(motor),
        }
    }

    #[test]
    fn a_motor_too_wide_is_refused() {
        let water = GALLON_PER_MINUTE.of(10.0);
        assert!(speed(water, ring(3.75, 3.75), Basis::UsTrade).is_err());
        assert!(speed(water, ring(f64::NAN, 3.75), Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn flow_and_speed_turn_each_other_round(
            gpm in 0.5..80.0_f64, casing in 4.0..10.0_f64, at in 0_usize..3,
        ) {
            let basis = [Basis::UsTrade, Basis::SiTrade, Basis::Physical][at];
            let ring = ring(casing, 3.75);
            let past = speed(GALLON_PER_MINUTE.of(gpm), ring, basis).unwrap();
            let back = GALLON_PER_MINUTE.read(flow(past, ring, basis).unwrap());
            prop_assert!((back / gpm - 1.0).abs() < 1e-12);
        }
    }
}
