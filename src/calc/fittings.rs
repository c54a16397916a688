//! What valves and fittings cost: by loss coefficient, and as a length of pipe.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::ports::{LENGTH, PLAIN, SPEED_FLOW, WIDTH, port, word};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::INCH;
use crate::velocity::{Stream, in_pipe, velocity_head};

const FACTOR: Bounds = Bounds::of("friction factor", "", 0.001, 0.2);
const COEFFICIENT: Bounds = Bounds::of("loss coefficient", "", 0.0, 100_000.0);
const RATIO: Bounds = Bounds::of("length over diameter", "", 0.0, 10_000.0);
const COUNT: Bounds = Bounds::of("count", "", 0.0, 10_000.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);

/// Valves and fittings that the table has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fitting {
    /// Gate valve, open.
    Gate,
    /// Ball valve, full bore, open.
    Ball,
    /// Globe valve, open.
    Globe,
    /// Angle valve with a body like a globe valve's, open.
    Angle,
    /// Angle or globe valve in Y pattern, open.
    AngleY,
    /// Swing check valve, seat at an angle.
    SwingCheckAngled,
    /// Swing check valve, seat across the pipe.
    SwingCheckStraight,
    /// Lift check valve in a globe body.
    LiftCheck,
    /// Lift check valve in an angle body.
    LiftCheckAngled,
    /// Foot valve with a poppet.
    FootPoppet,
    /// Foot valve with a hinged disk.
    FootHinged,
    /// Plug valve, straight way.
    Plug,
    /// Diaphragm valve over a weir.
    DiaphragmWeir,
    /// Diaphragm valve, straight way.
    DiaphragmStraight,
    /// Standard elbow, 90 degrees.
    Elbow90,
    /// Standard elbow, 45 degrees.
    Elbow45,
    /// Tee, straight through.
    TeeRun,
    /// Tee, through the branch.
    TeeBranch,
}
words!(Fitting, "a valve or fitting", {
    Gate = "gate valve",
    Ball = "ball valve",
    Globe = "globe valve",
    Angle = "angle valve",
    AngleY = "Y-pattern angle valve",
    SwingCheckAngled = "swing check with angled seat",
    SwingCheckStraight = "swing check with straight seat",
    LiftCheck = "lift check in a globe body",
    LiftCheckAngled = "lift check in an angle body",
    FootPoppet = "foot valve with poppet",
    FootHinged = "foot valve with hinged disk",
    Plug = "plug valve",
    DiaphragmWeir = "diaphragm valve over a weir",
    DiaphragmStraight = "straight diaphragm valve",
    Elbow90 = "90 elbow",
    Elbow45 = "45 elbow",
    TeeRun = "tee straight through",
    TeeBranch = "tee through branch",
});

/// Length over diameter of a valve or fitting.
///
/// # Formula
/// ```text
/// a row of the table: gate 8, ball 3, globe 340, angle 150 (Y pattern 55),
/// swing check 100 (seat across 50), lift check 600 (angle body 55),
/// foot valve 420 (hinged 75), plug 18, diaphragm 149 (straight 39),
/// elbow 30 (45 degrees 16), tee 20 through, 60 through the branch
/// ```
///
/// # Valid for
/// Standard bodies of the pipe's own bore, fully open. Makers' figures differ;
/// plumbing codes' allowances differ by a factor of two to five.
///
/// # Source
/// Crane Technical Paper 410, as coded in package fluids 1.3.1 for valves; elbow
/// and tee as an engineering datasheet and the 2018 International Residential
/// Code, table A.2.2, print them. Angle, lift check, plug and diaphragm from
/// memory.
///
/// # Example
/// Package fluids 1.3.1: a globe valve at a friction factor of 0.023 has K 7.82,
/// which is 340 times.
/// ```
/// use pumpwright_calc::fittings::{Fitting, length_over_diameter};
///
/// assert_eq!(format!("{:.2}", 0.023 * length_over_diameter(Fitting::Globe)), "7.82");
/// ```
pub fn length_over_diameter(fitting: Fitting) -> f64 {
    match fitting {
        Fitting::Ball => 3.0,
        Fitting::Gate => 8.0,
        Fitting::Elbow45 => 16.0,
        Fitting::Plug => 18.0,
        Fitting::TeeRun => 20.0,
        Fitting::Elbow90 => 30.0,
        Fitting::DiaphragmStraight => 39.0,
        Fitting::SwingCheckStraight => 50.0,
        Fitting::AngleY | Fitting::LiftCheckAngled => 55.0,
        Fitting::TeeBranch => 60.0,
        Fitting::FootHinged => 75.0,
        Fitting::SwingCheckAngled => 100.0,
        Fitting::DiaphragmWeir => 149.0,
        Fitting::Angle => 150.0,
        Fitting::Globe => 340.0,
        Fitting::FootPoppet => 420.0,
        Fitting::LiftCheck => 600.0,
    }
}

