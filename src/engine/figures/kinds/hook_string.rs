//! What hangs on the hook: pump, pipe, the water in it and the cable, each with its
//! weight, and the whole.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::scene::{Fill, Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let (top, bottom) = (mid(sketch.top()), mid(sketch.bottom()));
    let (pipe, cable) = (8.5, 11.5);
    let clamp = top + 2.0;
    let ground = clamp + 2.0;
    let pump = bottom - 3.0;
    // The hook, the clamp under it, the ground line on both sides of the casing.
    sketch.mark((pipe, top), Mark::Down);
    sketch.line((pipe, top), (pipe, clamp), Ink::Line);
    sketch.line((pipe - 2.0, clamp), (pipe + 2.0, clamp), Ink::Heavy);
    sketch.line((2.5, ground), (5.5, ground), Ink::Line);
    sketch.line((14.5, ground), (17.5, ground), Ink::Line);
    sketch.line((5.5, ground), (5.5, bottom), Ink::Line);
    sketch.line((14.5, ground), (14.5, bottom), Ink::Line);
    sketch.area((2.5, ground + 0.5), (5.0, bottom), Fill::Ground);
    sketch.area((15.0, ground + 0.5), (17.5, bottom), Fill::Ground);
    // The pipe with its water, the cable beside it, the pump at the end.
    sketch.area((pipe - 0.5, clamp + 1.0), (pipe + 0.5, pump), Fill::Water);
    sketch.line((pipe - 1.0, clamp), (pipe - 1.0, pump), Ink::Line);
    sketch.line((pipe + 1.0, clamp), (pipe + 1.0, pump), Ink::Line);
    sketch.line((cable, ground - 1.0), (cable, pump), Ink::Dashed);
    sketch.rect((pipe - 1.0, pump), (cable, bottom - 1.0), Ink::Heavy);
    let middle = ground + 1.0;
    let mut texts = Vec::new();
    let mut say = |at: f64, ports: &[&str], tone: Tone| {
        let found = ports.iter().filter_map(|port| readings.full(port));
        for (index, text) in found.enumerate() {
            texts.push((at + index as f64, text, tone));
        }
    };
    say(top, &["load"], Tone::Strong);
    say(
        middle,
        &[
            "pipe",
            "pipe_load",
            "water_load",
            "cable",
            "cable_load",
            "string_load",
            "setting",
        ],
        Tone::Plain,
    );
    say(bottom - 2.0, &["wet_end"], Tone::Strong);
    sketch.stack(18.5, 22, &texts);
    sketch.text((pipe + 2.0, clamp), Side::Right, "clamp", Tone::Faint);
}
