//! Where a pump's curve meets the system it works on: well, pipes, tank. The
//! curve itself is in `curve`, the friction laws in `friction` and `darcy`.

use std::f64::consts::PI;

use uom::si::f64::{KinematicViscosity, Length, Pressure, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::curve::{Curve, Point, ThreePoints};
use crate::darcy::{self, RoughPipe};
use crate::dimension::{FlowPerLength, Measured, WellLoss};
use crate::friction::{self, Pipe};
use crate::head as heads;
use crate::ports::{LENGTH, PLAIN, PRESSURE, SPECIFIC_CAPACITY, SPEED_FLOW, WIDTH, port};
use crate::registry::{Basis, Function, Law, Port};
use crate::units::{FOOT, GPM_PER_FOOT, STANDARD_GRAVITY};

/// The search ends when a step is this share of the flow.
const CLOSE: f64 = 1e-12;
/// Heads that agree to this share agree.
const AGREED: f64 = 1e-13;
/// Steps after which halving alone has done all it can.
const STEPS: usize = 200;

const LEVEL: Bounds = Bounds::of("water level", "ft", -500.0, 10_000.0);
const CAPACITY: Bounds = Bounds::of("specific capacity", "gpm/ft", 0.000_1, 1e6);
/// A poor well loses 0.01 ft a gpm squared, some 8e5 here.
const WELL_LOSS: Bounds = Bounds::of("well loss", "s2/m5", 0.0, 1e10);
const RISE: Bounds = Bounds::of("rise", "ft", -5_000.0, 10_000.0);
const TANK_HEAD: Bounds = Bounds::of("head of the tank pressure", "ft", -34.0, 25_000.0);
const MINOR: Bounds = Bounds::of("loss coefficient of the fittings", "", 0.0, 100_000.0);

/// The water and the tank that a pump works between.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lift {
    /// Depth to water: at rest, or while pumping where no drawdown is to be added.
    pub level: Length,
    /// Specific capacity of the well; none where `level` is the pumping level.
    pub capacity: Option<FlowPerLength>,
    /// Drawdown that goes with the square of the flow; nothing in most plans.
    pub well_loss: WellLoss,
    /// From the well head up to the tank; less than zero when the tank is lower.
    pub rise: Length,
    /// Head of the pressure in the tank.
    pub tank_head: Length,
}

/// A length of pipe with its fittings, in a row with others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Leg {
    /// Friction by Hazen-Williams.
    HazenWilliams {
        /// The pipe.
        pipe: Pipe,
        /// Loss coefficients of its fittings, added.
        minor: f64,
    },
    /// Friction by Darcy-Weisbach, the factor by Colebrook.
    Darcy {
        /// The pipe.
        pipe: RoughPipe,
        /// Kinematic viscosity of the water.
        viscosity: KinematicViscosity,
        /// Loss coefficients of its fittings, added.
        minor: f64,
    },
}

impl Leg {
    fn minor(&self) -> (f64, Length) {
        match self {
            Self::HazenWilliams { pipe, minor } => (*minor, pipe.bore),
            Self::Darcy { pipe, minor, .. } => (*minor, pipe.bore),
        }
    }

    fn checked(&self) -> Result<(), Refusal> {
        MINOR.check(self.minor().0)?;
        let still = VolumeRate::from_si(0.0);
        match self {
            Self::HazenWilliams { pipe, .. } => pipe.checked(still),
            Self::Darcy {
                pipe, viscosity, ..
            } => darcy::head_loss(*pipe, still, *viscosity).map(|_| ()),
        }
    }

    /// Meters that fittings lose at a cubic meter a second.
    fn minor_resistance(&self) -> f64 {
        let (minor, bore) = self.minor();
        let area = PI * bore.si() * bore.si() / 4.0;
        minor / (2.0 * STANDARD_GRAVITY * area * area)
    }

    /// Darcy friction at a flow, and nothing for a leg that is summed beforehand.
    fn darcy(&self, flow: f64) -> f64 {
        let Self::Darcy {
            pipe, viscosity, ..
        } = self
        else {
            return 0.0;
        };
        let bore = pipe.bore.si();
        let speed = 4.0 * flow / (PI * bore * bore);
        let re = speed * bore / viscosity.si();
        let factor = darcy::factor(re, pipe.roughness.si() / bore);
        factor * (pipe.length.si() / bore) * speed * speed / (2.0 * STANDARD_GRAVITY)
    }
}

/// A pump on its well, pipes and tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct System<'a> {
    /// The pump's curve.
    pub curve: &'a Curve,
    /// Water and tank.
    pub lift: Lift,
    /// Pipes, one after the other.
    pub legs: &'a [Leg],
}