/// Loss coefficient of a valve or fitting.
///
/// # Formula
/// ```text
/// K = (L/d) · f
///
/// K  loss coefficient   L/d  by `length_over_diameter`   f  factor of fully rough flow
/// ```
///
/// # Valid for
/// The factor of fully turbulent flow in clean steel pipe of that size: about
/// 0.025 at 3/4 in, 0.023 at 1 in, 0.019 at 2 in (from memory), whatever the flow.
///
/// # Source
/// Crane Technical Paper 410, as coded in package fluids 1.3.1. The accepted span
/// is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no friction factor.
///
/// # Example
/// Package fluids 1.3.1: a gate valve at a factor of 0.023 has K 0.184.
/// ```
/// use pumpwright_calc::fittings::{Fitting, coefficient};
///
/// assert_eq!(format!("{:.3}", coefficient(Fitting::Gate, 0.023)?), "0.184");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn coefficient(fitting: Fitting, friction_factor: f64) -> Result<f64, Refusal> {
    Ok(length_over_diameter(fitting) * FACTOR.check(friction_factor)?)
}

/// Head that fittings lose, from their loss coefficient.
///
/// # Formula
/// ```text
/// h = K · v² / (2 · g)
///
/// h  head   K  loss coefficient, all fittings added   v  speed in the pipe
/// g  standard gravity, 9.80665 m/s²
/// ```
///
/// # Valid for
/// Turbulent flow, the speed of the pipe of the bore given.
///
/// # Source
/// Form as in Crane Technical Paper 410 and package fluids 1.3.1. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1: K 2.3 at 10 gpm in 1.049 in loses 0.4926 ft.
/// ```
/// use pumpwright_calc::{fittings::head_lost, velocity::Stream};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::{foot, inch}, volume_rate::gallon_per_minute};
///
/// let stream = Stream {
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     bore: Length::new::<inch>(1.049),
/// };
/// assert_eq!(format!("{:.4}", head_lost(2.3, stream)?.get::<foot>()), "0.4926");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head_lost(coefficient: f64, stream: Stream) -> Result<Length, Refusal> {
    let coefficient = COEFFICIENT.check(coefficient)?;
    let speed = in_pipe(stream, Basis::Physical)?;
    Ok(velocity_head(speed)? * coefficient)
}

/// Length of pipe that loses as much as a loss coefficient.
///
/// # Formula
/// ```text
/// L = K · d / f
///
/// L  equivalent length   K  loss coefficient   d  inside diameter   f  friction factor
/// ```
///
/// # Valid for
/// The friction factor of the pipe that the length is to be added to.
///
/// # Source
/// Darcy-Weisbach and the coefficient's definition; package fluids 1.3.1,
/// `L_equiv_from_K`. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Package fluids 1.3.1: K 0.69 in 1.049 in at a factor of 0.023 is 2.62 ft.
/// ```
/// use pumpwright_calc::fittings::length_from_coefficient;
/// use uom::si::{f64::Length, length::{foot, inch}};
///
/// let length = length_from_coefficient(0.69, Length::new::<inch>(1.049), 0.023)?;
/// assert_eq!(format!("{:.3}", length.get::<foot>()), "2.622");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn length_from_coefficient(
    coefficient: f64,
    bore: Length,
    friction_factor: f64,
) -> Result<Length, Refusal> {
    BORE.check(INCH.read(bore))?;
    Ok(bore * COEFFICIENT.check(coefficient)? / FACTOR.check(friction_factor)?)
}

/// Length of pipe that a number of like fittings count for.
///
/// # Formula
/// ```text
/// L = n · r · d
///
/// L  equivalent length   n  count   r  length over diameter   d  inside diameter
/// ```
///
/// # Valid for
/// Turbulent flow. The ratio by [`length_over_diameter`] or a maker's sheet.
///
/// # Source
/// Crane Technical Paper 410, L/D method (from memory). The accepted spans are
/// our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// An engineering datasheet prints 2.62 ft for one standard elbow of 1 in; four
/// of them count for 10.49 ft.
/// ```
/// use pumpwright_calc::fittings::equivalent_length;
/// use uom::si::{f64::Length, length::{foot, inch}};
///
/// let bore = Length::new::<inch>(1.049);
/// assert_eq!(format!("{:.2}", equivalent_length(1.0, 30.0, bore)?.get::<foot>()), "2.62");
/// assert_eq!(format!("{:.2}", equivalent_length(4.0, 30.0, bore)?.get::<foot>()), "10.49");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn equivalent_length(count: f64, ratio: f64, bore: Length) -> Result<Length, Refusal> {
    COUNT.check(count)?;
    RATIO.check(ratio)?;
    BORE.check(INCH.read(bore))?;
    Ok(bore * ratio * count)
}

