//! Head against flow: what the pump gives, what the house takes, and where they meet.
//! Between no flow and the rated one the pump's head falls with the square of the flow
//! (the training curves are made so); the house's rises with it from the head before
//! water moves.

use super::NOT_TO_SCALE;
use crate::figures::readings::{ASKED, Readings};
use crate::figures::ruler::{Ruler, in_unit};
use crate::figures::scene::{Ink, Mark, Point, Tone};
use crate::figures::sketch::{Side, Sketch, mid};
use crate::figures::trade::to_pressure;
use crate::quantities::Unit;

/// Pieces of a curve.
const PIECES: usize = 48;

/// The flows are drawn up to this many times the rated one. Our own choice, no source.
const REACH: f64 = 1.35;

/// A frame so wide has a table of five points beside the curve.
const ROOM_FOR_TABLE: usize = 64;

/// The pump: head at no flow, and one more point of its curve. All in SI.
#[derive(Clone, Copy)]
struct Pump {
    shut: f64,
    rated: Point,
}

impl Pump {
    /// The head at a flow; `h = h0 - (h0 - hr) (Q / Qr)²`.
    fn head(self, flow: f64) -> f64 {
        let share = flow / self.rated.0;
        (self.rated.1 - self.shut).mul_add(share * share, self.shut)
    }
}

/// The places of flows and heads.
struct Sheet {
    flow: Ruler,
    head: Ruler,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    reach: Point,
}

impl Sheet {
    fn at(&self, (flow, head): Point) -> Point {
        (self.flow.at(flow), self.head.at(head))
    }
}

pub(super) fn draw(readings: &Readings<'_>, sketch: &mut Sketch) {
    let table = sketch.columns() >= ROOM_FOR_TABLE;
    let right = sketch.columns() - if table { 28 } else { 8 };
    let (left, right) = (mid(7), mid(right));
    let (top, bottom) = (mid(sketch.top() + 2), mid(sketch.bottom() - 3));
    let pump = pump(readings);
    let nominal = Pump {
        shut: 1.0,
        rated: (1.0, 0.7),
    };
    let drawn = pump.unwrap_or(nominal);
    let sheet = sheet(drawn, (left, right), (top, bottom));
    sketch.path(
        vec![(left, top), (left, bottom), (right, bottom)],
        Ink::Line,
    );
    curve(
        sketch,
        &sheet,
        |flow| drawn.head(flow),
        if pump.is_some() {
            Ink::Heavy
        } else {
            Ink::Dashed
        },
    );
    sketch.scale(if pump.is_some() {
        "both axes to scale"
    } else {
        NOT_TO_SCALE
    });
    if pump.is_some() {
        axes(readings, sketch, &sheet);
        house(readings, sketch, &sheet, drawn);
        points(readings, sketch, &sheet, drawn, table);
    }
    let rated = sheet.at(drawn.rated);
    sketch.mark(rated, Mark::Dot);
    let start = sheet.at((0.0, drawn.shut));
    let text = |port: &str| readings.full(port).unwrap_or_default();
    sketch.text(
        (start.0 + 1.0, start.1 - 1.0),
        Side::Right,
        text("shutoff"),
        Tone::Strong,
    );
    let words = match (readings.text("rated_flow"), readings.text("rated_head")) {
        (Some(flow), Some(head)) => format!("{flow}, {head}"),
        _ => String::new(),
    };
    sketch.text_at_one(
        &[
            (rated, Side::Above),
            (rated, Side::Right),
            (rated, Side::Below),
        ],
        words,
        Tone::Plain,
    );
    let stages = match readings.get("stages") {
        Some(stages) if !stages.is_known() && stages.text == ASKED => stages.full(),
        Some(stages) => stages.text.clone(),
        None => String::new(),
    };
    sketch.text((right, top - 1.0), Side::Left, stages, Tone::Plain);
}

