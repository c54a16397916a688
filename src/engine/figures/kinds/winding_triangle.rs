//! The windings of a three-wire motor: main and start meet in the common lead; between
//! the other two a meter reads both. The cable stands in series with each pair.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::scene::{Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let middle = (sketch.columns() as f64 / 2.0).floor() + 0.5;
    let half = (middle - 5.0).min(22.0).floor();
    let (top, bottom) = (mid(sketch.top() + 3), mid(sketch.bottom() - 4));
    let (one, two, three) = (
        (middle, top),
        (middle - half, bottom),
        (middle + half, bottom),
    );
    let corner = |port: &str, own: &str| readings.text(port).unwrap_or(own).to_owned();
    // With corners of the problem's own nobody knows yet which winding lies where.
    let named = readings.get("corner_one").is_some();
    let ink = if named { Ink::Line } else { Ink::Heavy };
    sketch.line(one, two, ink);
    sketch.line(one, three, ink);
    sketch.line(two, three, Ink::Dashed);
    for at in [one, two, three] {
        sketch.mark(at, Mark::Dot);
    }
    let names = [
        corner("corner_one", "Y common"),
        corner("corner_two", "B main"),
        corner("corner_three", "R start"),
    ];
    sketch.text(one, Side::Above, names[0].clone(), Tone::Strong);
    sketch.text((two.0, bottom), Side::Below, names[1].clone(), Tone::Strong);
    sketch.text(
        (three.0, bottom),
        Side::Below,
        names[2].clone(),
        Tone::Strong,
    );
    let width = (half as usize).clamp(8, 20);
    let center = f64::midpoint(top, bottom);
    let short = |name: &str| name.split(' ').next().unwrap_or_default().to_owned();
    let pair = |from: usize, to: usize, port: &str| {
        let text = readings.text(port)?;
        let (from, to) = (short(&names[from]), short(&names[to]));
        Some(format!("{from} to {to} {text}"))
    };
    // Where the legs run at a row.
    let run = |row: f64| half * (row - top) / (bottom - top);
    let left = |row: f64| (middle - run(row), row);
    let right = |row: f64| (middle + run(row), row);
    let low = center + 2.0;
    if let Some(text) = pair(0, 1, "first") {
        sketch.text_within(left(center - 1.0), Side::Left, text, (Tone::Strong, width));
    }
    if let Some(text) = pair(0, 2, "second") {
        sketch.text_within(
            right(center - 1.0),
            Side::Right,
            text,
            (Tone::Strong, width),
        );
    }
    if let Some(text) = pair(2, 1, "third") {
        sketch.text((middle, bottom), Side::Below, text, Tone::Strong);
    }
    if let Some(text) = readings.text("main") {
        let text = format!("main {text}");
        sketch.text_within(left(low), Side::Right, text, (Tone::Plain, width));
    }
    if let Some(text) = readings.text("start") {
        let text = format!("start {text}");
        sketch.text_within(right(low + 1.0), Side::Left, text, (Tone::Plain, width));
    }
    if let Some(text) = readings.full("cable") {
        let at = (middle, mid(sketch.bottom()));
        sketch.text(at, Side::On, text, Tone::Plain);
    }
}
