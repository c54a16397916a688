//! What people type, and what is made of it.

use crate::quantities::DecimalSign::{self, Comma, Point};
use crate::quantities::Form::{Decimal, FeetInches, Fraction, Mixed, Scientific};
use crate::quantities::{Form, Unit, read, read_for};

fn reads(text: &str, sign: DecimalSign, number: f64, unit: &str, step: f64, form: Form) {
    let reading = read(text, sign).unwrap_or_else(|refusal| panic!("{text}: {refusal}"));
    let written = reading.unit.as_ref().map_or("", Unit::written);
    assert!(
        (reading.number - number).abs() <= 1e-12 * number.abs(),
        "{text}: {}",
        reading.number
    );
    assert_eq!(written, unit, "{text}");
    assert!(
        (reading.step - step).abs() <= 1e-12 * step,
        "{text}: step {}",
        reading.step
    );
    assert_eq!(reading.form, form, "{text}");
}

#[test]
fn numbers_in_every_form() {
    let cases = [
        ("38", 38.0, "", 1.0, Decimal),
        ("38 psi", 38.0, "psi", 1.0, Decimal),
        ("262kPa", 262.0, "kPa", 1.0, Decimal),
        ("2.5 ft", 2.5, "ft", 0.1, Decimal),
        ("  0.50  ", 0.5, "", 0.01, Decimal),
        ("1 1/4 in", 1.25, "in", 0.0, Mixed),
        ("1-1/4 in", 1.25, "in", 0.0, Mixed),
        ("3/4\"", 0.75, "in", 0.0, Fraction),
        ("5/4 in", 1.25, "in", 0.0, Fraction),
        ("6' 4\"", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6'4\"", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        (
            "6\u{2019} 4\u{201d}",
            76.0 / 12.0,
            "ft",
            1.0 / 12.0,
            FeetInches,
        ),
        ("6' 4''", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6'-4\"", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6 ft 4 in", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6ft4in", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6 ft. 4 in.", 76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        (
            "6 Feet, 4.5 Inches",
            76.5 / 12.0,
            "ft",
            0.1 / 12.0,
            FeetInches,
        ),
        ("6' 4 1/2\"", 76.5 / 12.0, "ft", 0.0, FeetInches),
        ("-6' 4\"", -76.0 / 12.0, "ft", 1.0 / 12.0, FeetInches),
        ("6'", 6.0, "ft", 1.0, Decimal),
        ("6''", 6.0, "in", 1.0, Decimal),
        ("5 ft3", 5.0, "ft3", 1.0, Decimal),
        ("5 ft/s", 5.0, "ft/s", 1.0, Decimal),
        ("5 ft\u{b3}", 5.0, "ft3", 1.0, Decimal),
        ("1,250", 1250.0, "", 1.0, Decimal),
        ("1,250 gal", 1250.0, "gal", 1.0, Decimal),
        ("1,250,000.5 gal", 1_250_000.5, "gal", 0.1, Decimal),
        ("1\u{2009}250 L", 1250.0, "L", 1.0, Decimal),
        ("38\u{a0}psi", 38.0, "psi", 1.0, Decimal),
        ("1.2e3 L", 1200.0, "L", 100.0, Scientific),
        ("1.2E-3 L", 0.0012, "L", 0.0001, Scientific),
        ("-4", -4.0, "", 1.0, Decimal),
        ("\u{2212}4", -4.0, "", 1.0, Decimal),
        ("- 4", -4.0, "", 1.0, Decimal),
        ("+3", 3.0, "", 1.0, Decimal),
        (".5", 0.5, "", 0.1, Decimal),
        ("4.", 4.0, "", 1.0, Decimal),
        ("\u{bd}", 0.5, "", 0.0, Fraction),
        ("1\u{bd}", 1.5, "", 0.0, Mixed),
        ("1 \u{bd} in", 1.5, "in", 0.0, Mixed),
        ("-1 1/4", -1.25, "", 0.0, Mixed),
        ("5 %", 5.0, "%", 1.0, Decimal),
        ("0", 0.0, "", 1.0, Decimal),
        ("-0", 0.0, "", 1.0, Decimal),
    ];
    for (text, number, unit, step, form) in cases {
        reads(text, Point, number, unit, step, form);
    }
}

