//! Friction by Darcy and Weisbach: the friction factor in its several published
//! forms, and the head it costs. Hazen-Williams is in `friction`.

use std::f64::consts::{LN_10, PI};

use uom::si::f64::{KinematicViscosity, Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::ports::{KINEMATIC, LENGTH, PLAIN, SPEED_FLOW, WIDTH, port, word};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, INCH, STANDARD_GRAVITY};
use crate::velocity::{Stream, reynolds};

/// Below this the head loss is worked as laminar.
const LAMINAR_BELOW: f64 = 2_040.0;
/// From here on the flow counts as turbulent.
const TURBULENT_FROM: f64 = 4_000.0;
/// Colebrook's divisor of the roughness and his factor over the Reynolds number.
const ROUGH: f64 = 3.7;
const SMOOTH: f64 = 2.51;
/// Refinements of the factor at most; three are ever needed.
const STEPS: usize = 6;

const RE: Bounds = Bounds::of("Reynolds number", "", 0.1, 1e9);
const RE_TURBULENT: Bounds = Bounds { min: 2_000.0, ..RE };
const ROUGHNESS: Bounds = Bounds::of("relative roughness", "", 0.0, 0.1);
const RUN: Bounds = Bounds::of("pipe length", "ft", 0.0, 100_000.0);
const WALL: Bounds = Bounds::of("roughness", "in", 0.0, 1.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);

/// How water moves in a pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Regime {
    /// In layers.
    Laminar,
    /// One or the other.
    Transition,
    /// In eddies.
    Turbulent,
}
words!(Regime, "a kind of flow", {
    Laminar = "laminar",
    Transition = "transition",
    Turbulent = "turbulent",
});

/// Whether flow is laminar, turbulent or between.
///
/// # Formula
/// ```text
/// laminar below Re 2,040, transition to 4,000, turbulent from there
/// ```
///
/// # Valid for
/// A long round pipe without pulsation. In the transition the friction cannot be
/// foretold; what is worked as turbulent is on the safe side.
///
/// # Source
/// Onset at 2,040: Avila and others, *Science* 333 (2011) 192; 4,000 as the EPANET
/// 2.2 manual has it (both from memory).
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no Reynolds number.
///
/// # Example
/// EPANET 2.2 User Manual, table "Pipe Headloss Formulas for Full Flow": fully
/// turbulent above 4,000.
/// ```
/// use pumpwright_calc::darcy::{Regime, regime};
///
/// assert_eq!(regime(24_946.0)?, Regime::Turbulent);
/// assert_eq!(regime(1_075.0)?, Regime::Laminar);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn regime(reynolds: f64) -> Result<Regime, Refusal> {
    let re = RE.check(reynolds)?;
    Ok(if re < LAMINAR_BELOW {
        Regime::Laminar
    } else if re < TURBULENT_FROM {
        Regime::Transition
    } else {
        Regime::Turbulent
    })
}

/// Darcy friction factor of laminar flow.
///
/// # Formula
/// ```text
/// f = 64 / Re
/// ```
///
/// # Valid for
/// Laminar flow, Re below about 2,000; roughness does not count.
///
/// # Source
/// Hagen (1839) and Poiseuille (1840), from memory.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no Reynolds number.
///
/// # Example
/// Package fluids 1.3.1: 0.053333 at Re 1,200.
/// ```
/// use pumpwright_calc::darcy::laminar;
///
/// assert_eq!(format!("{:.6}", laminar(1_200.0)?), "0.053333");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn laminar(reynolds: f64) -> Result<f64, Refusal> {
    Ok(64.0 / RE.check(reynolds)?)
}

/// Turbulent flow along a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turbulence {
    /// Reynolds number.
    pub reynolds: f64,
    /// Roughness over inside diameter.
    pub roughness: f64,
}

impl Turbulence {
    fn checked(self) -> Result<(f64, f64), Refusal> {
        Ok((
            RE_TURBULENT.check(self.reynolds)?,
            ROUGHNESS.check(self.roughness)?,
        ))
    }
}

