//! What is printed.

use crate::quantities::Unit;
use crate::quantities::print::Direction::{Down, Nearest, Up};
use crate::quantities::print::{
    article, decimals, figures, on_grid, rounded, shortest, side, with_unit,
};

#[test]
fn significant_figures() {
    let cases = [
        (1267.0, 3, "1270"),
        (0.6336, 3, "0.634"),
        (8.0, 3, "8.00"),
        (1.005, 3, "1.01"),
        (-1.005, 3, "-1.01"),
        (2.675, 3, "2.68"),
        (1.004_99, 3, "1.00"),
        (9.996, 3, "10.0"),
        (99.96, 3, "100"),
        (999.5, 3, "1000"),
        (0.0, 3, "0.00"),
        (-0.0, 3, "0.00"),
        (1e-6, 2, "0.0000010"),
        (123_456_789.0, 4, "123500000"),
        (1.5e12, 2, "1.5e12"),
        (2.5e-9, 1, "3e-9"),
        (10.1376, 3, "10.1"),
        (0.1 + 0.2, 15, "0.300000000000000"),
        (5.0, 0, "5"),
    ];
    for (value, significant, text) in cases {
        assert_eq!(
            figures(value, significant),
            text,
            "{value} at {significant}"
        );
    }
    assert_eq!(figures(f64::NAN, 3), "no figure");
    assert_eq!(figures(f64::INFINITY, 3), "no figure");
}

#[test]
fn figures_on_a_grid() {
    let cases = [
        (8.647, 0.01, "8.65"),
        (254.5, 1.0, "255"),
        (-254.5, 1.0, "-255"),
        (1.005, 0.01, "1.01"),
        (254.0, 5.0, "255"),
        (0.3, 0.25, "0.25"),
        (0.04, 0.1, "0.0"),
        (-0.04, 0.1, "0.0"),
        (3.0, 0.5, "3.0"),
        (1234.0, 100.0, "1200"),
        (4.408, 0.1, "4.4"),
        (7.3, 0.0, "7.3"),
        (7.3, f64::NAN, "7.3"),
        (f64::NAN, 0.1, "no figure"),
    ];
    for (value, grid, text) in cases {
        assert_eq!(on_grid(value, grid), text, "{value} on {grid}");
    }
    assert!(on_grid(1e300, 0.1).len() < 20);
}

#[test]
fn a_given_is_printed_as_short_as_it_is() {
    let cases = [
        (0.396, "0.396"),
        (320.0, "320"),
        (17.5, "17.5"),
        (0.1 + 0.2, "0.3"),
        (-0.0, "0"),
        (-2.25, "-2.25"),
        (1.0 / 3.0, "0.333333333"),
        (1_250_000.0, "1250000"),
        (12_345_678_901.0, "12345678901"),
        (1e-9, "1e-9"),
        (1e300, "1e300"),
    ];
    for (value, text) in cases {
        assert_eq!(shortest(value), text);
    }
}

#[test]
fn rounding_snaps_and_knows_its_direction() {
    let stages = (190.0 * 0.3048) / (19.0 * 0.3048);
    assert_eq!(rounded(stages, 1.0, Up), 10.0);
    assert_eq!(rounded(10.000_001, 1.0, Up), 11.0);
    assert_eq!(rounded(10.0 - 1e-12, 1.0, Down), 10.0);
    assert_eq!(rounded(-4.3, 1.0, Down), -5.0);
    assert_eq!(rounded(-4.3, 1.0, Up), -4.0);
    assert_eq!(rounded(2.5, 1.0, Nearest), 3.0);
    assert_eq!(rounded(-2.5, 1.0, Nearest), -3.0);
    assert_eq!(rounded(0.31, 0.1, Nearest), 0.3);
    assert_eq!(rounded(47.0, 5.0, Up), 50.0);
    assert_eq!(rounded(-0.3, 1.0, Up).to_bits(), 0.0f64.to_bits());
    assert_eq!(rounded(7.3, 0.0, Up), 7.3);
    assert!(rounded(f64::NAN, 1.0, Up).is_nan());
}

#[test]
fn a_figure_takes_the_unit_in_its_number() {
    let cases = [
        ("1", "stages", 1.0, "1 stage"),
        ("14", "stages", 14.0, "14 stages"),
        ("0", "stages", 0.0, "0 stages"),
        ("9.50", "stages", 9.5, "9.50 stages"),
        ("1.0", "stages", 1.0, "1.0 stages"),
        ("1/2", "acre", 0.5, "1/2 acre"),
        ("3", "acre", 3.0, "3 acres"),
        ("1", "people", 1.0, "1 person"),
        ("4.4", "%", 4.4, "4.4 %"),
        ("1", "ft", 1.0, "1 ft"),
        ("0.338", "ohm/100ft", 0.338, "0.338 ohm per 100 ft"),
        ("24", "hours", 24.0, "24 hours"),
    ];
    for (number, unit, value, text) in cases {
        assert_eq!(
            with_unit(number, &Unit::parse(unit).expect(unit), value),
            text
        );
    }
}

#[test]
fn a_figure_before_a_noun() {
    let cases = [
        ("6", "in", "6-inch"),
        ("1 1/4", "in", "1-1/4-inch"),
        ("150", "mm", "150 mm"),
        ("11", "stages", "11-stage"),
        ("85", "gal", "85-gallon"),
        ("1/2", "hp", "1/2 hp"),
        ("100", "ft", "100-foot"),
        ("24", "hours", "24-hour"),
    ];
    for (number, unit, text) in cases {
        assert_eq!(side(number, &Unit::parse(unit).expect(unit)), text);
    }
}

#[test]
fn articles_follow_the_ear() {
    let an = [
        "8 ft",
        "11-stage",
        "18 m",
        "80",
        "85 gal",
        "8.5 V",
        "8,000 gal",
        "11,000 L",
        "18000",
        "AWG 12",
        "1/8 in",
        "ohm",
        "hour",
        "8-inch",
        "800",
        "1/11",
        "LED",
        "NPT",
        "open box",
        "88",
        "MCC",
    ];
    let not = [
        "1 hp",
        "1/2 hp",
        "3/4 hp",
        "110 V",
        "1100",
        "0.8 ohm",
        "7",
        "180",
        "118",
        "1-1/2 hp",
        "1 1/4",
        "PVC",
        "UF cable",
        "NEMA box",
        "unit",
        "used motor",
        "one",
        "house",
        "",
        "-8",
        "US gallon",
        "230 V",
        "well",
    ];
    for text in an {
        assert_eq!(article(text), "an", "{text}");
    }
    for text in not {
        assert_eq!(article(text), "a", "{text}");
    }
}

#[test]
fn a_grid_may_be_too_small_to_be_written_out() {
    assert_eq!(decimals(1e-8), 8);
    assert_eq!(decimals(0.25), 2);
    assert_eq!(decimals(1e9), 0);
    assert_eq!(on_grid(35.168_195_72, 1e-8), "35.16819572");
}