const CRANE: &str = "Crane Technical Paper 410, L/D method (from memory), as package fluids 1.3.1 \
    has it";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "fittings.length_over_diameter",
        title: "length over diameter of a valve or fitting",
        inputs: &[port(
            "fitting",
            "k",
            "valve or fitting",
            word(Fitting::WORDS),
        )],
        gives: port("ratio", "r", "length over diameter", PLAIN),
        law: Law::Named("by the table of lengths over diameter"),
        valid: "Standard bodies of the pipe's bore, fully open.",
        source: CRANE,
        caution: None,
        edition: 1,
        call: call!(_, (fitting: Fitting) =>
            Ok::<f64, Refusal>(length_over_diameter(fitting))),
    },
    Function {
        name: "fittings.coefficient",
        title: "loss coefficient of a valve or fitting",
        inputs: &[
            port("fitting", "k", "valve or fitting", word(Fitting::WORDS)),
            port(
                "friction_factor",
                "f",
                "friction factor of fully rough flow",
                PLAIN,
            ),
        ],
        gives: port("coefficient", "c", "loss coefficient", PLAIN),
        law: Law::Named("length over diameter times the friction factor"),
        valid: "Standard bodies of the pipe's bore, fully open.",
        source: CRANE,
        caution: None,
        edition: 1,
        call: call!(_, (fitting: Fitting, friction_factor: f64) =>
            coefficient(fitting, friction_factor)),
    },
    Function {
        name: "fittings.head_lost",
        title: "head that fittings lose, from their loss coefficient",
        inputs: &[
            port("coefficient", "c", "loss coefficient", PLAIN),
            port("flow", "q", "flow", SPEED_FLOW),
            port("bore", "d", "inside diameter", WIDTH),
        ],
        gives: port("head", "h", "head lost", LENGTH),
        law: Law::Named("the coefficient times the velocity head"),
        valid: "Turbulent flow in a full pipe of the bore given.",
        source: CRANE,
        caution: None,
        edition: 1,
        call: call!(_, (coefficient: f64, flow: VolumeRate, bore: Length) =>
            head_lost(coefficient, Stream { flow, bore })),
    },
    Function {
        name: "fittings.length_from_coefficient",
        title: "length of pipe that loses as much as a loss coefficient",
        inputs: &[
            port("coefficient", "c", "loss coefficient", PLAIN),
            port("bore", "d", "inside diameter", LENGTH),
            port("friction_factor", "f", "friction factor of the pipe", PLAIN),
        ],
        gives: port("length", "l", "equivalent length", LENGTH),
        law: Law::Shown(Pair::both("c * d / f")),
        valid: "The friction factor of the pipe that the length is added to.",
        source: CRANE,
        caution: None,
        edition: 1,
        call: call!(_, (coefficient: f64, bore: Length, friction_factor: f64) =>
            length_from_coefficient(coefficient, bore, friction_factor)),
    },
    Function {
        name: "fittings.equivalent_length",
        title: "length of pipe that fittings count for",
        inputs: &[
            port("count", "n", "count", PLAIN),
            port("ratio", "r", "length over diameter", PLAIN),
            port("bore", "d", "inside diameter", LENGTH),
        ],
        gives: port("length", "l", "equivalent length", LENGTH),
        law: Law::Shown(Pair::both("n * r * d")),
        valid: "Turbulent flow in a full pipe.",
        source: CRANE,
        caution: None,
        edition: 1,
        call: call!(_, (count: f64, ratio: f64, bore: Length) =>
            equivalent_length(count, ratio, bore)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::dimension::Measured;

    #[test]
    fn what_is_out_of_its_span_is_refused() {
        assert!(coefficient(Fitting::Gate, 0.0).is_err());
        assert!(length_from_coefficient(-1.0, INCH.of(1.0), 0.02).is_err());
        assert!(equivalent_length(f64::NAN, 30.0, INCH.of(1.0)).is_err());
        assert!(equivalent_length(1.0, 30.0, INCH.of(0.0)).is_err());
    }

    proptest! {
        #[test]
        fn ratio_to_coefficient_to_length_comes_back(
            bore in 0.5..4.0_f64, factor in 0.015..0.04_f64,
        ) {
            let k = coefficient(Fitting::SwingCheckAngled, factor).unwrap();
            let length = length_from_coefficient(k, INCH.of(bore), factor).unwrap();
            let direct = equivalent_length(1.0, 100.0, INCH.of(bore)).unwrap();
            prop_assert!((length.si() / direct.si() - 1.0).abs() < 1e-12);
        }
    }
}
