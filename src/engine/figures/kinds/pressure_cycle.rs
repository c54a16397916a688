//! Pressure against time: up to cut-out while the pump runs, down to cut-in while it
//! rests; a relief valve above, an air charge below, and the needle of a fault dashed.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::ruler::{Ruler, in_unit};
use crate::figures::scene::{Ink, Point, Tone};
use crate::figures::sketch::{Side, Sketch, mid, wrap};

/// The lines across, each with its ink.
const LINES: [(&str, Ink); 4] = [
    ("relief", Ink::Dashed),
    ("cut_out", Ink::Dashed),
    ("cut_in", Ink::Dashed),
    ("charge", Ink::Dashed),
];

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let rest = ["drawdown", "flow", "draw"];
    let rest: Vec<String> = rest.iter().filter_map(|port| readings.full(port)).collect();
    let foot = wrap(&rest.join(", "), sketch.columns() - 2);
    let texts_wide = if sketch.columns() >= 50 { 21 } else { 16 };
    let (left, right) = (mid(7), mid(sketch.columns() - texts_wide - 3));
    let low_row = sketch.bottom() - 2 - foot.len();
    let (top, bottom) = (mid(sketch.top() + 1), mid(low_row));
    let ports = ["relief", "cut_out", "cut_in", "charge", "low", "high"];
    let known: Vec<f64> = ports.iter().filter_map(|port| readings.si(port)).collect();
    let (most, least) = ends(&known);
    let ruler = Ruler::between((least, most), (bottom, top));
    axes(
        readings,
        sketch,
        (least, most),
        ((left, right), (top, bottom)),
    );
    let low = readings
        .si("cut_in")
        .or(readings.get("cut_in").is_none().then_some(least));
    let high = readings.si("cut_out");
    let mut texts: Vec<(f64, String, Tone)> = Vec::new();
    for (port, ink) in LINES {
        let Some(reading) = readings.get(port) else {
            continue;
        };
        // A pressure that is asked stands outside of those that are known.
        let at = reading.si.map(|si| ruler.at(si));
        if let Some(at) = at {
            sketch.line((left, at), (right, at), ink);
        }
        let edge = if port == "charge" || port == "cut_in" {
            bottom
        } else {
            top
        };
        texts.push((at.unwrap_or(edge), reading.full(), Tone::Strong));
    }
    let (on, off) = (readings.si("on"), readings.si("off"));
    let share = match (on, off) {
        (Some(on), Some(off)) if on > 0.0 && off > 0.0 => on / (on + off),
        _ => 0.5,
    };
    if let (Some(low), Some(high)) = (low, high) {
        let cycle = (right - left) / 2.0;
        let corners = saw((left, cycle, share), (ruler.at(low), ruler.at(high)));
        sketch.path(corners, Ink::Heavy);
        times(readings, sketch, (left, cycle, share), bottom);
    }
    if let (Some(low), Some(high)) = (readings.si("low"), readings.si("high")) {
        let cycle = (right - left) / 5.0;
        let corners = saw((left, cycle, 0.5), (ruler.at(low), ruler.at(high)));
        sketch.path(corners, Ink::Dashed);
        for (port, si) in [("high", high), ("low", low)] {
            texts.extend(
                readings
                    .full(port)
                    .map(|text| (ruler.at(si), text, Tone::Plain)),
            );
        }
    }
    if known.is_empty() {
        // The shape alone: how it goes on, not at which pressures or times.
        let cycle = (right - left) / 2.0;
        let corners = saw((left, cycle, share), (bottom - 1.0, top + 1.0));
        sketch.path(corners, Ink::Dashed);
        times(readings, sketch, (left, cycle, share), bottom);
    }
    texts.sort_by(|one, two| one.0.total_cmp(&two.0));
    sketch.stack(right, sketch.columns() - texts_wide, &texts);
    sketch.scale(match (on, off) {
        (Some(_), Some(_)) => "pressures and times to scale",
        _ if known.len() > 1 => "pressures to scale, times not",
        _ => NOT_TO_SCALE,
    });
    for (index, line) in foot.into_iter().enumerate() {
        sketch.at(1, low_row + 3 + index, line, Tone::Plain);
    }
}

/// The span of pressures that is drawn: a little more than those that are there.
fn ends(known: &[f64]) -> (f64, f64) {
    let most = known.iter().copied().fold(0.0, f64::max);
    let least = known.iter().copied().fold(f64::INFINITY, f64::min);
    if !least.is_finite() {
        return (1.0, 0.0);
    }
    if most <= least {
        // One pressure alone says nothing of a span: half of it on either side.
        return (most * 1.5, most * 0.5);
    }
    let air = (most - least).max(most * 0.1) * 0.2;
    (most + air, (least - air).max(0.0))
}

fn axes(
    readings: &Readings<'_>,
    sketch: &mut Sketch,
    (least, most): (f64, f64),
    ((left, right), (top, bottom)): (Point, Point),
) {
    sketch.path(
        vec![(left, top), (left, bottom), (right, bottom)],
        Ink::Line,
    );
    if nothing_known(readings) {
        return;
    }
    let unit = readings.unit("cut_in", "psi", "kPa");
    let span = (in_unit(least, unit.as_ref()), in_unit(most, unit.as_ref()));
    let ruler = Ruler::between(span, (bottom, top));
    for (value, text) in ruler.ticks(((bottom - top) / 3.0) as usize) {
        let at = ruler.at(value);
        sketch.line((left - 1.0, at), (left, at), Ink::Line);
        sketch.tick(6, at, &text);
    }
    if let Some(unit) = &unit {
        sketch.tick(6, top - 1.0, unit.symbol());
    }
}

/// Whether no pressure may be drawn: then a scale would be made up.
fn nothing_known(readings: &Readings<'_>) -> bool {
    let ports = ["relief", "cut_out", "cut_in", "charge", "low", "high"];
    ports.iter().all(|port| readings.si(port).is_none())
}

/// Two cycles and more of a needle: up for a share of each, then down.
fn saw((left, cycle, share): (f64, f64, f64), (low, high): (f64, f64)) -> Vec<Point> {
    let mut corners = vec![(left, low)];
    for index in 0..(if share == 0.5 && cycle < 6.0 { 5 } else { 2 }) {
        let start = cycle.mul_add(f64::from(index), left);
        corners.push((cycle.mul_add(share, start), high));
        corners.push((start + cycle, low));
    }
    corners
}

/// The times under the first cycle.
fn times(
    readings: &Readings<'_>,
    sketch: &mut Sketch,
    (left, cycle, share): (f64, f64, f64),
    bottom: f64,
) {
    let turn = cycle.mul_add(share, left);
    let parts = [("on", left, turn, 1.0), ("off", turn, left + cycle, 2.0)];
    for (port, from, to, down) in parts {
        let Some(text) = readings.full(port) else {
            continue;
        };
        let at = bottom + down;
        sketch.line((from, at), (to, at), Ink::Line);
        sketch.text((to + 0.5, at), Side::Right, text, Tone::Plain);
    }
}
