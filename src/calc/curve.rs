//! A pump's curve: the head it makes at a flow, from points that a maker prints.
//! Where it meets a system is in `operating`.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{LENGTH, PLAIN, SPEED_FLOW, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, GALLON_PER_MINUTE};

/// Points that a curve may have at most.
const MOST_POINTS: usize = 100;

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const POINT_FLOW: Bounds = Bounds::of("flow of a point of the curve", "gpm", 0.0, 100_000.0);
const SOME_FLOW: Bounds = Bounds {
    min: 0.001,
    ..POINT_FLOW
};
const HEAD: Bounds = Bounds::of("head", "ft", 0.0, 25_000.0);
const POINT_HEAD: Bounds = Bounds::of("head of a point of the curve", "ft", 0.0, 25_000.0);
const EXPONENT: Bounds = Bounds::of("exponent of the curve", "", 0.1, 20.0);

/// A point of a pump's curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Flow through the pump.
    pub flow: VolumeRate,
    /// Head that it makes there.
    pub head: Length,
}

/// A curve that falls from shut-off as a power of the flow: meters, m³/s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerCurve {
    shut_off: f64,
    /// Head lost at a cubic meter a second.
    fall: f64,
    exponent: f64,
    /// Flow of the last point it was drawn through.
    end: f64,
}

/// A pump's curve.
#[derive(Debug, Clone, PartialEq)]
pub enum Curve {
    /// One law from shut-off to no head.
    Power(PowerCurve),
    /// Straight lines from point to point, in order of flow: m³/s, meters.
    Lines(Vec<(f64, f64)>),
}

impl Curve {
    /// A curve through a maker's points, as EPANET draws it: one point makes
    /// h = 4/3 h1 - 1/3 h1 (q/q1)², three points that begin at no flow make
    /// h = h0 - a q^b, any others are joined by straight lines.
    ///
    /// # Errors
    /// [`Refusal`] where a point is out of its span, or the points do not go to
    /// more flow and less head.
    pub fn through(points: &[Point]) -> Result<Self, Refusal> {
        if points.is_empty() || points.len() > MOST_POINTS {
            return Err(Refusal::Conflict("a curve has one to a hundred points"));
        }
        for point in points {
            POINT_FLOW.check(GALLON_PER_MINUTE.read(point.flow))?;
            POINT_HEAD.check(FOOT.read(point.head))?;
        }
        match points {
            [design] => PowerCurve::from_design(*design).map(Self::Power),
            [start, middle, end] if start.flow.si() == 0.0 => {
                PowerCurve::through(start.head, *middle, *end).map(Self::Power)
            }
            _ => lines(points).map(Self::Lines),
        }
    }

    /// Head at a flow, which may be less than zero past the end.
    pub(crate) fn head_si(&self, flow: f64) -> f64 {
        match self {
            Self::Power(curve) => curve.head_si(flow),
            Self::Lines(points) => {
                let (start, slope) = segment(points, flow);
                start.1 + slope * (flow - start.0)
            }
        }
    }

    /// Head at a flow and how fast it changes there.
    pub(crate) fn head_and_slope(&self, flow: f64) -> (f64, f64) {
        match self {
            Self::Power(curve) => {
                let part = curve.fall * libm::pow(flow, curve.exponent - 1.0);
                (curve.shut_off - part * flow, -curve.exponent * part)
            }
            Self::Lines(points) => {
                let (start, slope) = segment(points, flow);
                (start.1 + slope * (flow - start.0), slope)
            }
        }
    }

    /// Flow at which no head is left.
    pub(crate) fn runout(&self) -> f64 {
        match self {
            Self::Power(curve) => libm::pow(curve.shut_off / curve.fall, 1.0 / curve.exponent),
            Self::Lines(points) => {
                let (start, slope) = segment(points, f64::INFINITY);
                start.0 - start.1 / slope
            }
        }
    }

    /// Flow of the last point that the curve was drawn through.
    pub(crate) fn end(&self) -> f64 {
        match self {
            Self::Power(curve) => curve.end,
            Self::Lines(points) => points.last().map_or(0.0, |point| point.0),
        }
    }

    /// Head that the pump makes at a flow.
    ///
    /// # Errors
    /// [`Refusal`] for what is no flow, and past the flow where no head is left.
    pub fn head_at(&self, flow: VolumeRate) -> Result<Length, Refusal> {
        FLOW.check(GALLON_PER_MINUTE.read(flow))?;
        let head = self.head_si(flow.si());
        if head < 0.0 {
            return Err(Refusal::Conflict(
                "the flow is past the end of the curve, where no head is left",
            ));
        }
        Ok(Length::from_si(head))
    }

