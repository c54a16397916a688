//! A pressure switch: the spring and its two nuts, the contacts, the volts in line and
//! load, and where the gauge stands between the two settings.

use crate::figures::readings::Readings;
use crate::figures::ruler::Ruler;
use crate::figures::scene::{Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let (top, bottom) = (sketch.top(), sketch.bottom());
    contacts(readings, sketch, top + 1);
    let scale_top = mid(top + 8);
    gauge(readings, sketch, (scale_top, mid(bottom)));
    if sketch.columns() >= 60 {
        springs(sketch, (mid(top + 7), mid(bottom)));
    }
}

/// Line at the left, load at the right, a pair of contacts between them for each leg.
fn contacts(readings: &Readings<'_>, sketch: &mut Sketch, top: usize) {
    let state = readings.text("contacts").unwrap_or_default().to_owned();
    let closed = ["closed", "shut", "together"]
        .iter()
        .any(|word| state.contains(word));
    let open = ["open", "apart"].iter().any(|word| state.contains(word));
    let (left, right) = (mid(5), mid(25));
    let middle = f64::midpoint(left, right);
    for (row, line, load) in [(top, "L1", "T1"), (top + 3, "L2", "T2")] {
        let at = mid(row);
        sketch.line((left, at), (middle - 2.0, at), Ink::Line);
        sketch.line((middle + 2.0, at), (right, at), Ink::Line);
        sketch.mark((middle - 2.0, at), Mark::Dot);
        sketch.mark((middle + 2.0, at), Mark::Dot);
        if closed {
            sketch.line((middle - 1.0, at), (middle + 1.0, at), Ink::Heavy);
        } else if open {
            sketch.line((middle - 1.5, at), (middle + 1.5, at - 0.9), Ink::Heavy);
        } else {
            sketch.line((middle - 1.0, at), (middle + 1.0, at), Ink::Dashed);
        }
        sketch.at(2, row, line, Tone::Strong);
        sketch.at(27, row, load, Tone::Strong);
    }
    let between = mid(top + 1);
    let text = |port: &str| readings.full(port).unwrap_or_default();
    let width = sketch.columns() / 2 - 1;
    sketch.text_within(
        (0.0, between + 0.5),
        Side::Right,
        text("line"),
        (Tone::Plain, width),
    );
    let end = (sketch.columns() as f64 - 1.0, between + 0.5);
    sketch.text_within(end, Side::Left, text("load"), (Tone::Plain, width));
    let below = mid(top + 4);
    sketch.text((middle, below), Side::On, text("contacts"), Tone::Strong);
    sketch.text((middle, below + 1.0), Side::On, text("across"), Tone::Plain);
}

/// The scale with cut-in and cut-out, and the needle on it.
fn gauge(readings: &Readings<'_>, sketch: &mut Sketch, (top, bottom): (f64, f64)) {
    let ports = ["cut_in", "cut_out", "gauge", "new_cut_in", "new_cut_out"];
    let known: Vec<f64> = ports.iter().filter_map(|port| readings.si(port)).collect();
    let most = known.iter().copied().fold(0.0, f64::max);
    let least = known.iter().copied().fold(f64::INFINITY, f64::min);
    if known.len() < 2 {
        sketch.scale(super::NOT_TO_SCALE);
        return;
    }
    let air = (most - least).max(most * 0.05) * 0.3;
    let ruler = Ruler::between(((least - air).max(0.0), most + air), (bottom, top));
    let x = mid(3);
    sketch.line((x, top), (x, bottom), Ink::Line);
    let mut texts: Vec<(f64, String, Tone)> = Vec::new();
    for port in ports {
        let Some(reading) = readings.get(port) else {
            continue;
        };
        let at = match reading.si {
            Some(si) => ruler.at(si),
            None if port == "new_cut_in" || port == "new_cut_out" => top,
            None => bottom,
        };
        if reading.is_known() {
            let mark = if port == "gauge" {
                Mark::Right
            } else {
                Mark::Dot
            };
            sketch.mark((x, at), mark);
        }
        let tone = if port == "gauge" {
            Tone::Strong
        } else {
            Tone::Plain
        };
        texts.push((at, reading.full(), tone));
    }
    if let Some(raise) = readings.full("raise") {
        texts.push((f64::midpoint(top, bottom), raise, Tone::Plain));
    }
    texts.sort_by(|one, two| one.0.total_cmp(&two.0));
    sketch.stack(x, 9, &texts);
    sketch.scale("pressures to scale, the switch not");
}

/// The two springs with their nuts over the port that senses the pressure.
fn springs(sketch: &mut Sketch, (top, bottom): (f64, f64)) {
    let left = sketch.columns() as f64 - 34.5;
    let coil = |sketch: &mut Sketch, x: f64, from: f64| {
        let turns = ((bottom - 3.0 - from) * 2.0) as usize;
        let corner = |turn: usize| {
            let side = if turn.is_multiple_of(2) { -1.5 } else { 1.5 };
            (x + side, (turn as f64).mul_add(0.5, from + 1.0))
        };
        sketch.path((0..=turns).map(corner).collect(), Ink::Line);
        sketch.line((x - 2.0, from), (x + 2.0, from), Ink::Heavy);
    };
    coil(sketch, left + 4.0, top + 1.0);
    coil(sketch, left + 12.0, top + 2.0);
    sketch.line(
        (left, bottom - 1.5),
        (left + 16.0, bottom - 1.5),
        Ink::Heavy,
    );
    sketch.line((left + 8.0, bottom - 1.5), (left + 8.0, bottom), Ink::Line);
    sketch.mark((left + 8.0, bottom), Mark::Up);
    let text = |sketch: &mut Sketch, at, text: &str| {
        sketch.text_within(at, Side::Right, text, (Tone::Faint, 16));
    };
    text(
        sketch,
        (left + 6.0, top),
        "range nut: cut-in and cut-out together",
    );
    text(
        sketch,
        (left + 15.0, top + 4.0),
        "differential nut: cut-out alone",
    );
    text(sketch, (left + 9.0, bottom), "pressure of the tank");
}