/// Where pump and system agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Operating {
    /// Flow through pump and pipes.
    pub flow: VolumeRate,
    /// Head that the pump makes there.
    pub head: Length,
    /// Depth to water while pumping so.
    pub pumping_level: Length,
    /// Whether that is past the last point of the pump's curve.
    pub beyond_curve: bool,
}

/// The system's head as a sum of powers of the flow: meters, m³/s.
struct Demand<'a> {
    still: f64,
    drawdown: f64,
    friction: f64,
    /// Fittings and the loss in the well itself.
    minor: f64,
    legs: &'a [Leg],
    rough: bool,
}

impl<'a> Demand<'a> {
    fn of(lift: Lift, legs: &'a [Leg]) -> Self {
        let smooth = legs.iter().map(|leg| match leg {
            Leg::HazenWilliams { pipe, .. } => pipe.resistance(),
            Leg::Darcy { .. } => 0.0,
        });
        Self {
            still: lift.level.si() + lift.rise.si() + lift.tank_head.si(),
            drawdown: lift.capacity.map_or(0.0, |capacity| 1.0 / capacity.si()),
            friction: smooth.sum(),
            minor: legs.iter().map(Leg::minor_resistance).sum::<f64>() + lift.well_loss.si(),
            legs,
            rough: legs.iter().any(|leg| matches!(leg, Leg::Darcy { .. })),
        }
    }

    /// Head wanted at a flow and how fast it grows there.
    fn head_and_slope(&self, flow: f64) -> (f64, f64) {
        let power = self.friction * libm::pow(flow, friction::FLOW_EXPONENT - 1.0);
        let head = self.still + flow * (self.drawdown + power + self.minor * flow);
        let slope = self.drawdown + friction::FLOW_EXPONENT * power + 2.0 * self.minor * flow;
        if !self.rough {
            return (head, slope);
        }
        let rough: f64 = self.legs.iter().map(|leg| leg.darcy(flow)).sum();
        // Turbulent friction goes nearly as the flow to 1.8; the search corrects.
        (head + rough, slope + 1.8 * rough / flow)
    }
}

/// Flow, head and pumping level at which a pump works on its system.
///
/// # Formula
/// ```text
/// pump head at q = level + q / c + w · q² + rise + tank head + friction at q + fittings at q
///
/// q  flow   c  specific capacity of the well   w  loss in the well itself
/// ```
/// solved by Newton's steps, each kept between a flow that is too small and one
/// that is too great, until a step is a millionth of a millionth of the flow.
///
/// # Valid for
/// A pump that works steadily, all pipes full, drawdown in proportion to the flow or, with
/// a well loss, growing faster. Past the last point of the curve the answer says so.
///
/// # Source
/// U.S. EPA, *EPANET 2.2 User Manual*, chapters 3 and 12, whose engine it agrees
/// with to 1 part in 10,000 where friction is by Hazen-Williams; with Colebrook
/// instead of EPANET's Swamee-Jain to 1 part in 1,000. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the pump does not reach, or
/// the water flows through the pump by itself.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: 250 ft at shut-off, 190 ft at 10 gpm,
/// 100 ft at 16 gpm, on 80 ft of lift, 5 ft of rise, 50 psi and 140 ft of 1.049 in
/// at C 150 with fittings of 4 gives 8.4540 gpm.
/// ```
/// use pumpwright_calc::curve::{Curve, Point};
/// use pumpwright_calc::{dimension::Measured, friction::Pipe};
/// use pumpwright_calc::operating::{Leg, Lift, System, operate};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::{foot, inch}, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let points = [(0.0, 250.0), (10.0, 190.0), (16.0, 100.0)].map(|(flow, head)| {
///     Point { flow: VolumeRate::new::<gallon_per_minute>(flow), head: feet(head) }
/// });
/// let curve = Curve::through(&points)?;
/// let pipe = Pipe { length: feet(140.0), bore: Length::new::<inch>(1.049), c: 150.0 };
/// let lift = Lift {
///     level: feet(80.0),
///     capacity: None,
///     well_loss: Measured::from_si(0.0),
///     rise: feet(5.0),
///     tank_head: feet(2.31 * 50.0),
/// };
/// let legs = [Leg::HazenWilliams { pipe, minor: 4.0 }];
/// let at = operate(&System { curve: &curve, lift, legs: &legs })?;
/// assert_eq!(format!("{:.3}", at.flow.get::<gallon_per_minute>()), "8.454");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn operate(system: &System) -> Result<Operating, Refusal> {
    checked(system.lift)?;
    for leg in system.legs {
        leg.checked()?;
    }
    let demand = Demand::of(system.lift, system.legs);
    if system.curve.head_si(0.0) <= demand.still {
        return Err(Refusal::Conflict(
            "the pump does not reach: still water already asks for its whole shut-off head",
        ));
    }
    let flow = meeting(system.curve, &demand)?;
    Ok(Operating {
        flow: VolumeRate::from_si(flow),
        head: Length::from_si(system.curve.head_si(flow)),
        pumping_level: Length::from_si(
            system.lift.level.si() + flow * (demand.drawdown + flow * system.lift.well_loss.si()),
        ),
        beyond_curve: flow > system.curve.end(),
    })
}