/// The pump, where all of it may be drawn.
fn pump(readings: &Readings<'_>) -> Option<Pump> {
    let pump = Pump {
        shut: readings.si("shutoff")?,
        rated: (readings.si("rated_flow")?, readings.si("rated_head")?),
    };
    (pump.rated.0 > 0.0 && pump.shut > 0.0).then_some(pump)
}

fn sheet(pump: Pump, (left, right): (f64, f64), (top, bottom): (f64, f64)) -> Sheet {
    let reach = (pump.rated.0 * REACH, pump.shut * 1.08);
    Sheet {
        flow: Ruler::from_zero(reach.0, (left, right)),
        head: Ruler::from_zero(reach.1, (bottom, top)),
        left,
        right,
        top,
        bottom,
        reach,
    }
}

fn curve(sketch: &mut Sketch, sheet: &Sheet, head: impl Fn(f64) -> f64, ink: Ink) {
    let mut points = Vec::new();
    for piece in 0..=PIECES {
        let flow = sheet.reach.0 * piece as f64 / PIECES as f64;
        let own = head(flow);
        if (0.0..=sheet.reach.1).contains(&own) {
            points.push(sheet.at((flow, own)));
        }
    }
    if points.len() > 1 {
        sketch.path(points, ink);
    }
}

/// Flow below, head at the left, the same as pressure at the right.
fn axes(readings: &Readings<'_>, sketch: &mut Sketch, sheet: &Sheet) {
    let (Some(length), Some(flow), Some(pressure)) = (
        readings.unit("shutoff", "ft", "m"),
        readings.unit("rated_flow", "gpm", "L/min"),
        readings.unit_of("psi", "kPa"),
    ) else {
        return;
    };
    let rows = ((sheet.bottom - sheet.top) / 3.0) as usize;
    let heads = Ruler::from_zero(
        in_unit(sheet.reach.1, Some(&length)),
        (sheet.bottom, sheet.top),
    );
    for (value, text) in heads.ticks(rows) {
        sketch.line(
            (sheet.left - 1.0, heads.at(value)),
            (sheet.left, heads.at(value)),
            Ink::Line,
        );
        sketch.tick(6, heads.at(value), &text);
    }
    sketch.tick(6, sheet.top - 1.0, length.symbol());
    let flows = Ruler::from_zero(
        in_unit(sheet.reach.0, Some(&flow)),
        (sheet.left, sheet.right),
    );
    for (value, text) in flows.ticks(((sheet.right - sheet.left) / 7.0) as usize) {
        let x = flows.at(value);
        sketch.line((x, sheet.bottom), (x, sheet.bottom + 0.4), Ink::Line);
        sketch.text((x, sheet.bottom), Side::Below, text, Tone::Faint);
    }
    sketch.text(
        (sheet.right, sheet.bottom + 2.0),
        Side::Left,
        flow.symbol(),
        Tone::Faint,
    );
    pressures(readings, sketch, sheet, &pressure);
}

/// The second scale: the pressure that a head makes, as the trade turns it.
fn pressures(readings: &Readings<'_>, sketch: &mut Sketch, sheet: &Sheet, unit: &Unit) {
    let Some(most) = to_pressure(sheet.reach.1, readings.system()) else {
        return;
    };
    let ruler = Ruler::from_zero(unit.from_si(most), (sheet.bottom, sheet.top));
    sketch.line(
        (sheet.right, sheet.top),
        (sheet.right, sheet.bottom),
        Ink::Line,
    );
    for (value, text) in ruler.ticks(((sheet.bottom - sheet.top) / 3.0) as usize) {
        let at = ruler.at(value);
        sketch.line((sheet.right, at), (sheet.right + 1.0, at), Ink::Line);
        sketch.at(sheet.right as usize + 3, at as usize, text, Tone::Faint);
    }
    sketch.at(
        sheet.right as usize + 3,
        (sheet.top - 1.0) as usize,
        unit.symbol(),
        Tone::Faint,
    );
}

