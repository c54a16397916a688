//! The lot from above: the well, the taped legs to the nearest corner of what may
//! foul it, the distance that the sheet asks. On a bank: cut along the tape.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::scene::{Ink, Mark, Point, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

/// Columns that are as wide as a row is high.
const SQUARE: f64 = 13.0 / 6.0;

/// Points of an arc.
const ARC: usize = 24;

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    if readings.get("tape").is_some() {
        return bank(readings, sketch);
    }
    match (readings.si("east"), readings.si("north")) {
        (Some(east), Some(north)) => plan(readings, sketch, (east, north)),
        _ => line(readings, sketch),
    }
}

/// The plan, to scale: the well at the lower left, north up.
fn plan(readings: &Readings<'_>, sketch: &mut Sketch, (east, north): (f64, f64)) {
    let (wide, long) = (
        readings.si("wide").unwrap_or(east * 0.4),
        readings.si("long").unwrap_or(north * 0.6),
    );
    let required = readings.si("required");
    let reach = (
        (east + wide).max(required.unwrap_or(0.0)) * 1.02,
        (north + long).max(required.unwrap_or(0.0)) * 1.02,
    );
    let (left, low) = (mid(3), mid(sketch.bottom() - 3));
    let top = mid(sketch.top() + 1);
    let per_row =
        ((sketch.columns() as f64 - 6.0 - left) / (reach.0 * SQUARE)).min((low - top) / reach.1);
    let place = |(x, y): Point| {
        (
            (x * per_row).mul_add(SQUARE, left),
            y.mul_add(-per_row, low),
        )
    };
    sketch.scale("to scale, seen from above");
    let corner = place((east, north));
    let far = place((east + wide, north + long));
    sketch.rect((corner.0, far.1), (far.0, corner.1), Ink::Heavy);
    let turn = place((east, 0.0));
    sketch.line((left, low), turn, Ink::Line);
    sketch.line(turn, corner, Ink::Line);
    sketch.path(
        vec![(left, low), middle((left, low), corner), corner],
        Ink::Dashed,
    );
    sketch.mark((left, low), Mark::Dot);
    if let Some(required) = required {
        let arc = |step: usize| {
            let angle = std::f64::consts::FRAC_PI_2 * step as f64 / ARC as f64;
            place((required * libm::cos(angle), required * libm::sin(angle)))
        };
        sketch.path((0..=ARC).map(arc).collect(), Ink::Line);
    }
    let text = |port: &str| readings.full(port).unwrap_or_default();
    sketch.text((left, low), Side::Below, "well", Tone::Strong);
    sketch.text(
        middle((left, low), turn),
        Side::Below,
        text("east"),
        Tone::Plain,
    );
    sketch.text(
        middle(turn, corner),
        Side::Right,
        text("north"),
        Tone::Plain,
    );
    let field = (
        f64::midpoint(corner.0, far.0),
        f64::midpoint(corner.1, far.1),
    );
    let source = readings.text("source").unwrap_or("field").to_owned();
    sketch.text(field, Side::On, source, Tone::Strong);
    sketch.text((far.0, far.1), Side::Above, text("wide"), Tone::Plain);
    sketch.text((far.0, field.1), Side::Right, text("long"), Tone::Plain);
    let way = middle((left, low), corner);
    sketch.text_at_one(
        &[(way, Side::Left), (way, Side::Above)],
        text("distance"),
        Tone::Strong,
    );
    sketch.mark((mid(sketch.columns() - 2), top), Mark::Up);
    sketch.text(
        (mid(sketch.columns() - 2), top),
        Side::Below,
        "N",
        Tone::Faint,
    );
    let foot = mid(sketch.bottom());
    let words = readings.full("required").map(|text| format!("arc: {text}"));
    sketch.text(
        (0.0, foot),
        Side::Right,
        words.unwrap_or_default(),
        Tone::Strong,
    );
    let end = (sketch.columns() as f64, foot);
    sketch.text(end, Side::Left, text("margin"), Tone::Strong);
}

fn middle(one: Point, two: Point) -> Point {
    (f64::midpoint(one.0, two.0), f64::midpoint(one.1, two.1))
}

/// A tape down a bank, cut along it. What it covers on the level is asked, so the
/// bank is as steep for every problem.
fn bank(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let (left, right) = (mid(2), mid(sketch.columns() - 12));
    let (top, low) = (mid(sketch.top() + 4), mid(sketch.bottom() - 5));
    let (upper, lower) = ((right, top), (left, low));
    sketch.path(vec![lower, middle(lower, upper), upper], Ink::Heavy);
    sketch.line(lower, (right, low), Ink::Line);
    sketch.line((right, low), upper, Ink::Line);
    sketch.mark(lower, Mark::Dot);
    sketch.mark(upper, Mark::Dot);
    let text = |port: &str| readings.full(port).unwrap_or_default();
    sketch.text(upper, Side::Above, "well", Tone::Strong);
    let source = readings.text("source").unwrap_or("source").to_owned();
    sketch.text(lower, Side::Below, source, Tone::Strong);
    let width = (right as usize).saturating_sub(8) / 2;
    let way = middle(lower, upper);
    sketch.text_within(
        (way.0, way.1 - 1.0),
        Side::Left,
        text("tape"),
        (Tone::Plain, width),
    );
    let rise = (right, f64::midpoint(top, low));
    sketch.text_within(rise, Side::Right, text("rise"), (Tone::Plain, 9));
    let level = (f64::midpoint(left, right), low);
    sketch.text(level, Side::Below, text("distance"), Tone::Strong);
    foot(readings, sketch);
}

/// Well and source on one line, where no legs are taped.
fn line(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let (left, right) = (mid(4), mid(sketch.columns() - 8));
    let at = mid(sketch.top() + 6);
    sketch.line((left, at), (right, at), Ink::Dashed);
    sketch.mark((left, at), Mark::Dot);
    sketch.rect((right - 3.0, at - 1.0), (right + 3.0, at + 1.0), Ink::Heavy);
    sketch.text((left, at), Side::Below, "well", Tone::Strong);
    let source = readings.text("source").unwrap_or("source").to_owned();
    sketch.text((right, at - 1.0), Side::Above, source, Tone::Strong);
    let level = (f64::midpoint(left, right), at);
    let text = readings.full("distance").unwrap_or_default();
    sketch.text(level, Side::Above, text, Tone::Strong);
    foot(readings, sketch);
}

/// What the sheet asks, and what is left over.
fn foot(readings: &Readings<'_>, sketch: &mut Sketch) {
    let row = mid(sketch.bottom() - 1);
    for (index, port) in ["required", "margin"].iter().enumerate() {
        let at = (0.0, row + index as f64);
        let text = readings.full(port).unwrap_or_default();
        sketch.text(at, Side::Right, text, Tone::Strong);
    }
}
