//! How long the two searches of calc take: a friction factor by Colebrook, and the point
//! where a pump meets a well system of every kind of part.

#![allow(clippy::expect_used, reason = "a bench that cannot begin has to stop")]

use std::hint::black_box;

use pumpwright_calc::curve::{Curve, Point};
use pumpwright_calc::darcy::{Turbulence, colebrook, swamee_jain};
use pumpwright_calc::dimension::{FlowPerLength, Measured, WellLoss};
use pumpwright_calc::friction::Pipe;
use pumpwright_calc::operating::{Leg, Lift, System, operate};
use pumpwright_calc::registry::{Basis, Value, find};
use uom::si::f64::{Length, VolumeRate};

const FOOT: f64 = 0.3048;
const GPM: f64 = 0.003_785_411_784 / 60.0;

fn main() {
    divan::main();
}

fn feet(figure: f64) -> Length {
    Length::from_si(figure * FOOT)
}

fn curve(points: &[(f64, f64)]) -> Curve {
    let points: Vec<Point> = points
        .iter()
        .map(|(flow, head)| Point {
            flow: VolumeRate::from_si(flow * GPM),
            head: feet(*head),
        })
        .collect();
    Curve::through(&points).expect("a curve that falls")
}

fn legs() -> [Leg; 2] {
    let leg = |length: f64, bore: f64, minor: f64| Leg::HazenWilliams {
        pipe: Pipe {
            length: feet(length),
            bore: feet(bore / 12.0),
            c: 150.0,
        },
        minor,
    };
    [leg(240.0, 1.049, 5.0), leg(60.0, 1.38, 2.0)]
}

/// Lift, drawdown, rise, tank pressure, friction and fittings of two pipes.
fn lift() -> Lift {
    Lift {
        level: feet(90.0),
        capacity: Some(FlowPerLength::from_si(0.2 * GPM / FOOT)),
        well_loss: WellLoss::from_si(0.0),
        rise: feet(4.0),
        tank_head: feet(2.31 * 50.0),
    }
}

/// A curve of three points, drawn once.
#[divan::bench]
fn operating_point(bencher: divan::Bencher) {
    let (curve, legs) = (curve(&[(0.0, 410.0), (9.0, 330.0), (15.0, 170.0)]), legs());
    let system = System {
        curve: &curve,
        lift: lift(),
        legs: &legs,
    };
    bencher.bench(|| operate(black_box(&system)));
}

/// A curve of six points, straight lines between.
#[divan::bench]
fn operating_point_on_lines(bencher: divan::Bencher) {
    let points = [
        (0.0, 300.0),
        (4.0, 285.0),
        (8.0, 255.0),
        (12.0, 200.0),
        (16.0, 120.0),
        (18.0, 70.0),
    ];
    let (curve, legs) = (curve(&points), legs());
    let lift = Lift {
        level: feet(45.0),
        ..lift()
    };
    let system = System {
        curve: &curve,
        lift,
        legs: &legs,
    };
    bencher.bench(|| operate(black_box(&system)));
}

/// By name, as a lesson calls it, the curve drawn anew.
#[divan::bench]
fn operating_point_by_name(bencher: divan::Bencher) {
    let function = find("operating.flow").expect("there");
    let inputs = [
        410.0 * FOOT,
        9.0 * GPM,
        330.0 * FOOT,
        15.0 * GPM,
        170.0 * FOOT,
        90.0 * FOOT,
        0.2 * GPM / FOOT,
        4.0 * FOOT,
        344_738.0,
        240.0 * FOOT,
        1.049 * FOOT / 12.0,
        150.0,
        5.0,
    ];
    let values = inputs.map(Value::Number);
    bencher.bench(|| (function.call)(Basis::UsTrade, black_box(&values)));
}

#[divan::bench(args = [(5_000.0, 0.0), (50_000.0, 0.004_5), (1e6, 0.000_01)])]
fn friction_factor_colebrook(bencher: divan::Bencher, (reynolds, roughness): (f64, f64)) {
    let flow = Turbulence {
        reynolds,
        roughness,
    };
    bencher.bench(|| colebrook(black_box(flow)));
}

#[divan::bench]
fn friction_factor_swamee_jain(bencher: divan::Bencher) {
    let flow = Turbulence {
        reynolds: 50_000.0,
        roughness: 0.004_5,
    };
    bencher.bench(|| swamee_jain(black_box(flow)));
}
