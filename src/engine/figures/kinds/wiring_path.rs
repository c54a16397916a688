//! The way of the current from the service to the motor, station by station, with what
//! is read there.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::scene::{Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

/// The stations with the ports whose readings stand beside them.
const STATIONS: [(&str, &[&str]); 9] = [
    ("service", &["supply"]),
    ("breaker", &["breaker"]),
    ("disconnect", &[]),
    ("pressure switch", &["line", "contacts", "out"]),
    ("control box, L1 L2 to Y B R", &["box"]),
    ("buried cable", &["cable"]),
    ("well head, splice", &[]),
    ("drop cable, splice", &["ground"]),
    ("motor", &["motor", "amps"]),
];

/// Where the way is parted for a test, with the power off, so that each side is read alone.
const TESTS: [&str; 4] = ["disconnect", "control box", "well head", "drop cable"];

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    sketch.scale(NOT_TO_SCALE);
    let (top, bottom) = (mid(sketch.top() + 1), mid(sketch.bottom()));
    let (ground, way) = (1.5, 4.5);
    let texts = texts(readings, sketch.columns());
    let rows: usize = texts.iter().map(Vec::len).sum();
    let spare = ((bottom - top) as usize + 1).saturating_sub(rows);
    // What is left of the height is shared out between the stations.
    let gap = (spare / texts.len()).min(2);
    let mut row = top;
    let mut last = top;
    for lines in &texts {
        let parted = lines
            .first()
            .is_some_and(|line| TESTS.iter().any(|name| line.starts_with(name)));
        sketch.mark((way, row), if parted { Mark::Cross } else { Mark::Dot });
        last = row;
        for (index, line) in lines.iter().enumerate() {
            let tone = if index == 0 {
                Tone::Strong
            } else {
                Tone::Plain
            };
            let indent = 7 + 2 * usize::from(index > 0);
            sketch.at(indent, row as usize + index, line.clone(), tone);
        }
        row += (lines.len() + gap) as f64;
    }
    sketch.line((way, top), (way, last), Ink::Heavy);
    sketch.line((ground, top), (ground, last), Ink::Dashed);
    sketch.line((ground, top), (way, top), Ink::Dashed);
    sketch.line((ground, last), (way, last), Ink::Dashed);
    let words = "dashed: ground. × part it here";
    sketch.text((0.0, last + 1.0), Side::Right, words, Tone::Faint);
}

/// The rows of each station: its name with the first reading, then the others.
fn texts(readings: &Readings<'_>, columns: usize) -> Vec<Vec<String>> {
    STATIONS
        .iter()
        .map(|(name, ports)| {
            let said: Vec<(String, String)> = ports
                .iter()
                .filter_map(|port| {
                    let reading = readings.get(port)?;
                    Some((reading.label.clone(), reading.text.clone()))
                })
                .collect();
            let mut rows = vec![(*name).to_owned()];
            for (label, text) in said {
                let text = if label == *name || label == "supply" || label == "cable" {
                    text
                } else {
                    format!("{label} {text}")
                };
                let alone = rows.len() == 1 && !rows[0].contains(':');
                let joined = format!("{name}: {text}");
                if alone && joined.chars().count() + 7 <= columns {
                    rows[0] = joined;
                } else {
                    rows.extend(crate::figures::sketch::wrap(&text, columns - 10));
                }
            }
            rows
        })
        .collect()
}
