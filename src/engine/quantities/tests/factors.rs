//! Our factors and dimensions against published ones.

use pumpwright_calc::dimension::Dimension;

use crate::quantities::Unit;
use crate::quantities::row;

/// NIST Special Publication 811, appendix B.8, from memory, in the seven figures
/// that it prints. Where it has no row (`acre` on the international foot, `rpm`,
/// `ohm/100ft`) the figure is worked by hand from the definition.
const PUBLISHED: &[(&str, f64, [i8; 5])] = &[
    ("ft", 3.048e-1, [1, 0, 0, 0, 0]),
    ("in", 2.54e-2, [1, 0, 0, 0, 0]),
    ("yd", 9.144e-1, [1, 0, 0, 0, 0]),
    ("mi", 1.609_344e3, [1, 0, 0, 0, 0]),
    ("mil", 2.54e-5, [1, 0, 0, 0, 0]),
    ("in2", 6.4516e-4, [2, 0, 0, 0, 0]),
    ("ft2", 9.290_304e-2, [2, 0, 0, 0, 0]),
    ("acre", 4.046_856e3, [2, 0, 0, 0, 0]),
    ("cmil", 5.067_075e-10, [2, 0, 0, 0, 0]),
    ("kcmil", 5.067_075e-7, [2, 0, 0, 0, 0]),
    ("gal", 3.785_412e-3, [3, 0, 0, 0, 0]),
    ("qt", 9.463_529e-4, [3, 0, 0, 0, 0]),
    ("pt", 4.731_765e-4, [3, 0, 0, 0, 0]),
    ("cup", 2.365_882e-4, [3, 0, 0, 0, 0]),
    ("floz", 2.957_353e-5, [3, 0, 0, 0, 0]),
    ("ft3", 2.831_685e-2, [3, 0, 0, 0, 0]),
    ("in3", 1.638_706e-5, [3, 0, 0, 0, 0]),
    ("yd3", 7.645_549e-1, [3, 0, 0, 0, 0]),
    ("gpm", 6.309_020e-5, [3, 0, -1, 0, 0]),
    ("gpd", 4.381_264e-8, [3, 0, -1, 0, 0]),
    ("L/min", 1.666_667e-5, [3, 0, -1, 0, 0]),
    ("m3/h", 2.777_778e-4, [3, 0, -1, 0, 0]),
    ("ft3/s", 2.831_685e-2, [3, 0, -1, 0, 0]),
    ("ft3/min", 4.719_474e-4, [3, 0, -1, 0, 0]),
    ("ft/min", 5.08e-3, [1, 0, -1, 0, 0]),
    ("psi", 6.894_757e3, [-1, 1, -2, 0, 0]),
    ("psf", 4.788_026e1, [-1, 1, -2, 0, 0]),
    ("bar", 1e5, [-1, 1, -2, 0, 0]),
    ("atm", 1.013_25e5, [-1, 1, -2, 0, 0]),
    ("inHg", 3.386_389e3, [-1, 1, -2, 0, 0]),
    ("mmHg", 1.333_224e2, [-1, 1, -2, 0, 0]),
    ("lb", 4.535_924e-1, [0, 1, 0, 0, 0]),
    ("oz", 2.834_952e-2, [0, 1, 0, 0, 0]),
    ("ton", 9.071_847e2, [0, 1, 0, 0, 0]),
    ("grain", 6.479_891e-5, [0, 1, 0, 0, 0]),
    ("gpg", 1.711_806e-2, [-3, 1, 0, 0, 0]),
    ("lb/ft", 1.488_164, [-1, 1, 0, 0, 0]),
    ("lb/ft3", 1.601_846e1, [-3, 1, 0, 0, 0]),
    ("lb/gal", 1.198_264e2, [-3, 1, 0, 0, 0]),
    ("lbf", 4.448_222, [1, 1, -2, 0, 0]),
    ("ft*lbf", 1.355_818, [2, 1, -2, 0, 0]),
    ("hp", 7.456_999e2, [2, 1, -3, 0, 0]),
    ("kWh", 3.6e6, [2, 1, -2, 0, 0]),
    ("rpm", 1.666_667e-2, [0, 0, -1, 0, 0]),
    ("V", 1.0, [2, 1, -3, -1, 0]),
    ("A", 1.0, [0, 0, 0, 1, 0]),
    ("megohm", 1e6, [2, 1, -3, -2, 0]),
    ("ohm/100ft", 3.280_840e-2, [1, 1, -3, -2, 0]),
    ("ohm/kft", 3.280_840e-3, [1, 1, -3, -2, 0]),
    ("ohm/100m", 1e-2, [1, 1, -3, -2, 0]),
    ("uF", 1e-6, [-2, -1, 4, 2, 0]),
    ("Fdeg", 5.555_556e-1, [0, 0, 0, 0, 1]),
    ("gpm/ft", 2.069_888e-4, [2, 0, -1, 0, 0]),
    ("ft/psi", 4.420_750e-5, [2, -1, 2, 0, 0]),
    ("ft^2", 9.290_304e-2, [2, 0, 0, 0, 0]),
    ("s^2", 1.0, [0, 0, 2, 0, 0]),
    ("%", 1e-2, [0, 0, 0, 0, 0]),
    ("ppm", 1e-6, [0, 0, 0, 0, 0]),
];

