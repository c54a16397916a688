//! A hold test: how the gauge falls with the house valve shut and open, and which side
//! of the valve each way of falling speaks of.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::ruler::{Ruler, in_unit};
use crate::figures::scene::{Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid, wrap};

/// What each way of falling speaks of: common practice, no source.
const VERDICTS: [&str; 2] = [
    "falls with the valve shut: look to the well side",
    "falls only with it open: look to the house side",
];

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let width = sketch.columns() - 2;
    let rest = ["time", "lost", "leak"];
    let rest: Vec<String> = rest.iter().filter_map(|port| readings.full(port)).collect();
    let mut foot: Vec<(String, Tone)> = Vec::new();
    for (text, tone) in [
        (rest.join(", "), Tone::Plain),
        (VERDICTS[0].to_owned(), Tone::Faint),
        (VERDICTS[1].to_owned(), Tone::Faint),
    ] {
        foot.extend(wrap(&text, width).into_iter().map(|line| (line, tone)));
    }
    let low_row = sketch.bottom() - foot.len() - 1;
    let (left, right) = (mid(7), mid(sketch.columns() / 2 + 1));
    let (top, bottom) = (mid(sketch.top() + 1), mid(low_row));
    let ports = ["began", "shut", "open"];
    let known: Vec<f64> = ports.iter().filter_map(|port| readings.si(port)).collect();
    let most = known.iter().copied().fold(0.0, f64::max);
    let least = known
        .iter()
        .copied()
        .fold(f64::INFINITY, f64::min)
        .min(most);
    let air = (most - least).max(most * 0.05) * 0.4;
    let span = ((least - air).max(0.0), most + air);
    let ruler = Ruler::between(span, (bottom, top));
    sketch.path(
        vec![(left, top), (left, bottom), (right, bottom)],
        Ink::Line,
    );
    let unit = readings.unit("began", "psi", "kPa");
    let shown = (
        in_unit(span.0, unit.as_ref()),
        in_unit(span.1, unit.as_ref()),
    );
    let scale = Ruler::between(shown, (bottom, top));
    for (value, text) in scale.ticks(((bottom - top) / 2.0) as usize) {
        let at = scale.at(value);
        sketch.line((left - 1.0, at), (left, at), Ink::Line);
        sketch.tick(6, at, &text);
    }
    if let Some(unit) = &unit {
        sketch.tick(6, top - 1.0, unit.symbol());
    }
    let mut texts: Vec<(f64, String, Tone)> = Vec::new();
    if let Some(began) = readings.get("began") {
        let from = began.si.map_or(top + 1.0, |si| ruler.at(si));
        sketch.mark((left, from), Mark::Dot);
        sketch.text((left, from), Side::Right, began.full(), Tone::Strong);
        for (port, ink) in [("shut", Ink::Heavy), ("open", Ink::Dashed)] {
            let Some(reading) = readings.get(port) else {
                continue;
            };
            let at = reading
                .si
                .map_or(f64::midpoint(from, bottom), |si| ruler.at(si));
            sketch.path(
                vec![
                    (left, from),
                    (f64::midpoint(left, right), f64::midpoint(from, at)),
                    (right, at),
                ],
                ink,
            );
            texts.push((at, reading.full(), Tone::Strong));
        }
    }
    texts.sort_by(|one, two| one.0.total_cmp(&two.0));
    sketch.stack(right, right as usize + 2, &texts);
    for (index, (line, tone)) in foot.into_iter().enumerate() {
        sketch.at(1, low_row + 2 + index, line, tone);
    }
    sketch.scale(if known.len() > 1 {
        "pressures to scale"
    } else {
        NOT_TO_SCALE
    });
}
