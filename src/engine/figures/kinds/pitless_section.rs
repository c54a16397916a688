//! The pitless and the buried line, cut from top to bottom.

use super::NOT_TO_SCALE;
use crate::figures::readings::Readings;
use crate::figures::ruler::Ruler;
use crate::figures::scene::{Fill, Ink, Tone};
use crate::figures::sketch::{Side, Sketch, mid};

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let (top, bottom) = (mid(sketch.top() + 1), mid(sketch.bottom() - 4));
    let above = readings.si("above");
    let frost = readings.si("frost");
    let burial = readings.si("burial");
    let known = above.unwrap_or(0.0) + burial.or(frost.map(|frost| 1.35 * frost)).unwrap_or(1.0);
    let ruler = Ruler::from_zero(known, (top, bottom));
    // Heights count from the casing top; without one the casing ends a little above ground.
    let ground = match above {
        Some(above) => ruler.at(above),
        None => top + 2.0,
    };
    let below = Ruler::from_zero(known - above.unwrap_or(0.0), (ground, bottom));
    let line = burial.map_or(bottom - 1.0, |burial| below.at(burial));
    let frozen = frost.map_or(f64::midpoint(ground, line), |frost| below.at(frost));
    sketch.scale(match (above.is_some(), burial.is_some(), frost.is_some()) {
        (_, true, true) => "depths to scale",
        (true, false, true) => "depths to scale, not the dashed line",
        _ => NOT_TO_SCALE,
    });
    let (left, right) = (6.5, 12.5);
    let end = mid(sketch.bottom());
    sketch.line((left, top), (right, top), Ink::Heavy);
    sketch.line((left, top), (left, end), Ink::Line);
    sketch.line((right, top), (right, end), Ink::Line);
    sketch.line((1.5, ground), (left, ground), Ink::Line);
    sketch.line((right, ground), (20.5, ground), Ink::Line);
    sketch.area((1.5, ground + 0.6), (left - 0.5, frozen), Fill::Ground);
    sketch.area((right + 0.5, ground + 0.6), (20.5, frozen), Fill::Ground);
    sketch.line((1.5, frozen), (left - 1.0, frozen), Ink::Dashed);
    sketch.line((right + 1.0, frozen), (20.5, frozen), Ink::Dashed);
    // The drop pipe turns at the pitless and leaves through the casing's wall.
    let ink = if burial.is_some() {
        Ink::Heavy
    } else {
        Ink::Dashed
    };
    sketch.path(vec![(9.5, end), (9.5, line), (20.5, line)], ink);
    let mut texts: Vec<(f64, String, Tone)> = Vec::new();
    let mut say = |at: f64, port: &str, tone: Tone| {
        if let Some(text) = readings.full(port) {
            texts.push((at, text, tone));
        }
    };
    say(top, "casing", Tone::Plain);
    say(f64::midpoint(top, ground), "above", Tone::Plain);
    say(frozen, "frost", Tone::Strong);
    say(f64::midpoint(frozen, line), "margin", Tone::Plain);
    say(line, "burial", Tone::Strong);
    say(line + 0.1, "hole", Tone::Strong);
    let parts = "slide with O-ring inside, nipple outside";
    if sketch.columns() >= 50 {
        texts.push((line + 2.0, parts.to_owned(), Tone::Faint));
    }
    texts.sort_by(|one, two| one.0.total_cmp(&two.0));
    sketch.stack(20.5, 23, &texts);
    sketch.text((9.5, end), Side::Right, "drop pipe", Tone::Faint);
}