fn checked(lift: Lift) -> Result<(), Refusal> {
    LEVEL.check(FOOT.read(lift.level))?;
    RISE.check(FOOT.read(lift.rise))?;
    TANK_HEAD.check(FOOT.read(lift.tank_head))?;
    WELL_LOSS.check(lift.well_loss.si())?;
    if let Some(capacity) = lift.capacity {
        CAPACITY.check(GPM_PER_FOOT.read(capacity))?;
    }
    Ok(())
}

/// The flow at which the pump makes what the system asks for.
fn meeting(curve: &Curve, demand: &Demand) -> Result<f64, Refusal> {
    let surplus = |flow: f64| {
        let (made, falls) = curve.head_and_slope(flow);
        let (wanted, grows) = demand.head_and_slope(flow);
        (made - wanted, falls - grows)
    };
    let (mut short, mut far) = (0.0, curve.runout());
    if surplus(far).0 > 0.0 {
        return Err(Refusal::Conflict(
            "the water flows through the pump by itself, past the end of its curve",
        ));
    }
    let mut flow = 0.6 * far;
    for _ in 0..STEPS {
        let (over, slope) = surplus(flow);
        if over > 0.0 {
            short = flow;
        } else {
            far = flow;
        }
        let newton = flow - over / slope;
        let next = if newton >= short && newton <= far {
            newton
        } else {
            0.5 * (short + far)
        };
        let step = (next - flow).abs();
        flow = next;
        if step <= CLOSE * flow {
            return Ok(flow);
        }
    }
    // Near shut-off both lines lie so flat that the last figures of their heads move the
    // flow about: what agrees in all but those is agreed.
    if surplus(flow).0.abs() <= AGREED * curve.head_si(flow).abs() {
        return Ok(flow);
    }
    Err(Refusal::Conflict(
        "pump and system are too nearly alike for a point where they meet",
    ))
}

/// A house well: one pump, one pipe, one tank, by the figures that a plan holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HouseWell {
    /// The pump.
    pub pump: ThreePoints,
    /// Depth to water at rest.
    pub static_level: Length,
    /// Specific capacity of the well.
    pub capacity: FlowPerLength,
    /// From the well head up to the tank.
    pub rise: Length,
    /// Pressure in the tank.
    pub tank_pressure: Pressure,
    /// The pipe from pump to tank.
    pub pipe: Pipe,
    /// Loss coefficients of its fittings, added.
    pub minor: f64,
}

impl HouseWell {
    fn operate(self, basis: Basis) -> Result<Operating, Refusal> {
        let legs = [Leg::HazenWilliams {
            pipe: self.pipe,
            minor: self.minor,
        }];
        let lift = Lift {
            level: self.static_level,
            capacity: Some(self.capacity),
            well_loss: WellLoss::from_si(0.0),
            rise: self.rise,
            tank_head: heads::from_pressure(self.tank_pressure, basis)?,
        };
        operate(&System {
            curve: &self.pump.curve()?,
            lift,
            legs: &legs,
        })
    }
}

/// Flow of a pump on a house well.
///
/// # Formula
/// ```text
/// pump head at q = s + q / c + r + tank head + friction at q + fittings at q
///
/// q  flow   s  static level   c  specific capacity   r  rise to the tank
/// ```
/// as in [`operate`]; the tank's head as in [`crate::head::from_pressure`].
///
/// # Valid for
/// As [`operate`], friction by Hazen-Williams.
///
/// # Source
/// As [`operate`].
///
/// # Errors
/// As [`operate`].
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: 410 ft at shut-off, 330 ft at 9 gpm,
/// 170 ft at 15 gpm, static level 90 ft, 0.2 gpm a foot, 4 ft of rise, 50 psi and
/// 240 ft of 1.049 in at C 150 with fittings of 5 gives 11.164 gpm.
/// ```
/// use pumpwright_calc::registry::{Basis, Value, find};
///
/// let function = find("operating.flow").expect("there");
/// let (foot, gpm) = (0.3048, 0.003_785_411_784 / 60.0);
/// let inputs = [
///     410.0 * foot, 9.0 * gpm, 330.0 * foot, 15.0 * gpm, 170.0 * foot,
///     90.0 * foot, 0.2 * gpm / foot, 4.0 * foot, 50.0 * 6_894.757_293,
///     240.0 * foot, 1.049 * 0.0254, 150.0, 5.0,
/// ];
/// let given = (function.call)(Basis::UsTrade, &inputs.map(Value::Number))?;
/// let Value::Number(flow) = given else { panic!("a number") };
/// assert_eq!(format!("{:.3}", flow / gpm), "11.164");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow(well: HouseWell, basis: Basis) -> Result<VolumeRate, Refusal> {
    well.operate(basis).map(|at| at.flow)
}

