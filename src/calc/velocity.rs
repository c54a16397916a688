//! How fast water moves in a full round pipe, and whether it moves smoothly.

use std::f64::consts::PI;

use uom::si::f64::{KinematicViscosity, Length, Velocity, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{KINEMATIC, LENGTH, PLAIN, SPEED, SPEED_FLOW, WIDTH, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{
    FOOT_PER_SECOND, GALLON_PER_MINUTE, INCH, LITER_PER_MINUTE, METER_PER_SECOND, MILLIMETER,
    SQUARE_MILLIMETER_PER_SECOND, STANDARD_GRAVITY,
};

/// Feet a second from gallons a minute and inches.
pub(crate) const US_FACTOR: f64 = 0.4085;
/// Meters a second from liters a minute and millimeters.
pub(crate) const SI_FACTOR: f64 = 21.22;

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);
const SPEED_SPAN: Bounds = Bounds::of("speed", "ft/s", 0.0, 1_000.0);
const THICKNESS: Bounds = Bounds::of("kinematic viscosity", "mm2/s", 0.1, 1_000.0);

/// Water in a full round pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// Volume in a time.
    pub flow: VolumeRate,
    /// Inside diameter.
    pub bore: Length,
}

/// Mean speed of water in a full round pipe.
///
/// # Formula
/// ```text
/// v = 0.4085 · Q / d²   ft/s, gpm, in      (trade, feet and gpm)
/// v = 21.22 · Q / d²    m/s, L/min, mm     (trade, metric)
/// v = 4 · Q / (π · d²)  m/s, m³/s, m       (physical)
///
/// v  speed   Q  flow   d  inside diameter
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// A full pipe. The first two are the third in other units, rounded.
///
/// # Source
/// Continuity; the trade's factors are the same law in its units. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1: 10 gpm in 1.049 in move at 3.712 ft/s.
/// ```
/// use pumpwright_calc::{registry::Basis, velocity::{Stream, in_pipe}};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::inch, velocity::foot_per_second, volume_rate::gallon_per_minute};
///
/// let stream = Stream {
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     bore: Length::new::<inch>(1.049),
/// };
/// let speed = in_pipe(stream, Basis::Physical)?;
/// assert_eq!(format!("{:.3}", speed.get::<foot_per_second>()), "3.712");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn in_pipe(stream: Stream, basis: Basis) -> Result<Velocity, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(stream.flow))?;
    BORE.check(INCH.read(stream.bore))?;
    let square = |bore: f64| bore * bore;
    Ok(match basis {
        Basis::UsTrade => FOOT_PER_SECOND
            .of(US_FACTOR * GALLON_PER_MINUTE.read(stream.flow) / square(INCH.read(stream.bore))),
        Basis::SiTrade => METER_PER_SECOND
            .of(SI_FACTOR * LITER_PER_MINUTE.read(stream.flow)
                / square(MILLIMETER.read(stream.bore))),
        Basis::Physical => {
            METER_PER_SECOND.of(4.0 * stream.flow.si() / (PI * square(stream.bore.si())))
        }
    })
}

/// Reynolds number of water in a full round pipe.
///
/// # Formula
/// ```text
/// Re = 4 · Q / (π · d · ν)
///
/// Q  flow   m³/s     d  inside diameter   m     ν  kinematic viscosity   m²/s
/// ```
/// which is v · d / ν. Arguments carry their own units.
///
/// # Valid for
/// A full round pipe. Below about 2,000 the flow is laminar, above about 4,000
/// turbulent; between, either.
///
/// # Source
/// Definition; O. Reynolds, *Philosophical Transactions* 174 (1883) 935 (from
/// memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1 with IAPWS water: 10 gpm in 1.049 in at 55 °F, where
/// ν = 1.2068 mm²/s, has Re 24,946.
/// ```
/// use pumpwright_calc::velocity::{Stream, reynolds};
/// use pumpwright_calc::water::kinematic_viscosity;
/// use uom::si::f64::{Length, ThermodynamicTemperature, VolumeRate};
/// use uom::si::{length::inch, volume_rate::gallon_per_minute};
/// use uom::si::thermodynamic_temperature::degree_fahrenheit;
///
/// let stream = Stream {
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     bore: Length::new::<inch>(1.049),
/// };
/// let water = ThermodynamicTemperature::new::<degree_fahrenheit>(55.0);
/// let re = reynolds(stream, kinematic_viscosity(water)?)?;
/// assert_eq!(format!("{:.0}", re / 10.0), "2495");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn reynolds(stream: Stream, viscosity: KinematicViscosity) -> Result<f64, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(stream.flow))?;
    BORE.check(INCH.read(stream.bore))?;
    THICKNESS.check(SQUARE_MILLIMETER_PER_SECOND.read(viscosity))?;
    Ok(4.0 * stream.flow.si() / (PI * stream.bore.si() * viscosity.si()))
}