#[test]
fn the_decimal_sign_is_set_and_never_guessed() {
    reads("12,5 m", Comma, 12.5, "m", 0.1, Decimal);
    reads("1.250,5 L", Comma, 1250.5, "L", 0.1, Decimal);
    reads("1.250 L", Comma, 1250.0, "L", 1.0, Decimal);
    reads("1\u{202f}250,5 L", Comma, 1250.5, "L", 0.1, Decimal);
    reads("1,250", Comma, 1.25, "", 0.001, Decimal);
    reads("4,", Comma, 4.0, "", 1.0, Decimal);
    for text in [
        "1,25 m",
        "12,5 m",
        "0,250 m",
        "1,2500",
        "1,250,5",
        "1250,500",
        ",5",
        "4,",
        "1\u{a0}250,5",
    ] {
        assert!(read(text, Point).is_err(), "{text}");
    }
    for text in ["1.25 m", "2.5", "0.250", "1.250.5", ".5", "1,5,5"] {
        assert!(read(text, Comma).is_err(), "{text}");
    }
}

#[test]
fn units_as_people_write_them() {
    let cases = [
        ("15 gal/min", "gpm"),
        ("10 US gpm", "gpm"),
        ("10 GPM", "gpm"),
        ("10 gallons per minute", "gpm"),
        ("10 US gal", "gal"),
        ("2 megohm", "megohm"),
        ("0.5 M\u{3a9}", "megohm"),
        ("0.5 M\u{2126}", "megohm"),
        ("5 k\u{3a9}", "kohm"),
        ("2 meg", "megohm"),
        ("8 \u{3a9}", "ohm"),
        ("3 \u{b5}F", "uF"),
        ("3 MFD", "uF"),
        ("4 PSI", "psi"),
        ("4 psig", "psi"),
        ("4 lb/in\u{b2}", "psi"),
        ("4 pounds per square inch", "psi"),
        ("4 KPA", "kPa"),
        ("4 m\u{b3}/h", "m3/h"),
        ("4 cu. ft.", "ft3"),
        ("4 sq mm", "mm2"),
        ("4 mm\u{b2}", "mm2"),
        ("4 litres", "L"),
        ("4 l/min", "L/min"),
        ("4 percent", "%"),
        ("4 per cent", "%"),
        ("4 stage", "stages"),
        ("4 amps", "A"),
        ("4 hp", "hp"),
        ("1 1/2-inch", "in"),
        ("55 \u{b0}F", "degF"),
        ("55\u{b0} F", "degF"),
        ("55 deg. F", "degF"),
        ("13 \u{b0}C", "degC"),
        ("0.338 ohm/100 ft", "ohm/100ft"),
        ("0.338 ohms per 100 feet", "ohm/100ft"),
        ("2.31 ft / psi", "ft/psi"),
        ("2.31 feet per pound per square inch", "ft/psi"),
        ("0.433 PSI per foot", "psi/ft"),
        ("0.433 lb/in\u{b2}/ft", "psi/ft"),
        ("2 lb per ft", "lb/ft"),
        ("70 gal per person per day", "gal/person/day"),
        ("8 hours", "hours"),
        ("8 hrs", "h"),
        ("50#", "lb"),
    ];
    for (text, unit) in cases {
        let reading = read(text, Point).unwrap_or_else(|refusal| panic!("{text}: {refusal}"));
        let written = reading.unit.as_ref().map_or("", Unit::written);
        assert_eq!(written, unit, "{text}");
    }
}

#[test]
fn the_unit_asked_settles_words_of_two_meanings() {
    let cases = [
        ("40 pounds", "kPa", "psi"),
        ("40 pounds", "kg", "lb"),
        ("40 lb", "lbf", "lbf"),
        ("55 F", "degC", "degF"),
        ("55 F", "Cdeg", "Fdeg"),
        ("10 \u{b0}C", "Fdeg", "Cdeg"),
        ("10 \u{b0}C", "degF", "degC"),
        ("1 F", "uF", "F"),
        ("40 psi", "ft", "psi"),
    ];
    for (text, asked, unit) in cases {
        let asked = Unit::parse(asked).expect(asked);
        let reading = read_for(text, Point, &asked).expect(text);
        assert_eq!(reading.unit, Unit::parse(unit).ok(), "{text}");
    }
    let kilopascals = Unit::parse("kPa").expect("kPa");
    let bare = read("262", Point).expect("262").quantity(&kilopascals);
    let with_unit = read("38 psi", Point)
        .expect("38 psi")
        .quantity(&kilopascals);
    assert_eq!(bare.si, 262_000.0);
    assert!((with_unit.si - 262_000.777).abs() < 0.001);
}