/// Darcy friction factor by Colebrook, solved to the last figure.
///
/// # Formula
/// ```text
/// 1/√f = -2 · log10(e / 3.7 + 2.51 / (Re · √f))
///
/// f  friction factor   e  relative roughness   Re  Reynolds number
/// ```
/// With F = ln(10)/2 · (1/√f) it reads F + ln(F + k) = c, which steps of third
/// order solve; they stop when the value stands still.
///
/// # Valid for
/// Turbulent flow, Re above 4,000; accepted from 2,000, where its figure is on
/// the safe side. Relative roughness up to 0.05; accepted to 0.1.
///
/// # Source
/// C. F. Colebrook, *Journal of the Institution of Civil Engineers* 11 (1939) 133;
/// the way of solving: D. Clamond, *Industrial & Engineering Chemistry Research*
/// 48 (2009) 3665 (both from memory).
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1: 0.024844742 at Re 100,000 and relative roughness 0.0019.
/// ```
/// use pumpwright_calc::darcy::{Turbulence, colebrook};
///
/// let factor = colebrook(Turbulence { reynolds: 100_000.0, roughness: 0.001_9 })?;
/// assert_eq!(format!("{factor:.9}"), "0.024844742");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn colebrook(flow: Turbulence) -> Result<f64, Refusal> {
    let (re, rough) = flow.checked()?;
    Ok(solved(re, rough))
}

/// Colebrook's factor, for arguments already looked at.
pub(crate) fn solved(re: f64, rough: f64) -> f64 {
    let shift = rough * re * LN_10 / (2.0 * ROUGH * SMOOTH);
    let level = libm::log(re * LN_10 / (2.0 * SMOOTH));
    let mut root = level - 0.2;
    for _ in 0..STEPS {
        let below = shift + root;
        let miss = (libm::log(below) + root - level) / (1.0 + below);
        let step =
            (1.0 + below + 0.5 * miss) * miss * below / (1.0 + below + miss * (1.0 + miss / 3.0));
        root -= step;
        if step.abs() <= 1e-9 * root {
            break;
        }
    }
    let inverse = LN_10 / (2.0 * root);
    inverse * inverse
}

/// Darcy friction factor by Swamee and Jain: Colebrook nearly, without solving.
///
/// # Formula
/// ```text
/// f = 0.25 / log10(e / 3.7 + 5.74 / Re^0.9)²
/// ```
///
/// # Valid for
/// Re 5,000 to 100 million, relative roughness to 0.01: within 3 percent of
/// Colebrook there, mostly 1. It is what EPANET takes in turbulent flow.
///
/// # Source
/// P. K. Swamee and A. K. Jain, *Journal of the Hydraulics Division* 102 (1976)
/// 657 (from memory). Some codes print the last term as (6.97 / Re)^0.9, the same
/// to 2 parts in a million of the factor.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1, method Swamee_Jain_1976: 0.02506782 at Re 100,000 and
/// relative roughness 0.0019, 0.9 percent above Colebrook.
/// ```
/// use pumpwright_calc::darcy::{Turbulence, swamee_jain};
///
/// let factor = swamee_jain(Turbulence { reynolds: 100_000.0, roughness: 0.001_9 })?;
/// assert_eq!(format!("{factor:.5}"), "0.02507");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn swamee_jain(flow: Turbulence) -> Result<f64, Refusal> {
    let (re, rough) = flow.checked()?;
    let log = libm::log10(rough / ROUGH + 5.74 / libm::pow(re, 0.9));
    Ok(0.25 / (log * log))
}

/// Darcy friction factor by Haaland: Colebrook nearly, without solving.
///
/// # Formula
/// ```text
/// 1/√f = -1.8 · log10((e / 3.7)^1.11 + 6.9 / Re)
/// ```
///
/// # Valid for
/// Re 4,000 to 100 million, relative roughness to 0.05: within 2 percent of
/// Colebrook there.
///
/// # Source
/// S. E. Haaland, *Journal of Fluids Engineering* 105 (1983) 89 (from memory).
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1, method Haaland: 0.024708521 at Re 100,000 and relative
/// roughness 0.0019, 0.55 percent below Colebrook.
/// ```
/// use pumpwright_calc::darcy::{Turbulence, haaland};
///
/// let factor = haaland(Turbulence { reynolds: 100_000.0, roughness: 0.001_9 })?;
/// assert_eq!(format!("{factor:.9}"), "0.024708521");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn haaland(flow: Turbulence) -> Result<f64, Refusal> {
    let (re, rough) = flow.checked()?;
    let inverse = -1.8 * libm::log10(libm::pow(rough / ROUGH, 1.11) + 6.9 / re);
    Ok(1.0 / (inverse * inverse))
}