/// Velocity head: how far water of this speed would rise.
///
/// # Formula
/// ```text
/// h = v² / (2 · g)
///
/// h  velocity head   v  speed   g  standard gravity, 9.80665 m/s² or 32.174 ft/s²
/// ```
///
/// # Valid for
/// Mean speed of turbulent flow. At household speeds 0.1 to 0.5 ft.
///
/// # Source
/// D. Bernoulli, *Hydrodynamica* (1738), in today's form (from memory). The
/// accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for a speed outside its span.
///
/// # Example
/// Package fluids 1.3.1: at 10 gpm in 1.049 in, 3.7117 ft/s, a loss coefficient of
/// 2.3 loses 0.4926 ft, so the velocity head is 0.2142 ft.
/// ```
/// use pumpwright_calc::velocity::velocity_head;
/// use uom::si::{f64::Velocity, length::foot, velocity::foot_per_second};
///
/// let head = velocity_head(Velocity::new::<foot_per_second>(3.7117))?;
/// assert_eq!(format!("{:.3}", head.get::<foot>()), "0.214");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn velocity_head(speed: Velocity) -> Result<Length, Refusal> {
    SPEED_SPAN.check(FOOT_PER_SECOND.read(speed))?;
    let speed = speed.si();
    Ok(Length::from_si(speed * speed / (2.0 * STANDARD_GRAVITY)))
}

const CONTINUITY: &str = "continuity; the trade's factor is the same law in its units, rounded";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "velocity.in_pipe",
        title: "speed of water in a pipe",
        inputs: &[
            port("flow", "q", "flow", SPEED_FLOW),
            port("bore", "d", "inside diameter", WIDTH),
        ],
        gives: port("speed", "v", "speed", SPEED),
        law: Law::Shown(Pair {
            us: "0.4085 * q / d^2",
            si: "21.22 * q / d^2",
        }),
        valid: "A full round pipe.",
        source: CONTINUITY,
        caution: None,
        edition: 1,
        call: call!(basis, (flow: VolumeRate, bore: Length) =>
            in_pipe(Stream { flow, bore }, basis)),
    },
    Function {
        name: "velocity.reynolds",
        title: "Reynolds number in a pipe",
        inputs: &[
            port("flow", "q", "flow", SPEED_FLOW),
            port("bore", "d", "inside diameter", WIDTH),
            port("viscosity", "v", "kinematic viscosity", KINEMATIC),
        ],
        gives: port("reynolds", "r", "Reynolds number", PLAIN),
        law: Law::Named("four times the flow over pi, bore and kinematic viscosity"),
        valid: "A full round pipe. Laminar below about 2,000, turbulent above about 4,000.",
        source: "definition; O. Reynolds, Philosophical Transactions 174 (1883) 935 (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (flow: VolumeRate, bore: Length, viscosity: KinematicViscosity) =>
            reynolds(Stream { flow, bore }, viscosity)),
    },
    Function {
        name: "velocity.velocity_head",
        title: "velocity head",
        inputs: &[port("speed", "v", "speed", SPEED)],
        gives: port("head", "h", "velocity head", LENGTH),
        law: Law::Named("the square of the speed over twice standard gravity"),
        valid: "Mean speed of turbulent flow.",
        source: "Bernoulli's law (from memory), standard gravity",
        caution: None,
        edition: 1,
        call: call!(_, (speed: Velocity) => velocity_head(speed)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn stream(gpm: f64, inches: f64) -> Stream {
        Stream {
            flow: GALLON_PER_MINUTE.of(gpm),
            bore: INCH.of(inches),
        }
    }

    #[test]
    fn the_trades_factors_are_the_law_rounded() {
        let exact = in_pipe(stream(12.0, 1.38), Basis::Physical).unwrap().si();
        for basis in [Basis::UsTrade, Basis::SiTrade] {
            let ours = in_pipe(stream(12.0, 1.38), basis).unwrap().si();
            assert!((ours / exact - 1.0).abs() < 1.5e-4, "{basis:?}");
        }
    }

    #[test]
    fn what_is_no_flow_or_bore_is_refused() {
        for odd in [f64::NAN, f64::INFINITY, -1.0] {
            assert!(in_pipe(stream(odd, 1.0), Basis::UsTrade).is_err());
            assert!(in_pipe(stream(5.0, odd), Basis::UsTrade).is_err());
        }
        assert!(in_pipe(stream(5.0, 0.0), Basis::UsTrade).is_err());
    }

    proptest! {
        #[test]
        fn reynolds_is_speed_times_bore_over_viscosity(
            gpm in 0.1..500.0_f64, inches in 0.3..8.0_f64, thick in 0.3..2.0_f64,
        ) {
            let viscosity = SQUARE_MILLIMETER_PER_SECOND.of(thick);
            let speed = in_pipe(stream(gpm, inches), Basis::Physical).unwrap();
            let by_speed = speed.si() * INCH.of(inches).si() / viscosity.si();
            let ours = reynolds(stream(gpm, inches), viscosity).unwrap();
            prop_assert!((ours / by_speed - 1.0).abs() < 1e-12);
        }

        #[test]
        fn twice_the_speed_has_four_times_the_head(speed in 0.1..100.0_f64) {
            let head = |speed| velocity_head(METER_PER_SECOND.of(speed)).unwrap().si();
            prop_assert!((head(2.0 * speed) / head(speed) - 4.0).abs() < 1e-12);
        }
    }
}
