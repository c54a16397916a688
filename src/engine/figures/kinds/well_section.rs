//! A drilled well, cut from top to bottom: the levels in it, the pump, and what lies
//! between them. Depths count from the casing top.

use super::shaft::Shaft;
use crate::figures::readings::Readings;
use crate::figures::sketch::Sketch;
use crate::figures::view::Seen;

/// The levels in the order in which they should lie.
const LEVELS: [&str; 10] = [
    "frost", "pitless", "grout", "static", "pumping", "line", "setting", "lowest", "screen",
    "depth",
];

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let bound: Vec<&str> = LEVELS
        .into_iter()
        .filter(|port| readings.get(port).is_some())
        .collect();
    let mut shaft = Shaft::of(readings, sketch, &bound);
    shaft.casing(sketch);
    let (top, bottom) = shaft.ends();
    let (still, pumping) = (
        shaft.level("static").cloned(),
        shaft.level("pumping").cloned(),
    );
    let (setting, depth) = (
        shaft.level("setting").cloned(),
        shaft.level("depth").cloned(),
    );
    if let Some(level) = pumping.as_ref().or(still.as_ref()) {
        shaft.water(sketch, level);
    }
    for level in [&still, &pumping].into_iter().flatten() {
        shaft.across(sketch, level, true);
    }
    for port in ["frost", "pitless", "lowest"] {
        if let Some(level) = shaft.level(port).cloned() {
            shaft.across(sketch, &level, false);
        }
    }
    if let Some(line) = shaft.level("line").cloned() {
        shaft.air_line(sketch, &line);
    }
    if let Some(screen) = shaft.level("screen").cloned() {
        shaft.screen(sketch, &screen);
    }
    if let Some(setting) = &setting {
        shaft.pump(sketch, setting);
    }
    let lower = pumping.as_ref().map_or(bottom, |level| level.at);
    let upper = still.as_ref().map_or(top, |level| level.at);
    shaft.bracket(sketch, (upper, lower), readings.full("drawdown"));
    let water = pumping
        .as_ref()
        .or(still.as_ref())
        .map_or(top, |level| level.at);
    // Water over the pump can only be measured where the pump hangs in it.
    let pump = setting.as_ref().map_or(bottom, |level| level.at);
    if pump > water && readings.view.seen != Seen::Yours {
        shaft.bracket(sketch, (water, pump), readings.full("cover"));
    }
    let end = depth.as_ref().map_or(bottom, |level| level.at);
    shaft.bracket(sketch, (upper, end), readings.full("column"));
    for port in ["casing", "stickup", "flow"] {
        if let Some(text) = readings.full(port) {
            shaft.note(top - 1.0, text);
        }
    }
    shaft.texts(sketch);
}