    /// Flow that the pump gives against a head.
    ///
    /// # Errors
    /// [`Refusal`] for what is no head, and above the shut-off head.
    pub fn flow_at(&self, head: Length) -> Result<VolumeRate, Refusal> {
        HEAD.check(FOOT.read(head))?;
        let above = Refusal::Conflict("the head is above all that the pump makes");
        let head = head.si();
        let flow = match self {
            Self::Power(curve) if head <= curve.shut_off => {
                libm::pow((curve.shut_off - head) / curve.fall, 1.0 / curve.exponent)
            }
            Self::Power(_) => return Err(above),
            Self::Lines(points) => {
                let at = points.partition_point(|point| point.1 >= head);
                let flow_from = points.first().map_or(0.0, |point| point.0);
                if at == 0 && (flow_from > 0.0 || self.head_si(0.0) < head) {
                    return Err(above);
                }
                let within = points.get(at).map_or(f64::INFINITY, |point| point.0);
                let (start, slope) = segment(points, within);
                start.0 + (head - start.1) / slope
            }
        };
        Ok(VolumeRate::from_si(flow.max(0.0)))
    }
}

impl PowerCurve {
    /// From the one point that a pump is made for.
    fn from_design(design: Point) -> Result<Self, Refusal> {
        let shut_off = design.head * (4.0 / 3.0);
        Self::with_exponent(shut_off, design, 2.0).map(|curve| Self {
            end: 2.0 * design.flow.si(),
            ..curve
        })
    }

    /// Through shut-off and one point, with a known exponent.
    fn with_exponent(shut_off: Length, point: Point, exponent: f64) -> Result<Self, Refusal> {
        SOME_FLOW.check(GALLON_PER_MINUTE.read(point.flow))?;
        POINT_HEAD.check(FOOT.read(shut_off))?;
        POINT_HEAD.check(FOOT.read(point.head))?;
        EXPONENT.check(exponent)?;
        if shut_off <= point.head {
            return Err(Refusal::Conflict("the head has to fall as the flow grows"));
        }
        let lost = shut_off.si() - point.head.si();
        Ok(Self {
            shut_off: shut_off.si(),
            fall: lost / libm::pow(point.flow.si(), exponent),
            exponent,
            end: point.flow.si(),
        })
    }

    /// Through shut-off and two more points.
    fn through(shut_off: Length, middle: Point, end: Point) -> Result<Self, Refusal> {
        SOME_FLOW.check(GALLON_PER_MINUTE.read(middle.flow))?;
        POINT_FLOW.check(GALLON_PER_MINUTE.read(end.flow))?;
        for head in [shut_off, middle.head, end.head] {
            POINT_HEAD.check(FOOT.read(head))?;
        }
        let falls = shut_off > middle.head && middle.head > end.head && end.flow > middle.flow;
        if !falls {
            return Err(Refusal::Conflict(
                "each point of a curve needs more flow and less head than the one before",
            ));
        }
        let lost = |point: Point| shut_off.si() - point.head.si();
        let exponent =
            libm::log(lost(end) / lost(middle)) / libm::log(end.flow.si() / middle.flow.si());
        let curve = Self::with_exponent(shut_off, middle, exponent)?;
        Ok(Self {
            end: end.flow.si(),
            ..curve
        })
    }

    fn head_si(&self, flow: f64) -> f64 {
        self.shut_off - self.fall * libm::pow(flow, self.exponent)
    }
}

fn lines(points: &[Point]) -> Result<Vec<(f64, f64)>, Refusal> {
    let falls = |pair: &[Point]| match pair {
        [one, next] => next.flow > one.flow && next.head < one.head,
        _ => true,
    };
    if points.windows(2).all(falls) {
        Ok(points
            .iter()
            .map(|point| (point.flow.si(), point.head.si()))
            .collect())
    } else {
        Err(Refusal::Conflict(
            "each point of a curve needs more flow and less head than the one before",
        ))
    }
}

/// A point of the straight line on which a flow lies, and the line's slope. The
/// first and last lines go on.
fn segment(points: &[(f64, f64)], flow: f64) -> ((f64, f64), f64) {
    let at = points.partition_point(|point| point.0 < flow);
    let at = at.clamp(1, points.len().saturating_sub(1).max(1));
    match (points.get(at - 1), points.get(at)) {
        (Some(one), Some(next)) => (*one, (next.1 - one.1) / (next.0 - one.0)),
        _ => ((0.0, 0.0), -1.0),
    }
}

/// Shut-off and two more points of a pump's curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreePoints {
    /// Head at no flow.
    pub shut_off: Length,
    /// A point near the middle.
    pub middle: Point,
    /// A point near the end.
    pub end: Point,
}

