//! A curve through a maker's points: one power law, or straight lines from point to point.

use uom::si::f64::{Length, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::dimension::Measured;
use crate::units::{FOOT, GALLON_PER_MINUTE};

/// Points that a curve may have at most.
const MOST_POINTS: usize = 100;

pub(super) const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const POINT_FLOW: Bounds = Bounds::of("flow of a point of the curve", "gpm", 0.0, 100_000.0);
const SOME_FLOW: Bounds = Bounds {
    min: 0.001,
    ..POINT_FLOW
};
pub(super) const HEAD: Bounds = Bounds::of("head", "ft", 0.0, 25_000.0);
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

impl Point {
    fn checked(self) -> Result<(), Refusal> {
        POINT_FLOW.check(GALLON_PER_MINUTE.read(self.flow))?;
        POINT_HEAD.check(FOOT.read(self.head))?;
        Ok(())
    }
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
            point.checked()?;
        }
        match points {
            [design] => PowerCurve::from_design(*design).map(Self::Power),
            [start, middle, end] if start.flow.si() == 0.0 => {
                PowerCurve::through(start.head, *middle, *end).map(Self::Power)
            }
            _ => lines(points).map(Self::Lines),
        }
    }

    /// Straight lines from point to point, as one reads a printed curve.
    ///
    /// # Errors
    /// [`Refusal`] where a point is out of its span, there are not two, or they do not go
    /// to more flow and less head.
    pub fn by_lines(points: &[Point]) -> Result<Self, Refusal> {
        if points.len() < 2 || points.len() > MOST_POINTS {
            return Err(Refusal::Conflict("lines join two to a hundred points"));
        }
        for point in points {
            point.checked()?;
        }
        lines(points).map(Self::Lines)
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
    pub(super) fn with_exponent(
        shut_off: Length,
        point: Point,
        exponent: f64,
    ) -> Result<Self, Refusal> {
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
