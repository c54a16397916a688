//! Operating points: the balance holds, and more of anything against the pump
//! means less water.

use proptest::prelude::*;

use super::*;
use crate::units::{GALLON_PER_MINUTE, INCH, SQUARE_MILLIMETER_PER_SECOND};

pub(super) fn point(gpm: f64, feet: f64) -> Point {
    Point {
        flow: GALLON_PER_MINUTE.of(gpm),
        head: FOOT.of(feet),
    }
}

pub(super) fn curve() -> Curve {
    Curve::through(&[point(0.0, 410.0), point(9.0, 330.0), point(15.0, 170.0)]).unwrap()
}

pub(super) fn lift(level: f64, capacity: Option<f64>, tank: f64) -> Lift {
    Lift {
        level: FOOT.of(level),
        capacity: capacity.map(|figure| GPM_PER_FOOT.of(figure)),
        well_loss: WellLoss::from_si(0.0),
        rise: FOOT.of(4.0),
        tank_head: FOOT.of(tank),
    }
}

pub(super) fn leg(length: f64, minor: f64) -> Leg {
    let pipe = Pipe {
        length: FOOT.of(length),
        bore: INCH.of(1.049),
        c: 150.0,
    };
    Leg::HazenWilliams { pipe, minor }
}

fn rough(length: f64) -> Leg {
    let pipe = RoughPipe {
        length: FOOT.of(length),
        bore: INCH.of(1.049),
        roughness: INCH.of(0.000_06),
    };
    Leg::Darcy {
        pipe,
        viscosity: SQUARE_MILLIMETER_PER_SECOND.of(1.2),
        minor: 5.0,
    }
}

pub(super) fn at(lift: Lift, legs: &[Leg]) -> Result<Operating, Refusal> {
    operate(&System {
        curve: &curve(),
        lift,
        legs,
    })
}

pub(super) fn gpm(lift: Lift, legs: &[Leg]) -> f64 {
    GALLON_PER_MINUTE.read(at(lift, legs).unwrap().flow)
}

#[test]
fn a_pump_that_does_not_reach_is_refused() {
    let refusal = at(lift(300.0, None, 115.5), &[leg(240.0, 5.0)]).unwrap_err();
    assert!(refusal.to_string().starts_with("the pump does not reach"));
    let odd = Lift {
        rise: FOOT.of(f64::NAN),
        ..lift(80.0, None, 100.0)
    };
    assert!(at(odd, &[]).is_err());
    assert!(at(lift(80.0, None, 100.0), &[leg(-1.0, 0.0)]).is_err());
    assert!(at(lift(80.0, None, 100.0), &[leg(1.0, f64::INFINITY)]).is_err());
}

#[test]
fn a_well_that_flows_by_itself_is_refused() {
    let artesian = lift(-200.0, None, 0.0);
    let refusal = at(artesian, &[]).unwrap_err();
    assert!(refusal.to_string().contains("by itself"), "{refusal}");
}

#[test]
fn past_the_end_of_the_curve_the_answer_says_so() {
    assert!(at(lift(20.0, None, 0.0), &[]).unwrap().beyond_curve);
    assert!(
        !at(lift(90.0, Some(0.2), 115.5), &[leg(240.0, 5.0)])
            .unwrap()
            .beyond_curve
    );
}

#[test]
fn the_two_friction_laws_agree_nearly_for_smooth_pipe() {
    let smooth = gpm(lift(90.0, Some(0.2), 115.5), &[leg(240.0, 5.0)]);
    let darcy = gpm(lift(90.0, Some(0.2), 115.5), &[rough(240.0)]);
    assert!((darcy / smooth - 1.0).abs() < 0.01, "{smooth} {darcy}");
}

proptest! {
    #[test]
    fn pump_and_system_agree_at_the_point(
        level in 20.0..200.0_f64, capacity in 0.1..10.0_f64, tank in 0.0..150.0_f64,
        length in 0.0..600.0_f64, minor in 0.0..20.0_f64, darcy in any::<bool>(),
    ) {
        let legs = [if darcy { rough(length + 1.0) } else { leg(length, minor) }, leg(60.0, 1.0)];
        let lift = lift(level, Some(capacity), tank);
        let found = at(lift, &legs).unwrap();
        let demand = Demand::of(lift, &legs);
        let wanted = demand.head_and_slope(found.flow.si()).0;
        prop_assert!((found.head.si() / wanted - 1.0).abs() < 1e-9);
        let below = found.pumping_level.si() - lift.level.si();
        prop_assert!((below - found.flow.si() / GPM_PER_FOOT.of(capacity).si()).abs() < 1e-9);
    }

    #[test]
    fn more_against_the_pump_means_less_water(
        level in 20.0..150.0_f64, capacity in 0.1..10.0_f64, tank in 0.0..150.0_f64,
        length in 10.0..600.0_f64,
    ) {
        let here = gpm(lift(level, Some(capacity), tank), &[leg(length, 2.0)]);
        prop_assert!(gpm(lift(level + 5.0, Some(capacity), tank), &[leg(length, 2.0)]) < here);
        prop_assert!(gpm(lift(level, Some(capacity * 0.9), tank), &[leg(length, 2.0)]) < here);
        prop_assert!(gpm(lift(level, Some(capacity), tank + 2.0), &[leg(length, 2.0)]) < here);
        prop_assert!(gpm(lift(level, Some(capacity), tank), &[leg(length + 20.0, 2.0)]) < here);
        prop_assert!(gpm(lift(level, Some(capacity), tank), &[leg(length, 4.0)]) < here);
        prop_assert!(gpm(lift(level, None, tank), &[leg(length, 2.0)]) > here);
    }

    #[test]
    fn a_pipe_in_two_pieces_is_the_pipe(length in 20.0..600.0_f64, share in 0.1..0.9_f64) {
        let lift = lift(90.0, Some(0.5), 115.5);
        let whole = gpm(lift, &[leg(length, 4.0)]);
        let pieces = [leg(length * share, 1.0), leg(length * (1.0 - share), 3.0)];
        prop_assert!((gpm(lift, &pieces) / whole - 1.0).abs() < 1e-10);
    }
}