impl ThreePoints {
    /// The curve through them.
    ///
    /// # Errors
    /// [`Refusal`] where a point is out of its span or the points do not fall.
    pub fn curve(self) -> Result<Curve, Refusal> {
        PowerCurve::through(self.shut_off, self.middle, self.end).map(Curve::Power)
    }
}

/// Head of a pump at a flow, by a power law through three points.
///
/// # Formula
/// ```text
/// h = h0 - a · q^b     b = ln((h0 - h2) / (h0 - h1)) / ln(q2 / q1)     a = (h0 - h1) / q1^b
///
/// h  head   q  flow   h0  shut-off head   q1, h1 and q2, h2  two more points
/// ```
///
/// # Valid for
/// A curve that falls steadily from shut-off. Past the second point it is a guess.
///
/// # Source
/// U.S. EPA, *EPANET 2.2 User Manual*, chapter 3, three-point pump curve. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the points do not fall, or no
/// head is left at the flow.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: a pump of 250 ft at shut-off, 190 ft at
/// 10 gpm and 100 ft at 16 gpm makes 206.75 ft at 8.4540 gpm.
/// ```
/// use pumpwright_calc::curve::{Point, ThreePoints, head};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let point = |flow, head| Point { flow: gpm(flow), head: Length::new::<foot>(head) };
/// let pump = ThreePoints {
///     shut_off: Length::new::<foot>(250.0),
///     middle: point(10.0, 190.0),
///     end: point(16.0, 100.0),
/// };
/// assert_eq!(format!("{:.2}", head(pump, gpm(8.454))?.get::<foot>()), "206.75");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head(pump: ThreePoints, flow: VolumeRate) -> Result<Length, Refusal> {
    pump.curve()?.head_at(flow)
}

/// Flow of a pump against a head, by a power law through three points.
///
/// # Formula
/// ```text
/// q = ((h0 - h) / a)^(1/b)     a and b as in `head`
/// ```
///
/// # Valid for
/// As [`head`].
///
/// # Source
/// As [`head`].
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the points do not fall, or the
/// head is above shut-off.
///
/// # Example
/// As for [`head`], turned round: 206.75 ft leave 8.454 gpm.
/// ```
/// use pumpwright_calc::curve::{Point, ThreePoints, flow};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let point = |flow, head| {
///     Point { flow: VolumeRate::new::<gallon_per_minute>(flow), head: feet(head) }
/// };
/// let (middle, end) = (point(10.0, 190.0), point(16.0, 100.0));
/// let pump = ThreePoints { shut_off: feet(250.0), middle, end };
/// let flow = flow(pump, feet(206.752_69))?;
/// assert_eq!(format!("{:.3}", flow.get::<gallon_per_minute>()), "8.454");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow(pump: ThreePoints, head: Length) -> Result<VolumeRate, Refusal> {
    pump.curve()?.flow_at(head)
}

/// Head of a pump at a flow, from shut-off and one point with a known exponent.
///
/// # Formula
/// ```text
/// h = h0 - (h0 - h1) · (q / q1)^b
///
/// h  head   q  flow   h0  shut-off head   q1, h1  a point   b  exponent, often 2
/// ```
///
/// # Valid for
/// A curve that falls steadily from shut-off.
///
/// # Source
/// U.S. EPA, *EPANET 2.2 User Manual*, chapter 3: with h0 = 4/3 h1 and b = 2 it is
/// the one-point pump curve. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the head does not fall, or no
/// head is left at the flow.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: a pump made for 10 gpm at 200 ft makes
/// 163.30 ft at 12.452 gpm.
/// ```
/// use pumpwright_calc::curve::{Point, head_with_exponent};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let design = Point { flow: gpm(10.0), head: Length::new::<foot>(200.0) };
/// let shut_off = design.head * (4.0 / 3.0);
/// let head = head_with_exponent(shut_off, design, 2.0, gpm(12.451_867))?;
/// assert_eq!(format!("{:.2}", head.get::<foot>()), "163.30");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head_with_exponent(
    shut_off: Length,
    point: Point,
    exponent: f64,
    flow: VolumeRate,
) -> Result<Length, Refusal> {
    let curve = PowerCurve::with_exponent(shut_off, point, exponent)?;
    Curve::Power(curve).head_at(flow)
}

