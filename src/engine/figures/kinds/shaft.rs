//! A shaft of levels, one under another: the depth scale at the left, the casing, and
//! the levels with their texts at the right. Wells and trenches are drawn with it.

use super::NOT_TO_SCALE;
use crate::figures::readings::{Reading, Readings};
use crate::figures::ruler::{Ruler, in_unit};
use crate::figures::scene::{Fill, Ink, Mark, Tone};
use crate::figures::sketch::{Sketch, mid};
use crate::quantities::Unit;

/// The column of the depth scale.
const SCALE: f64 = 7.5;

/// A frame so wide has a wider casing.
const ROOM: usize = 50;

/// The columns of the casing's walls.
const fn walls(columns: usize) -> (f64, f64) {
    if columns >= ROOM {
        (12.5, 24.5)
    } else {
        (10.5, 16.5)
    }
}

/// A level with its place.
#[derive(Debug, Clone)]
pub(super) struct Level {
    pub reading: Reading,
    /// The row, broken, where it lies.
    pub at: f64,
    /// Whether it lies there by the scale.
    pub to_scale: bool,
}

/// A shaft while it is drawn.
pub(super) struct Shaft {
    levels: Vec<Level>,
    top: f64,
    bottom: f64,
    left: f64,
    right: f64,
    notes: Vec<(f64, String, Tone)>,
}

impl Shaft {
    /// The levels of these ports, which should lie in this order; those that are asked
    /// stand between their neighbors, where they tell nothing.
    pub fn of(readings: &Readings<'_>, sketch: &mut Sketch, ports: &[&str]) -> Self {
        let (top, bottom) = (mid(sketch.top() + 2), mid(sketch.bottom()));
        let found: Vec<&Reading> = ports.iter().filter_map(|port| readings.get(port)).collect();
        let known = found.iter().filter_map(|reading| reading.si);
        let most = known.fold(0.0, f64::max);
        let open_end = found.last().is_some_and(|last| !last.is_known());
        let reach = if open_end { 1.15 * most } else { most };
        let ruler = Ruler::from_zero(reach, (top, bottom));
        let levels: Vec<Level> = (0..found.len())
            .map(|at| level(&found, at, &ruler, bottom))
            .collect();
        let unit = found.iter().find_map(|reading| reading.unit.clone());
        depths(sketch, reach, (top, bottom), unit.as_ref());
        let asked = levels.iter().any(|level| !level.to_scale);
        sketch.scale(match (asked, most > 0.0) {
            (_, false) => NOT_TO_SCALE,
            (true, true) => "depths to scale, not the dashed ones",
            (false, true) => "depths to scale",
        });
        let (left, right) = walls(sketch.columns());
        Self {
            levels,
            top,
            bottom,
            left,
            right,
            notes: Vec::new(),
        }
    }

    /// A level by its port.
    pub fn level(&self, port: &str) -> Option<&Level> {
        self.levels.iter().find(|level| level.reading.port == port)
    }

    /// The columns of the casing's walls.
    pub const fn walls(&self) -> (f64, f64) {
        (self.left, self.right)
    }

    /// The row of the casing's top, and of the bottom.
    pub const fn ends(&self) -> (f64, f64) {
        (self.top, self.bottom)
    }

    /// The column of the pipe.
    pub const fn middle(&self) -> f64 {
        f64::midpoint(self.left, self.right)
    }

    /// Adds a text at a row.
    pub fn note(&mut self, at: f64, text: String) {
        self.notes.push((at, text, Tone::Plain));
    }

    /// The ground, the casing and the open hole under it.
    pub fn casing(&self, sketch: &mut Sketch) {
        let ground = self.top + 1.0;
        let end = self.level("depth").map_or(self.bottom, |depth| depth.at);
        sketch.area(
            (self.left - 2.0, ground),
            (self.left - 0.5, end),
            Fill::Ground,
        );
        sketch.area(
            (self.right + 0.5, ground),
            (self.right + 2.0, end),
            Fill::Ground,
        );
        if let Some(grout) = self.level("grout") {
            sketch.area(
                (self.left - 2.0, ground),
                (self.left - 0.5, grout.at),
                Fill::Solid,
            );
            sketch.area(
                (self.right + 0.5, ground),
                (self.right + 2.0, grout.at),
                Fill::Solid,
            );
        }
        sketch.line((self.left, self.top), (self.left, end), Ink::Line);
        sketch.line((self.right, self.top), (self.right, end), Ink::Line);
        // The cap of the well over its casing.
        sketch.line((self.left, self.top), (self.right, self.top), Ink::Heavy);
        sketch.line((self.left, end), (self.right, end), Ink::Line);
    }