fn refuses(cases: &[(&str, &str)]) {
    for (text, message) in cases {
        let refusal = read(text, Point).expect_err(text);
        assert_eq!(
            refusal.to_string(),
            format!("cannot read this as a quantity: {message}")
        );
    }
}

#[test]
fn refusals_say_what_where_and_what_to_do() {
    let cases = [
        ("", "write a number, with or without its unit"),
        ("   ", "write a number, with or without its unit"),
        (
            "1,25 m",
            "the comma does not part groups of three digits (character 2); \
          write the decimals after a point, or set the decimal sign to a comma",
        ),
        (
            "1.250.000",
            "a second decimal sign (character 6); write one number with one",
        ),
        (
            "1.250,000",
            "a group sign after the decimal sign (character 6); leave it out",
        ),
        ("38 psj", "no unit \"psj\" (character 4); write psi or psf"),
        (
            "38 psi gage junk",
            "no unit \"psi gage junk\" (character 4); write a number, with or without its unit",
        ),
        (
            "38 40",
            "more than one number (character 4); write one number, without a blank inside",
        ),
        (
            "38 psi 40 psi",
            "more than one number (character 4); write one number and its unit",
        ),
        (
            "1 250 L",
            "more than one number (character 3); write one number, without a blank inside",
        ),
        (
            "3-5",
            "more than one number (character 2); write a number, with or without its unit",
        ),
        (
            "80 ft of water",
            "no unit \"ft of water\" (character 4); write ft or psi",
        ),
    ];
    refuses(&cases);
}

#[test]
fn refusals_of_forms_and_of_hidden_characters() {
    let cases = [
        (
            "6' 4",
            "a second number without inches (character 4); write it like 6' 4\" or 6 ft 4 in",
        ),
        (
            "6' 14\"",
            "feet and inches do not fit together (character 4); write whole feet and fewer than 12 inches",
        ),
        (
            "6.5' 4\"",
            "feet and inches do not fit together (character 6); write whole feet and fewer than 12 inches",
        ),
        (
            "1 5/4 in",
            "the fraction is not below one (character 3); write it as a whole number and the rest",
        ),
        (
            "1/0",
            "nothing can be divided by zero (character 3); write another fraction",
        ),
        (
            "NaN",
            "\"NaN\" is no number (character 1); write the number first, then its unit",
        ),
        (
            "inf",
            "\"inf\" is no number (character 1); write the number first, then its unit",
        ),
        (
            "psi 38",
            "\"psi\" is no number (character 1); write the number first, then its unit",
        ),
        (
            "-",
            "\"-\" is no number (character 1); write the number first, then its unit",
        ),
        (
            "1e999",
            "the number is too large (character 1); write a smaller one",
        ),
        (
            "1e308 kft",
            "the number is too large (character 1); write a smaller one",
        ),
        (
            "1e-999",
            "the number is too near zero (character 1); write a larger one",
        ),
        ("5 M", "no unit \"M\" (character 3); write m or megohm"),
        ("55 C", "no unit \"C\" (character 4); write degC"),
        (
            "3\u{7} psi",
            "it holds a hidden character, [bell] (character 2); type it again by hand",
        ),
        (
            "3 \u{202e}isp",
            "it holds a hidden character, [right-to-left override] (character 3); type it again by hand",
        ),
    ];
    refuses(&cases);
}

#[test]
fn no_quantity_holds_a_sign_that_asks() {
    for sign in ['?', '!', '@', '&'] {
        for text in ["38{}", "{}38", "38 {}psi", "38 psi{}", "3{}8", "38 p{}si"] {
            let text = text.replace("{}", &sign.to_string());
            assert!(read(&text, Point).is_err(), "{text}");
        }
    }
}

#[test]
fn long_texts_are_refused_before_they_are_looked_at() {
    let long = read(&"9".repeat(1_000_000), Point).unwrap_err().to_string();
    assert!(long.contains("longer than 200 characters"), "{long}");
    let word = read(&format!("3 {}", "x".repeat(190)), Point)
        .unwrap_err()
        .to_string();
    assert!(word.chars().count() < 160, "{word}");
    assert!(read(&"9".repeat(200), Point).is_ok());
}