/// Head of a pump between two neighboring points of its curve.
///
/// # Formula
/// ```text
/// h = h1 + (h2 - h1) · (q - q1) / (q2 - q1)
///
/// h  head   q  flow   q1, h1 and q2, h2  the points on either side
/// ```
///
/// # Valid for
/// Points near each other: a straight line stands for the curve. A printed curve
/// of many points is read so, line by line.
///
/// # Source
/// U.S. EPA, *EPANET 2.2 User Manual*, chapter 3, multi-point pump curve. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the points do not fall, or the
/// flow lies outside them.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: between 255 ft at 8 gpm and 200 ft at
/// 12 gpm a pump makes 239.66 ft at 9.1160 gpm.
/// ```
/// use pumpwright_calc::curve::{Point, head_between};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let gpm = VolumeRate::new::<gallon_per_minute>;
/// let point = |flow, head| Point { flow: gpm(flow), head: Length::new::<foot>(head) };
/// let head = head_between(point(8.0, 255.0), point(12.0, 200.0), gpm(9.116))?;
/// assert_eq!(format!("{:.2}", head.get::<foot>()), "239.66");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head_between(before: Point, after: Point, flow: VolumeRate) -> Result<Length, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    let curve = Curve::through(&[before, after])?;
    if flow < before.flow || flow > after.flow {
        return Err(Refusal::Conflict("the flow lies outside the two points"));
    }
    Ok(Length::from_si(curve.head_si(flow.si())))
}

const THREE: [Port; 5] = [
    port("shut_off_head", "s", "head at no flow", LENGTH),
    port("flow_one", "a", "flow of the first point", SPEED_FLOW),
    port("head_one", "b", "head of the first point", LENGTH),
    port("flow_two", "c", "flow of the second point", SPEED_FLOW),
    port("head_two", "d", "head of the second point", LENGTH),
];
const EPANET: &str = "U.S. EPA, EPANET 2.2 User Manual, chapter 3, pump curves";
const HEAD_OUT: Port = port("head", "h", "head", LENGTH);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "curve.head",
        title: "head of a pump at a flow, by a curve through three points",
        inputs: &[
            THREE[0],
            THREE[1],
            THREE[2],
            THREE[3],
            THREE[4],
            port("flow", "q", "flow", SPEED_FLOW),
        ],
        gives: HEAD_OUT,
        law: Law::Named("by a curve through shut-off and two points that falls as a power"),
        valid: "A curve that falls steadily; past the second point it is a guess.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            flow: VolumeRate
        ) => head(
            ThreePoints {
                shut_off: shut_off_head,
                middle: Point { flow: flow_one, head: head_one },
                end: Point { flow: flow_two, head: head_two },
            },
            flow,
        )),
    },
    Function {
        name: "curve.flow",
        title: "flow of a pump against a head, by a curve through three points",
        inputs: &[
            THREE[0],
            THREE[1],
            THREE[2],
            THREE[3],
            THREE[4],
            port("head", "h", "head", LENGTH),
        ],
        gives: port("flow", "q", "flow", SPEED_FLOW),
        law: Law::Named("by a curve through shut-off and two points that falls as a power"),
        valid: "A curve that falls steadily; past the second point it is a guess.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            head: Length
        ) => flow(
            ThreePoints {
                shut_off: shut_off_head,
                middle: Point { flow: flow_one, head: head_one },
                end: Point { flow: flow_two, head: head_two },
            },
            head,
        )),
    },
    Function {
        name: "curve.head_with_exponent",
        title: "head of a pump at a flow, from shut-off and one point",
        inputs: &[
            port("shut_off_head", "s", "head at no flow", LENGTH),
            port("flow_one", "a", "flow of the point", SPEED_FLOW),
            port("head_one", "b", "head of the point", LENGTH),
            port("exponent", "e", "exponent, often 2", PLAIN),
            port("flow", "q", "flow", SPEED_FLOW),
        ],
        gives: HEAD_OUT,
        law: Law::Named("shut-off head less a part that grows as a power of the flow"),
        valid: "A curve that falls steadily from shut-off.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            exponent: f64,
            flow: VolumeRate
        ) => head_with_exponent(
            shut_off_head,
            Point { flow: flow_one, head: head_one },
            exponent,
            flow,
        )),
    },
    Function {
        name: "curve.head_between",
        title: "head of a pump between two points of its curve",
        inputs: &[
            THREE[1],
            THREE[2],
            THREE[3],
            THREE[4],
            port("flow", "q", "flow", SPEED_FLOW),
        ],
        gives: HEAD_OUT,
        law: Law::Shown(Pair::both("b + (d - b) * (q - a) / (c - a)")),
        valid: "Neighboring points of a printed curve.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            flow: VolumeRate
        ) => head_between(
            Point { flow: flow_one, head: head_one },
            Point { flow: flow_two, head: head_two },
            flow,
        )),
    },
];

#[cfg(test)]
mod tests;
