//! The figure off which a family asks a value to be read, drawn from its points: a chart of
//! the first column against the second, or things that hold air and water side by side.
//! It shows what the list of its points says and no more; what was read off is added when
//! the sheet is worked.

use super::ruler::{Ruler, in_unit};
use super::scene::{Fill, Ink, Point, Tone};
use super::sketch::{Side, Sketch, mid};
use super::view::View;
use crate::formulas::Value;
use crate::lessons::FigureColumn;
use crate::problems::{Figure, Problem, Series};

/// Pieces of a curve between two of its points.
const PIECES: usize = 12;

/// Room over and under what is drawn of a scale that does not begin at nothing.
const AIR: f64 = 0.15;

/// A drawing that a family may name, with what draws it.
const PANELS: &str = "tank-states";
const CURVE: &str = "pump-curve";

/// Draws the figure of a problem.
pub(super) fn draw(problem: &Problem, figure: &Figure, view: &View, sketch: &mut Sketch) {
    for (label, text) in said(figure) {
        sketch.value(label, text);
    }
    if figure.kind == PANELS {
        panels(figure, sketch);
    } else {
        chart(problem, figure, view, sketch);
    }
}

/// The sentences of the list, each as a label and what stands under it.
fn said(figure: &Figure) -> Vec<(String, String)> {
    let sentences = figure.sentences().into_iter().enumerate();
    let parted = sentences.map(|(at, text)| match text.split_once(": ") {
        Some((label, text)) => (label.to_owned(), text.to_owned()),
        None => (format!("point {}", at + 1), text),
    });
    parted.collect()
}

/// The number of a cell, in the unit of its column.
fn number(column: &FigureColumn, value: &Value) -> Option<f64> {
    match value {
        Value::Number(quantity) => Some(in_unit(quantity.si, column.unit.as_ref())),
        _ => None,
    }
}