/// What the house takes, and where it meets the pump. Before the sheet is handed in
/// the curve would give the flow away that is asked: then only its foot is shown.
fn house(readings: &Readings<'_>, sketch: &mut Sketch, sheet: &Sheet, pump: Pump) {
    let flow = readings.get("flow");
    if let Some(still) = readings.get("static_head") {
        if let Some(foot) = still.si {
            let loss = readings.si("rated_loss").unwrap_or(0.0);
            let asked = flow.is_some_and(|flow| !flow.is_known());
            if !asked {
                let house = |flow: f64| {
                    let share = flow / pump.rated.0;
                    (loss * share).mul_add(share, foot)
                };
                curve(sketch, sheet, house, Ink::Line);
            }
            let at = sheet.at((0.0, foot));
            sketch.mark((sheet.left, at.1), Mark::Right);
            sketch.text((sheet.left, at.1), Side::Right, still.full(), Tone::Plain);
        } else {
            sketch.text(
                (sheet.left, sheet.bottom - 1.0),
                Side::Right,
                still.full(),
                Tone::Plain,
            );
        }
    }
    for (port, words) in [("cut_in", "cut-in"), ("cut_out", "cut-out")] {
        if let Some(head) = readings.si(port) {
            let at = sheet.at((0.0, head)).1;
            sketch.line((sheet.left, at), (sheet.right, at), Ink::Dashed);
            sketch.text((sheet.right - 1.0, at), Side::Left, words, Tone::Plain);
        }
    }
    if let (Some(from), Some(to)) = (readings.si("zone_from"), readings.si("zone_to")) {
        let ends = (sheet.flow.at(from), sheet.flow.at(to));
        let at = sheet.bottom - 1.0;
        sketch.line((ends.0, at), (ends.1, at), Ink::Heavy);
        sketch.text(
            (f64::midpoint(ends.0, ends.1), at),
            Side::Above,
            "best zone",
            Tone::Plain,
        );
    }
    let Some(flow) = flow else { return };
    if let Some(si) = flow.si {
        let head = readings.si("head").unwrap_or_else(|| pump.head(si));
        let at = sheet.at((si, head));
        sketch.line((at.0, at.1), (at.0, sheet.bottom), Ink::Dashed);
        sketch.mark(at, Mark::Cross);
        let sides = [(at, Side::Left), (at, Side::Right), (at, Side::Above)];
        sketch.text_at_one(&sides, flow.full(), Tone::Strong);
    } else {
        sketch.text(
            (sheet.left, sheet.bottom + 2.0),
            Side::Right,
            flow.full(),
            Tone::Strong,
        );
    }
}

/// Five points of the pump's curve, for the list and for a table where there is room.
fn points(readings: &Readings<'_>, sketch: &mut Sketch, sheet: &Sheet, pump: Pump, table: bool) {
    let (Some(length), Some(unit)) = (
        readings.unit("shutoff", "ft", "m"),
        readings.unit("rated_flow", "gpm", "L/min"),
    ) else {
        return;
    };
    let column = sketch.columns() - 17;
    if table {
        let heading = format!("{:>7} {:>7}", unit.symbol(), length.symbol());
        sketch.at(column, sheet.top as usize, heading, Tone::Faint);
    }
    for part in 0..5_u32 {
        let flow = pump.rated.0 * f64::from(part) / 4.0;
        let flow_text = readings.public(flow, &unit);
        let head_text = readings.public(pump.head(flow), &length);
        sketch.value(format!("curve at {flow_text}"), head_text.clone());
        if table {
            let bare = |text: &str| text.split(' ').next().unwrap_or_default().to_owned();
            let row = format!("{:>7} {:>7}", bare(&flow_text), bare(&head_text));
            sketch.at(
                column,
                sheet.top as usize + 1 + part as usize,
                row,
                Tone::Plain,
            );
        }
    }
}
