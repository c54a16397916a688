//! The parts of a total head as bars: each begins where the one before it ends, and
//! the whole stands below.

use crate::figures::readings::{Reading, Readings};
use crate::figures::ruler::Ruler;
use crate::figures::scene::{Fill, Ink, Tone};
use crate::figures::sketch::{Sketch, mid};

/// The parts from the well to the tap.
const PARTS: [&str; 5] = ["lift", "rise", "pressure", "friction", "friction_two"];

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let parts: Vec<&Reading> = PARTS.iter().filter_map(|port| readings.get(port)).collect();
    let known: Vec<f64> = parts.iter().filter_map(|part| part.si).collect();
    let sum: f64 = known.iter().map(|part| part.max(0.0)).sum();
    let asked = parts.len() - known.len();
    // A part that is asked is as wide as the known ones on the average: it tells nothing.
    let nominal = if known.is_empty() {
        1.0
    } else {
        (sum / known.len() as f64).max(1e-9)
    };
    let total = readings.get("total").filter(|total| total.is_known());
    let reach = total
        .and_then(|total| total.si)
        .unwrap_or(0.0)
        .max(nominal.mul_add(asked as f64, sum));
    let (left, right) = (mid(1), mid(sketch.columns() - 2));
    let ruler = Ruler::from_zero(reach, (left, right));
    sketch.scale(if asked == 0 {
        "bars to scale"
    } else {
        "bars to scale, not the dashed ones"
    });
    let count = parts.len() + usize::from(readings.get("total").is_some());
    let room = sketch.bottom() - sketch.top();
    let pitch = (room / count.max(1)).clamp(2, 5);
    let mut from = 0.0;
    let mut row = sketch.top() + 1;
    for part in &parts {
        let width = part.si.map_or(nominal, |si| si.max(0.0));
        let at = (ruler.at(from), ruler.at(from + width));
        bar(sketch, row, (left, right), at, pitch, part);
        from += width;
        row += pitch;
    }
    if let Some(reading) = readings.get("total") {
        let end = total.and_then(|total| total.si).unwrap_or(from);
        let at = (left, ruler.at(end));
        bar(sketch, row, (left, right), at, pitch, reading);
    }
}

/// A bar with its text over it: its outline from two rows on, else a heavy line.
fn bar(
    sketch: &mut Sketch,
    row: usize,
    (left, right): (f64, f64),
    (from, to): (f64, f64),
    pitch: usize,
    reading: &Reading,
) {
    let at = mid(row + 1);
    let (known, total) = (reading.is_known(), reading.port == "total");
    if pitch >= 4 && known {
        sketch.rect((from, at), (to, at + 1.0), Ink::Line);
        if total {
            sketch.area((from + 0.5, at), (to - 0.5, at + 1.0), Fill::Solid);
        }
    } else {
        let ink = if known { Ink::Heavy } else { Ink::Dashed };
        sketch.line((from, at), (to, at), ink);
        sketch.line((from, at - 0.4), (from, at + 0.4), ink);
        sketch.line((to, at - 0.4), (to, at + 0.4), ink);
    }
    // The text starts with its bar where it fits, and ends at the frame where not.
    let text = reading.full();
    let wide = crate::figures::scene::wide(&text) as f64;
    let start = from.min(right - wide).max(left - 1.0);
    let tone = if total { Tone::Strong } else { Tone::Plain };
    sketch.at(start.floor().max(0.0) as usize, row, text, tone);
}