    /// Water from a level down to the bottom.
    pub fn water(&self, sketch: &mut Sketch, from: &Level) {
        let end = self.level("depth").map_or(self.bottom, |depth| depth.at);
        sketch.area(
            (self.left + 0.5, from.at),
            (self.right - 0.5, end),
            Fill::Water,
        );
    }

    /// A level across the casing, with the sign of water where it is one.
    pub fn across(&self, sketch: &mut Sketch, level: &Level, water: bool) {
        let ink = if level.to_scale {
            Ink::Line
        } else {
            Ink::Dashed
        };
        sketch.line(
            (self.left + 1.0, level.at),
            (self.right - 1.0, level.at),
            ink,
        );
        if water {
            sketch.mark((self.left + 2.0, level.at), Mark::Level);
        }
    }

    /// The pump on its pipe, its foot at a level.
    pub fn pump(&self, sketch: &mut Sketch, level: &Level) {
        let ink = if level.to_scale {
            Ink::Heavy
        } else {
            Ink::Dashed
        };
        let head = (level.at - 1.0).max(self.top);
        sketch.line((self.middle(), self.top), (self.middle(), head), Ink::Line);
        sketch.rect(
            (self.middle() - 1.0, head),
            (self.middle() + 1.0, level.at),
            ink,
        );
    }

    /// The part of the wall that lets water in, from a level down.
    pub fn screen(&self, sketch: &mut Sketch, from: &Level) {
        let end = self.level("depth").map_or(self.bottom, |depth| depth.at);
        for wall in [self.left + 1.0, self.right - 1.0] {
            sketch.line((wall, from.at), (wall, end), Ink::Dashed);
        }
    }

    /// An air line down to a level, beside the pipe.
    pub fn air_line(&self, sketch: &mut Sketch, level: &Level) {
        let x = self.middle() + 2.0;
        sketch.line((x, self.top), (x, level.at), Ink::Dashed);
        sketch.mark((x, level.at), Mark::Dot);
    }

    /// A bracket between two levels, with its text.
    pub fn bracket(&mut self, sketch: &mut Sketch, (from, to): (f64, f64), text: Option<String>) {
        let Some(text) = text else { return };
        let x = self.right + 2.0;
        let (low, high) = (from.min(to), from.max(to));
        sketch.line((x, low), (x, high), Ink::Line);
        sketch.line((x - 0.6, low), (x + 0.6, low), Ink::Line);
        sketch.line((x - 0.6, high), (x + 0.6, high), Ink::Line);
        self.note(f64::midpoint(low, high), text);
    }

    /// The texts of all levels and notes, from top to bottom.
    pub fn texts(self, sketch: &mut Sketch) {
        let right = self.right;
        let levels = self.levels.into_iter();
        let mut all: Vec<(f64, String, Tone)> = levels
            .map(|level| (level.at, level.reading.full(), Tone::Strong))
            .chain(self.notes)
            .collect();
        all.sort_by(|one, two| one.0.total_cmp(&two.0));
        sketch.stack(right + 1.0, right as usize + 5, &all);
    }
}

/// The place of a level: by the scale where it is known, else between its neighbors.
fn level(found: &[&Reading], at: usize, ruler: &Ruler, bottom: f64) -> Level {
    let reading = (*found[at]).clone();
    if let Some(si) = reading.si {
        return Level {
            at: ruler.at(si),
            reading,
            to_scale: true,
        };
    }
    let known = |index: &usize| found[*index].is_known();
    let before = (0..at).rev().find(known);
    let after = (at + 1..found.len()).find(known);
    let place = |index: usize| ruler.at(found[index].si.unwrap_or(0.0));
    let from = before.map_or_else(|| ruler.at(0.0), place);
    let to = after.map_or(bottom, place);
    let first = before.map_or(0, |before| before + 1);
    let last = after.unwrap_or(found.len());
    let share = (at - first + 1) as f64 / (last - first + 1) as f64;
    Level {
        at: (to - from).mul_add(share, from),
        reading,
        to_scale: false,
    }
}

/// The depth scale at the left.
fn depths(sketch: &mut Sketch, reach: f64, (top, bottom): (f64, f64), unit: Option<&Unit>) {
    let Some(unit) = unit.filter(|_| reach > 0.0) else {
        return;
    };
    let ruler = Ruler::from_zero(in_unit(reach, Some(unit)), (top, bottom));
    sketch.line((SCALE, top), (SCALE, bottom), Ink::Line);
    let most = ((bottom - top) / 3.0) as usize;
    for (value, text) in ruler.ticks(most.clamp(2, 8)) {
        let at = ruler.at(value);
        sketch.line((SCALE - 1.0, at), (SCALE, at), Ink::Line);
        sketch.tick(6, at, &text);
    }
    sketch.tick(6, top - 1.0, unit.symbol());
}
