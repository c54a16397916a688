//! One tank drained, at cut-in, at cut-out and waterlogged: what the gauge shows, and
//! that pressure (counted from nothing) times air stays the same.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::ruler::Ruler;
use crate::figures::scene::{Fill, Ink, Tone};
use crate::figures::sketch::{Side, Sketch, mid};
use crate::figures::trade;
use crate::quantities::{Unit, print};

/// The columns of the names of the rows.
const NAMES: usize = 10;

/// A frame so wide shows the waterlogged tank too.
const ROOM_FOR_FOUR: usize = 60;

/// A state of the tank.
struct State {
    name: &'static str,
    /// The gauge's pressure; none where the sheet asks it, or where it hunts.
    gauge: Option<f64>,
    gauge_text: String,
    /// The air's volume; none where it may not be shown.
    air: Option<f64>,
    /// How much of the tank is water where it is not drawn to scale.
    nominal: f64,
}

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let (Some(pressure), Some(volume_unit)) = (
        readings.unit("charge", "psi", "kPa"),
        readings.unit("volume", "gal", "L"),
    ) else {
        return;
    };
    let states = states(readings, sketch.columns());
    let to_scale = states.iter().all(|state| state.air.is_some());
    sketch.scale(if to_scale {
        "water to scale"
    } else {
        NOT_TO_SCALE
    });
    let volume = readings.si("volume");
    let width = (sketch.columns() - NAMES) as f64 / states.len() as f64;
    let rows = 5;
    let foot = sketch.bottom() - rows;
    let (top, bottom) = (mid(sketch.top() + 1), mid(foot - 1));
    let heads = ["volume", "drawdown"];
    let heads: Vec<String> = heads
        .iter()
        .filter_map(|port| readings.full(port))
        .collect();
    sketch.at(0, sketch.top(), heads.join(", "), Tone::Strong);
    let names = [
        String::new(),
        format!("gauge {}", pressure.symbol()),
        format!("abs. {}", pressure.symbol()),
        format!("air {}", volume_unit.symbol()),
        format!("water {}", volume_unit.symbol()),
        "abs. × air".to_owned(),
    ];
    for (index, name) in names.iter().enumerate() {
        sketch.at(0, foot + index, name.clone(), Tone::Faint);
    }
    for (index, state) in states.iter().enumerate() {
        let middle = (width * (index as f64 + 0.5) + NAMES as f64).floor() + 0.5;
        let half = (width / 2.0 - 1.5).clamp(2.0, 6.0).floor();
        tank(sketch, state, volume, (middle, half), (top, bottom));
        let texts = texts(readings, state, volume, (&pressure, &volume_unit));
        for (line, text) in texts.into_iter().enumerate() {
            let tone = if line == 0 { Tone::Strong } else { Tone::Plain };
            sketch.text((middle, mid(foot + line)), Side::On, text, tone);
        }
        said(readings, sketch, state, volume, (&pressure, &volume_unit));
    }
}

fn states(readings: &Readings<'_>, columns: usize) -> Vec<State> {
    let absolute = |gauge| trade::absolute(gauge, readings.system());
    let volume = readings.si("volume");
    let charge = readings.si("charge");
    let air = |gauge: Option<f64>| {
        let (volume, charge, gauge) = (volume?, charge?, gauge?);
        let air = volume * absolute(charge)? / absolute(gauge)?;
        readings.worked_out().then_some(air)
    };
    let state = |name, port: &str, nominal| {
        let gauge = readings.si(port);
        State {
            name,
            gauge,
            gauge_text: readings.get(port).map_or_else(String::new, |reading| {
                let bare = reading.unit.as_ref().zip(reading.si);
                bare.map_or_else(
                    || reading.text.clone(),
                    |(unit, _)| without_unit(&reading.text, unit),
                )
            }),
            air: air(gauge),
            nominal,
        }
    };
    let mut states = vec![
        state("drained", "charge", 0.0),
        state("cut-in", "cut_in", 0.12),
        state("cut-out", "cut_out", 0.4),
    ];
    if columns >= ROOM_FOR_FOUR {
        states.push(State {
            name: "waterlogged",
            gauge: None,
            gauge_text: "hunts".to_owned(),
            air: Some(0.0),
            nominal: 1.0,
        });
    }
    states
}

/// A printed value without its unit.
fn without_unit(text: &str, unit: &Unit) -> String {
    text.strip_suffix(unit.symbol())
        .map_or(text, str::trim_end)
        .to_owned()
}

fn tank(
    sketch: &mut Sketch,
    state: &State,
    volume: Option<f64>,
    (middle, half): (f64, f64),
    (top, bottom): (f64, f64),
) {
    let share = match (state.air, volume) {
        (Some(air), Some(volume)) if volume > 0.0 => 1.0 - air / volume,
        _ => state.nominal,
    };
    let level = Ruler::from_zero(1.0, (bottom, top)).at(share.clamp(0.0, 1.0));
    sketch.area(
        (middle - half + 0.5, level.max(top + 0.5)),
        (middle + half - 0.5, bottom),
        Fill::Water,
    );
    if share > 0.0 && share < 1.0 {
        sketch.line(
            (middle - half + 1.0, level),
            (middle + half - 1.0, level),
            Ink::Dashed,
        );
    }
    sketch.rect((middle - half, top), (middle + half, bottom), Ink::Line);
}

/// The rows under a tank: its state, gauge, absolute, air, water, and their product.
fn texts(
    readings: &Readings<'_>,
    state: &State,
    volume: Option<f64>,
    (pressure, gallons): (&Unit, &Unit),
) -> Vec<String> {
    let mut rows = vec![state.name.to_owned(), state.gauge_text.clone()];
    let (Some(air), Some(volume)) = (state.air, volume) else {
        rows.extend(["?", "?", "?", "?"].map(str::to_owned));
        return rows;
    };
    let Some(gauge) = state.gauge else {
        rows.extend(["", "none", "full", ""].map(str::to_owned));
        return rows;
    };
    let absolute = absolute(readings, gauge, pressure);
    let (air, whole) = (gallons.from_si(air), gallons.from_si(volume));
    // Water is what the printed air leaves of the tank, so that the two come to it.
    let grid = if whole < 200.0 { 0.01 } else { 0.1 };
    let air = print::rounded(air, grid, print::Direction::Nearest);
    rows.push(print::at_least(absolute, 1));
    rows.push(print::on_grid(air, grid));
    rows.push(print::on_grid(whole - air, grid));
    rows.push(print::figures(absolute * air, 3));
    rows
}

/// The absolute pressure in a unit, to its tenth.
fn absolute(readings: &Readings<'_>, gauge: f64, unit: &Unit) -> f64 {
    let absolute = trade::absolute(gauge, readings.system()).unwrap_or(gauge);
    print::rounded(unit.from_si(absolute), 0.1, print::Direction::Nearest)
}

/// The same for the list.
fn said(
    readings: &Readings<'_>,
    sketch: &mut Sketch,
    state: &State,
    volume: Option<f64>,
    (pressure, gallons): (&Unit, &Unit),
) {
    if state.gauge.is_none() {
        return;
    }
    let rows = texts(readings, state, volume, (pressure, gallons));
    let units = [pressure.symbol(), gallons.symbol(), gallons.symbol()];
    let names = ["absolute", "air", "water"];
    for ((name, text), unit) in names.iter().zip(rows.iter().skip(2)).zip(units) {
        let text = if text == "?" {
            text.clone()
        } else {
            format!("{text} {unit}")
        };
        sketch.value(format!("{name}, {}", state.name), text);
    }
}
