//! The water that chlorine has to reach: the column in the casing, and what stands in
//! tank and piping.

use super::shaft::Shaft;
use crate::figures::readings::Readings;
use crate::figures::scene::{Fill, Ink, Tone};
use crate::figures::sketch::{Side, Sketch};

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let mut shaft = Shaft::of(readings, sketch, &["static", "depth"]);
    shaft.casing(sketch);
    let (top, bottom) = shaft.ends();
    let still = shaft.level("static").cloned();
    if let Some(level) = &still {
        shaft.water(sketch, level);
        shaft.across(sketch, level, true);
    }
    let upper = still.as_ref().map_or(top, |level| level.at);
    let end = shaft.level("depth").map_or(bottom, |level| level.at);
    shaft.bracket(sketch, (upper, end), readings.full("column"));
    // The house's tank stands on the ground at the right where there is room for it.
    if sketch.columns() >= 60 {
        let (left, right) = (
            sketch.columns() as f64 - 12.5,
            sketch.columns() as f64 - 4.5,
        );
        sketch.line((shaft.walls().1, top + 1.0), (left, top + 1.0), Ink::Line);
        sketch.rect((left, top), (right, top + 4.0), Ink::Line);
        sketch.area(
            (left + 0.5, top + 2.0),
            (right - 0.5, top + 4.0),
            Fill::Water,
        );
    }
    if let Some(text) = readings.full("casing") {
        shaft.note(top - 1.0, text);
    }
    let piping = readings.full("piping").unwrap_or_default();
    if sketch.columns() >= 60 {
        let at = (sketch.columns() as f64, top + 5.0);
        sketch.text(at, Side::Left, piping, Tone::Plain);
    } else if !piping.is_empty() {
        shaft.note(top + 1.0, piping);
    }
    let low = (end - upper).mul_add(0.6, upper);
    for (index, port) in ["in_well", "all", "dose", "measure", "time"]
        .iter()
        .enumerate()
    {
        if let Some(text) = readings.full(port) {
            shaft.note((low + index as f64).min(end - 0.1), text);
        }
    }
    shaft.texts(sketch);
}
