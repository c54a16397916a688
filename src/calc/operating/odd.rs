//! Odd systems: curves nearly flat, nothing in the way, too much in the way, wells that
//! lose head in themselves, figures of any size.

use proptest::prelude::*;

use super::tests::{at, curve, gpm, leg, lift, point};
use super::*;
use crate::step_test::{Parts, Step};
use crate::units::GALLON_PER_MINUTE;

/// Curves of each form: from one point, three, and many.
fn curves() -> [Curve; 3] {
    let through = |points: &[Point]| Curve::through(points).unwrap();
    [
        through(&[point(10.0, 300.0)]),
        through(&[point(0.0, 400.0), point(10.0, 300.0), point(16.0, 150.0)]),
        through(&[
            point(0.0, 400.0),
            point(5.0, 370.0),
            point(10.0, 300.0),
            point(16.0, 150.0),
        ]),
    ]
}

fn on(curve: &Curve, lift: Lift, legs: &[Leg]) -> Result<Operating, Refusal> {
    operate(&System { curve, lift, legs })
}

/// Head made less head wanted, as a share of the head.
fn unbalance(curve: &Curve, lift: Lift, legs: &[Leg], found: Operating) -> f64 {
    let flow = found.flow.si();
    let wanted = Demand::of(lift, legs).head_and_slope(flow).0;
    assert!((curve.head_si(flow) - found.head.si()).abs() < 1e-9);
    (found.head.si() - wanted) / wanted.abs().max(1.0)
}

#[test]
fn with_nothing_in_the_way_the_curve_alone_decides() {
    for curve in curves() {
        let still = lift(100.0, None, 100.0);
        let found = on(&curve, still, &[]).unwrap();
        let flow = curve.flow_at(FOOT.of(204.0)).unwrap();
        assert!(((found.flow / flow).value - 1.0).abs() < 1e-11, "{curve:?}");
        assert_eq!(found.pumping_level, still.level);
    }
}

#[test]
fn a_curve_nearly_flat_gives_what_friction_leaves() {
    for fall in [1.0, 1e-2, 1e-5] {
        let points = [
            point(0.0, 200.0),
            point(10.0, 200.0 - fall),
            point(20.0, 200.0 - 4.0 * fall),
        ];
        let flat = Curve::through(&points).unwrap();
        let (still, legs) = (lift(90.0, None, 60.0), [leg(300.0, 4.0)]);
        let found = on(&flat, still, &legs).unwrap();
        assert!(unbalance(&flat, still, &legs, found).abs() < 1e-9, "{fall}");
        assert!((FOOT.read(found.head) - 200.0).abs() < 8.0 * fall);
    }
}

#[test]
fn still_water_at_or_over_shut_off_is_refused_whichever_part_does_it() {
    let deep = lift(500.0, None, 0.0);
    let tight = lift(10.0, None, 500.0);
    let high = Lift {
        rise: FOOT.of(500.0),
        ..lift(10.0, None, 0.0)
    };
    let just = lift(396.0, None, 0.0);
    for curve in curves() {
        for lift in [deep, tight, high, just] {
            let refusal = on(&curve, lift, &[leg(100.0, 1.0)]).unwrap_err();
            assert!(refusal.to_string().contains("does not reach"), "{refusal}");
        }
    }
}

#[test]
fn a_hair_under_shut_off_there_is_a_trickle() {
    for curve in curves() {
        for under in [1.0, 1e-3, 1e-6] {
            let still = lift(396.0 - under, Some(0.5), 0.0);
            let legs = [leg(100.0, 1.0)];
            let found = on(&curve, still, &legs).unwrap();
            assert!(found.flow.si() > 0.0);
            assert!(unbalance(&curve, still, &legs, found).abs() < 1e-9);
        }
    }
}

/// A loss in the well acts as a fitting of the same coefficient does, and the water stands
/// lower by it.
#[test]
fn a_loss_in_the_well_costs_what_a_fitting_costs() {
    let (tight, plain) = (leg(200.0, 9.0), leg(200.0, 2.0));
    let same = tight.minor_resistance() - plain.minor_resistance();
    let without = lift(90.0, Some(0.5), 100.0);
    let with = Lift {
        well_loss: WellLoss::from_si(same),
        ..without
    };
    let fitting = at(without, &[tight]).unwrap();
    let well = at(with, &[plain]).unwrap();
    assert!(((fitting.flow / well.flow).value - 1.0).abs() < 1e-11);
    let lower = well.pumping_level.si() - fitting.pumping_level.si();
    assert!((lower - same * well.flow.si() * well.flow.si()).abs() < 1e-6);
}

