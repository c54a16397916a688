//! The tables against first principles, edges, and properties of conductors.

use proptest::prelude::*;

use super::*;

const KINDS: [Construction; 2] = [Construction::Solid, Construction::Stranded];

fn celsius(figure: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(figure)
}

fn kilofoot(awg: f64, construction: Construction, warmth: f64) -> f64 {
    OHM_PER_KILOFOOT.read(resistance_awg(awg, construction, celsius(warmth)).unwrap())
}

/// Every row of the code's table against copper, geometry and lay: a figure
/// in the wrong column is 2 % off, a misprint more.
#[test]
fn the_codes_table_agrees_with_first_principles() {
    let mut rows = 0;
    for awg in -3..=18 {
        for construction in KINDS {
            let Ok(printed) = table_ohms(f64::from(awg), construction) else {
                continue;
            };
            let ours = kilofoot(f64::from(awg), construction, 75.0);
            let printed = OHM_PER_KILOFOOT.read(printed);
            assert!(
                (ours / printed - 1.0).abs() < 0.008,
                "{awg} {construction:?}: {ours:.4}"
            );
            rows += 1;
        }
    }
    assert_eq!(rows, 21, "rows went missing from the table");
}

/// The standard's figures are greatest ones: above the true section's, by
/// less than a tenth, and a flexible conductor's above a stranded one's.
#[test]
fn the_metric_table_is_a_little_above_first_principles() {
    for size in [1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0] {
        let area = SQUARE_MILLIMETER.of(size);
        let table = |class| OHM_PER_KILOMETER.read(table_ohms_mm2(area, class).unwrap());
        let ours = resistance_mm2(area, Construction::Solid, celsius(20.0)).unwrap();
        let over = table(Class::Stranded) / OHM_PER_KILOMETER.read(ours);
        assert!((1.0..1.1).contains(&over), "{size} mm2: {over:.3}");
        assert!(table(Class::Flexible) > table(Class::Stranded));
    }
}

#[test]
fn sizes_that_do_not_exist_are_refused() {
    for awg in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -4.0, 41.0, 11.5] {
        assert!(area_awg(awg).is_err());
        assert!(table_ohms(awg, Construction::Stranded).is_err());
    }
    assert!(matches!(
        table_ohms(6.0, Construction::Solid),
        Err(Refusal::Conflict(_))
    ));
    for size in [f64::NAN, f64::INFINITY, 0.0, -2.5, 3.0] {
        assert!(table_ohms_mm2(SQUARE_MILLIMETER.of(size), Class::Stranded).is_err());
    }
    let nothing = SQUARE_MILLIMETER.of(0.0);
    assert!(resistance_mm2(nothing, Construction::Solid, celsius(20.0)).is_err());
}

#[test]
fn temperatures_out_of_span_are_refused() {
    for warmth in [f64::NAN, f64::INFINITY, -100.0, 400.0] {
        assert!(resistance_awg(10.0, Construction::Solid, celsius(warmth)).is_err());
        let printed = OHM_PER_KILOFOOT.of(1.24);
        assert!(table_resistance_at_temperature(printed, celsius(warmth)).is_err());
    }
}

#[test]
fn the_table_at_its_own_temperature_is_the_table() {
    let printed = OHM_PER_KILOFOOT.of(1.24);
    let same = table_resistance_at_temperature(printed, celsius(75.0)).unwrap();
    assert!((OHM_PER_KILOFOOT.read(same) - 1.24).abs() < 1e-12);
}

proptest! {
    #[test]
    fn thinner_and_warmer_resists_more(awg in -3_i32..39, warmth in -20.0..100.0_f64) {
        for construction in KINDS {
            let here = kilofoot(f64::from(awg), construction, warmth);
            prop_assert!(kilofoot(f64::from(awg + 1), construction, warmth) > here);
            prop_assert!(kilofoot(f64::from(awg), construction, warmth + 1.0) > here);
        }
    }

    #[test]
    fn the_two_rules_for_warmth_agree(warmth in 0.0..90.0_f64) {
        let printed = OHM_PER_KILOFOOT.of(1.24);
        let note = table_resistance_at_temperature(printed, celsius(warmth)).unwrap();
        let at = |warmth| kilofoot(10.0, Construction::Stranded, warmth);
        let other = 1.24 * at(warmth) / at(75.0);
        prop_assert!((OHM_PER_KILOFOOT.read(note) / other - 1.0).abs() < 1e-3);
    }
}
