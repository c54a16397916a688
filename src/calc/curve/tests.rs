//! Curves drawn through points pass through them, fall, and turn round.

use proptest::prelude::*;

use super::*;

fn point(gpm: f64, feet: f64) -> Point {
    Point {
        flow: GALLON_PER_MINUTE.of(gpm),
        head: FOOT.of(feet),
    }
}

fn curve(points: &[(f64, f64)]) -> Result<Curve, Refusal> {
    let points: Vec<Point> = points
        .iter()
        .map(|(gpm, feet)| point(*gpm, *feet))
        .collect();
    Curve::through(&points)
}

fn feet(curve: &Curve, gpm: f64) -> f64 {
    FOOT.read(curve.head_at(GALLON_PER_MINUTE.of(gpm)).unwrap())
}

fn gpm(curve: &Curve, feet: f64) -> Result<f64, Refusal> {
    let flow = curve.flow_at(FOOT.of(feet))?;
    Ok(GALLON_PER_MINUTE.read(flow))
}

const MANY: &[(f64, f64)] = &[(0.0, 300.0), (4.0, 285.0), (8.0, 255.0), (12.0, 200.0)];
const THREE_POINTS: &[(f64, f64)] = &[(0.0, 250.0), (10.0, 190.0), (16.0, 100.0)];

#[test]
fn a_curve_passes_through_its_points() {
    for points in [MANY, THREE_POINTS] {
        let curve = curve(points).unwrap();
        for (flow, head) in points {
            assert!((feet(&curve, *flow) - head).abs() < 1e-9);
            assert!((gpm(&curve, *head).unwrap() - flow).abs() < 1e-6);
        }
    }
}

#[test]
fn lines_go_on_past_the_last_point_until_no_head_is_left() {
    let curve = curve(MANY).unwrap();
    assert!((feet(&curve, 14.0) - 172.5).abs() < 1e-9);
    assert!((gpm(&curve, 172.5).unwrap() - 14.0).abs() < 1e-9);
    assert!(curve.head_at(GALLON_PER_MINUTE.of(40.0)).is_err());
    assert!(gpm(&curve, 300.1).is_err());
}

/// EPANET 2.2 manual, one-point curve: shut-off at 4/3 of the head, no head at
/// twice the flow.
#[test]
fn one_point_makes_a_whole_curve() {
    let curve = curve(&[(10.0, 200.0)]).unwrap();
    assert!((feet(&curve, 0.0) - 266.666_666_7).abs() < 1e-6);
    assert!((GALLON_PER_MINUTE.read(VolumeRate::from_si(curve.runout())) - 20.0).abs() < 1e-9);
}

#[test]
fn points_that_do_not_fall_are_refused() {
    assert!(curve(&[]).is_err());
    assert!(curve(&[(0.0, 250.0), (10.0, 260.0), (16.0, 100.0)]).is_err());
    assert!(curve(&[(0.0, 250.0), (10.0, 190.0), (9.0, 100.0)]).is_err());
    assert!(curve(&[(1.0, 250.0), (2.0, 250.0)]).is_err());
    assert!(curve(&[(0.0, f64::NAN), (10.0, 190.0)]).is_err());
    assert!(curve(&[(0.0, 250.0), (0.0, 190.0), (16.0, 100.0)]).is_err());
    let outside = GALLON_PER_MINUTE.of(13.0);
    assert!(head_between(point(8.0, 255.0), point(12.0, 200.0), outside).is_err());
}

proptest! {
    #[test]
    fn more_flow_means_less_head_and_back_again(
        shut_off in 100.0..800.0_f64, drop in 0.05..0.5_f64, more in 1.2..4.0_f64,
        q1 in 2.0..20.0_f64, further in 1.1..2.5_f64, at in 0.4..0.99_f64,
    ) {
        let h1 = shut_off * (1.0 - drop);
        let h2 = shut_off * (1.0 - (drop * more).min(0.98));
        prop_assume!(h2 < h1 - 0.1);
        let built = curve(&[(0.0, shut_off), (q1, h1), (q1 * further, h2)]);
        prop_assume!(built.is_ok());
        let curve = built.unwrap();
        let flow = at * q1 * further;
        let head = feet(&curve, flow);
        prop_assert!(feet(&curve, flow * 1.01) < head);
        prop_assert!((gpm(&curve, head).unwrap() / flow - 1.0).abs() < 1e-4);
    }

    #[test]
    fn lines_turn_round(at in 0.0..15.0_f64) {
        let curve = curve(MANY).unwrap();
        prop_assert!((gpm(&curve, feet(&curve, at)).unwrap() - at).abs() < 1e-9);
    }
}