/// Where a chart lies, and its two scales.
struct Sheet {
    x: Ruler,
    y: Ruler,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

fn chart(problem: &Problem, figure: &Figure, view: &View, sketch: &mut Sketch) {
    let [across, up, ..] = figure.columns.as_slice() else {
        return;
    };
    let points = |series: &Series| -> Vec<Point> {
        let pairs = series.points.iter();
        let pairs = pairs.filter_map(|cells| {
            Some((number(across, cells.first()?)?, number(up, cells.get(1)?)?))
        });
        pairs.collect()
    };
    let curves: Vec<Vec<Point>> = figure.series.iter().map(points).collect();
    let marks = figure.marks.iter().filter(|mark| mark.column == 1);
    let marks: Vec<(&str, f64)> = marks
        .filter_map(|mark| Some((mark.label.as_str(), number(up, &mark.at)?)))
        .collect();
    let sheet = sheet(figure, &curves, &marks, sketch);
    axes(sketch, &sheet, (across, up));
    for (label, value) in &marks {
        let at = sheet.y.at(*value);
        sketch.line((sheet.left, at), (sheet.right, at), Ink::Dashed);
        sketch.text((sheet.right, at), Side::Above, *label, Tone::Plain);
    }
    for (series, curve) in figure.series.iter().zip(&curves) {
        let drawn = if figure.kind == CURVE {
            smooth(curve)
        } else {
            curve.clone()
        };
        let drawn = drawn.iter().map(|(x, y)| (sheet.x.at(*x), sheet.y.at(*y)));
        sketch.path(drawn.collect(), Ink::Heavy);
        if let Some((x, y)) = curve.last().filter(|_| figure.series.len() > 1) {
            let end = (sheet.x.at(*x), sheet.y.at(*y));
            sketch.text(end, Side::Right, series.name.as_str(), Tone::Strong);
        }
    }
    if let Some(series) = figure.series.first() {
        band(figure, series, sketch, &sheet);
    }
    read(problem, view, sketch, &sheet, (across, up));
    sketch.scale("both axes to scale");
}

fn sheet(figure: &Figure, curves: &[Vec<Point>], marks: &[(&str, f64)], sketch: &Sketch) -> Sheet {
    let named = figure
        .series
        .iter()
        .map(|series| series.name.chars().count());
    let beside = named.max().filter(|_| figure.series.len() > 1).unwrap_or(0);
    let left = mid(7);
    let right = mid(sketch.columns().saturating_sub(beside + 4));
    let (top, bottom) = (mid(sketch.top() + 2), mid(sketch.bottom() - 4));
    let all = || curves.iter().flatten();
    let far = all().map(|point| point.0).fold(0.0, f64::max);
    let heights = || {
        all()
            .map(|point| point.1)
            .chain(marks.iter().map(|mark| mark.1))
    };
    let high = heights().fold(f64::NEG_INFINITY, f64::max);
    let low = heights().fold(f64::INFINITY, f64::min);
    let up = if figure.kind == CURVE {
        Ruler::from_zero(high * (1.0 + AIR), (bottom, top))
    } else {
        let air = (high - low) * AIR;
        Ruler::between(((low - air).max(0.0), high + air), (bottom, top))
    };
    Sheet {
        x: Ruler::from_zero(far, (left, right)),
        y: up,
        left,
        right,
        top,
        bottom,
    }
}

/// The scales, with a faint line across for each figure that stands at them.
fn axes(sketch: &mut Sketch, sheet: &Sheet, (across, up): (&FigureColumn, &FigureColumn)) {
    let Sheet {
        left,
        right,
        top,
        bottom,
        ..
    } = *sheet;
    for (value, text) in sheet.y.ticks(((bottom - top) / 1.5) as usize) {
        let at = sheet.y.at(value);
        sketch.line((left, at), (right, at), Ink::Guide);
        sketch.tick(6, at, &text);
    }
    for (value, text) in sheet.x.ticks(((right - left) / 7.0) as usize) {
        let at = sheet.x.at(value);
        sketch.line((at, top), (at, bottom), Ink::Guide);
        sketch.text((at, bottom), Side::Below, text, Tone::Faint);
    }
    sketch.path(
        vec![(left, top), (left, bottom), (right, bottom)],
        Ink::Line,
    );
    sketch.text((0.0, top - 2.0), Side::Right, head(up), Tone::Faint);
    sketch.text((right, bottom + 2.0), Side::Left, head(across), Tone::Faint);
}

/// What stands at a scale: `head, ft`.
fn head(column: &FigureColumn) -> String {
    match &column.unit {
        Some(unit) => format!("{}, {}", column.label, unit.symbol()),
        None => column.label.clone(),
    }
}

/// Under the chart, when a column of words has the word that it begins with.
fn band(figure: &Figure, series: &Series, sketch: &mut Sketch, sheet: &Sheet) {
    let Some((place, column)) = figure
        .columns
        .iter()
        .enumerate()
        .find(|(_, column)| column.unit.is_none())
    else {
        return;
    };
    let Some(across) = figure.columns.first() else {
        return;
    };
    let cells = series.points.iter();
    let cells =
        cells.filter_map(|cells| Some((number(across, cells.first()?)?, cells.get(place)?)));
    let cells: Vec<(f64, &Value)> = cells.collect();
    let Some((_, first)) = cells.first() else {
        return;
    };
    let at = sheet.bottom + 2.0;
    for pair in cells.windows(2) {
        if let [(from, word), (to, _)] = pair
            && word == first
        {
            sketch.line((sheet.x.at(*from), at), (sheet.x.at(*to), at), Ink::Heavy);
        }
    }
    if let Value::Word(word) = first {
        let text = format!("the line: {} {word}", column.label);
        sketch.text((sheet.left, at + 1.0), Side::Right, text, Tone::Plain);
    }
}

/// What was read off, where the sheet may show it.
fn read(
    problem: &Problem,
    view: &View,
    sketch: &mut Sketch,
    sheet: &Sheet,
    (across, up): (&FigureColumn, &FigureColumn),
) {
    for step in &problem.variant.steps {
        let (Some(reads), Some(slot)) = (&step.reads, step.slot) else {
            continue;
        };
        let value = view.values.get(slot).and_then(Option::as_ref);
        let Some(value) = value.filter(|_| view.open.contains(&slot)) else {
            continue;
        };
        if *reads == across.name
            && let Some(value) = number(across, value)
        {
            let at = sheet.x.at(value);
            sketch.line((at, sheet.top), (at, sheet.bottom), Ink::Dashed);
            sketch.text(
                (at, sheet.top),
                Side::Above,
                step.label.as_str(),
                Tone::Plain,
            );
        } else if *reads == up.name
            && let Some(value) = number(up, value)
        {
            let at = sheet.y.at(value);
            sketch.line((sheet.left, at), (sheet.right, at), Ink::Dashed);
            sketch.text(
                (sheet.left + 1.0, at),
                Side::Right,
                step.label.as_str(),
                Tone::Plain,
            );
        }
    }
}

/// A smooth line through all points. Between two it is a cubic whose slopes at the ends are
/// those of the parabola through three points, so that a curve of the second degree comes
/// out as it is.
fn smooth(points: &[Point]) -> Vec<Point> {
    if points.len() < 3 {
        return points.to_vec();
    }
    let slopes: Vec<f64> = (0..points.len()).map(|at| slope(points, at)).collect();
    let mut drawn = Vec::new();
    for (ends, turns) in points.windows(2).zip(slopes.windows(2)) {
        let ([(x0, y0), (x1, y1)], [m0, m1]) = (ends, turns) else {
            continue;
        };
        let wide = x1 - x0;
        for piece in 0..PIECES {
            let t = piece as f64 / PIECES as f64;
            let (t2, t3) = (t * t, t * t * t);
            let y = (2.0 * t3 - 3.0 * t2 + 1.0) * y0
                + (t3 - 2.0 * t2 + t) * wide * m0
                + (3.0 * t2 - 2.0 * t3) * y1
                + (t3 - t2) * wide * m1;
            drawn.push((t.mul_add(wide, *x0), y));
        }
    }
    drawn.extend(points.last());
    drawn
}

/// The slope at a point of the parabola through it and its two nearest.
fn slope(points: &[Point], at: usize) -> f64 {
    let from = at.saturating_sub(1).min(points.len() - 3);
    let (Some([a, b, c]), Some(own)) = (points.get(from..from + 3), points.get(at)) else {
        return 0.0;
    };
    let chord = |one: &Point, two: &Point| (two.1 - one.1) / (two.0 - one.0);
    let (first, second) = (chord(a, b), chord(b, c));
    let bend = (second - first) / (c.0 - a.0);
    bend.mul_add(2.0 * own.0 - a.0 - b.0, first)
}

/// Things side by side, each with its water to scale and its cells below.
fn panels(figure: &Figure, sketch: &mut Sketch) {
    let place = |name: &str| figure.columns.iter().position(|column| column.name == name);
    let (Some(air), Some(water)) = (place("air"), place("water")) else {
        return;
    };
    let width = sketch.columns() as f64 / figure.series.len().max(1) as f64;
    let foot = sketch.bottom() - 2 * figure.columns.len();
    let (top, bottom) = (mid(sketch.top() + 1), mid(foot - 1));
    for (line, column) in figure.columns.iter().enumerate() {
        sketch.at(0, foot + 1 + 2 * line, head(column), Tone::Faint);
    }
    for (at, series) in figure.series.iter().enumerate() {
        let middle = (width * (at as f64 + 0.5)).floor() + 0.5;
        let half = (width / 2.0 - 1.5).clamp(2.0, 6.0).floor();
        sketch.text(
            (middle, mid(foot)),
            Side::On,
            series.name.as_str(),
            Tone::Strong,
        );
        let Some(cells) = series.points.first() else {
            continue;
        };
        let cell = |place: usize| number(figure.columns.get(place)?, cells.get(place)?);
        if let (Some(air), Some(water)) = (cell(air), cell(water)) {
            let level = Ruler::from_zero(air + water, (bottom, top)).at(water);
            sketch.area(
                (middle - half + 0.5, level.max(top + 0.5)),
                (middle + half - 0.5, bottom),
                Fill::Water,
            );
            if water > 0.0 && air > 0.0 {
                sketch.line(
                    (middle - half + 1.0, level),
                    (middle + half - 1.0, level),
                    Ink::Dashed,
                );
            }
        }
        sketch.rect((middle - half, top), (middle + half, bottom), Ink::Line);
        for (line, text) in figure.cells(cells).into_iter().enumerate() {
            sketch.text(
                (middle, mid(foot + 2 + 2 * line)),
                Side::On,
                text,
                Tone::Plain,
            );
        }
    }
    sketch.scale("water to scale");
}