/// Head of a pump on a house well.
///
/// # Formula
/// ```text
/// the pump's head at the flow that `flow` gives
/// ```
///
/// # Valid for
/// As [`flow`].
///
/// # Source
/// As [`operate`].
///
/// # Errors
/// As [`operate`].
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0, the well of [`flow`]: 282.84 ft.
/// ```
/// use pumpwright_calc::registry::{Basis, Value, find};
///
/// let function = find("operating.head").expect("there");
/// let (foot, gpm) = (0.3048, 0.003_785_411_784 / 60.0);
/// let inputs = [
///     410.0 * foot, 9.0 * gpm, 330.0 * foot, 15.0 * gpm, 170.0 * foot,
///     90.0 * foot, 0.2 * gpm / foot, 4.0 * foot, 50.0 * 6_894.757_293,
///     240.0 * foot, 1.049 * 0.0254, 150.0, 5.0,
/// ];
/// let given = (function.call)(Basis::UsTrade, &inputs.map(Value::Number))?;
/// let Value::Number(head) = given else { panic!("a number") };
/// assert_eq!(format!("{:.2}", head / foot), "282.84");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head(well: HouseWell, basis: Basis) -> Result<Length, Refusal> {
    well.operate(basis).map(|at| at.head)
}

const HOUSE: &[Port] = &[
    port("shut_off_head", "s", "head of the pump at no flow", LENGTH),
    port("flow_one", "a", "flow of the first point", SPEED_FLOW),
    port("head_one", "b", "head of the first point", LENGTH),
    port("flow_two", "e", "flow of the second point", SPEED_FLOW),
    port("head_two", "f", "head of the second point", LENGTH),
    port("static_level", "w", "static level", LENGTH),
    port(
        "specific_capacity",
        "g",
        "specific capacity",
        SPECIFIC_CAPACITY,
    ),
    port("rise", "r", "rise from the well head to the tank", LENGTH),
    port("tank_pressure", "p", "pressure in the tank", PRESSURE),
    port("length", "l", "pipe length", LENGTH),
    port("bore", "d", "inside diameter", WIDTH),
    port("c", "c", "Hazen-Williams C", PLAIN),
    port(
        "minor",
        "k",
        "loss coefficients of the fittings, added",
        PLAIN,
    ),
];

/// The arguments of [`HOUSE`] and what is done with the well they make.
macro_rules! house {
    ($result:expr) => {
        call!(basis, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            static_level: Length,
            specific_capacity: FlowPerLength,
            rise: Length,
            tank_pressure: Pressure,
            length: Length,
            bore: Length,
            c: f64,
            minor: f64
        ) => $result(
            HouseWell {
                pump: ThreePoints {
                    shut_off: shut_off_head,
                    middle: Point { flow: flow_one, head: head_one },
                    end: Point { flow: flow_two, head: head_two },
                },
                static_level,
                capacity: specific_capacity,
                rise,
                tank_pressure,
                pipe: Pipe { length, bore, c },
                minor,
            },
            basis,
        ))
    };
}

const MET: &str = "where the pump's curve and the head that well, pipe and tank ask for meet";
const STEADY: &str = "Steady pumping, pipes full, drawdown in proportion to the flow.";
const EPANET: &str = "U.S. EPA, EPANET 2.2 User Manual, chapters 3 and 12; agrees with its engine";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "operating.flow",
        title: "flow at which a pump works on a house well",
        inputs: HOUSE,
        gives: port("flow", "q", "flow", SPEED_FLOW),
        law: Law::Named(MET),
        valid: STEADY,
        source: EPANET,
        caution: None,
        edition: 1,
        call: house!(flow),
    },
    Function {
        name: "operating.head",
        title: "head at which a pump works on a house well",
        inputs: HOUSE,
        gives: port("head", "h", "head of the pump", LENGTH),
        law: Law::Named(MET),
        valid: STEADY,
        source: EPANET,
        caution: None,
        edition: 1,
        call: house!(head),
    },
];

#[cfg(test)]
mod odd;
#[cfg(test)]
mod tests;