/// A straight pipe with its roughness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoughPipe {
    /// Length along the pipe.
    pub length: Length,
    /// Inside diameter.
    pub bore: Length,
    /// Equivalent sand roughness of the wall.
    pub roughness: Length,
}

/// Friction head of any liquid in a straight pipe, by Darcy and Weisbach.
///
/// # Formula
/// ```text
/// h = f · (L / d) · v² / (2 · g)
///
/// h  friction head   L  pipe length   d  inside diameter   v  speed
/// g  standard gravity, 9.80665 m/s²
/// f  64 / Re below Re 2,040; by Colebrook from there
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// A full round pipe. Between Re 2,040 and 4,000 the flow may be either; the
/// turbulent figure given is the higher. Drawn plastic tubing: roughness
/// 0.0015 mm; new steel 0.045 mm; galvanized 0.15 mm (handbooks, from memory).
///
/// # Source
/// J. Weisbach (1845), H. Darcy (1857), in today's form (from memory); factor as
/// in [`colebrook`] and [`laminar`]. The accepted spans are our own choice; no
/// source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its span.
///
/// # Example
/// Package fluids 1.3.1 with IAPWS water: 0.5 L/s at 10 °C through 60 m of 26.6 mm
/// pipe, roughness 0.0015 mm, lose 2.473 m.
/// ```
/// use pumpwright_calc::darcy::{RoughPipe, head_loss};
/// use pumpwright_calc::water::kinematic_viscosity;
/// use uom::si::f64::{Length, ThermodynamicTemperature, VolumeRate};
/// use uom::si::{length::{meter, millimeter}, volume_rate::liter_per_second};
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let pipe = RoughPipe {
///     length: Length::new::<meter>(60.0),
///     bore: Length::new::<millimeter>(26.6),
///     roughness: Length::new::<millimeter>(0.001_5),
/// };
/// let water = kinematic_viscosity(ThermodynamicTemperature::new::<degree_celsius>(10.0))?;
/// let head = head_loss(pipe, VolumeRate::new::<liter_per_second>(0.5), water)?;
/// assert_eq!(format!("{:.3}", head.get::<meter>()), "2.473");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head_loss(
    pipe: RoughPipe,
    flow: VolumeRate,
    viscosity: KinematicViscosity,
) -> Result<Length, Refusal> {
    RUN.check(FOOT.read(pipe.length))?;
    WALL.check(INCH.read(pipe.roughness))?;
    BORE.check(INCH.read(pipe.bore))?;
    let stream = Stream {
        flow,
        bore: pipe.bore,
    };
    let re = reynolds(stream, viscosity)?;
    let rough = ROUGHNESS.check(pipe.roughness.si() / pipe.bore.si())?;
    if flow.si() <= 0.0 {
        return Ok(Length::from_si(0.0));
    }
    let factor = factor(RE.check(re)?, rough);
    let bore = pipe.bore.si();
    let speed = 4.0 * flow.si() / (PI * bore * bore);
    Ok(Length::from_si(
        factor * (pipe.length.si() / bore) * speed * speed / (2.0 * STANDARD_GRAVITY),
    ))
}

/// The factor that the head loss takes, for arguments already looked at.
pub(crate) fn factor(re: f64, rough: f64) -> f64 {
    if re < LAMINAR_BELOW {
        64.0 / re
    } else {
        solved(re, rough)
    }
}

