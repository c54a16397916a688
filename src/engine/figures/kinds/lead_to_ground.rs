//! A megohm reading of a motor lead to ground, on a scale of powers of ten with the
//! bands of its table.

use super::NOT_TO_SCALE;
use crate::figures::readings::{Reading, Readings};
use crate::figures::ruler::Ruler;
use crate::figures::scene::{Ink, Mark, Tone};
use crate::figures::sketch::{Side, Sketch, mid, wrap};
use crate::formulas::Value;
use crate::problems::tables_asked;
use crate::quantities::{Unit, print};

/// The scale: from a hundredth of a megohm to a thousand.
const FROM: i32 = -2;
const TO: i32 = 3;

/// A band: the least reading that lies in it, and what the table says of it.
struct Band {
    least: f64,
    verdict: String,
}

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let Some(unit) = readings.unit("reading", "megohm", "megohm") else {
        return;
    };
    let (left, right) = (mid(2), mid(sketch.columns() - 4));
    tester(sketch, (left, right));
    let at = mid(sketch.top() + 8);
    let ruler = Ruler::between((f64::from(FROM), f64::from(TO)), (left, right));
    let place = |value: f64| ruler.at(libm::log10(value.max(1e-9)));
    sketch.line((left, at), (right, at), Ink::Line);
    for power in FROM..=TO {
        let x = ruler.at(f64::from(power));
        sketch.line((x, at), (x, at + 0.4), Ink::Line);
        let text = print::shortest(libm::pow(10.0, f64::from(power)));
        sketch.text((x, at), Side::Below, text, Tone::Faint);
    }
    for (port, row) in [("reading", 1.0), ("cable", 2.0), ("motor", 3.0)] {
        let Some(reading) = readings.get(port) else {
            continue;
        };
        let Some(si) = reading.si else {
            sketch.text((right, at - row), Side::Left, reading.full(), Tone::Plain);
            continue;
        };
        let x = place(unit.from_si(si));
        sketch.line((x, at - row), (x, at), Ink::Line);
        sketch.mark((x, at - row), Mark::Down);
        let sides = [((x, at - row), Side::Right), ((x, at - row), Side::Left)];
        sketch.text_at_one(&sides, reading.full(), Tone::Strong);
    }
    if let Some(text) = readings.text("place") {
        let end = (sketch.columns() as f64, mid(sketch.top()));
        sketch.text(end, Side::Left, text, Tone::Plain);
    }
    let bands = bands(readings, &unit);
    for band in bands.iter().filter(|band| band.least > 0.0) {
        let x = place(band.least);
        sketch.line((x, at - 0.4), (x, at + 0.4), Ink::Heavy);
    }
    let width = sketch.columns() - 2;
    let mut row = sketch.top() + 10;
    for (index, band) in bands.iter().enumerate() {
        let text = words(band, bands.get(index.wrapping_sub(1)), &unit);
        for line in wrap(&text, width) {
            sketch.at(1, row, line, Tone::Plain);
            row += 1;
        }
    }
    sketch.scale(if readings.get("reading").is_some_and(Reading::is_known) {
        "in powers of ten, to scale"
    } else {
        NOT_TO_SCALE
    });
}

/// A band in words, the upper one before it.
fn words(band: &Band, above: Option<&Band>, unit: &Unit) -> String {
    let least = print::shortest(band.least);
    let unit = unit.symbol();
    match above {
        None => format!("{least} {unit} or more: {}", band.verdict),
        Some(above) if band.least > 0.0 => {
            let above = print::shortest(above.least);
            format!("{least} to {above} {unit}: {}", band.verdict)
        }
        Some(above) => {
            let above = print::shortest(above.least);
            format!("under {above} {unit}: {}", band.verdict)
        }
    }
}

/// The bands of the place, the highest first. A sheet that asks one of them shows
/// none before it is handed in.
fn bands(readings: &Readings<'_>, unit: &Unit) -> Vec<Band> {
    let Some(rows) = readings.rows("bands") else {
        return Vec::new();
    };
    let asked = tables_asked(readings.problem).contains(&rows.table.name);
    if asked && !readings.worked_out() {
        return Vec::new();
    }
    let column = |name: &str| rows.table.column(name);
    let (Some(place), Some(least), Some(verdict)) =
        (column("place"), column("least"), column("verdict"))
    else {
        return Vec::new();
    };
    let here = readings.text("place").unwrap_or_default();
    let word = |cell: Option<&Value>| match cell {
        Some(Value::Word(word)) => word.to_string(),
        _ => String::new(),
    };
    let mut bands: Vec<Band> = rows
        .iter()
        .filter(|row| word(row.cell(place)) == here)
        .filter_map(|row| {
            let least = row.cell(least)?.number()?;
            Some(Band {
                least: unit.from_si(least.si),
                verdict: word(row.cell(verdict)),
            })
        })
        .collect();
    bands.sort_by(|one, two| two.least.total_cmp(&one.least));
    bands
}

/// The tester between a lead and ground, and the leak that it reads.
fn tester(sketch: &mut Sketch, (left, right): (f64, f64)) {
    let row = mid(sketch.top() + 2);
    let (box_end, motor) = (left + 7.0, (left + 20.0).min(right - 6.0));
    sketch.rect((left, row - 1.0), (box_end, row + 1.0), Ink::Line);
    sketch.rect((motor, row - 1.0), (motor + 6.0, row + 1.0), Ink::Line);
    sketch.line((box_end, row), (motor, row), Ink::Heavy);
    let down = row + 2.0;
    sketch.line((left + 3.0, row + 1.0), (left + 3.0, down), Ink::Line);
    sketch.line((left + 2.0, down), (motor + 4.0, down), Ink::Dashed);
    sketch.line((motor + 3.0, row + 1.0), (motor + 3.0, down), Ink::Dashed);
    sketch.mark((motor + 3.0, down), Mark::Down);
    sketch.text((left + 3.5, row), Side::On, "tester", Tone::Faint);
    sketch.text((motor + 3.5, row), Side::On, "motor", Tone::Faint);
    sketch.text(
        (f64::midpoint(box_end, motor), row),
        Side::Above,
        "lead",
        Tone::Faint,
    );
    sketch.text(
        (f64::midpoint(box_end, motor), down),
        Side::Above,
        "ground",
        Tone::Faint,
    );
}
