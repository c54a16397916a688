//! Properties over all units and over any text at all.

use std::sync::LazyLock;

use proptest::prelude::*;

use crate::quantities::DecimalSign::{Comma, Point};
use crate::quantities::print::{
    Direction, article, figures, on_grid, rounded, shortest, with_unit,
};
use crate::quantities::{Unit, read, read_for, row};

const COMPOUNDS: &[&str] = &[
    "ohm/100ft",
    "ohm/100m",
    "ohm/kft",
    "ohm/km",
    "ft/psi",
    "psi/ft",
    "kPa/m",
    "psi/stage",
    "gal/person",
    "lb/ft",
    "kg/m",
    "lb/ft3",
    "kg/m3",
    "lb/gal",
    "gpm/ft",
    "L/min/m",
    "ft*lbf",
    "m/s^2",
];

static UNITS: LazyLock<Vec<Unit>> = LazyLock::new(|| {
    let simple = row::all().map(|row| row.name);
    let compound = COMPOUNDS.iter().copied();
    simple
        .chain(compound)
        .map(|name| Unit::parse(name).expect(name))
        .collect()
});

#[test]
fn every_spelling_of_every_unit_is_read() {
    for row in row::all() {
        let unit = Unit::parse(row.name).expect(row.name);
        for spelling in row.written() {
            for text in [format!("2.5 {spelling}"), format!("2.5{spelling}")] {
                // An `e` that digits follow would be a power of ten; no spelling has it.
                let reading =
                    read(&text, Point).unwrap_or_else(|refusal| panic!("{text}: {refusal}"));
                assert_eq!(reading.unit.as_ref(), Some(&unit), "{text}");
                assert_eq!(reading.number, 2.5, "{text}");
            }
        }
    }
}

#[test]
fn every_unit_reads_back_as_printed() {
    for unit in UNITS.iter() {
        // A power is spoken as nobody writes it: "meters per second squared".
        let spoken = (!unit.written().contains('^')).then(|| unit.spoken());
        let printed = [unit.symbol(), unit.written(), unit.singular()];
        for text in printed.into_iter().chain(spoken.as_deref()) {
            let reading = read(&format!("3 {text}"), Point)
                .unwrap_or_else(|refusal| panic!("{text}: {refusal}"));
            let back = reading.unit.expect(text);
            assert!(back.same_size(unit), "{text} came back as {back}");
        }
        assert_eq!(Unit::parse(unit.written()).as_ref(), Ok(unit));
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in any::<String>(), tail in "\\PC{0,12}") {
        for text in [text.clone(), format!("3{text}"), format!("3 {tail}"), format!("3/{tail}"), format!("6' {tail}\"")] {
            for sign in [Point, Comma] {
                match read(&text, sign) {
                    Ok(reading) => prop_assert!(reading.number.is_finite() && reading.step >= 0.0),
                    Err(refusal) => {
                        let message = refusal.to_string();
                        prop_assert!(message.starts_with("cannot read this as a quantity: "));
                        prop_assert!(!message.chars().any(char::is_control));
                    }
                }
            }
            let _ = (Unit::parse(&text).is_ok(), article(&text));
        }
    }

    #[test]
    fn any_text_of_the_signs_in_quantities_is_read_or_refused(text in "[-0-9 .,/'\"eEftinpsmkMPa%^*\u{202f}½²Ω°+]{0,24}") {
        for sign in [Point, Comma] {
            if let Ok(reading) = read(&text, sign) {
                prop_assert!(reading.number.is_finite());
            }
        }
    }

    #[test]
    fn what_is_printed_is_read_back(value in -1e7..1e7f64, which in 0..10_000usize, significant in 1..9usize) {
        let unit = &UNITS[which % UNITS.len()];
        let text = with_unit(&figures(value, significant), unit, value);
        let reading = read_for(&text, Point, unit).unwrap();
        let bound = 0.5 * libm::pow(10.0, 1.0 - significant as f64) * value.abs() + 1e-8 * value.abs();
        prop_assert!((reading.number - value).abs() <= bound, "{value} printed as {text}");
        prop_assert!(reading.unit.unwrap().same_size(unit));
        let exact = read(&shortest(value), Point).unwrap();
        prop_assert!((exact.number - value).abs() <= 1e-9 * value.abs());
    }

    #[test]
    fn rounding_stays_within_a_step(value in -1e6..1e6f64, grid in prop::sample::select(vec![0.01, 0.05, 0.1, 0.25, 0.5, 1.0, 5.0, 10.0])) {
        let slack = 1e-8 * grid;
        let (up, down) = (rounded(value, grid, Direction::Up), rounded(value, grid, Direction::Down));
        let near = rounded(value, grid, Direction::Nearest);
        prop_assert!(down <= value + slack && value <= up + slack && up - down <= grid + slack);
        prop_assert!((near - value).abs() <= 0.5 * grid + slack);
        let printed: f64 = on_grid(value, grid).parse().unwrap();
        prop_assert!((printed - near).abs() <= slack);
    }

    #[test]
    fn printing_any_value_never_fails(value in any::<f64>(), grid in any::<f64>(), significant in any::<usize>()) {
        for text in [figures(value, significant), on_grid(value, grid), shortest(value)] {
            prop_assert!(!text.is_empty() && text != "-0");
        }
        let _ = rounded(value, grid, Direction::Nearest);
    }
}