#[test]
fn factors_and_dimensions_are_the_published_ones() {
    for (name, published, exponents) in PUBLISHED {
        let unit = Unit::parse(name).expect(name);
        let off = (unit.to_si(1.0) - published).abs() / published;
        assert!(
            off < 5e-7,
            "{name}: ours {:e}, off by {off:e}",
            unit.to_si(1.0)
        );
        assert_eq!(unit.dimension(), Dimension(*exponents), "{name}");
    }
}

#[test]
fn conversions_go_there_and_back() {
    for row in row::all() {
        let unit = Unit::parse(row.name).expect(row.name);
        for figure in [0.0, 1.0, -3.5, 1267.0, 0.001] {
            let back = unit.from_si(unit.to_si(figure));
            assert!(
                (back - figure).abs() <= 1e-12 * (figure.abs() + row.offset),
                "{}: {back}",
                row.name
            );
        }
    }
}

#[test]
fn common_figures_come_out_without_noise() {
    let si = |figure, name| Unit::parse(name).expect(name).to_si(figure);
    assert_eq!(si(5.0, "%"), 0.05);
    assert_eq!(si(7.0, "%"), 0.07);
    assert_eq!(si(0.3, "megohm"), 300_000.0);
    assert_eq!(si(10.0, "ft"), 3.048);
    assert_eq!(si(25.0, "uF"), 25e-6);
}

#[test]
fn temperature_points_have_their_zero_and_intervals_have_none() {
    let si = |figure, name| Unit::parse(name).expect(name).to_si(figure);
    assert!((si(32.0, "degF") - 273.15).abs() < 1e-10);
    assert!((si(212.0, "degF") - 373.15).abs() < 1e-10);
    assert_eq!(si(20.0, "degC"), 293.15);
    assert!((si(18.0, "Fdeg") - si(10.0, "Cdeg")).abs() < 1e-12);
    assert!(Unit::parse("degF").expect("degF").is_point());
    assert!(!Unit::parse("Fdeg").expect("Fdeg").is_point());
    let refusal = Unit::parse("degF/ft").unwrap_err();
    assert_eq!(refusal.to_string(), "no unit \"degF/ft\"; nearest: Fdeg");
}