/// Two steps of a test give the drawdown at a third flow: the pumping level found is theirs.
#[test]
fn the_pumping_level_follows_a_step_test() {
    let step = |gpm, feet| Step {
        flow: GALLON_PER_MINUTE.of(gpm),
        drawdown: FOOT.of(feet),
    };
    let (one, two) = (step(5.0, 20.0), step(12.0, 62.0));
    let parts = Parts::of(one, two).unwrap();
    let lift = Lift {
        capacity: parts.capacity,
        well_loss: parts.well_loss,
        ..lift(90.0, None, 115.5)
    };
    let found = at(lift, &[leg(240.0, 5.0)]).unwrap();
    let fall = crate::step_test::drawdown(one, two, found.flow).unwrap();
    let level = found.pumping_level.si() - lift.level.si();
    assert!((level - fall.si()).abs() < 1e-9);
}

#[test]
fn an_odd_loss_is_refused() {
    for odd in [f64::NAN, f64::INFINITY, -1.0, 1e11] {
        let lift = Lift {
            well_loss: WellLoss::from_si(odd),
            ..lift(90.0, None, 100.0)
        };
        assert!(at(lift, &[]).is_err());
    }
}

proptest! {
    #[test]
    fn more_loss_in_the_well_means_less_water(
        loss in 1e3..1e6_f64, level in 20.0..150.0_f64, tank in 0.0..150.0_f64,
    ) {
        let with = |loss| {
            let lift = Lift { well_loss: WellLoss::from_si(loss), ..lift(level, Some(1.0), tank) };
            gpm(lift, &[leg(100.0, 2.0)])
        };
        prop_assert!(with(loss * 1.1) < with(loss));
        prop_assert!(with(loss) < with(0.0));
    }

    /// Whatever the sizes, a point that balances or a sentence.
    #[test]
    fn any_system_balances_or_is_refused(
        at_one in 0_usize..3, level in -100.0..600.0_f64, capacity in prop::option::of(1e-3..1e3_f64),
        loss in 0.0..1e8_f64, rise in -200.0..600.0_f64, tank in -30.0..600.0_f64,
        length in 0.0..5e4_f64, bore in 0.2..8.0_f64, minor in 0.0..500.0_f64,
    ) {
        let curve = &curves()[at_one];
        let lift = Lift {
            level: FOOT.of(level),
            capacity: capacity.map(|figure| GPM_PER_FOOT.of(figure)),
            well_loss: WellLoss::from_si(loss),
            rise: FOOT.of(rise),
            tank_head: FOOT.of(tank),
        };
        let pipe = Pipe { length: FOOT.of(length), bore: crate::units::INCH.of(bore), c: 140.0 };
        let legs = [Leg::HazenWilliams { pipe, minor }];
        match on(curve, lift, &legs) {
            Ok(found) => {
                prop_assert!(found.flow.si() > 0.0 && found.head.si() >= -1e-9);
                prop_assert!(unbalance(curve, lift, &legs, found).abs() < 1e-8);
            }
            Err(refusal) => {
                let still = level + rise + tank;
                let reaches = still < FOOT.read(Length::from_si(curve.head_si(0.0)));
                let text = refusal.to_string();
                prop_assert!(!reaches || text.contains("by itself"), "{}", text);
            }
        }
    }

    #[test]
    fn a_pump_that_makes_more_gives_more(level in 20.0..150.0_f64, more in 1.0..40.0_f64) {
        let lift = lift(level, Some(0.5), 100.0);
        let better = Curve::through(&[
            point(0.0, 410.0 + more), point(9.0, 330.0 + more), point(15.0, 170.0 + more),
        ]).unwrap();
        let legs = [leg(200.0, 3.0)];
        let found = on(&better, lift, &legs).unwrap();
        prop_assert!(found.flow > on(&curve(), lift, &legs).unwrap().flow);
    }
}
