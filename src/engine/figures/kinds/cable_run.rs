//! The cable from the panel to the motor: lengths, sizes, and the volts on the way,
//! standing and running.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::scene::{Ink, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

/// A frame so wide has room for the trench's texts under it.
const ROOM_FOR_TRENCH: usize = 50;

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let (top, bottom) = (mid(sketch.top() + 5), mid(sketch.bottom() - 1));
    let well = (sketch.columns() as f64 * 0.42).floor() + 0.5;
    let panel = (2.5, 7.5);
    let ground = top - 1.0;
    // The panel on its wall, the trench to the well head, the well with the motor in it.
    sketch.rect((panel.0, ground - 3.0), (panel.1, ground - 1.0), Ink::Line);
    sketch.line((0.5, ground), (well - 2.0, ground), Ink::Line);
    sketch.line((well + 2.0, ground), (well + 6.0, ground), Ink::Line);
    sketch.line((well - 2.0, ground - 1.0), (well - 2.0, bottom), Ink::Line);
    sketch.line((well + 2.0, ground - 1.0), (well + 2.0, bottom), Ink::Line);
    sketch.path(
        vec![
            (5.5, ground - 1.0),
            (5.5, top + 1.0),
            (well, top + 1.0),
            (well, bottom - 3.0),
        ],
        Ink::Heavy,
    );
    sketch.rect(
        (well - 1.0, bottom - 3.0),
        (well + 1.0, bottom - 1.0),
        Ink::Heavy,
    );
    let text = |port: &str| readings.full(port).unwrap_or_default();
    sketch.text(
        (panel.1, ground - 2.0),
        Side::Right,
        text("supply"),
        Tone::Strong,
    );
    let trench = ["buried", "trench_wire", "trench_lost"];
    let wide = sketch.columns() >= ROOM_FOR_TRENCH;
    let width = (well - 6.0) as usize - 3;
    for (index, line) in trench.iter().map(|port| text(port)).enumerate() {
        let at = (5.5, top + 2.0 + 2.0 * index as f64);
        if wide {
            sketch.text_within(at, Side::Right, line, (Tone::Plain, width));
        }
    }
    let mut texts: Vec<(f64, String, Tone)> = Vec::new();
    let mut say = |at: f64, port: &str, tone: Tone| {
        if let Some(text) = readings.full(port) {
            texts.push((at, text, tone));
        }
    };
    say(ground - 1.0, "run", Tone::Plain);
    say(top + 1.0, "loop", Tone::Plain);
    for port in trench.iter().filter(|_| !wide) {
        say(top + 1.2, port, Tone::Plain);
    }
    say(top + 3.0, "drop", Tone::Plain);
    say(top + 3.5, "wire", Tone::Plain);
    say(bottom - 4.0, "lost", Tone::Strong);
    say(bottom - 2.0, "motor", Tone::Plain);
    say(bottom - 1.9, "amps", Tone::Plain);
    say(bottom - 1.0, "at_motor", Tone::Strong);
    let standing = readings.text("supply").map(|supply| {
        let words = format!("standing still {supply}");
        (bottom, words, Tone::Plain)
    });
    texts.extend(standing);
    sketch.stack(well + 2.0, well as usize + 5, &texts);
}