#[test]
fn a_lesson_writes_units_in_one_way_and_is_told_the_nearest() {
    let cases = [
        ("psj", "no unit \"psj\"; nearest: psi or psf"),
        ("PSI", "no unit \"PSI\"; nearest: psi"),
        ("ohm/100 ft", "no unit \"ohm/100 ft\""),
        ("ohm/100fr", "no unit \"100fr\""),
        ("stagse", "no unit \"stagse\"; nearest: stages"),
        ("M", "no unit \"M\"; nearest: m or megohm"),
        ("", "no unit \"\""),
        ("ft/", "no unit \"ft/\"; nearest: ft, ft2 or ft3"),
        ("/min", "no unit \"/min\"; nearest: L/min, min or rpm"),
        ("100ft", "no unit \"100ft\""),
        ("ft^0", "no unit \"ft^0\""),
        ("dogs", "no unit \"dogs\""),
        ("ft^99", "no unit \"ft^99\""),
        (
            "m3^9*m3^9*m3^9*m3^9*m3^9",
            "no unit \"m3^9*m3^9*m3^9*m3^9*m3^9\"",
        ),
        (
            "ft3^9*ft3^9*ft3^9*ft3^9",
            "no unit \"ft3^9*ft3^9*ft3^9*ft3^9\"",
        ),
    ];
    for (written, message) in cases {
        assert_eq!(
            Unit::parse(written).unwrap_err().to_string(),
            message,
            "{written}"
        );
    }
}

#[test]
fn a_unit_is_written_printed_and_spoken() {
    let cases = [
        ("psi", "psi", "pounds per square inch"),
        ("%", "%", "per cent"),
        ("stages", "stages", "stages"),
        ("stage", "stages", "stages"),
        ("ohm/100ft", "ohm per 100 ft", "ohms per 100 feet"),
        ("ft/psi", "ft/psi", "feet per pound per square inch"),
        ("psi/stage", "psi/stage", "pounds per square inch per stage"),
        ("gal/min", "gpm", "gallons per minute"),
        ("gpm/ft", "gpm/ft", "gallons per minute per foot"),
        ("ft^2", "ft²", "square feet"),
        ("in3", "in³", "cubic inches"),
        ("m3/h", "m³/h", "cubic meters per hour"),
        ("kg/m3", "kg/m³", "kilograms per cubic meter"),
        ("ft*lbf", "ft*lbf", "feet times pounds of force"),
        ("kg/m^4", "kg/m^4", "kilograms per meter to the power of 4"),
        ("min", "min", "minutes"),
        ("m/s^2", "m/s²", "meters per second squared"),
        ("floz", "fl oz", "fluid ounces"),
        ("acre", "acres", "acres"),
    ];
    for (written, symbol, spoken) in cases {
        let unit = Unit::parse(written).expect(written);
        assert_eq!(unit.symbol(), symbol);
        assert_eq!(unit.spoken(), spoken);
        assert_eq!(Unit::parse(unit.written()), Ok(unit), "{written}");
    }
}

/// As it is printed and as it is typed: both are read.
#[test]
fn a_raised_figure_reads_as_a_plain_one() {
    for (raised, plain) in [
        ("m²", "m2"),
        ("ft³", "ft3"),
        ("m³/h", "m3/h"),
        ("kg/m³", "kg/m3"),
        ("m/s²", "m/s^2"),
        ("ft³/min", "ft3/min"),
    ] {
        let (unit, own) = (Unit::parse(raised), Unit::parse(plain));
        assert_eq!(unit, own, "{raised}");
        let unit = unit.expect(raised);
        assert_eq!(Unit::printed(unit.symbol()), Some(unit), "{raised}");
    }
    for wrong in ["²", "m²²", "m^2²", "/m²", "m³m"] {
        assert!(Unit::parse(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn hours_are_h_and_stages_are_counted() {
    let unit = |name| Unit::parse(name).expect(name);
    assert!(unit("h").same_size(&unit("hours")));
    assert!(!unit("h").same_size(&unit("min")));
    assert!(!unit("degC").same_size(&unit("Cdeg")));
    assert!(unit("stages").is_count() && unit("people").is_count());
    assert!(!unit("hours").is_count() && !unit("%").is_count() && unit("hours").is_noun());
}