const FLOWING: &[Port] = &[
    port("reynolds", "r", "Reynolds number", PLAIN),
    port("roughness", "e", "roughness over inside diameter", PLAIN),
];
const FACTOR: Port = port("factor", "f", "Darcy friction factor", PLAIN);
const COLEBROOK: &str = "C. F. Colebrook, Journal of the Institution of Civil Engineers 11 (1939) \
    133 (from memory); solved to the last figure";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "darcy.regime",
        title: "whether flow is laminar or turbulent",
        inputs: &[port("reynolds", "r", "Reynolds number", PLAIN)],
        gives: port("regime", "k", "kind of flow", word(Regime::WORDS)),
        law: Law::Named("by the Reynolds number: 2,040 and 4,000"),
        valid: "A long round pipe.",
        source: "Avila and others, Science 333 (2011) 192; EPANET 2.2 User Manual (both from \
            memory)",
        caution: None,
        edition: 1,
        call: call!(_, (reynolds: f64) => regime(reynolds)),
    },
    Function {
        name: "darcy.laminar",
        title: "friction factor of laminar flow",
        inputs: &[port("reynolds", "r", "Reynolds number", PLAIN)],
        gives: FACTOR,
        law: Law::Shown(Pair::both("64 / r")),
        valid: "Laminar flow, Reynolds number below about 2,000.",
        source: "Hagen (1839) and Poiseuille (1840), from memory",
        caution: None,
        edition: 1,
        call: call!(_, (reynolds: f64) => laminar(reynolds)),
    },
    Function {
        name: "darcy.colebrook",
        title: "friction factor by Colebrook",
        inputs: FLOWING,
        gives: FACTOR,
        law: Law::Named("by Colebrook's equation, solved"),
        valid: "Turbulent flow, Reynolds number above 4,000; a safe figure from 2,000.",
        source: COLEBROOK,
        caution: None,
        edition: 1,
        call: call!(_, (reynolds: f64, roughness: f64) =>
            colebrook(Turbulence { reynolds, roughness })),
    },
    Function {
        name: "darcy.swamee_jain",
        title: "friction factor by Swamee and Jain",
        inputs: FLOWING,
        gives: FACTOR,
        law: Law::Named("by Swamee and Jain's formula, near Colebrook"),
        valid: "Turbulent flow, Reynolds number above 5,000; within 3 percent of Colebrook.",
        source: "P. K. Swamee and A. K. Jain, Journal of the Hydraulics Division 102 (1976) 657 \
            (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (reynolds: f64, roughness: f64) =>
            swamee_jain(Turbulence { reynolds, roughness })),
    },
    Function {
        name: "darcy.haaland",
        title: "friction factor by Haaland",
        inputs: FLOWING,
        gives: FACTOR,
        law: Law::Named("by Haaland's formula, near Colebrook"),
        valid: "Turbulent flow, Reynolds number above 4,000; within 2 percent of Colebrook.",
        source: "S. E. Haaland, Journal of Fluids Engineering 105 (1983) 89 (from memory)",
        caution: None,
        edition: 1,
        call: call!(_, (reynolds: f64, roughness: f64) =>
            haaland(Turbulence { reynolds, roughness })),
    },
    Function {
        name: "darcy.head_loss",
        title: "friction head in a straight pipe, by Darcy and Weisbach",
        inputs: &[
            port("length", "l", "pipe length", LENGTH),
            port("bore", "d", "inside diameter", WIDTH),
            port("roughness", "e", "roughness of the wall", WIDTH),
            port("flow", "q", "flow", SPEED_FLOW),
            port("viscosity", "v", "kinematic viscosity", KINEMATIC),
        ],
        gives: port("head", "h", "friction head", LENGTH),
        law: Law::Named("by Darcy and Weisbach, the friction factor by Colebrook"),
        valid: "A full round pipe. Laminar below Reynolds number 2,040; between there and 4,000 \
            the safe, turbulent figure.",
        source: COLEBROOK,
        caution: None,
        edition: 1,
        call: call!(_, (
            length: Length,
            bore: Length,
            roughness: Length,
            flow: VolumeRate,
            viscosity: KinematicViscosity
        ) => head_loss(RoughPipe { length, bore, roughness }, flow, viscosity)),
    },
];

#[cfg(test)]
mod tests;
