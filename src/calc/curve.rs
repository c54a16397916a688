//! A pump's curve: the head it makes at a flow, from points that a maker prints.
//! How it is drawn through them is in `shape`, where it meets a system in `operating`.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::Refusal;
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{LENGTH, PLAIN, SPEED_FLOW, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, GALLON_PER_MINUTE};

mod shape;

pub use shape::{Curve, Point, PowerCurve, ThreePoints};
use shape::{FLOW, HEAD};

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
    let curve = Curve::by_lines(&[before, after])?;
    if flow < before.flow || flow > after.flow {
        return Err(Refusal::Conflict("the flow lies outside the two points"));
    }
    Ok(Length::from_si(curve.head_si(flow.si())))
}

/// Flow of a pump against a head, from shut-off and one point with a known exponent.
///
/// # Formula
/// ```text
/// q = q1 · ((h0 - h) / (h0 - h1))^(1/b)
///
/// q  flow   h  head   h0  shut-off head   q1, h1  a point   b  exponent, often 2
/// ```
///
/// # Valid for
/// As [`head_with_exponent`], turned round.
///
/// # Source
/// As [`head_with_exponent`].
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the head does not fall, or the head
/// is above shut-off.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0: a pump made for 10 gpm at 200 ft gives
/// 12.452 gpm against 163.30 ft.
/// ```
/// use pumpwright_calc::curve::{Point, flow_with_exponent};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let design = Point { flow: VolumeRate::new::<gallon_per_minute>(10.0), head: feet(200.0) };
/// let flow = flow_with_exponent(design.head * (4.0 / 3.0), design, 2.0, feet(163.300_43))?;
/// assert_eq!(format!("{:.3}", flow.get::<gallon_per_minute>()), "12.452");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow_with_exponent(
    shut_off: Length,
    point: Point,
    exponent: f64,
    head: Length,
) -> Result<VolumeRate, Refusal> {
    let curve = PowerCurve::with_exponent(shut_off, point, exponent)?;
    Curve::Power(curve).flow_at(head)
}

/// Flow of a pump against a head between two neighboring points of its curve.
///
/// # Formula
/// ```text
/// q = q1 + (q2 - q1) · (h1 - h) / (h1 - h2)
///
/// q  flow   h  head   q1, h1 and q2, h2  the points on either side
/// ```
///
/// # Valid for
/// As [`head_between`], turned round.
///
/// # Source
/// As [`head_between`].
///
/// # Errors
/// [`Refusal`] where an argument is out of its span, the points do not fall, or the
/// head lies outside them.
///
/// # Example
/// EPANET 2.2 through package wntr 1.5.0, as for [`head_between`]: 239.66 ft leave
/// 9.116 gpm.
/// ```
/// use pumpwright_calc::curve::{Point, flow_between};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, volume_rate::gallon_per_minute};
///
/// let feet = Length::new::<foot>;
/// let point = |flow, head| Point {
///     flow: VolumeRate::new::<gallon_per_minute>(flow),
///     head: feet(head),
/// };
/// let flow = flow_between(point(8.0, 255.0), point(12.0, 200.0), feet(239.655))?;
/// assert_eq!(format!("{:.3}", flow.get::<gallon_per_minute>()), "9.116");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow_between(before: Point, after: Point, head: Length) -> Result<VolumeRate, Refusal> {
    HEAD.check(FOOT.read(head))?;
    let curve = Curve::by_lines(&[before, after])?;
    if head > before.head || head < after.head {
        return Err(Refusal::Conflict("the head lies outside the two points"));
    }
    curve.flow_at(head)
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
const FLOW_OUT: Port = port("flow", "q", "flow", SPEED_FLOW);
const SHUT_OFF_AND_ONE: [Port; 4] = [
    THREE[0],
    port("flow_one", "a", "flow of the point", SPEED_FLOW),
    port("head_one", "b", "head of the point", LENGTH),
    port("exponent", "e", "exponent, often 2", PLAIN),
];

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "curve.head",
        title: "head of a pump at a flow, by a curve through three points",
        inputs: &[THREE[0], THREE[1], THREE[2], THREE[3], THREE[4], FLOW_OUT],
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
        inputs: &[THREE[0], THREE[1], THREE[2], THREE[3], THREE[4], HEAD_OUT],
        gives: FLOW_OUT,
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
            SHUT_OFF_AND_ONE[0],
            SHUT_OFF_AND_ONE[1],
            SHUT_OFF_AND_ONE[2],
            SHUT_OFF_AND_ONE[3],
            FLOW_OUT,
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
        name: "curve.flow_with_exponent",
        title: "flow of a pump against a head, from shut-off and one point",
        inputs: &[
            SHUT_OFF_AND_ONE[0],
            SHUT_OFF_AND_ONE[1],
            SHUT_OFF_AND_ONE[2],
            SHUT_OFF_AND_ONE[3],
            HEAD_OUT,
        ],
        gives: FLOW_OUT,
        law: Law::Named(
            "the flow at which shut-off head has fallen so far, as a power of the flow",
        ),
        valid: "A curve that falls steadily from shut-off; past the point it is a guess.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            shut_off_head: Length,
            flow_one: VolumeRate,
            head_one: Length,
            exponent: f64,
            head: Length
        ) => flow_with_exponent(
            shut_off_head,
            Point { flow: flow_one, head: head_one },
            exponent,
            head,
        )),
    },
    Function {
        name: "curve.head_between",
        title: "head of a pump between two points of its curve",
        inputs: &[THREE[1], THREE[2], THREE[3], THREE[4], FLOW_OUT],
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
    Function {
        name: "curve.flow_between",
        title: "flow of a pump against a head, between two points of its curve",
        inputs: &[THREE[1], THREE[2], THREE[3], THREE[4], HEAD_OUT],
        gives: FLOW_OUT,
        law: Law::Shown(Pair::both("a + (c - a) * (b - h) / (b - d)")),
        valid: "Neighboring points of a printed curve.",
        source: EPANET,
        caution: None,
        edition: 1,
        call: call!(_, (
            flow_one: VolumeRate,
            head_one: Length,
            flow_two: VolumeRate,
            head_two: Length,
            head: Length
        ) => flow_between(
            Point { flow: flow_one, head: head_one },
            Point { flow: flow_two, head: head_two },
            head,
        )),
    },
];

#[cfg(test)]
mod tests;
