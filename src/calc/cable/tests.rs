//! Edges and properties of the sums about cable; outside figures lie elsewhere.

use proptest::prelude::*;

use super::*;

const NOT_NUMBERS: [f64; 4] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0];

fn circuit(amps: f64, conductor: f64, run: f64) -> Circuit {
    Circuit {
        amps: AMPERE.of(amps),
        conductor: OHM_PER_KILOFOOT.of(conductor),
        run: FOOT.of(run),
    }
}

fn allowance(volts: f64, amps: f64, run: f64) -> Allowance {
    Allowance {
        volts: VOLT.of(volts),
        amps: AMPERE.of(amps),
        run: FOOT.of(run),
    }
}

fn reach(volts: f64, amps: f64, conductor: f64) -> Reach {
    Reach {
        volts: VOLT.of(volts),
        amps: AMPERE.of(amps),
        conductor: OHM_PER_KILOFOOT.of(conductor),
    }
}

#[test]
fn no_current_or_no_run_loses_nothing() {
    assert_eq!(drop(circuit(0.0, 1.24, 320.0)), Ok(VOLT.of(0.0)));
    assert_eq!(drop(circuit(8.0, 1.24, 0.0)), Ok(VOLT.of(0.0)));
}

#[test]
fn a_division_by_nothing_is_refused() {
    assert!(ohms_allowed(allowance(11.5, 0.0, 320.0)).is_err());
    assert!(ohms_allowed(allowance(11.5, 8.0, 0.0)).is_err());
    assert!(longest_run(reach(11.5, 0.0, 1.24)).is_err());
    assert!(longest_run(reach(11.5, 8.0, 0.0)).is_err());
    let nothing = Loss {
        volts: VOLT.of(4.0),
        supply: VOLT.of(0.0),
    };
    assert!(drop_share(nothing).is_err());
}

#[test]
fn what_is_no_number_is_refused() {
    for figure in NOT_NUMBERS {
        assert!(drop(circuit(figure, 1.24, 320.0)).is_err());
        assert!(drop(circuit(8.0, figure, 320.0)).is_err());
        assert!(drop_three_phase(circuit(8.0, 1.24, figure)).is_err());
        assert!(ohms_allowed(allowance(figure, 8.0, 320.0)).is_err());
        assert!(longest_run(reach(figure, 8.0, 1.24)).is_err());
        assert!(loop_ohms(OHM_PER_KILOFOOT.of(figure), FOOT.of(1.0)).is_err());
        assert!(loop_ohms(OHM_PER_KILOFOOT.of(1.0), FOOT.of(figure)).is_err());
    }
}

proptest! {
    #[test]
    fn the_longest_run_loses_just_what_is_allowed(
        volts in 0.5..30.0_f64, amps in 1.0..60.0_f64, ohms in 0.1..5.0_f64,
    ) {
        let run = FOOT.read(longest_run(reach(volts, amps, ohms)).unwrap());
        let lost = VOLT.read(drop(circuit(amps, ohms, run)).unwrap());
        prop_assert!((lost / volts - 1.0).abs() < 1e-12);
        let longer = VOLT.read(drop(circuit(amps, ohms, run * 1.01)).unwrap());
        prop_assert!(longer > volts);
    }

    #[test]
    fn the_pair_allowed_loses_just_what_is_allowed(
        volts in 0.5..30.0_f64, amps in 1.0..60.0_f64, run in 10.0..2_000.0_f64,
    ) {
        let pair = ohms_allowed(allowance(volts, amps, run)).unwrap();
        let ohms = loop_ohms(pair, FOOT.of(run)).unwrap();
        prop_assert!((ohms.si() * amps / volts - 1.0).abs() < 1e-12);
    }

    #[test]
    fn three_phase_loses_less_than_single(
        amps in 0.1..60.0_f64, ohms in 0.1..5.0_f64, run in 1.0..2_000.0_f64,
    ) {
        let circuit = circuit(amps, ohms, run);
        prop_assert!(drop_three_phase(circuit).unwrap() < drop(circuit).unwrap());
    }
}
